"""Unknowns of linear equations, solved directly.

In: a step whose equations are linear in its unknowns, the bodies and their ranges. Out: the answer
for each body, or why it has not exactly one. An answer outside its range is told with its value.
Nothing is sampled: one step from anywhere leads to the answer, and a second takes rounding away.

    solve_linear(evaluator, step, ranges, lanes).values
"""

from __future__ import annotations

import numpy as np

from godet.solve.answers import Answers
from godet.solve.blaming import Blame
from godet.solve.elimination import eliminated, moves
from godet.solve.evaluator import Evaluator
from godet.solve.ranges import Ranges
from godet.solve.rank import rank_blames
from godet.solve.schedule import FindStep
from godet.solve.trials import Bodies, sides_and_slopes, sides_apart

_ROUNDING = 1e-9  # mm, radians or plain: no farther outside, an answer is the end of its range


def solve_linear(evaluator: Evaluator, step: FindStep, ranges: Ranges, lanes: Bodies) -> Answers:
    """The answers for the bodies `lanes`, whose ranges these are."""
    values = ranges.start
    apart, slopes = sides_and_slopes(evaluator, step, values, lanes)
    hopeless = np.asarray(~np.isfinite(apart).all(axis=0))
    system = eliminated(slopes, ranges.span)
    inverse = system.inverse()
    values = values + moves(inverse, apart)
    apart = np.stack(sides_apart(evaluator, step, tuple(values), lanes))
    values = values + moves(inverse, apart)
    whole = system.whole()
    blames = rank_blames(system, apart, lanes, ~whole & ~hopeless)
    outside = np.maximum(ranges.lowest - values, values - ranges.highest) > _ROUNDING
    for line, lane in np.argwhere(outside & whole & ~hopeless):
        numbers = {**ranges.numbers(line, lane), "value": float(values[line, lane])}
        blames.append(Blame(int(lanes[lane]), "answer-outside-range", int(line), numbers))
    return Answers(np.clip(values, ranges.lowest, ranges.highest), hopeless, tuple(blames))
