"""Where on a curve a point lies, and the parts of the curve before and after it.

In: curves (B, n, 4, 2) and points (B, 2). Out: the closest place, its distance, or a part of the
curve as n cubics. A part fails with "off-edge" when the point is more than 0.001 mm from the
curve.

    until(side, hip_side).value                          # (B, n, 4, 2), degenerate beyond hip_side
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import matched, picked
from godet.geometry.cubics import (
    Place,
    cubic_at,
    curve_after,
    curve_before,
    derivative,
    evaluate,
    lost_in_rounding,
    point_on,
    second_derivative,
)
from godet.geometry.dual import Dual, Values, hypotenuse, implicit, value_of
from godet.geometry.ends import DEGENERATE
from godet.geometry.guards import Breach, Guarded
from godet.geometry.points import distance, dot, norm

ON_EDGE = 1e-3  # mm
AT_JOINT = 1e-9  # mm
_SAMPLES = 17
_STEPS = 60


@np.errstate(all="ignore")
def locate(curve: Values, point: Values) -> tuple[Values, Values]:
    """The parameter (B,) in 0 to n of the closest place, and its distance (B,) in mm.

    Of equally close places the first along the curve is taken.
    """
    curve, point = matched(curve, point)
    place = closest_place(curve, point)
    return place.parameter, distance(point_on(curve, place), point)


@np.errstate(all="ignore")
def until(curve: Values, point: Values) -> Guarded:
    """The part (B, n, 4, 2) from the curve's start to the point. Fails with "off-edge"
    {distance}."""
    curve, point = matched(curve, point)
    place = place_on(curve, point)
    return Guarded(curve_before(curve, place), (off_edge(curve, point, place),))


@np.errstate(all="ignore")
def from_point(curve: Values, point: Values) -> Guarded:
    """The part (B, n, 4, 2) from the point to the curve's end. Fails with "off-edge" {distance}."""
    curve, point = matched(curve, point)
    place = place_on(curve, point)
    return Guarded(curve_after(curve, place), (off_edge(curve, point, place),))


def off_edge(curve: Values, point: Values, place: Place) -> Breach:
    """Whether a point (B, 2) is not on the curve, with its distance (B,) from the closest place."""
    away = value_of(distance(point_on(curve, place), point))
    return Breach("off-edge", away > ON_EDGE, {"distance": away})


@np.errstate(all="ignore")
def place_on(curve: Values, point: Values) -> Place:
    """The closest place (B bodies each); a point at an end or a joint has exactly that place, so
    that no cubic is cut there."""
    curve, point = matched(curve, point)
    return _with_derivative(curve, point, _closest(value_of(curve), value_of(point)))


@np.errstate(all="ignore")
def closest_place(curve: Values, point: Values) -> Place:
    """The closest place; a place at an end that is not the foot of a perpendicular stands still."""
    curve, point = matched(curve, point)
    place = _closest(value_of(curve), value_of(point))
    return _with_derivative(curve, point, place, ends_stand_still=True)


def _with_derivative(
    curve: Values, point: Values, place: Place, ends_stand_still: bool = False
) -> Place:
    if not (isinstance(curve, Dual) or isinstance(point, Dual)):
        return place
    cubic = cubic_at(curve, place)
    offset = evaluate(cubic, place.share) - point
    first, second = derivative(cubic, place.share), second_derivative(cubic, place.share)
    residual = dot(offset, first)
    slope = value_of(dot(first, first) + dot(offset, second))
    if ends_stand_still:
        pressed = ((place.share == 0.0) & (value_of(residual) > 0.0)) | (
            (place.share == 1.0) & (value_of(residual) < 0.0)
        )
        slope = np.where(pressed & (value_of(norm(offset)) > ON_EDGE), 0.0, slope)
    return Place(place.cubic, implicit(value_of(place.share), residual, slope))


def at_joint(curve: Values, point: Values) -> tuple[NDArray[np.bool_], Place]:
    """For which bodies (B,) the point is an end or a joint of the curve, and its place there."""
    plain, target = value_of(curve), value_of(point)
    across, down = (
        np.concatenate([plain[:, :, 0, axis], plain[:, -1:, 3, axis]], axis=1)
        - target[:, axis, None]
        for axis in (0, 1)
    )
    near = hypotenuse(across, down) <= AT_JOINT
    joint = np.argmax(near, axis=1)
    # cubics of no length before the start are passed over
    empty = np.logical_and.accumulate(near[:, 1:-1], axis=1).sum(axis=1)
    cubic = np.where(joint == 0, empty, joint - 1)
    return near.any(axis=1), Place(cubic, np.where(joint == 0, 0.0, 1.0))


