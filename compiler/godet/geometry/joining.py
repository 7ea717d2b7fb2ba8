"""Curves put end to end, and curves carried on straight.

In: curves (B, n, 4, 2), distances (B,) in mm. Out: one curve with the cubics of all. Ends that are
more than 1e-6 mm apart fail with "ends-do-not-meet".

    joined(upper, lower).value                           # (B, n_upper + n_lower, 4, 2)
"""

from __future__ import annotations

import numpy as np

from godet.geometry.bodies import matched, strung
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import end_direction, end_point, start_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.lines import line
from godet.geometry.points import distance as distance_between
from godet.geometry.points import moved

MEETING = 1e-6  # mm


@np.errstate(all="ignore")
def joined(*curves: Values) -> Guarded:
    """The curves in order as one, (B, sum of n, 4, 2). Fails with "ends-do-not-meet" {gap}.

    At a joint the earlier curve's end point becomes the later curve's start point, which keeps its
    bits.
    """
    curves = matched(*curves)
    pieces = list(curves[:1])
    widest = np.zeros(curves[0].shape[0])
    for later in curves[1:]:
        start = start_point(later)
        widest = np.fmax(widest, value_of(distance_between(end_point(pieces[-1]), start)))
        pieces[-1] = _ending_at(pieces[-1], start)
        pieces.append(later)
    breach = Breach("ends-do-not-meet", widest > MEETING, {"gap": widest})
    return Guarded(strung(pieces, axis=1), (breach,))


def _ending_at(curve: Values, point: Values) -> Values:
    last = strung([curve[:, -1:, :3], point[:, None, None]], axis=2)
    return last if curve.shape[1] == 1 else strung([curve[:, :-1], last], axis=1)


@np.errstate(all="ignore")
def extended(curve: Values, distance: Values) -> Guarded:
    """The curve carried on straight by a distance (B,) mm past its end, (B, n + 1, 4, 2).

    Fails with "zero-length" when the curve has no direction at its end, and with "not-positive"
    {distance}.
    """
    curve, distance = matched(curve, distance)
    end = end_point(curve)
    way = end_direction(curve)
    added = line(end, moved(end, way.value, distance)).value
    wanted = value_of(distance)
    breach = Breach("not-positive", wanted <= 0.0, {"distance": wanted})
    return Guarded(strung([curve, added], axis=1), (*way.breaches, breach))
