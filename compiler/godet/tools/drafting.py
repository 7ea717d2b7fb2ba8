"""Drafts a recipe for a body: the Python call behind `godet draft`.

In: a `Request`. Out: a `Drafted` with the finished pattern, or the problems why there is none.
Nothing is written here.

    drafted = draft(Request("column_dress", body=Path("adult_a.yaml")))
    drafted.pattern.pieces
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from godet import __version__
from godet.base.problems import Problem, has_errors, problem
from godet.base.quantities import LengthUnit
from godet.base.shipped import shipped
from godet.graph.types import Words
from godet.language.library import Library
from godet.orders.bodies import read_body
from godet.orders.fabrics import read_fabric
from godet.orders.records import Body, Fabric
from godet.pattern.finish import finish, targets
from godet.pattern.order import Order
from godet.pattern.pieces import Pattern
from godet.program.linking import Draft
from godet.solve.inputs import Inputs
from godet.solve.outcome import Outcome
from godet.solve.solver import solve
from godet.tools.choosing import Chosen, chosen
from godet.tools.compiling import Compiled, compile_recipe
from godet.tools.failing import failure_problems, said
from godet.tools.inputs import inputs_of
from godet.tools.requests import Request
from godet.tools.vocabulary import vocabulary


@dataclass(frozen=True, slots=True)
class Drafted:
    pattern: Pattern | None
    problems: tuple[Problem, ...]
    texts: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Prepared:
    """A request read and compiled: all that solving needs."""

    draft: Draft
    body: Body
    fabrics: Mapping[str, Fabric]
    choices: Chosen
    inputs: Inputs


def draft(request: Request) -> Drafted:
    """The finished pattern of a request."""
    compiled = compile_recipe(request.recipe, request.blocks)
    prepared, problems = prepare(request, compiled)
    problems = (*compiled.problems, *problems)
    texts = dict(compiled.texts)
    if prepared is None:
        return Drafted(None, problems, texts)
    outcome = solve(
        prepared.draft.graph, prepared.draft.finds, _wanted(prepared.draft), prepared.inputs
    )
    failures = failure_problems(outcome, prepared.draft, prepared.body.units)
    if failures:
        # a requirement that fails is mostly why: it says so in the wearer's words
        unmet = unmet_requirements(prepared.draft, outcome, prepared.body.units)
        return Drafted(None, (*problems, *unmet, *failures), texts)
    pattern, found = finish(prepared.draft, outcome, 0, _order(request, prepared, outcome))
    return Drafted(pattern, (*problems, *found), texts)


def unmet_requirements(draft: Draft, outcome: Outcome, units: LengthUnit) -> tuple[Problem, ...]:
    """The requirements that do not hold, of those that could be worked out."""
    problems = []
    for check in draft.checks:
        known = outcome.holds(check.condition, 0)
        if check.level != "require" or not known or outcome.value(check.condition, 0):
            continue
        measured = wanted = ""
        if check.measured is not None and check.wanted is not None:
            type = draft.graph[check.measured].type
            measured = said(outcome.value(check.measured, 0), type, units)
            wanted = said(outcome.value(check.wanted, 0), type, units)
        problems.append(
            problem(
                "requirement-fails",
                check.place,
                words=check.words or "a requirement does not hold",
                measured=measured,
                sign=check.sign,
                wanted=wanted,
            )
        )
    return tuple(problems)


def prepare(request: Request, compiled: Compiled) -> tuple[Prepared | None, tuple[Problem, ...]]:
    """The body, cloths and choices of a request, read; None when something is wrong."""
    library = Library(Path(request.recipe).parent)
    problems: list[Problem] = []
    body: Body | None = None
    if request.body is not None:
        body, found = read_body(shipped_file(request.body, "bodies"), vocabulary(library))
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
    choices, found = chosen(request.choices, compiled.draft)
    problems.extend(found)
    if body is None or has_errors(problems):
        return None, tuple(problems)
    inputs = inputs_of([body], fabrics, choices, compiled.draft)
    return Prepared(compiled.draft, body, fabrics, choices, inputs), tuple(problems)


def shipped_file(path: Path, room: str) -> Path:
    """A body or cloth as given, or the shipped one of that bare name."""
    known = shipped("recipes") / room / f"{path.name}.yaml"
    bare = path.name == str(path) and path.suffix == ""
    return known if bare and not path.exists() and known.is_file() else path


def _wanted(draft: Draft) -> list[int]:
    return [*targets(draft), *_measure_nodes(draft).values()]


def _measure_nodes(draft: Draft) -> dict[str, int]:
    """The value of each measure the draft uses, given or estimated."""
    found: dict[str, int] = {}
    for number in draft.graph.reached_from(_all_lines(draft)):
        node = draft.graph[number]
        if node.operation in ("known", "given"):
            leaf = draft.graph[node.inputs[0]]
            if leaf.operation == "measure":
                found[str(leaf.constant("name"))] = number
    return dict(sorted(found.items()))


def _all_lines(draft: Draft) -> list[int]:
    sides = [n for line in draft.finds for n in (line.left, line.right, line.lowest, line.highest)]
    return [*targets(draft), *sides]


def _order(request: Request, prepared: Prepared, outcome: Outcome) -> Order:
    draft, body = prepared.draft, prepared.body
    nodes = _measure_nodes(draft)
    measures = {name: float(outcome.value(node, 0)) for name, node in nodes.items()}
    estimated = {
        name: draft.measures[name].estimate or "ours"
        for name in nodes
        if np.isnan(prepared.inputs.measures[name][0])
    }
    return Order(
        body=body.label,
        date=request.date,
        units="in" if body.units == "in" else "cm",
        version=__version__,
        digest=_digest(prepared, measures),
        measures=measures,
        estimated=estimated,
        choices=_choices(draft, outcome, prepared),
    )


def _choices(draft: Draft, outcome: Outcome, prepared: Prepared) -> dict[str, str]:
    told = {}
    for name, choice in sorted(draft.choices.items()):
        value = outcome.value(choice.node, 0)
        words = isinstance(choice.type, Words)
        told[name] = str(value) if words else said(float(value), choice.type, prepared.body.units)
    return told


def _digest(prepared: Prepared, measures: Mapping[str, float]) -> str:
    """A digest of all the draft depends on: recipe, blocks, body, cloths, choices."""
    summary = hashlib.sha256(prepared.draft.digest.encode())
    cloths = sorted((name, replace(f, file="")) for name, f in prepared.fabrics.items())
    summary.update(repr((sorted(measures.items()), sorted(prepared.choices.items()))).encode())
    summary.update(repr(cloths).encode())
    return summary.hexdigest()
