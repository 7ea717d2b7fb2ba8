"""Drafts of one body made anew with a little more and a little less of each cause.

In: a linked draft, causes with how much of each is a little, the values asked for, one body's
inputs. Out: how fast each value moves on either side, without any derivative. Nothing fails: a side
on which no draft can be made is None.

    Nearby.of(draft, causes, [0.1], [hip_side], inputs).rates(0, hip_side, 0.005).more
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from godet.geometry.dual import value_of
from godet.program.draft import Draft
from godet.solve.inputs import Inputs
from godet.solve.outcome import Outcome
from godet.solve.solver import solve
from godet.tools.causes import Cause

Floats = NDArray[np.float64]

FIRST = 0.01  # of a step is a little
_WAYS = (1.0, 0.5, -1.0, -0.5)  # of a little: each is a body of the batch
_AGREED = 0.02  # of what a step does


@dataclass(frozen=True, slots=True)
class Rates:
    """Of one value by one cause, counted for a whole step: over a little and half of it, more and
    less; None where no draft can be made."""

    more: tuple[Floats, Floats] | None
    less: tuple[Floats, Floats] | None
    least: float  # that a reader would see

    def agree(self, exact: Floats) -> bool:
        """Whether both sides bear out what a step is said to do."""
        sides = [side for side in (self.more, self.less) if side is not None]
        return bool(np.isfinite(exact).all()) and all(self._alike(exact, half) for _, half in sides)

    def steady(self) -> bool:
        """Whether on either side the first half of a little goes on as it began."""
        return all(self._alike(*side) for side in (self.more, self.less) if side is not None)

    def _alike(self, first: Floats, second: Floats) -> bool:
        most = max(float(np.abs(first).max()), float(np.abs(second).max()))
        return bool(np.abs(first - second).max() <= self.least + _AGREED * most)


@dataclass(frozen=True, slots=True)
class Nearby:
    here: Outcome  # of the one body
    around: Outcome  # four bodies a cause

    @staticmethod
    def of(
        draft: Draft,
        causes: Sequence[Cause],
        little: Sequence[float],
        nodes: Sequence[int],
        inputs: Inputs,
    ) -> Nearby:
        here = solve(draft.graph, draft.finds, [*nodes, *(c.node for c in causes)], inputs)
        bodies = len(_WAYS) * len(causes)
        values = [float(np.ravel(value_of(here.values[cause.node]))[0]) for cause in causes]
        # measures stand still but one, as if all were measured; choices left out follow
        measured = {
            cause.name: np.array([value])
            for cause, value in zip(causes, values, strict=True)
            if cause.sort == "measure"
        }
        measures: dict[str, Any] = {
            name: np.broadcast_to(row, (bodies,))
            for name, row in {**inputs.measures, **measured}.items()
        }
        choices: dict[str, Any] = dict(inputs.choices)
        for number, (cause, value) in enumerate(zip(causes, values, strict=True)):
            rows = slice(len(_WAYS) * number, len(_WAYS) * (number + 1))
            table = measures if cause.sort == "measure" else choices
            known = table.get(cause.name, np.array([np.nan]))
            table[cause.name] = np.array(np.broadcast_to(known, (bodies,)))
            table[cause.name][rows] = value + np.array(_WAYS) * little[number]
        labels = tuple(str(number) for number in range(bodies))
        given = replace(inputs, labels=labels, measures=measures, choices=choices)
        return Nearby(here, solve(draft.graph, draft.finds, nodes, given))

    def rates(self, cause: int, node: int, least: float) -> Rates:
        """How fast a node's value moves with a cause, by its number."""
        start = np.ravel(np.asarray(self.here.value(node, 0), dtype=float))

        def side(whole: int) -> tuple[Floats, Floats] | None:
            found = []
            for way in (whole, whole + 1):
                body = len(_WAYS) * cause + way
                if not self.around.holds(node, body):
                    return None
                value = np.ravel(np.asarray(self.around.value(node, body), dtype=float))
                found.append((value - start) / (_WAYS[way] * FIRST))
            return found[0], found[1]

        return Rates(side(0), side(2), least)
