"""Whether a closed line crosses itself, goes round more than once, or has a point inside.

In: the line as a chain of points (n, 2), the last joined to the first. Out: the numbers of the
first two stretches that cross, stretch k running from point k to the next, or None; how often the
line turns round. Stretches that only touch, or run over each other, do not cross: then a line that
overlaps itself is known by going round more than once. Nothing fails.

    crossing_itself(np.array([[0, 0], [10, 10], [10, 0], [0, 10]]))      # (0, 2)
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from godet.geometry.points import cross, norm
from godet.geometry.polygons import within
from godet.pattern.pieces import Point

_TOUCHES = 1e-9  # mm from the line, by which rounding puts a point of it on one side or the other


def crossing_itself(points: NDArray[np.float64]) -> tuple[int, int] | None:
    """The first pair of stretches with the ends of each on either side of the other."""
    starts, ends = points, np.roll(points, -1, axis=0)
    ways = ends - starts
    # [i, j]: on which side of stretch i the ends of stretch j lie
    on_it = _TOUCHES * norm(ways)[:, None]
    of_start = cross(ways[:, None], starts[None] - starts[:, None])
    of_end = cross(ways[:, None], ends[None] - starts[:, None])
    parted = (np.minimum(of_start, of_end) < -on_it) & (np.maximum(of_start, of_end) > on_it)
    first, second = np.nonzero(np.triu(parted & parted.T))
    return (int(first[0]), int(second[0])) if len(first) else None


def lies_inside(points: NDArray[np.float64], at: Point) -> bool:
    """Whether a point lies inside the closed line: a ray outward leaves it an odd number of
    times."""
    return bool(within(points[None], np.array([at]))[0])


def turns(points: NDArray[np.float64]) -> int:
    """How often the line turns round in all: 1 or -1 for one that keeps clear of itself."""
    ways = np.roll(points, -1, axis=0) - points
    ways = ways[norm(ways) > 0.0]
    following = np.roll(ways, -1, axis=0)
    turned = np.arctan2(cross(ways, following), (ways * following).sum(axis=1))
    return round(float(turned.sum()) / math.tau)
