"""`godet fmt FILE...`: the one layout of a file."""

from __future__ import annotations

import click

from godet.base.problems import Problems, has_errors
from godet.tools.laying_out import lay_out
from godet.tools.options import show, stop


@click.command("fmt")
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--check", "only_check", is_flag=True, help="write nothing; tell what would change")
@click.option("--json", "as_json", is_flag=True, help="tell problems and results as JSON")
def command(files: tuple[str, ...], only_check: bool, as_json: bool) -> None:
    """Lay out each FILE anew, or all recipes of a folder. Only white space changes."""
    laid_out = lay_out(files)
    problems = list(laid_out.problems)
    if not only_check:
        from godet.tools.writing import write_paths

        try:
            write_paths({path: text.encode("utf-8") for path, text in laid_out.changed.items()})
        except Problems as found:
            stop([*problems, *found.problems], laid_out.texts, as_json)
    names = [str(path) for path in laid_out.changed]
    show(problems, laid_out.texts, as_json, {"would_change" if only_check else "files": names})
    if not as_json:
        for name in names:
            click.echo(f"{'would lay out' if only_check else 'laid out'} {name}")
        if not names and not problems:
            click.echo("laid out already")
    if has_errors(problems) or (only_check and names):
        raise SystemExit(1)
