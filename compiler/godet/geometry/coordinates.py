"""Points from their two coordinates, and back.

In and out: (B,) mm and (B, 2) points as (across, down). Nothing fails.

    across_from(np.array([[0.0, 0.0]]), np.array([[3.0, 4.0]]))   # array([3.])
"""

from __future__ import annotations

import numpy as np

from godet.geometry.bodies import matched, stacked
from godet.geometry.dual import Values


def point_at(across: Values, down: Values) -> Values:
    """The point (B, 2) with these coordinates, in mm."""
    return stacked(matched(across, down), axis=1)


def offset(start: Values, end: Values) -> Values:
    """The offset (B, 2) from one point to another."""
    return end - start


def shifted(point: Values, by: Values) -> Values:
    """The point (B, 2) moved by an offset (B, 2)."""
    return point + by


def across_from(start: Values, end: Values) -> Values:
    """How much farther outward (B,) the second point lies, in mm."""
    return end[..., 0] - start[..., 0]


def down_from(start: Values, end: Values) -> Values:
    """How much lower (B,) the second point lies, in mm."""
    return end[..., 1] - start[..., 1]


_WAYS = {"outward": (1.0, 0.0), "down": (0.0, 1.0), "inward": (-1.0, 0.0), "up": (0.0, -1.0)}


def compass(way: str) -> Values:
    """The unit direction (1, 2) of this name, exact."""
    return np.array([_WAYS[way]])
