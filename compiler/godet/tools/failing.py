"""Failures of the solver in a dressmaker's words.

In: the failures of an outcome and the draft. Out: problems, one for each statement that failed,
with the bodies it failed for and, of the worst of them, the numbers in the reader's unit.

    failure_problems(outcome, draft, "cm")
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence
from typing import Any

from godet.base.places import Place
from godet.base.problems import Note, Problem, problem
from godet.base.quantities import LengthUnit
from godet.graph.types import ANGLE, LENGTH, RATIO, Type
from godet.program.draft import Draft
from godet.program.program import FindLine
from godet.program.saying import all_of, said
from godet.solve.outcome import Failure, Outcome
from godet.tools.many_bodies import told_together
from godet.tools.worst import how_badly

# numbers whose dimension is that of the value itself, whatever it is
_OF_THE_VALUE = frozenset({"value", "lowest", "highest", "at", "least", "most"})
# numbers whose dimension is that of what the operation is given first
_OF_WHAT_IS_GIVEN = frozenset({"left", "base"})
# nothing that other bodies are like cures these
_NOT_OF_THE_SHAPE = frozenset({"missing-measure", "cloth-missing", "cloth-silent"})
# what is said of the further unknowns of a failure, where it is not that their equation takes part
_CONCERNED = {
    "unknown-not-settled": "unknown-concerned",
    "unknowns-not-found": "equation-apart",
}


def failure_problems(outcome: Outcome, draft: Draft, units: LengthUnit) -> tuple[Problem, ...]:
    """One problem for each statement that failed, with all the bodies it failed for, and the pieces
    that it drafts; a cloth that is not named is told once, whatever is asked of it."""
    same: dict[tuple[str, Place | int | None], list[Failure]] = {}
    for failure in outcome.failures:
        by_cloth = failure.code == "cloth-missing"
        statement = None if by_cloth else failure.place or failure.node
        same.setdefault((failure.code, statement), []).append(failure)
    return tuple(_problem(failures, outcome, draft, units) for failures in same.values())


def _problem(
    failures: Sequence[Failure], outcome: Outcome, draft: Draft, units: LengthUnit
) -> Problem:
    code, place = failures[0].code, failures[0].place
    of_body: dict[int, Failure] = {}
    for failure in failures:
        known = of_body.setdefault(failure.body, failure)
        if how_badly(code, failure.numbers) > how_badly(code, known.numbers):
            of_body[failure.body] = failure
    nodes = sorted({failure.node for failure in failures})
    together = told_together(
        {body: how_badly(code, failure.numbers) for body, failure in of_body.items()},
        [] if code in _NOT_OF_THE_SHAPE else _passing(nodes, of_body, outcome),
        nodes,
        outcome,
        draft,
        units,
    )
    worst = of_body[together.worst]
    facts: dict[str, Any] = {
        name: _said(name, value, worst, draft, units) for name, value in worst.numbers.items()
    }
    number = worst.node
    node = draft.graph[number]
    if code == "missing-measure":
        measure = str(draft.graph[node.inputs[0]].constant("name"))
        has = "has" if len(of_body) == 1 else "have"
        facts |= {"has": has, "measure": measure, "take": draft.measures[measure].take}
    if code == "cloth-silent":
        facts["property"] = node.constant("property")
    if code == "choice-out-of-range":
        facts["name"] = _choice_name(number, draft)
    notes = list(together.notes)
    if node.operation == "unknown":
        concerned = [_line(each, draft) for each in (number, *worst.others)]
        facts["name"] = f"`{concerned[0].name}`"
        facts["names"] = all_of(
            [f"`{line.name}`" for line in sorted(concerned, key=lambda line: line.place)]
        )
        notes += [_note(worst, line, draft, units) for line in concerned[1:]]
    asked = _where_asked(number, draft)
    if asked is not None and place is not None:
        notes.append(Note(problem("worked-out-here", None).sentence, place))
    return problem(code, asked or place, notes=notes, body=together.bodies, **facts)


def _where_asked(number: int, draft: Draft) -> Place | None:
    """Where the recipe, or a block of it, needs what failed in a module; None for what stands in
    their own text: a module is not for the maker to mend."""
    graph = draft.graph
    own = {draft.file, *(choice.place.file for choice in draft.choices.values())}
    own |= {piece.place.file for piece in draft.pieces.values()}
    failed = graph.places[number]
    if failed is None or failed.file in own:
        return None
    needing = {number}
    # what needs a node has a larger number than the node
    for later in range(number + 1, len(graph.nodes)):
        if needing.intersection(graph[later].inputs):
            place = graph.places[later]
            if place is not None and place.file in own:
                return place
            needing.add(later)
    return None


def _passing(nodes: Iterable[int], failing: Container[int], outcome: Outcome) -> list[int]:
    """The bodies for which the statement was reached and did not fail."""
    return [
        body
        for body in range(len(outcome.labels))
        if body not in failing and all(outcome.holds(node, body) for node in nodes)
    ]


def _note(failure: Failure, line: FindLine, draft: Draft, units: LengthUnit) -> Note:
    """What a further unknown, or its equation, has to do with the failure."""
    code = _CONCERNED.get(failure.code, "equation-concerned")
    apart = said(failure.others[line.unknown], draft.graph[line.left].type, units)
    return Note(problem(code, line.place, name=line.name, apart=apart).sentence, line.place)


def _line(unknown: int, draft: Draft) -> FindLine:
    return next(line for line in draft.finds if line.unknown == unknown)


def _choice_name(node: int, draft: Draft) -> str:
    return next((name for name, c in draft.choices.items() if c.node == node), "this choice")


def _said(name: str, value: float, failure: Failure, draft: Draft, units: LengthUnit) -> str:
    type: Type = LENGTH
    if name in _OF_THE_VALUE:
        type = draft.graph[failure.node].type
    elif name in ("closest", "apart") and draft.graph[failure.node].operation == "unknown":
        type = draft.graph[_line(failure.node, draft).left].type
    elif name in _OF_WHAT_IS_GIVEN:
        type = draft.graph[draft.graph[failure.node].inputs[0]].type
    elif name == "angle":
        type = ANGLE
    elif name in ("tension", "share"):
        type = RATIO
    elif name in ("count", "number"):
        return f"{value:.0f}"
    return said(value, type, units)
