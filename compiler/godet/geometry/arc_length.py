"""How long curves are, and the place at a length along them, to 1e-10 mm.

In: curves (B, n, 4, 2), distances (B,) in mm. Out: lengths (B,), points (B, 2), parameters (B,). A
distance before the start or past the end fails with "past-the-end".

    along(curve, length(curve) / 2).value                # the middle by length, (B, 2)

The speed is integrated by Gauss-Legendre sums of 12 and 24 nodes; a cubic on which they differ is
halved, each on its own. When the integrand is smooth the longer sum is far better than the
difference; at a cusp it is at least three times better, so a difference of 3e-10 leaves less than
1e-10 mm.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import matched, replaced, summed
from godet.geometry.cubics import Place, derivative, point_on
from godet.geometry.dual import Values, implicit, value_of
from godet.geometry.guards import Breach, Guarded
from godet.geometry.points import norm

# Gauss-Legendre rules, each with twice the nodes of the one before
_RULES = tuple(np.polynomial.legendre.leggauss(nodes) for nodes in (5, 10, 20))
_NODES = np.concatenate([nodes for nodes, _ in _RULES])
_AGREED = 1e-11  # mm
_HALVINGS = 40
_PAST = 1e-9  # mm: a distance past the end by rounding is the end
_STEPS = 60


@np.errstate(all="ignore")
def length(curve: Values) -> Values:
    """The arc length (B,) in mm."""
    return summed(cubic_lengths(curve))


@np.errstate(all="ignore")
def cubic_lengths(curve: Values) -> Values:
    """The arc length (B, n) in mm of each cubic."""
    bodies, count = curve.shape[:2]
    cubics = curve.reshape(bodies * count, 4, 2)
    nought, one = np.zeros(bodies * count), np.ones(bodies * count)
    return _measured(_steps(cubics), nought, one).reshape(bodies, count)


@np.errstate(all="ignore")
def along(curve: Values, distance: Values) -> Guarded:
    """The point (B, 2) at a distance (B,) mm along the curve from its start. Fails with
    "past-the-end" {distance, length}."""
    curve, distance = matched(curve, distance)
    lengths = cubic_lengths(curve)
    place = _place(curve, lengths, distance)
    return Guarded(point_on(curve, place), (_past_the_end(distance, lengths),))


@np.errstate(all="ignore")
def parameter_at_length(curve: Values, distance: Values) -> Guarded:
    """The parameter (B,) in 0 to n at a distance (B,) mm from the start. Fails with
    "past-the-end"."""
    curve, distance = matched(curve, distance)
    lengths = cubic_lengths(curve)
    place = _place(curve, lengths, distance)
    return Guarded(place.parameter, (_past_the_end(distance, lengths),))


@np.errstate(all="ignore")
def place_at_length(curve: Values, distance: Values) -> Place:
    """The place at a distance (B,) mm from the start; distances beyond an end give that end."""
    curve, distance = matched(curve, distance)
    return _place(curve, cubic_lengths(curve), distance)


def _past_the_end(distance: Values, lengths: Values) -> Breach:
    has = value_of(summed(lengths))
    wanted = value_of(distance)
    failed = (wanted < -_PAST) | (wanted > has + _PAST)
    return Breach("past-the-end", failed, {"distance": wanted, "length": has})


def _place(curve: Values, lengths: Values, distance: Values) -> Place:
    ends = np.cumsum(lengths, axis=-1)
    # The first cubic that ends at or beyond the distance; the last one with a length for what is
    # past it.
    beyond = value_of(ends) >= value_of(distance)[:, None]
    has_length = value_of(lengths) > 0.0
    count = curve.shape[1]
    last = count - 1 - np.argmax(has_length[:, ::-1], axis=1)
    cubic = np.where(beyond.any(axis=1), np.argmax(beyond, axis=1), last)
    index = np.arange(len(cubic))
    local = distance - (ends[index, cubic] - lengths[index, cubic])
    steps = _steps(curve[index, cubic])
    share = _share_at_length(value_of(steps), value_of(lengths)[index, cubic], value_of(local))
    share = np.where(np.isnan(value_of(local)), np.nan, share)
    travelled = _measured(steps, np.zeros(len(share)), share)
    speed = norm(derivative(curve[index, cubic], share))
    return Place(cubic, implicit(share, travelled - local, speed))


def _share_at_length(
    steps: NDArray[np.float64], total: NDArray[np.float64], wanted: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Newton's steps kept inside a bracket; each row stops on its own."""
    share = np.clip(
        np.where(total > 0.0, wanted / np.where(total > 0.0, total, 1.0), 0.0), 0.0, 1.0
    )
    low, high = np.zeros_like(share), np.ones_like(share)
    active = np.nonzero((wanted > 0.0) & (wanted < total))[0]
    for _ in range(_STEPS):
        if not len(active):
            break
        t, goal = share[active], wanted[active]
        excess = _measured(steps[active], np.zeros(len(active)), t) - goal
        low[active] = np.where(excess < 0.0, t, low[active])
        high[active] = np.where(excess < 0.0, high[active], t)
        stepped = t - excess / _speed(steps[active], t[:, None])[:, 0]
        inside = (stepped > low[active]) & (stepped < high[active])
        share[active] = np.where(inside, stepped, 0.5 * (low[active] + high[active]))
        done = (np.abs(excess) <= 1e-13 + 4e-16 * goal) | (share[active] == t)
        share[active[done & ~inside]] = t[done & ~inside]
        active = active[~done]
    return share


def _steps(cubics: Values) -> Values:
    return 3.0 * (cubics[:, 1:] - cubics[:, :-1])


def _speed(steps: Values, shares: NDArray[np.float64]) -> Values:
    u = 1.0 - shares
    a, b, c = u * u, 2.0 * (u * shares), shares * shares
    velocities = (
        a * steps[:, 0, axis, None] + b * steps[:, 1, axis, None] + c * steps[:, 2, axis, None]
        for axis in (0, 1)
    )
    return np.hypot(*velocities)


def _measured(
    steps: Values, low: NDArray[np.float64], high: NDArray[np.float64], halvings: int = _HALVINGS
) -> Values:
    """The length (M,) of cubics, given by the steps (M, 3, 2) of their derivative, from low to
    high (M,)."""
    half = 0.5 * (high - low)
    shares = (0.5 * (low + high))[:, None] + half[:, None] * _NODES
    speed = _speed(steps, shares)
    plain = value_of(speed)
    rough = half * summed(plain[:, :5] * _RULES[0][1])
    coarse = half * summed(plain[:, 5:15] * _RULES[1][1])
    fine = half * summed(speed[:, 15:] * _RULES[2][1])
    first, second = np.abs(rough - value_of(fine)), np.abs(coarse - value_of(fine))
    # Where the speed stays well away from nought it is smooth, and doubling the nodes squares the
    # share of error that is left. Where it comes near nought it may have a kink between the nodes:
    # there two rules must agree outright.
    smooth = plain.min(axis=1) > 0.2 * plain.max(axis=1)
    left = np.where(smooth, second * (second / first) ** 2, second)
    uneven = (second > _AGREED) & ~(left <= _AGREED)
    if halvings == 0 or not uneven.any():
        return fine
    middle = 0.5 * (low + high)[uneven]
    parts = _measured(
        np.concatenate([steps[uneven], steps[uneven]], axis=0),
        np.concatenate([low[uneven], middle]),
        np.concatenate([middle, high[uneven]]),
        halvings - 1,
    )
    return replaced(fine, uneven, parts[: len(middle)] + parts[len(middle) :])
