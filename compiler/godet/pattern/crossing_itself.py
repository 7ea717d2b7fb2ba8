"""Whether a closed line crosses itself.

In: the line as a chain of points (n, 2), the last joined to the first. Out: the numbers of the
first two stretches that cross, stretch k running from point k to the next, or None. Stretches
that only touch do not cross. Nothing fails.

    crossing_itself(np.array([[0, 0], [10, 10], [10, 0], [0, 10]]))      # (0, 2)
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.points import cross


def crossing_itself(points: NDArray[np.float64]) -> tuple[int, int] | None:
    """The first pair of stretches with the ends of each on either side of the other."""
    starts, ends = points, np.roll(points, -1, axis=0)
    ways = ends - starts
    # [i, j]: on which side of stretch i the ends of stretch j lie
    of_start = np.sign(cross(ways[:, None], starts[None] - starts[:, None]))
    of_end = np.sign(cross(ways[:, None], ends[None] - starts[:, None]))
    parted = of_start * of_end < 0.0
    first, second = np.nonzero(np.triu(parted & parted.T))
    return (int(first[0]), int(second[0])) if len(first) else None
