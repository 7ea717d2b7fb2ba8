"""Finds room for words: inside an outline and clear of everything already drawn there.

In: an outline and the ink inside it as points (see `tracing`), and the size of the words' box.
Out: how far a box at each of many places would keep from the ink. Nothing fails; where there is
no room the clearance is 0, and the caller decides.

    Room(outline, ink).clearances(places, width=60, height=20, turn=0.0)
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from godet.output.tracing import Points, filled_box
from godet.pattern.pieces import Point

SPACING = 1.5  # mm between points of ink; half of it is the most that a clearance is overrated by
_STRETCH = 32  # points of ink that are looked at together
_ROUNDING = 1e-6  # mm


def inside(polygon: Points, places: Points) -> NDArray[np.bool_]:
    """Which of the places lie inside the closed polygon (counted by crossings)."""
    y0, y1 = polygon[:, 1], np.roll(polygon[:, 1], -1)
    y = places[:, 1:]
    place, edge = np.nonzero((y0 > y) != (y1 > y))
    x0, x1 = polygon[edge, 0], np.roll(polygon[:, 0], -1)[edge]
    slope = (places[place, 1] - y0[edge]) / (y1[edge] - y0[edge])
    beyond = places[place, 0] < x0 + slope * (x1 - x0)
    crossed: NDArray[np.bool_] = np.bincount(place[beyond], minlength=len(places)) % 2 == 1
    return crossed


@dataclass(frozen=True)
class Room:
    outline: Points  # closed polygon (m, 2)
    ink: Points  # (n, 2), the outline's own line included

    def with_box(self, centre: Point, width: float, height: float, turn: float) -> Room:
        """The same room once a box is taken up."""
        taken = filled_box(centre, width, height, turn, SPACING)
        return Room(self.outline, np.concatenate([self.ink, taken]))

    def clearances(
        self, centres: Points, width: float, height: float, turn: float
    ) -> NDArray[np.float64]:
        """For a box at each centre (k, 2): mm from the box to the nearest ink, 0 where none is
        left or the centre lies outside the outline. Shape (k,)."""
        free = np.zeros(len(centres))
        (chosen,) = np.nonzero(inside(self.outline, centres))
        if not len(chosen):
            return free
        box = (width, height, turn)
        stretches = _stretches(self.ink)
        middles, reaches = _bounds(stretches)
        # a stretch lies at most its reach nearer to the box than its middle does
        to_middles = _distances(middles, centres[chosen, None], *box)
        nearest = (to_middles + reaches).min(axis=1, keepdims=True)
        row, stretch = np.nonzero(to_middles - reaches <= nearest)
        exact = _distances(stretches[stretch], centres[chosen[row], None], *box).min(axis=1)
        first_of_row = np.searchsorted(row, np.arange(len(chosen)))
        free[chosen] = np.minimum.reduceat(exact, first_of_row)
        return free

    def grid(self, across: int, down: int) -> Points:
        """Places evenly over the outline's box, row by row from the upper left."""
        left, top = self.outline.min(axis=0)
        right, bottom = self.outline.max(axis=0)
        x = left + (np.arange(across) + 0.5) / across * (right - left)
        y = top + (np.arange(down) + 0.5) / down * (bottom - top)
        return np.array([(a, b) for b in y for a in x])


def _stretches(ink: Points) -> NDArray[np.float64]:
    """The ink as stretches of as many points each (stretches, points, 2), the last one filled up
    with its last point."""
    missing = -len(ink) % _STRETCH
    filled = np.concatenate([ink, np.repeat(ink[-1:], missing, axis=0)])
    return filled.reshape(-1, _STRETCH, 2)


def _bounds(stretches: NDArray[np.float64]) -> tuple[Points, NDArray[np.float64]]:
    """The middle (n, 2) of each stretch, and a radius (n,) in mm within which all of it lies."""
    least, greatest = stretches.min(axis=1), stretches.max(axis=1)
    half = (greatest - least) / 2
    return (least + greatest) / 2, np.hypot(half[:, 0], half[:, 1]) + _ROUNDING


def _distances(
    points: NDArray[np.float64],
    centres: NDArray[np.float64],
    width: float,
    height: float,
    turn: float,
) -> NDArray[np.float64]:
    """How far (...) in mm points (..., 2) lie from boxes about the centres (..., 2); 0 inside."""
    cos, sin = math.cos(turn), math.sin(turn)
    across, down = points[..., 0] - centres[..., 0], points[..., 1] - centres[..., 1]
    beside = np.maximum(np.abs(cos * across + sin * down) - width / 2, 0.0)
    above = np.maximum(np.abs(cos * down - sin * across) - height / 2, 0.0)
    return np.asarray(np.sqrt(beside * beside + above * above))
