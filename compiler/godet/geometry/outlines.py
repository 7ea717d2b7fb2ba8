"""What bounds a piece, and the depth of a level.

In: curves (B, n, 4, 2). Out: all their cubics together (B, total, 4, 2), in no order of walking.
Nothing fails.

    together(side, centre, bottom)
"""

from __future__ import annotations

from godet.geometry.bodies import matched, strung
from godet.geometry.dual import Values


def together(*curves: Values) -> Values:
    """All cubics of the curves."""
    return strung(matched(*curves), axis=1)


def depth_of(point: Values) -> Values:
    """How far down (B,) a point lies."""
    return point[..., 1]
