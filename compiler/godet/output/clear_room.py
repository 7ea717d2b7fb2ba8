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


def inside(polygon: Points, places: Points) -> NDArray[np.bool_]:
    """Which of the places lie inside the closed polygon (counted by crossings)."""
    x, y = places[:, :1], places[:, 1:]
    x0, y0 = polygon[:, 0], polygon[:, 1]
    x1, y1 = np.roll(x0, -1), np.roll(y0, -1)
    spans = (y0 > y) != (y1 > y)
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = x0 + (y - y0) / (y1 - y0) * (x1 - x0)
    crossed: NDArray[np.bool_] = np.count_nonzero(spans & (x < crossing), axis=1) % 2 == 1
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
        cos, sin = math.cos(turn), math.sin(turn)
        free = np.zeros(len(centres))
        for index in np.flatnonzero(inside(self.outline, centres)):
            across = self.ink[:, 0] - centres[index, 0]
            down = self.ink[:, 1] - centres[index, 1]
            beside = np.maximum(np.abs(cos * across + sin * down) - width / 2, 0.0)
            above = np.maximum(np.abs(cos * down - sin * across) - height / 2, 0.0)
            free[index] = math.sqrt(float((beside * beside + above * above).min()))
        return free

    def grid(self, across: int, down: int) -> Points:
        """Places evenly over the outline's box, row by row from the upper left."""
        left, top = self.outline.min(axis=0)
        right, bottom = self.outline.max(axis=0)
        x = left + (np.arange(across) + 0.5) / across * (right - left)
        y = top + (np.arange(down) + 0.5) / down * (bottom - top)
        return np.array([(a, b) for b in y for a in x])
