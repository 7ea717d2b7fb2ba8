"""`godet explain RECIPE NAME`: where a value comes from and what moves it."""

from __future__ import annotations

import click

from godet.base.problems import Problems, has_errors
from godet.base.quantities import LengthUnit
from godet.solve.inputs import Inputs
from godet.tools.options import body_options, request_from, show, stop


@click.command("explain")
@click.argument("recipe")
@click.argument("name")
@body_options
@click.option("--json", "as_json", is_flag=True, help="tell all as one JSON object")
def command(
    recipe: str,
    name: str,
    body: str | None,
    fabrics: tuple[str, ...],
    blocks: tuple[str, ...],
    choices: tuple[str, ...],
    date: str | None,
    as_json: bool,
) -> None:
    """Tell where NAME (as front.hip_side) of RECIPE comes from; with --body, its value too."""
    from godet.tools.compiling import compile_recipe
    from godet.tools.drafting import prepare
    from godet.tools.explaining import explain
    from godet.tools.telling import as_record, told

    try:
        request, warnings = request_from(recipe, body, fabrics, blocks, choices, date)
    except Problems as found:
        stop(found.problems, {}, as_json)
    compiled = compile_recipe(request.recipe, request.blocks)
    if compiled.draft is None:
        stop((*warnings, *compiled.problems), compiled.texts, as_json)
    inputs: Inputs | None = None
    units: LengthUnit = "cm"
    if request.body is not None:
        prepared, problems = prepare(request, compiled)
        if prepared is None or has_errors(problems):
            stop(problems, compiled.texts, as_json)
        inputs, units = prepared.inputs, prepared.bodies[0].units
    explanation, problems = explain(compiled.draft, name, inputs, compiled.texts, units)
    if explanation is None:
        stop(problems, compiled.texts, as_json)
    if as_json:
        show((), compiled.texts, as_json, {"explanation": as_record(explanation, units)})
    else:
        click.echo(told(explanation, units))
