"""`godet measures RECIPE`: which measures it needs, and how to take each."""

from __future__ import annotations

import textwrap

import click

from godet.base.problems import Problems
from godet.program.program import Measure
from godet.tools.compiling import compile_recipe
from godet.tools.options import request_from, stop


@click.command("measures")
@click.argument("recipe", metavar="RECIPE or DOCKET")
@click.option("--with", "blocks", multiple=True, metavar="NAME=BLOCK", help="the block to take")
def command(recipe: str, blocks: tuple[str, ...]) -> None:
    """List the measures RECIPE and its blocks use: needed ones first, then estimated ones."""
    try:
        request, _ = request_from(recipe, None, (), blocks, (), None)
    except Problems as found:
        stop(found.problems, {}, as_json=False)
    compiled = compile_recipe(request.recipe, request.blocks)
    if compiled.draft is None:
        stop(compiled.problems, compiled.texts, as_json=False)
    measures = compiled.draft.measures.values()
    needed = [m for m in measures if m.estimate is None]
    estimated = [m for m in measures if m.estimate is not None]
    click.echo("needed")
    for measure in needed:
        click.echo(_told(measure))
    if estimated:
        click.echo("\nbetter measured; estimated when left out")
    for measure in estimated:
        click.echo(_told(measure))


def _told(measure: Measure) -> str:
    words = f"{measure.means}. {measure.take[:1].upper()}{measure.take[1:]}."
    if measure.estimate is not None:
        words += f" (Estimate: {measure.estimate}.)"
    body = textwrap.fill(words, 88, initial_indent="    ", subsequent_indent="    ")
    return f"  {measure.name}\n{body}"
