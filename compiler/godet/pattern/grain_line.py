"""Where the grain line is drawn on a piece.

In: the outline as a closed chain of points (n, 2), and the grain's unit direction. Out: the line's
two ends, in that direction, inside the piece. Nothing fails.

    grain_line(corners, (0.0, 1.0))                      # ((60.0, 200.0), (60.0, 540.0))
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.points import dot, turned_quarter
from godet.pattern.pieces import Point

_SHARE = 0.6  # of the piece's length along the grain
_WITHIN = 0.9  # of the room there is, at the most
_PLACES = 63  # tried across the piece


def grain_line(outline: NDArray[np.float64], way: Point) -> tuple[Point, Point]:
    """A line of 60 % of the piece's length where the piece has that much room, as near to the
    middle as it can stand; else nine tenths of the longest stretch there is."""
    along_way = np.array(way)
    aside = turned_quarter(along_way)
    along, across = dot(outline, along_way), dot(outline, aside)
    wanted = _SHARE * float(along.max() - along.min())
    low, high = float(across.min()), float(across.max())
    middle = (low + high) / 2.0
    places = np.linspace(low, high, _PLACES + 2)[1:-1].tolist()
    alone = [(place, *_longest_inside(along, across, place)) for place in places]
    beside = [
        (here[0], max(s[1] for s in near), min(s[2] for s in near))
        for here, near in zip(
            alone[1:-1], zip(alone[:-2], alone[1:-1], alone[2:], strict=True), strict=True
        )
    ]
    # with room on either side, so that no edge runs along the line
    stretches = [s for s in beside if s[2] > s[1]] or alone
    roomy = [s for s in stretches if (s[2] - s[1]) * _WITHIN >= wanted]
    if roomy:
        place, first, last = min(roomy, key=lambda s: (abs(s[0] - middle), s[0]))
    else:
        place, first, last = max(stretches, key=lambda s: (s[2] - s[1], -abs(s[0] - middle)))
    half = min(wanted, (last - first) * _WITHIN) / 2.0
    centre = (first + last) / 2.0

    def end(by: float) -> Point:
        point = (centre + by) * along_way + place * aside
        return float(point[0]), float(point[1])

    return end(-half), end(half)


def _longest_inside(
    along: NDArray[np.float64], across: NDArray[np.float64], place: float
) -> tuple[float, float]:
    """The longest stretch inside the outline on the line along the grain at a place across."""
    before, after = across, np.roll(across, -1)
    crossed = (before < place) != (after < place)
    share = (place - before[crossed]) / (after[crossed] - before[crossed])
    ends = np.sort(along[crossed] + share * (np.roll(along, -1)[crossed] - along[crossed]))
    inside = np.argmax(ends[1::2] - ends[::2])
    return float(ends[::2][inside]), float(ends[1::2][inside])
