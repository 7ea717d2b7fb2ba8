"""Angles between curves, and the directions along and square to an edge.

In: curves (B, n, 4, 2), points (B, 2). Out: angles (B,) in radians, unit directions (B, 2). Fails
with "ends-do-not-meet" when two curves share no end, "off-edge" when a point is not on the edge,
"no-side" when it does not say which of two opposite directions is meant, "zero-length" when a curve
has no direction.

    angle_between(bottom, side).value                    # (B,), pi/2 for a square corner
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import matched
from godet.geometry.cubics import Place, cubic_at, derivative
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import (
    DEGENERATE,
    end_direction,
    end_point,
    start_direction,
    start_point,
)
from godet.geometry.guards import Breach, Guarded
from godet.geometry.joining import MEETING
from godet.geometry.locating import closest_place, off_edge
from godet.geometry.points import cross, distance, dot, norm, turned_quarter, unit

_SIDELONG = 1e-9  # mm


@np.errstate(all="ignore")
def angle_between(a: Values, b: Values) -> Guarded:
    """The angle (B,), 0 to pi, between the two curves as they leave the end they share.

    Fails with "ends-do-not-meet" {gap}, the smallest distance between an end of one and an end of
    the other.
    """
    a, b = matched(a, b)
    ends = [(start_point(a), start_point(b)), (start_point(a), end_point(b))]
    ends += [(end_point(a), start_point(b)), (end_point(a), end_point(b))]
    gaps = np.stack([value_of(distance(*pair)) for pair in ends], axis=-1)
    gap = gaps.min(axis=-1)
    shared = np.argmin(gaps, axis=-1)
    of_a, of_b = _leaving(a, shared < 2), _leaving(b, shared % 2 == 0)
    angle = np.arctan2(np.absolute(cross(of_a.value, of_b.value)), dot(of_a.value, of_b.value))
    breach = Breach("ends-do-not-meet", gap > MEETING, {"gap": gap})
    return Guarded(angle, (*of_a.breaches, *of_b.breaches, breach))


def corner_over_seam(a: Values, seam_a: Values, seam_b: Values, b: Values) -> Guarded:
    """The corner (B,) that two edges `a` and `b` make with each other where they meet a seam that
    joins the edges `seam_a` and `seam_b`: nought where they run on smoothly, more where they jut
    out, less where they dip in. Fails as `angle_between`."""
    on_a, on_b = angle_between(a, seam_a), angle_between(b, seam_b)
    corner = np.pi - (on_a.value + on_b.value)
    return Guarded(corner, (*on_a.breaches, *on_b.breaches))


def _leaving(curve: Values, from_start: NDArray[np.bool_]) -> Guarded:
    """The direction (B, 2) in which a curve leaves its start, or where that is not asked its
    end."""
    if from_start.all():
        return start_direction(curve)
    end = end_direction(curve)
    back = Guarded(-end.value, end.breaches)
    if not from_start.any():
        return back
    start = start_direction(curve)
    way = np.where(from_start[:, None], start.value, back.value)
    return Guarded(way, (*start.breaches, *back.breaches))


def square_direction(edge: Values, point: Values, toward: Values) -> Guarded:
    """The unit direction (B, 2) square to the edge at the point on it, on the side of `toward`
    (B, 2) as seen from the point.

    Fails with "off-edge" {distance} when the point is not on the edge, with "no-side" when `toward`
    lies on the tangent, and with "zero-length".
    """
    edge, point, toward = matched(edge, point, toward)
    way = _way_at(edge, point)
    return _signed(Guarded(turned_quarter(way.value), way.breaches), point, toward)


def direction_along(edge: Values, point: Values, toward: Values) -> Guarded:
    """The unit direction (B, 2) along the edge at the point on it, in the sense that goes towards
    `toward` (B, 2). Fails with "off-edge" {distance}, "no-side" and "zero-length"."""
    edge, point, toward = matched(edge, point, toward)
    return _signed(_way_at(edge, point), point, toward)


def _way_at(edge: Values, point: Values) -> Guarded:
    """The direction of the edge where the point lies on it. A point beside it has no such place
    that is sure: near the middle of a bend all places are as close."""
    place = closest_place(edge, point)
    way = direction_on(edge, place)
    return Guarded(way.value, (off_edge(edge, point, place), *way.breaches))


@np.errstate(all="ignore")
def direction_on(curve: Values, place: Place) -> Guarded:
    """The unit direction (B, 2) of travel at a place. Fails with "zero-length"."""
    cubic = cubic_at(curve, place)
    velocity = derivative(cubic, place.share)
    # Where a handle has no length, at an end, the derivative vanishes; the end's direction stands
    # in.
    single = cubic[:, None]
    start = start_direction(single)
    still = value_of(norm(velocity)) <= DEGENERATE
    if not still.any():
        return Guarded(unit(velocity), start.breaches)
    end = end_direction(single)
    by_end = np.where((value_of(place.share) < 0.5)[:, None], start.value, end.value)
    return Guarded(np.where(still[:, None], by_end, unit(velocity)), start.breaches)


@np.errstate(all="ignore")
def _signed(way: Guarded, point: Values, toward: Values) -> Guarded:
    side = value_of(dot(way.value, toward - point))
    return Guarded(
        way.value * np.sign(side)[:, None],
        (*way.breaches, Breach("no-side", np.abs(side) <= _SIDELONG, {})),
    )
