"""The derivatives of found unknowns by what the inputs carry.

In: a step, its ranges, and its unknowns' values, solved. Out: the values, as dual numbers where
their equations are. With sides(values, data) = 0 for all data, the implicit function theorem says
d values = -(d sides / d values)^-1 d sides / d data, the values held fixed in the last; they keep
their bits. An unknown that its equations do not settle stands still.

    with_slopes(evaluator, step, ranges, values)
"""

from __future__ import annotations

import numpy as np

from godet.geometry.dual import Dual, Values, tangent_of
from godet.solve.elimination import eliminated, moves
from godet.solve.evaluator import Evaluator
from godet.solve.ranges import Ranges
from godet.solve.schedule import FindStep
from godet.solve.trials import Floats, sides_and_slopes, sides_apart


def with_slopes(
    evaluator: Evaluator, step: FindStep, ranges: Ranges, values: Floats
) -> tuple[Values, ...]:
    """Each unknown's values (B,), from all of them (unknowns, B)."""
    carried = [each for each in evaluator.values.values() if isinstance(each, Dual)]
    if not carried:
        return tuple(values)
    apart = sides_apart(evaluator, step, tuple(values), None)
    if not any(isinstance(each, Dual) for each in apart):
        return tuple(values)
    seeds, bodies = len(carried[0].tangent), values.shape[1]
    _, slopes = sides_and_slopes(evaluator, step, values, np.arange(bodies))
    inverse = eliminated(slopes, ranges.span).inverse()
    changes = [np.broadcast_to(tangent_of(each, seeds), (seeds, bodies)) for each in apart]
    moved = np.stack([moves(inverse, np.stack(seed)) for seed in zip(*changes, strict=True)])
    return tuple(Dual(value, moved[:, number]) for number, value in enumerate(values))
