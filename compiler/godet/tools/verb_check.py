"""`godet check RECIPE...`: all problems of names, types and kinds, in one run, without a body.

With `--fix` the cures that a machine can apply are written into the recipes first. With `--prove`
it is told of what each recipe requires whether it holds for every body, by proof where algebra can,
else on the bodies named.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import click

from godet.base.problems import Problem, Problems, has_errors
from godet.tools.checking import Checked, check
from godet.tools.options import request_from, show, stop


@click.command("check")
@click.argument("recipes", nargs=-1, required=True, metavar="RECIPE...")
@click.option("--fix", "mend", is_flag=True, help="put the cures that are safe into the files")
@click.option("--prove", is_flag=True, help="prove for every body what is required")
@click.option(
    "--body", "bodies", multiple=True, metavar="FILE", help="with --prove: a body to try it on"
)
@click.option(
    "--fabric", "fabrics", multiple=True, metavar="FILE", help="with --body: the cloth, or rib=FILE"
)
@click.option(
    "--choose", "choices", multiple=True, metavar="NAME=VALUE", help="with --body: a choice"
)
@click.option("--json", "as_json", is_flag=True, help="tell all as one JSON object")
def command(
    recipes: tuple[str, ...],
    mend: bool,
    prove: bool,
    bodies: tuple[str, ...],
    fabrics: tuple[str, ...],
    choices: tuple[str, ...],
    as_json: bool,
) -> None:
    """Read each RECIPE with the blocks it takes by default and tell what is wrong."""
    result: Mapping[str, Any] | None = None
    if (bodies and not prove) or ((fabrics or choices) and not bodies):
        raise click.UsageError("a body is tried with --prove, a cloth or a choice with --body")
    if prove:
        if mend:
            raise click.UsageError("--fix changes a text, --prove speaks of it: say one of them")
        _prove(recipes, bodies, fabrics, choices, as_json)
        return
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


def _prove(
    recipes: tuple[str, ...],
    bodies: tuple[str, ...],
    fabrics: tuple[str, ...],
    choices: tuple[str, ...],
    as_json: bool,
) -> None:
    """Tell the verdict on each line that must hold; ends with 1 where one fails."""
    from godet.tools.compiling import compile_recipe
    from godet.tools.drafting import prepare_all
    from godet.tools.proofs import as_record, proofs, told_as_text

    told = {}
    problems: list[Problem] = []
    texts: dict[str, str] = {}
    for recipe in recipes:
        compiled = compile_recipe(recipe)
        problems += compiled.problems
        texts |= compiled.texts
        if compiled.draft is None:
            continue
        prepared = None
        if bodies:
            requests = [
                request_from(recipe, body, fabrics, (), choices, None)[0] for body in bodies
            ]
            prepared, found = prepare_all(requests, compiled)
            problems += [each for each in found if each not in problems]
            if prepared is None:
                continue
        told[recipe] = proofs(compiled.draft, compiled.texts, prepared)
    failing = any(each.fails for lines in told.values() for each in lines)
    if as_json:
        records = [as_record(name, each) for name, lines in told.items() for each in lines]
        whole = {"ok": not failing and not has_errors(problems), "proofs": records}
        show(problems, texts, True, whole)
    else:
        show(problems, texts, False)
        for name, lines in told.items():
            click.echo(told_as_text(name, lines))
    if failing or has_errors(problems):
        raise SystemExit(1)


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
