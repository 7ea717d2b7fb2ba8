"""`godet check RECIPE...`: all problems of names, types and kinds, in one run, without a body."""

from __future__ import annotations

import click

from godet.base.problems import Problem, has_errors
from godet.tools.compiling import compile_recipe
from godet.tools.options import show


@click.command("check")
@click.argument("recipes", nargs=-1, required=True, metavar="RECIPE...")
@click.option("--json", "as_json", is_flag=True, help="tell the problems as JSON")
def command(recipes: tuple[str, ...], as_json: bool) -> None:
    """Read each RECIPE with the blocks it takes by default and tell what is wrong."""
    problems: list[Problem] = []
    texts: dict[str, str] = {}
    for recipe in recipes:
        compiled = compile_recipe(recipe, needs_blocks=False)
        problems.extend(found for found in compiled.problems if found not in problems)
        texts |= compiled.texts
    show(problems, texts, as_json)
    if has_errors(problems):
        raise SystemExit(1)
    if not as_json and not problems:
        click.echo(
            "nothing is wrong" if len(recipes) == 1 else f"{len(recipes)} recipes: nothing is wrong"
        )
