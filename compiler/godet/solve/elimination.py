"""Systems of linear equations, one for each body, all at once.

In: for each body the slopes of n equations by n unknowns, and how wide each unknown's range is.
Out: the inverse, and where there is none which equations and unknowns are to blame. Gauss and
Jordan's elimination, pivots sought in all rows and columns, written term by term, so that a body's
bits do not depend on the others. Nothing fails.

Equations and unknowns may be lengths, angles or ratios. So that they compare, slopes are counted as
shares: an unknown is measured by its range, an equation by the most that any unknown moves it over
its range.

    eliminated(np.array([[[2.0]]]), np.array([[10.0]])).inverse()   # [[[0.5]]]
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from godet.solve.trials import Floats

SILENT = 1e-9  # mm, radians or plain: an equation moved less over all ranges says nothing
DEPENDENT = 1e-11  # a share left of an equation that is less is rounding


@dataclass(frozen=True, slots=True)
class Eliminated:
    """n equations by n unknowns over L bodies, reduced."""

    reduced: Floats  # (n, 2 n, L): what is left of the equations, and of which they are combined
    pivot: NDArray[np.intp]  # (n, L): the unknown that each equation settles, -1 for none
    settled: NDArray[np.bool_]  # (n, L): whether an unknown is settled by an equation
    span: Floats  # (n, L): what each unknown was measured by
    reach: Floats  # (n, L): what each equation was measured by

    def inverse(self) -> Floats:
        """(unknowns, equations, L): what each unknown has to move for each unit that the sides of
        each equation come nearer; noughts for an unknown or an equation that has no part in it."""
        n, lanes = self.pivot.shape
        inverse = np.zeros((n, n, lanes))
        each = np.arange(lanes)
        for equation in range(n):
            at = self.pivot[equation] >= 0
            inverse[self.pivot[equation, at], :, each[at]] = self.reduced[equation, n:, at]
        return inverse * self.span[:, None] / self.reach[None]

    def whole(self) -> NDArray[np.bool_]:
        """For each body, whether every unknown is settled (L,)."""
        return np.asarray(self.settled.all(axis=0))


def eliminated(slopes: Floats, span: Floats, dependent: float = DEPENDENT) -> Eliminated:
    """The reduced system of slopes (equations, unknowns, L) and ranges (unknowns, L); what is left
    of an equation once others are taken from it counts as nothing up to the share `dependent`."""
    n, _, lanes = slopes.shape
    shares = slopes * span[None]
    reach = np.abs(shares).max(axis=1)
    silent = ~(reach > SILENT)
    reach = np.where(silent, 1.0, reach)
    shares = np.where(silent[:, None], 0.0, shares / reach[:, None])
    units = np.broadcast_to(np.eye(n)[:, :, None], (n, n, lanes))
    reduced = np.concatenate([shares, units], axis=1)
    pivot = np.full((n, lanes), -1, dtype=np.intp)
    settled = np.zeros((n, lanes), dtype=bool)
    each = np.arange(lanes)
    for _ in range(n):
        free = (pivot < 0)[:, None] & ~settled[None]
        size = np.where(free, np.abs(reduced[:, :n]), -1.0)
        equation, unknown = np.divmod(np.argmax(size.reshape(n * n, lanes), axis=0), n)
        largest = reduced[equation, unknown, each]
        any_left = size[equation, unknown, each] > dependent
        row = reduced[equation, :, each].T / np.where(any_left, largest, 1.0)
        less = reduced - reduced[:, unknown, each][:, None] * row[None]
        less[equation, :, each] = row.T
        reduced = np.where(any_left, less, reduced)
        pivot[equation, each] = np.where(any_left, unknown, pivot[equation, each])
        settled[unknown, each] |= any_left
    return Eliminated(reduced, pivot, settled, span, reach)


def moves(inverse: Floats, apart: Floats) -> Floats:
    """What each unknown has to move (unknowns, L) for sides so far apart (equations, L) to meet."""
    total = np.zeros(apart.shape)
    for equation, sides in enumerate(apart):
        total = total - inverse[:, equation] * sides
    return total
