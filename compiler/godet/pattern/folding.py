"""Whether an edge can be laid on a fold.

In: the edge's path and the grain's unit direction. Out: how far it strays from a straight line
that runs down or along the grain. Nothing fails.

    fold_strays(centre_path, (0.0, 1.0)) <= FOLD_TOLERANCE
"""

from __future__ import annotations

import numpy as np

from godet.geometry.points import cross
from godet.pattern.pieces import Path, Point

FOLD_TOLERANCE = 0.01  # mm
_DOWN: Point = (0.0, 1.0)


def fold_strays(path: Path, grain: Point) -> float:
    """The largest distance in mm of a control point from the line through the edge's first end
    that runs down, or from the one along the grain, whichever it keeps to better."""
    offsets = path - path[0, 0]
    return min(float(np.abs(cross(np.array(way), offsets)).max()) for way in (_DOWN, grain))
