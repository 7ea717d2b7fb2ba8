"""A curve as a chain of short straight lines, for writing it out.

In: one body's curve (n, 4, 2) in mm and how far the chain may lie from it. Out: points (m, 2).
Nothing fails.

    flattened(outline[0], 0.01)                          # within a hundredth of a millimetre
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.cubics import evaluate
from godet.geometry.points import norm


def flattened(path: NDArray[np.float64], tolerance: float) -> NDArray[np.float64]:
    """Points (m, 2) on the path (n, 4, 2), first to last, whose chords lie within `tolerance` mm
    of it.

    A chord over a share h of a cubic strays by at most h^2 / 8 times its greatest second
    derivative. Cubics without length add no point; a joint appears once where the cubics meet
    exactly.
    """
    points = [path[0, 0]]
    for cubic in path:
        bends = 6.0 * norm(cubic[2:] - 2.0 * cubic[1:-1] + cubic[:-2])
        count = max(1, int(np.ceil(np.sqrt(float(bends.max()) / (8.0 * tolerance)))))
        for point in evaluate(cubic, np.linspace(0.0, 1.0, count + 1)):
            if not np.array_equal(point, points[-1]):
                points.append(point)
    return np.array(points)
