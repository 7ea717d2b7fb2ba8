"""A smooth curve as a recipe draws it: through points, with a direction at either end or none.

In: the points (B, 2), first to last, then the leaving and the arriving direction and the tension
where they are given. Out: the curve (B, points - 1, 4, 2). Fails as `hobby` does.

    spline(a, b, down, arriving=True)    # from a to b, arriving downward
"""

from __future__ import annotations

from godet.geometry.dual import Values
from godet.geometry.guards import Guarded
from godet.geometry.hobby import hobby


def spline(
    *inputs: Values, leaving: bool = False, arriving: bool = False, tension: bool = False
) -> Guarded:
    points = list(inputs)
    drawn = {"tension": points.pop()} if tension else {}
    arriving_direction = points.pop() if arriving else None
    leaving_direction = points.pop() if leaving else None
    return hobby(points, leaving_direction, arriving_direction, **drawn)
