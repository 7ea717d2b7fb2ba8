"""Parallel curves: a curve at one distance all along another.

In: curves (B, n, 4, 2) and signed distances (B,) in mm. Out: curves (B, 8 n, 4, 2), within 0.02 mm
for the curves of a garment. A positive distance lies to the right-hand side of the way the curve
is travelled, as seen on the printed page (across to the right, down downwards): for a curve that
runs outward it lies below. Fails with "radius-too-small" where the hollow side bends tighter than
the distance, and with "zero-length".

    parallel(neck, np.array([30.0])).value               # (B, 8 n, 4, 2)

Each cubic is cut in eight; each part moves its ends square to its end directions and keeps
these. Its handles start from the derivative of the parallel curve, 1 - curvature x distance (W.
Tiller and E. Hanson, "Offsets of two-dimensional profiles", IEEE Computer Graphics and
Applications 4, 1984), and are then drawn out alike so that the middle of the part lies at the
distance too.
"""

from __future__ import annotations

import numpy as np

from godet.geometry.bodies import matched
from godet.geometry.cubics import curvature, derivative, evaluate
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import DEGENERATE, end_direction, start_direction
from godet.geometry.guards import Breach, Guarded
from godet.geometry.points import dot, norm, turned_quarter, unit

PARTS = 8
_SAMPLES = 33  # where the curvature is looked at on each cubic
# radians: a part that turns less needs no drawing out, and one that bends in an S allows none
_TURNING = 0.02


@np.errstate(all="ignore")
def parallel(curve: Values, distance: Values, parts: int = PARTS) -> Guarded:
    """The parallel curve (B, parts x n, 4, 2) at a signed distance (B,) mm, positive to the
    right-hand side.

    Degenerate cubics give degenerate cubics at their neighbour's moved end. Fails with
    "radius-too-small" {radius, distance} and "zero-length".
    """
    curve, distance = matched(curve, distance)
    cubics = curve[:, :, None]
    ends_of_way, breaches = _directions(curve, parts)
    knots = np.linspace(0.0, 1.0, parts + 1)[None, None]
    velocity = derivative(cubics, knots)
    still = value_of(norm(velocity)) <= DEGENERATE
    way: Values = np.where(still[..., None], ends_of_way, unit(velocity))
    by = distance[:, None, None]
    moved = evaluate(cubics, knots) + by[..., None] * turned_quarter(way)
    turning = np.where(still, 0.0, curvature(cubics, knots) * norm(velocity))
    shortening = turning / (3.0 * parts)
    drawing = _drawn_out(cubics, way, shortening, parts)
    own = velocity / (3.0 * parts) - (by * shortening)[..., None] * way
    added = (by * drawing)[..., None]
    leaving = own[:, :, :-1] - added * way[:, :, :-1]
    arriving = own[:, :, 1:] - added * way[:, :, 1:]
    starts, ends = moved[:, :, :-1], moved[:, :, 1:]
    moved_cubics = np.stack([starts, starts + leaving, ends - arriving, ends], axis=3)
    bodies, count = curve.shape[:2]
    return Guarded(
        moved_cubics.reshape(bodies, count * parts, 4, 2),
        (*breaches, _too_tight(value_of(curve), value_of(distance))),
    )


def _drawn_out(cubics: Values, way: Values, shortening: Values, parts: int) -> Values:
    """By how much (B, n, parts) more, for each mm of distance, both handles of a part have to
    change so that its middle lies at the distance along the normal there.

    That condition is linear in the change; its factor vanishes with the turn of the part, and
    is kept away from nought smoothly.
    """
    middles = np.linspace(0.0, 1.0, 2 * parts + 1)[None, None, 1::2]
    velocity = derivative(cubics, middles)
    still = value_of(norm(velocity)) <= DEGENERATE
    middle = turned_quarter(np.where(still[..., None], way[:, :, :-1], unit(velocity)))
    along = dot(way[:, :, :-1], middle), dot(way[:, :, 1:], middle)
    normals = turned_quarter(way)
    chord_middle = (dot(normals[:, :, :-1], middle) + dot(normals[:, :, 1:], middle)) / 2.0
    # The middle of a cubic is the mean of its ends and 3/8 of its first handle less its last.
    reached = chord_middle - 0.375 * (
        shortening[:, :, :-1] * along[0] - shortening[:, :, 1:] * along[1]
    )
    factor = 0.375 * (along[1] - along[0])
    return (1.0 - reached) * factor / (factor * factor + _TURNING * _TURNING)


def _directions(curve: Values, parts: int) -> tuple[Values, tuple[Breach, ...]]:
    """Directions (B, n, parts + 1, 2) at the knots for where a velocity vanishes: the cubic's own
    end direction, or for a degenerate cubic that of the nearest cubic with a length before it,
    else after it."""
    count = curve.shape[1]
    middle = (parts + 1) // 2
    ways = []
    latest = start_direction(curve)
    way = latest.value
    for cubic in range(count):
        own = curve[:, cubic : cubic + 1]
        first, last = start_direction(own), end_direction(own)
        without = first.breaches[0].failed[:, None]
        begin, finish = np.where(without, way, first.value), np.where(without, way, last.value)
        ways.append(np.stack([begin] * middle + [finish] * (parts + 1 - middle), axis=1))
        way = finish
    return np.stack(ways, axis=1), latest.breaches


def _too_tight(curve: Values, distance: Values) -> Breach:
    shares = np.linspace(0.0, 1.0, _SAMPLES)[None, None]
    speeds = norm(derivative(curve[:, :, None], shares))
    bend = np.where(speeds <= DEGENERATE, 0.0, curvature(curve[:, :, None], shares))
    hollow = bend * np.sign(distance)[:, None, None]
    tightest = 1.0 / np.maximum(hollow.reshape(len(hollow), -1).max(axis=1), 0.0)
    failed = tightest < np.abs(distance)
    return Breach("radius-too-small", failed, {"radius": tightest, "distance": np.abs(distance)})
