"""A curve led to another end, with its directions at both ends kept.

In: a curve (B, n, 4, 2) and a point (B, 2) near one of its ends. Out: the curve (B, n, 4, 2) that
ends (or begins) there. The change fades along the length as a smooth step, so that the far end
stays where it is and neither end turns. Nothing fails.

    ending_at(side, first_leg)
"""

from __future__ import annotations

import numpy as np

from godet.geometry.arc_length import cubic_lengths, length
from godet.geometry.bodies import matched, stacked
from godet.geometry.cubics import curve_before, point_on, reversed_curve
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import end_point, start_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.locating import ON_EDGE, place_on
from godet.geometry.points import norm

STRAY = 1.0  # mm: working tolerances in the trade run from 0.76 mm to 1/8 in


@np.errstate(all="ignore")
def ending_at(curve: Values, point: Values, *still: Values) -> Values:
    """The curve led to the point at its end. As far as any of the points (B, 2) that lie still, if
    they are on it, nothing of it moves: such a point is a joint."""
    curve, point, *fixed = matched(curve, point, *still)
    change = point - curve[:, -1, 3]
    lengths = cubic_lengths(curve)
    reached = np.cumsum(lengths, axis=-1) - _still(curve, fixed)[:, None]
    total = reached[:, -1:]
    has = value_of(total) > 0.0
    after = np.where(has, np.maximum(reached, 0.0) / np.where(has, total, 1.0), 1.0)
    before = np.where(has, np.maximum(reached - lengths, 0.0) / np.where(has, total, 1.0), 1.0)
    per_length = np.where(has, 1.0 / np.where(has, total, 1.0), 0.0)
    handles = [
        norm(curve[:, :, 1] - curve[:, :, 0]) * per_length,
        norm(curve[:, :, 3] - curve[:, :, 2]) * per_length,
    ]
    shares = [
        _step(before),
        _step(before) + _slope(before) * handles[0],
        _step(after) - _slope(after) * handles[1],
        _step(after),
    ]
    moved = curve + stacked(shares, axis=2)[..., None] * change[:, None, None, :]
    # the end is the point itself, to the last bit
    end = np.broadcast_to(point[:, None, None, :], moved.shape)
    corner = np.zeros((1, *moved.shape[1:3], 1), dtype=bool)
    corner[:, -1, 3] = True
    return np.where(corner, end, moved)


def beginning_at(curve: Values, point: Values, *still: Values) -> Values:
    """The curve led to the point at its start; as `ending_at`."""
    return reversed_curve(ending_at(reversed_curve(curve), point, *still))


def _still(curve: Values, points: list[Values]) -> Values:
    """How far along the curve (B,) the last of the points on it is."""
    farthest: Values = np.zeros(curve.shape[0])
    for point in points:
        place = place_on(curve, point)
        away = value_of(norm(point_on(curve, place) - point))
        reach = length(curve_before(curve, place))
        farthest = np.where(away > ON_EDGE, farthest, np.maximum(farthest, reach))
    return farthest


def _step(share: Values) -> Values:
    return share * share * (3.0 - 2.0 * share)


def _slope(share: Values) -> Values:
    return 6.0 * share * (1.0 - share)


def brought_to(curve: Values, point: Values, *, at_start: bool) -> Guarded:
    """The curve led to a point that its start, or else its end, ought to lie on. Fails with
    "join-strays" {stray} where that is more than 1 mm away."""
    curve, point = matched(curve, point)
    stray = value_of(norm((start_point if at_start else end_point)(curve) - point))
    led = beginning_at(curve, point) if at_start else ending_at(curve, point)
    return Guarded(led, (Breach("join-strays", stray > STRAY, {"stray": stray}),))
