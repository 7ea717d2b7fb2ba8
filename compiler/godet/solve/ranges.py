"""The ranges in which unknowns are sought.

In: an evaluator that knows the ends. Out: both ends, and where a search for several begins.
Nothing fails; a range from the larger to the smaller end is for the caller to refuse.

    ranges = ranges_of(evaluator, step)
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from godet.geometry.dual import value_of
from godet.solve.evaluator import Evaluator
from godet.solve.schedule import FindStep
from godet.solve.trials import Bodies, Floats


@dataclass(frozen=True, slots=True)
class Ranges:
    """For each unknown of a step and each body (unknowns, B), in mm, radians or plain."""

    lowest: Floats
    highest: Floats
    start: Floats  # the middle, or what `near` names, held to the range

    @property
    def span(self) -> Floats:
        return self.highest - self.lowest

    def of(self, lanes: Bodies) -> Ranges:
        """The ranges of some bodies."""
        return Ranges(self.lowest[:, lanes], self.highest[:, lanes], self.start[:, lanes])

    def numbers(self, line: int, lane: int) -> dict[str, float]:
        """The ends of one range, as a failure tells them."""
        ends = {"lowest": self.lowest, "highest": self.highest}
        return {name: float(values[line, lane]) for name, values in ends.items()}


def ranges_of(evaluator: Evaluator, step: FindStep) -> Ranges:
    """The ranges of all unknowns of a step, for all bodies."""
    lowest, highest = (
        np.stack([at_every_body(evaluator, number) for number in ends])
        for ends in zip(*((line.lowest, line.highest) for line in step.lines), strict=True)
    )
    start = lowest + 0.5 * (highest - lowest)
    for number, line in enumerate(step.lines):
        if line.selector == "near" and line.reference is not None:
            start[number] = at_every_body(evaluator, line.reference)
    return Ranges(lowest, highest, np.clip(start, lowest, highest))


def at_every_body(evaluator: Evaluator, number: int) -> Floats:
    """The plain value of a node (B,)."""
    bodies = len(evaluator.inputs.labels)
    return np.broadcast_to(value_of(evaluator.values[number]), (bodies,))
