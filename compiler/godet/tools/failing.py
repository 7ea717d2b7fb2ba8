"""Failures of the solver in a dressmaker's words.

In: the failures of an outcome and the draft. Out: problems, one for each statement that failed,
with the bodies it failed for and, of the first of them, the numbers in the reader's unit.

    failure_problems(outcome, draft, "cm")
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from godet.base.problems import Note, Problem, problem
from godet.base.quantities import LengthUnit
from godet.graph.types import ANGLE, LENGTH, Type
from godet.program.linking import Draft
from godet.program.program import FindLine
from godet.program.saying import said
from godet.solve.outcome import Failure, Outcome

_NAMED_BODIES = 6
# numbers whose dimension is that of the value itself, whatever it is
_OF_THE_VALUE = frozenset({"value", "lowest", "highest", "at"})
# what is said of the further unknowns of a failure, where it is not that their equation takes part
_CONCERNED = {
    "unknown-not-settled": "unknown-concerned",
    "unknowns-not-found": "equation-apart",
}


def failure_problems(outcome: Outcome, draft: Draft, units: LengthUnit) -> tuple[Problem, ...]:
    """One problem for each statement that failed, with all the bodies it failed for."""
    same: dict[tuple[str, int], list[Failure]] = {}
    for failure in outcome.failures:
        same.setdefault((failure.code, failure.node), []).append(failure)
    return tuple(_problem(failures, outcome, draft, units) for failures in same.values())


def _problem(
    failures: Sequence[Failure], outcome: Outcome, draft: Draft, units: LengthUnit
) -> Problem:
    first = failures[0]
    labels = [outcome.labels[failure.body] for failure in failures]
    body = ", ".join(labels[:_NAMED_BODIES])
    if len(labels) > _NAMED_BODIES:
        body += f" and {len(labels) - _NAMED_BODIES} more"
    facts: dict[str, Any] = {
        name: _said(name, value, first, draft, units) for name, value in first.numbers.items()
    }
    node = draft.graph[first.node]
    if first.code == "missing-measure":
        measure = str(draft.graph[node.inputs[0]].constant("name"))
        facts |= {"measure": measure, "take": draft.measures[measure].take}
    if first.code == "choice-out-of-range":
        facts["name"] = _choice_name(first.node, draft)
    notes: list[Note] = []
    if node.operation == "unknown":
        concerned = [_line(number, draft) for number in (first.node, *first.others)]
        facts["name"] = f"`{concerned[0].name}`"
        facts["names"] = _all_of(
            [f"`{line.name}`" for line in sorted(concerned, key=lambda line: line.place)]
        )
        notes = [_note(first, line, draft, units) for line in concerned[1:]]
    return problem(first.code, first.place, notes=notes, body=body, **facts)


def _note(failure: Failure, line: FindLine, draft: Draft, units: LengthUnit) -> Note:
    """What a further unknown, or its equation, has to do with the failure."""
    code = _CONCERNED.get(failure.code, "equation-concerned")
    apart = said(failure.others[line.unknown], draft.graph[line.left].type, units)
    return Note(problem(code, line.place, name=line.name, apart=apart).sentence, line.place)


def _all_of(names: Sequence[str]) -> str:
    """Names in a row: "a, b and c"."""
    *before, last = names
    return f"{', '.join(before)} and {last}" if before else last


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
    elif name == "angle":
        type = ANGLE
    elif name in ("count", "number"):
        return f"{value:.0f}"
    return said(value, type, units)
