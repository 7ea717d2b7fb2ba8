"""Why unknowns have no answer, for one body: the statement to blame and those it quarrels with.

In: blames, one or more for a body. Out: faults of the evaluator, those of one cause together.

    enter(evaluator, step, [Blame(0, "answer-outside-range", 0, {"value": 55.0, ..})])
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

import numpy as np

from godet.geometry.guards import Breach
from godet.solve.evaluator import Evaluator
from godet.solve.schedule import FindStep


@dataclass(frozen=True, slots=True)
class Blame:
    body: int
    code: str
    line: int  # of the step: whose unknown has no answer
    numbers: Mapping[str, float]
    # other lines of the step concerned, each with how far the sides of its equation are apart
    others: Mapping[int, float] = field(default_factory=dict)


def enter(evaluator: Evaluator, step: FindStep, blames: Iterable[Blame]) -> None:
    """Fail the unknowns blamed, for their bodies."""
    bodies = len(evaluator.inputs.labels)
    alike: dict[tuple[str, int, tuple[int, ...]], list[Blame]] = {}
    for blame in blames:
        alike.setdefault((blame.code, blame.line, tuple(blame.others)), []).append(blame)
    for (code, line, others), same in alike.items():
        failed = np.zeros(bodies, dtype=bool)
        numbers = {name: np.full(bodies, np.nan) for name in same[0].numbers}
        concerned = {step.lines[other].unknown: np.full(bodies, np.nan) for other in others}
        for blame in same:
            failed[blame.body] = True
            for name, value in blame.numbers.items():
                numbers[name][blame.body] = value
            for other, value in blame.others.items():
                concerned[step.lines[other].unknown][blame.body] = value
        breach = Breach(code, failed, numbers)
        evaluator.fail(step.lines[line].unknown, breach, concerned)