def _closest(curve: NDArray[np.float64], point: NDArray[np.float64]) -> Place:
    """The closest place; ends and joints are recognised without a search."""
    snapped, place = at_joint(curve, point)
    search = np.nonzero(~snapped)[0]
    if not len(search):
        return place
    point = picked(point, search)
    found = feet(picked(curve, search), point)
    _, first = np.unique(found.body, return_index=True)
    cubic, share = place.cubic.copy(), place.share.copy()
    nowhere = np.isnan(point).any(axis=1)
    cubic[search], share[search] = found.cubic[first], np.where(nowhere, np.nan, found.share[first])
    return Place(cubic, share)


@dataclass(frozen=True, slots=True)
class Feet:
    """M places: the body (M,), the cubic (M,), the parameter (M,) on it, and how far (M,) in mm the
    body's point is away; infinitely far from a cubic without length."""

    body: NDArray[np.intp]
    cubic: NDArray[np.intp]
    share: NDArray[np.float64]
    away: NDArray[np.float64]


@np.errstate(all="ignore")
def feet(curve: NDArray[np.float64], point: NDArray[np.float64]) -> Feet:
    """The places at which the distance from the point (B, 2) to the curve is the least near by;
    each body's closest one comes first of its own."""
    bodies, count = curve.shape[:2]
    # every cubic a row of its own, the first ones of all bodies first, as they lie in memory
    cubics = np.ascontiguousarray(curve.T).reshape(2, 4, -1).T
    targets = np.tile(point.T, count).T
    shares = np.linspace(0.0, 1.0, _SAMPLES)[:, None]
    samples = evaluate(cubics, np.broadcast_to(shares, (_SAMPLES, len(cubics))))
    away = norm(samples - targets)
    hollow = np.ones(away.shape, dtype=bool)
    hollow[1:] &= away[1:] < away[:-1]
    hollow[:-1] &= away[:-1] <= away[1:]
    hollow[0] |= ~hollow.any(axis=0)  # where there is no number to compare
    nearest, row = np.nonzero(hollow)
    cubic, target = picked(cubics, row), picked(targets, row)
    share = _polished(cubic, target, nearest)
    size = norm(cubic[:, 1:] - cubic[:, :1]).max(axis=1)
    # A degenerate cubic has no direction: its place is left to a neighbour, unless all are
    # degenerate.
    gap = np.where(size <= DEGENERATE, np.inf, norm(evaluate(cubic, share) - target))
    number, body = row // bodies, row % bodies
    order = np.lexsort((share, number, gap, body))
    return Feet(body[order], number[order], share[order], gap[order])


def _polished(
    cubics: NDArray[np.float64], targets: NDArray[np.float64], nearest: NDArray[np.intp]
) -> NDArray[np.float64]:
    """Newton's steps on (curve - point) . derivative = 0, kept between the neighbours of the
    nearest sample; each row stops on its own, where a step is lost in rounding."""
    last = _SAMPLES - 1
    share = nearest / last
    low, high = np.maximum(nearest - 1, 0) / last, np.minimum(nearest + 1, last) / last
    at_start, at_end = np.zeros_like(share), np.ones_like(share)
    pressed = ((nearest == 0) & (_pull(cubics, targets, at_start) >= 0.0)) | (
        (nearest == last) & (_pull(cubics, targets, at_end) <= 0.0)
    )
    active = np.nonzero(~pressed)[0]
    for _ in range(_STEPS):
        if not len(active):
            break
        cubic, t = picked(cubics, active), share[active]
        offset = evaluate(cubic, t) - picked(targets, active)
        first = derivative(cubic, t)
        pull = dot(offset, first)
        slope = dot(first, first) + dot(offset, second_derivative(cubic, t))
        low[active] = np.where(pull < 0.0, t, low[active])
        high[active] = np.where(pull > 0.0, t, high[active])
        stepped = t - pull / slope
        inside = (slope > 0.0) & (stepped >= low[active]) & (stepped <= high[active])
        stepped = np.where(inside, stepped, 0.5 * (low[active] + high[active]))
        settled = (pull == 0.0) | lost_in_rounding(stepped - t, first)
        share[active] = np.where(pull == 0.0, t, stepped)
        active = active[~settled]
    return share


def _pull(
    cubics: NDArray[np.float64], targets: NDArray[np.float64], share: NDArray[np.float64]
) -> NDArray[np.float64]:
    pull: NDArray[np.float64] = dot(evaluate(cubics, share) - targets, derivative(cubics, share))
    return pull
