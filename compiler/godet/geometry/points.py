"""Points, offsets and directions, as (across, down) in mm: moving, sharing, measuring, turning.

In: points and directions (B, 2), distances, shares and angles (B,). Out: the same kinds. Across
grows outward, down grows downward; angles turn from outward towards down, in radians. A direction
between two points that coincide fails with "same-point".

    moved(np.array([[0.0, 0.0]]), direction_at(np.array([np.pi / 2])), np.array([5.0]))   # 5 mm
    down
"""

from __future__ import annotations

import numpy as np

from godet.geometry.bodies import matched, stacked
from godet.geometry.dual import Values, hypotenuse, value_of
from godet.geometry.guards import Breach, Guarded

COINCIDENT = 1e-9  # mm: nearer than this, two points are one


def moved(point: Values, direction: Values, distance: Values) -> Values:
    """The point (B, 2) moved by a distance (B,) mm along a unit direction (B, 2)."""
    across, down = (point[..., axis] + distance * direction[..., axis] for axis in (0, 1))
    return stacked([across, down], axis=across.ndim)


def toward(point: Values, target: Values, distance: Values) -> Guarded:
    """The point moved by a distance (B,) mm towards the target. Fails with "same-point"."""
    way = direction_between(point, target)
    return Guarded(moved(point, way.value, distance), way.breaches)


def between(a: Values, b: Values, share: Values) -> Values:
    """The point a share (B,) of the way from a to b; exactly a at 0 and exactly b at 1."""
    part = share[..., None]
    return (1.0 - part) * a + part * b


def distance(a: Values, b: Values) -> Values:
    """The distance (B,) in mm between two points (B, 2)."""
    return norm(b - a)


def norm(offset: Values) -> Values:
    """The length (...) in mm of offsets (..., 2)."""
    return hypotenuse(offset[..., 0], offset[..., 1])


def dot(a: Values, b: Values) -> Values:
    """The inner product (...) of offsets (..., 2)."""
    return a[..., 0] * b[..., 0] + a[..., 1] * b[..., 1]


def cross(a: Values, b: Values) -> Values:
    """The outer product (...) of offsets (..., 2): positive when b is turned from a as down is
    from outward."""
    return a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]


@np.errstate(all="ignore")
def unit(offset: Values) -> Values:
    """The direction (..., 2) of an offset; not a number when it has no length."""
    return offset / norm(offset)[..., None]


def direction_at(angle: Values) -> Values:
    """The unit direction (B, 2) at an angle (B,) in radians, from outward turning towards down."""
    return stacked([np.cos(angle), np.sin(angle)], axis=1)


def direction_between(a: Values, b: Values) -> Guarded:
    """The unit direction (B, 2) from a to b. Fails with "same-point"."""
    a, b = matched(a, b)
    return Guarded(unit(b - a), (Breach("same-point", value_of(distance(a, b)) <= COINCIDENT, {}),))


def turned_quarter(direction: Values) -> Values:
    """The direction turned a quarter, outward to down, down to inward: to the right-hand side of
    the way as seen on the page."""
    return stacked([-direction[..., 1], direction[..., 0]], axis=direction.ndim - 1)


def turned_by(offset: Values, cosine: Values, sine: Values) -> Values:
    """The offset (B, 2) turned by the angle, outward to down, that has this cosine and sine
    (B,)."""
    across, down = offset[..., 0], offset[..., 1]
    return stacked(
        [across * cosine - down * sine, across * sine + down * cosine], axis=offset.ndim - 1
    )
