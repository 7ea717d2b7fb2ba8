"""Drafts a recipe for a body: the Python call behind `godet draft`.

In: a `Request`. Out: a `Drafted` with the finished pattern, or the problems why there is none.
Nothing is written here.

    drafted = draft(Request("column_dress", body=Path("adult_a.yaml")))
    drafted.pattern.pieces
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from godet import __version__
from godet.base.near_names import did_you_mean
from godet.base.problems import Problem, has_errors, problem
from godet.base.quantities import LengthUnit
from godet.base.shipped import shipped
from godet.graph.types import Words
from godet.orders.bodies import read_body
from godet.orders.fabrics import read_fabric
from godet.orders.records import Body, Fabric
from godet.pattern.finish import finish, targets
from godet.pattern.order import Order
from godet.pattern.pieces import Pattern
from godet.program.draft import Draft
from godet.program.measured import measures_behind
from godet.program.saying import said
from godet.solve.inputs import Inputs
from godet.solve.outcome import Outcome
from godet.solve.solver import solve
from godet.tools.choosing import Chosen, chosen
from godet.tools.compiling import Compiled, compile_recipe
from godet.tools.failing import failure_problems
from godet.tools.inputs import inputs_of
from godet.tools.left_out import of_what_is_there
from godet.tools.requests import Request
from godet.tools.requirements import unmet_requirements
from godet.tools.told_once import told_once
from godet.tools.vocabulary import vocabulary


@dataclass(frozen=True, slots=True)
class Drafted:
    pattern: Pattern | None
    problems: tuple[Problem, ...]
    texts: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Prepared:
    """Bodies, cloths and choices for a draft: all that solving needs."""

    draft: Draft
    bodies: tuple[Body, ...]
    fabrics: Mapping[str, Fabric]
    choices: Chosen
    inputs: Inputs


def draft(request: Request) -> Drafted:
    """The finished pattern of a request."""
    compiled = compile_recipe(request.recipe, request.blocks)
    prepared, problems = prepare(request, compiled)
    problems = (*compiled.problems, *problems)
    if prepared is None:
        return Drafted(None, problems, compiled.texts)
    (pattern,), found = draft_all(prepared, request.date)
    return Drafted(pattern, (*problems, *found), compiled.texts)


def draft_all(
    prepared: Prepared, date: str | None = None
) -> tuple[tuple[Pattern | None, ...], tuple[Problem, ...]]:
    """A pattern for each body, solved in one batch; None for a body whose draft fails."""
    draft, units = prepared.draft, prepared.bodies[0].units
    wanted = targets(draft)
    measures: dict[frozenset[str], dict[str, int]] = {}  # by what a body gives
    solved = solve(draft.graph, draft.finds, wanted, prepared.inputs)
    outcome = of_what_is_there(draft, solved)
    failures = failure_problems(outcome, draft, units)
    found: list[tuple[int, Problem]] = []
    patterns: list[Pattern | None] = []
    for number in range(len(prepared.bodies)):
        if outcome.failed(number):
            patterns.append(None)
            continue
        given = frozenset(prepared.bodies[number].measures)
        if given not in measures:
            measures[given] = measures_behind(draft.graph, draft.finds, wanted, given)
        order = _order(prepared, number, outcome, measures[given], date)
        pattern, problems = finish(draft, outcome, number, order)
        found += [(number, each) for each in problems]
        patterns.append(pattern)
    # a requirement that does not hold is mostly why, and says so in the wearer's words
    without = [number for number, pattern in enumerate(patterns) if pattern is None]
    unmet = unmet_requirements(draft, outcome, without, units)
    finishing = told_once(found, outcome, draft, units)
    return tuple(patterns), (*unmet, *failures, *finishing)


def prepare(request: Request, compiled: Compiled) -> tuple[Prepared | None, tuple[Problem, ...]]:
    """The body, cloths and choices of a request, read; None when something is wrong."""
    problems: list[Problem] = []
    body: Body | None = None
    if request.body is not None:
        body, found = read_body(shipped_file(request.body, "bodies"), vocabulary(compiled.library))
        problems.extend(found)
    else:
        problems.append(problem("no-body", None, recipe=Path(request.recipe).stem))
    fabrics: dict[str, Fabric] = {}
    for cloth, path in request.fabrics.items():
        fabric, found = read_fabric(shipped_file(path, "fabrics"))
        problems.extend(found)
        if fabric is not None:
            fabrics[cloth] = fabric
    if compiled.draft is None:
        return None, tuple(problems)
    problems.extend(_unused_cloths(fabrics, compiled.draft))
    choices, found = chosen(request.choices, compiled.draft)
    problems.extend(found)
    if body is None or has_errors(problems):
        return None, tuple(problems)
    return prepared_for([body], fabrics, choices, compiled.draft), tuple(problems)


def prepare_all(
    requests: Sequence[Request], compiled: Compiled
) -> tuple[Prepared | None, tuple[Problem, ...]]:
    """Requests that differ in their bodies alone, prepared together."""
    each, problems = [], dict[Problem, None]()
    for request in requests:
        prepared, found = prepare(request, compiled)
        problems |= dict.fromkeys(found)
        if prepared is not None:
            each.append(prepared)
    if len(each) < len(requests) or not each:
        return None, tuple(problems)
    bodies = [body for prepared in each for body in prepared.bodies]
    first = each[0]
    together = prepared_for(bodies, first.fabrics, first.choices, first.draft)
    return together, tuple(problems)


def _unused_cloths(fabrics: Mapping[str, Fabric], draft: Draft) -> list[Problem]:
    """A cloth that no piece is cut of is a slip in its name."""
    cut_of = {piece.cut.cloth for piece in draft.pieces.values() if piece.cut is not None}
    known = cut_of | {"main"}
    names = ", ".join(sorted(known))
    return [
        problem(
            "cloth-not-used", None, name=name, names=names, hint=did_you_mean(name, known, None)[0]
        )
        for name in fabrics
        if name not in known
    ]


def prepared_for(
    bodies: Sequence[Body], fabrics: Mapping[str, Fabric], choices: Chosen, draft: Draft
) -> Prepared:
    """The same from what is read already, for any number of bodies."""
    inputs = inputs_of(bodies, fabrics, choices, draft)
    return Prepared(draft, tuple(bodies), fabrics, choices, inputs)


def shipped_file(path: Path, room: str) -> Path:
    """A body or cloth as given, or the shipped one of that bare name."""
    known = shipped("recipes") / room / f"{path.name}.yaml"
    bare = path.name == str(path) and path.suffix == ""
    return known if bare and not path.exists() and known.is_file() else path


def _order(
    prepared: Prepared,
    number: int,
    outcome: Outcome,
    nodes: Mapping[str, int],
    date: str | None,
) -> Order:
    draft, body = prepared.draft, prepared.bodies[number]
    measures = {name: float(outcome.value(node, number)) for name, node in nodes.items()}
    estimated = {
        name: draft.measures[name].estimate or "ours"
        for name in nodes
        if np.isnan(prepared.inputs.measures[name][number])
    }
    return Order(
        body=body.label,
        date=date,
        units="in" if body.units == "in" else "cm",
        version=__version__,
        digest=_digest(prepared, number),
        measures=measures,
        estimated=estimated,
        choices=_choices(draft, outcome, number, body.units),
        completed=tuple(
            sorted(n for n in nodes if n in body.measures and body.measures[n].completed)
        ),
    )


def _choices(draft: Draft, outcome: Outcome, number: int, units: LengthUnit) -> dict[str, str]:
    told = {}
    for name, choice in sorted(draft.choices.items()):
        value = outcome.value(choice.node, number)
        words = isinstance(choice.type, Words)
        told[name] = str(value) if words else said(float(value), choice.type, units)
    return told


def _digest(prepared: Prepared, number: int) -> str:
    """A digest of all the draft depends on: recipe, blocks, body, cloths, choices. Estimates follow
    from these, so only what was given counts."""
    summary = hashlib.sha256(prepared.draft.digest.encode())
    body = prepared.bodies[number]
    given = sorted((n, m.value) for n, m in body.measures.items() if n in prepared.draft.measures)
    cloths = sorted((name, replace(f, file="")) for name, f in prepared.fabrics.items())
    summary.update(repr((given, sorted(prepared.choices.items()), cloths)).encode())
    return summary.hexdigest()
