"""The point at a distance along a curve from one of its ends.

In: a curve (B, n, 4, 2), the end (B, 2) to measure from, a distance (B,) in mm. Out: the point
(B, 2). Fails with "not-an-end" {gap} when the point is neither end, "past-the-end" {distance,
length}.

    along_from(cap, front_underarm, np.array([80.0]))
"""

from __future__ import annotations

import numpy as np

from godet.geometry.arc_length import along
from godet.geometry.bodies import matched
from godet.geometry.cubics import reversed_curve
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import end_point, start_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.joining import MEETING
from godet.geometry.points import distance as distance_between


def along_from(curve: Values, end: Values, distance: Values) -> Guarded:
    curve, end, distance = matched(curve, end, distance)
    to_start = value_of(distance_between(end, start_point(curve)))
    to_end = value_of(distance_between(end, end_point(curve)))
    from_end = (to_end < to_start)[:, None, None, None]
    gap = np.minimum(to_start, to_end)
    # without an end there is nothing to measure from
    distance = np.where(np.isnan(gap), np.nan, distance)
    walked = along(np.where(from_end, reversed_curve(curve), curve), distance)
    return Guarded(
        walked.value, (Breach("not-an-end", gap > MEETING, {"gap": gap}), *walked.breaches)
    )
