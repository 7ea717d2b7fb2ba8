"""Whether points lie inside polygons.

In: the corners of a polygon (B, n, 2), the last joined to the first, and a point (B, 2). Out:
whether it lies inside (B,). On the very line either may come out. Nothing fails.

    within(corners, bust_point)
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray


def within(corners: NDArray[np.float64], point: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether a ray outward from the point leaves the polygon an odd number of times."""
    onward = np.roll(corners, -1, axis=1)
    above = corners[..., 1] <= point[:, None, 1]
    crossed = above != (onward[..., 1] <= point[:, None, 1])
    rise = np.where(crossed, onward[..., 1] - corners[..., 1], 1.0)
    share = (point[:, None, 1] - corners[..., 1]) / rise
    across = corners[..., 0] + share * (onward[..., 0] - corners[..., 0])
    return np.asarray((crossed & (across > point[:, None, 0])).sum(axis=1) % 2 == 1)
