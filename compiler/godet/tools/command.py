"""The program `godet`: one verb for each thing a patternmaker does.

Exit codes: 0 done; 1 the text or the draft has problems; 2 the command was misused. Each verb has
a Python call behind it and stands in a file of its own, loaded when it is asked for.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any

import click

from godet import __version__

# verb: the file of its command, and what it does
VERBS = {
    "draft": "draft a recipe for one body and write the pieces",
    "check": "read recipes and tell what is wrong, without a body",
    "explain": "tell where a point or a length comes from, and what moves it",
    "fmt": "lay out recipe files in the one layout",
    "measures": "list the measures a recipe needs and how to take each",
}


class _Verbs(click.Group):
    """Loads a verb when it is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in VERBS:
            return None
        command: click.Command = import_module(f"godet.tools.verb_{cmd_name}").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Verbs"):
            formatter.write_dl(list(VERBS.items()))


@click.command(cls=_Verbs, context_settings={"help_option_names": ["--help", "-h"]})
@click.version_option(__version__, prog_name="godet", message="%(prog)s %(version)s")
def main(**_options: Any) -> None:
    """Sewing-pattern recipes, compiled for any body."""
