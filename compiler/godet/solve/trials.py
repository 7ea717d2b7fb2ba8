"""Equations tried with values for their unknowns.

In: an evaluator that knows all that does not change with the unknowns, a step of the schedule, and
trial values, one array (lanes,) for each unknown. Out: how far the sides of each equation are
apart, and how that changes with each unknown. A trial that breaks a guard, or needs what has
failed before, counts as no number.

    apart, slopes = sides_and_slopes(evaluator, step, trial, lanes)
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import picked
from godet.geometry.dual import Dual, Values, tangent_of, value_of
from godet.solve.evaluator import Evaluator
from godet.solve.schedule import FindStep

Floats: TypeAlias = NDArray[np.float64]
Bodies: TypeAlias = NDArray[np.intp]


def sides_apart(
    evaluator: Evaluator, step: FindStep, trial: Sequence[Values], lanes: Bodies | None
) -> tuple[Values, ...]:
    """Left less right of each equation (lanes,), in its own unit: mm, radians or plain.

    `lanes` are the bodies tried, with plain numbers for all else; with None all bodies are, and
    derivatives by the inputs come through.
    """
    tried = attempt(evaluator, step, trial, lanes)
    return tuple(_apart(tried, line.left, line.right, lanes) for line in step.lines)


def sides_and_slopes(
    evaluator: Evaluator, step: FindStep, trial: Floats, lanes: Bodies
) -> tuple[Floats, Floats]:
    """How far the sides are apart (equations, lanes), and the derivative of that by each unknown
    (equations, unknowns, lanes), at trial values (unknowns, lanes)."""
    unknowns, count = trial.shape
    seeds = np.zeros((unknowns, unknowns, count))
    seeds[np.arange(unknowns), np.arange(unknowns)] = 1.0
    duals = [Dual(values, seed) for values, seed in zip(trial, seeds, strict=True)]
    apart = sides_apart(evaluator, step, duals, lanes)
    return (
        np.stack([value_of(each) for each in apart]),
        np.stack([tangent_of(each, unknowns) for each in apart]),
    )


def attempt(
    evaluator: Evaluator, step: FindStep, trial: Sequence[Values], lanes: Bodies | None
) -> Evaluator:
    """All that changes with the unknowns, computed with trial values; faults of before stand first
    among its faults."""
    tried = Evaluator(evaluator.graph, evaluator.inputs, faults=list(evaluator.faults))
    for line, values in zip(step.lines, trial, strict=True):
        tried.values[line.unknown] = values
    for number in step.needed:
        known = evaluator.values.get(number)
        if known is not None:
            tried.values[number] = known if lanes is None else _picked(known, lanes)
        faults = evaluator.fault_of.get(number)
        if faults is not None:
            chosen = faults if lanes is None or len(faults) == 1 else faults[lanes]
            tried.pass_on(number, chosen)
    for number in step.trial:
        tried.compute(number)
    return tried


def _apart(tried: Evaluator, left: int, right: int, lanes: Bodies | None) -> Values:
    apart = tried.values[left] - tried.values[right]
    if lanes is None:
        return apart
    for side in (left, right):
        faults = tried.fault_of.get(side)
        if faults is not None:
            apart = np.where(faults != 0, np.nan, apart)
    return np.broadcast_to(apart, (len(lanes),))


def _picked(values: Values, lanes: Bodies) -> Floats:
    """The values of the bodies that `lanes` name, in ascending order once or more; where there are
    as many as bodies, these are all of them."""
    plain = value_of(values)
    return plain if len(plain) in (1, len(lanes)) else picked(plain, lanes)
