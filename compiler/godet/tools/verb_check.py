"""`godet check RECIPE...`: all problems of names, types and kinds, in one run, without a body.

With `--fix` the cures that a machine can apply are written into the recipes first.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import click

from godet.base.problems import Problems, has_errors
from godet.tools.checking import Checked, check
from godet.tools.options import show, stop


@click.command("check")
@click.argument("recipes", nargs=-1, required=True, metavar="RECIPE...")
@click.option("--fix", "mend", is_flag=True, help="put the cures that are safe into the files")
@click.option("--json", "as_json", is_flag=True, help="tell the problems as JSON")
def command(recipes: tuple[str, ...], mend: bool, as_json: bool) -> None:
    """Read each RECIPE with the blocks it takes by default and tell what is wrong."""
    result: Mapping[str, Any] | None = None
    if mend:
        checked, result = _mended(recipes, as_json)
    else:
        checked = check(recipes)
    show(checked.problems, checked.texts, as_json, result)
    if has_errors(checked.problems):
        raise SystemExit(1)
    if not as_json and not checked.problems:
        click.echo(
            "nothing is wrong" if len(recipes) == 1 else f"{len(recipes)} recipes: nothing is wrong"
        )


def _mended(recipes: tuple[str, ...], as_json: bool) -> tuple[Checked, Mapping[str, Any]]:
    """Mend the files and tell what was changed; what is wrong with them now, and JSON of it."""
    from godet.tools.fixing import fix, write_fixed
    from godet.tools.showing import as_records, place_record

    fixed = fix(recipes)
    try:
        paths = write_fixed(fixed)
    except Problems as found:
        # nothing was mended, so what was wrong still is
        before = check(recipes)
        stop((*before.problems, *found.problems), before.texts, as_json)
    if not as_json:
        for mended in fixed.mended:
            click.echo(f"{mended.place}: wrote `{mended.after}` for `{mended.before}`")
        if fixed.declined:
            click.echo(f"{len(fixed.declined)} not cured: the cure would bring other mistakes")
    return fixed.checked, {
        "files": [str(path) for path in paths],
        "mended": [
            {
                "code": mended.code,
                "place": place_record(mended.place),
                "before": mended.before,
                "after": mended.after,
            }
            for mended in fixed.mended
        ],
        "declined": as_records(fixed.declined),
    }
