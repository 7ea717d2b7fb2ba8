"""Failures of the solver in a dressmaker's words.

In: the failures of an outcome and the draft. Out: problems, one for each statement that failed,
with the bodies it failed for and, of the first of them, the numbers in the reader's unit.

    failure_problems(outcome, draft, "cm")
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from godet.base.problems import Problem, problem
from godet.base.quantities import LengthUnit
from godet.graph.types import ANGLE, LENGTH, Type
from godet.program.draft import Draft
from godet.program.saying import said
from godet.solve.outcome import Failure, Outcome

_NAMED_BODIES = 6
# numbers whose dimension is that of the value itself, whatever it is
_OF_THE_VALUE = frozenset({"value", "lowest", "highest", "at"})


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
    if first.code in ("no-answer-in-range", "many-answers", "range-upside-down"):
        facts["name"] = f"`{node.constant('name')}`"
    return problem(first.code, first.place, body=body, **facts)


def _choice_name(node: int, draft: Draft) -> str:
    return next((name for name, c in draft.choices.items() if c.node == node), "this choice")


def _said(name: str, value: float, failure: Failure, draft: Draft, units: LengthUnit) -> str:
    type: Type = LENGTH
    if name in _OF_THE_VALUE:
        type = draft.graph[failure.node].type
    elif name == "closest" and failure.code == "no-answer-in-range":
        line = next(line for line in draft.finds if line.unknown == failure.node)
        type = draft.graph[line.left].type
    elif name == "angle":
        type = ANGLE
    elif name in ("count", "number"):
        return f"{value:.0f}"
    return said(value, type, units)
