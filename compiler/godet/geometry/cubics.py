"""Cubic curves: values, derivatives, reversal and parts, by the control points.

In: cubics (..., 4, 2) with parameters (...) in 0 to 1, or curves (B, n, 4, 2) with a place. Out:
points, derivatives (..., 2), or curves of the same shape. A part of a curve keeps its n cubics;
those beyond the cut are degenerate, all four points at the cut. Nothing fails.

    evaluate(curve[:, 0], np.array([0.5]))               # the middle of the first cubic, (B, 2)
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import matched, strung
from godet.geometry.dual import Values
from godet.geometry.points import cross, norm

_STILL = 1e-11  # mm: what a step moves the point; the next one, of its square, is rounding
_SHORT = 1e-6  # of a parameter


@dataclass(frozen=True, slots=True)
class Place:
    """A place on a curve for each body: which cubic (B,), and the parameter (B,) in 0 to 1 on
    it."""

    cubic: NDArray[np.intp]
    share: Values

    @property
    def parameter(self) -> Values:
        """The parameter (B,) on the whole curve, 0 to n."""
        return self.cubic + self.share


def evaluate(cubic: Values, share: Values) -> Values:
    """The points (..., 2) of cubics (..., 4, 2) at parameters (...); the end points keep their
    bits."""
    t = share[..., None]
    u = 1.0 - t
    return (
        u * u * u * cubic[..., 0, :]
        + 3.0 * (u * u * t) * cubic[..., 1, :]
        + 3.0 * (u * t * t) * cubic[..., 2, :]
        + t * t * t * cubic[..., 3, :]
    )


def derivative(cubic: Values, share: Values) -> Values:
    """The first derivatives (..., 2) by the parameter."""
    t = share[..., None]
    u = 1.0 - t
    steps = cubic[..., 1:, :] - cubic[..., :-1, :]
    return 3.0 * (
        u * u * steps[..., 0, :] + 2.0 * (u * t) * steps[..., 1, :] + t * t * steps[..., 2, :]
    )


def second_derivative(cubic: Values, share: Values) -> Values:
    """The second derivatives (..., 2) by the parameter."""
    t = share[..., None]
    bends = cubic[..., 2:, :] - 2.0 * cubic[..., 1:-1, :] + cubic[..., :-2, :]
    return 6.0 * ((1.0 - t) * bends[..., 0, :] + t * bends[..., 1, :])


def lost_in_rounding(step: NDArray[np.float64], way: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether Newton's steps (...) of a parameter are the last that count, the derivatives there
    being (..., 2): the next would move the point by less than its rounding.

    Where a cubic has no handle its derivative vanishes, so the step itself must be short too.
    """
    size = np.abs(step)
    last: NDArray[np.bool_] = (size <= _SHORT) & (size * norm(way) <= _STILL)
    return last


def curvature(cubic: Values, share: Values) -> Values:
    """The curvature (...) in 1/mm, positive where the curve bends to the right-hand side of the
    way as seen on the page; no number where it stands still."""
    first, second = derivative(cubic, share), second_derivative(cubic, share)
    speed = norm(first)
    return cross(first, second) / (speed * speed * speed)


def first_part(cubic: Values, share: Values) -> Values:
    """The cubics (..., 4, 2) from their start to a parameter (...), by de Casteljau's
    construction."""
    t = share[..., None, None]
    u = 1.0 - t
    once = u * cubic[..., :-1, :] + t * cubic[..., 1:, :]
    twice = u * once[..., :-1, :] + t * once[..., 1:, :]
    thrice = u * twice[..., :-1, :] + t * twice[..., 1:, :]
    return strung(
        [cubic[..., 0:1, :], once[..., 0:1, :], twice[..., 0:1, :], thrice], axis=cubic.ndim - 2
    )


def reversed_curve(curve: Values) -> Values:
    """The curve (B, n, 4, 2) travelled from its end to its start; every control point keeps its
    bits."""
    return curve[..., ::-1, ::-1, :]


def cubic_at(curve: Values, place: Place) -> Values:
    """The cubic (B, 4, 2) on which the place lies."""
    chosen = curve[:, 0]
    for number in range(1, curve.shape[1]):
        chosen = np.where((place.cubic == number)[:, None, None], curve[:, number], chosen)
    return chosen


def point_on(curve: Values, place: Place) -> Values:
    """The point (B, 2) of a curve (B, n, 4, 2) at a place."""
    return evaluate(cubic_at(curve, place), place.share)


def curve_before(curve: Values, place: Place) -> Values:
    """The part of a curve (B, n, 4, 2) from its start to a place, as n cubics.

    A place at the very end of a cubic leaves that cubic and the ones before it untouched.
    """
    count = curve.shape[1]
    cut = first_part(cubic_at(curve, place), place.share)
    order = np.arange(count)[None, :, None, None]
    last = place.cubic[:, None, None, None]
    ends = np.broadcast_to(cut[:, None, 3:, :], (len(place.cubic), count, 4, 2))
    return np.where(order < last, curve, np.where(order == last, cut[:, None], ends))


def curve_after(curve: Values, place: Place) -> Values:
    """The part of a curve (B, n, 4, 2) from a place to its end, as n cubics."""
    from_end = Place(curve.shape[1] - 1 - place.cubic, 1.0 - place.share)
    return reversed_curve(curve_before(reversed_curve(curve), from_end))


def selected(condition: NDArray[np.bool_], a: Values, b: Values) -> Values:
    """For each body (B,) the first curve or the second."""
    a, b = matched(a, b)
    if condition.all():
        return a
    return np.where(condition[:, None, None, None], a, b) if condition.any() else b
