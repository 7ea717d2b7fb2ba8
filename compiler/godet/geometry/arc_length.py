"""How long curves are, and the place at a length along them, to 1e-10 mm.

In: curves (B, n, 4, 2), distances (B,) in mm. Out: lengths (B,), points (B, 2), places. A
distance before the start or past the end fails with "past-the-end".

    along(curve, length(curve) / 2).value                # the middle by length, (B, 2)

The speed is integrated by Clenshaw-Curtis sums of 9, 17 and 33 nodes, each of which has the nodes
of the one before; their differences tell how much error is left in the last. A cubic on which they
do not agree is halved, each on its own.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import matched, replaced, summed
from godet.geometry.cubics import Place, cubic_at, point_on
from godet.geometry.dual import Dual, Values, hypotenuse, implicit, value_of
from godet.geometry.guards import Breach, Guarded

_BLOCK = 2048  # cubics measured at once, so that their numbers stay in the cache


def _weights(nodes: int) -> NDArray[np.float64]:
    """The weights (nodes + 1, 1) of a Clenshaw-Curtis sum over 0 to 1, for an even number."""
    angle = np.pi * np.arange(nodes + 1) / nodes
    weights = np.ones(nodes + 1)
    for term in range(1, nodes // 2 + 1):
        twice = 1.0 if 2 * term == nodes else 2.0
        weights -= twice / (4 * term * term - 1) * np.cos(2 * term * angle)
    weights[[0, -1]] /= 2.0
    return weights[:, None] / nodes


_NODES = 32
_SHARES = 0.5 - 0.5 * np.cos(np.pi * np.arange(_NODES + 1) / _NODES)[:, None]
_FINE, _COARSE, _ROUGH = _weights(_NODES), _weights(_NODES // 2), _weights(_NODES // 4)
_AGREED = 1e-11  # mm
_HALVINGS = 40
_PAST = 1e-9  # mm: a distance past the end by rounding is the end
_STEPS = 60
_NEAR = 1e-3  # mm: from here on a step leads to the last bits
_ROUNDING = 1e-13  # mm


@np.errstate(all="ignore")
def length(curve: Values) -> Values:
    """The arc length (B,) in mm."""
    return summed(cubic_lengths(curve))


@np.errstate(all="ignore")
def cubic_lengths(curve: Values) -> Values:
    """The arc length (B, n) in mm of each cubic."""
    bodies, count = curve.shape[:2]
    return _measured(_velocities(curve).reshape(3, 2, bodies * count)).reshape(bodies, count)


@np.errstate(all="ignore")
def along(curve: Values, distance: Values) -> Guarded:
    """The point (B, 2) at a distance (B,) mm along the curve from its start. Fails with
    "past-the-end" {distance, length}."""
    curve, distance = matched(curve, distance)
    lengths = cubic_lengths(curve)
    place = place_at_length(curve, lengths, distance)
    return Guarded(point_on(curve, place), (_past_the_end(distance, lengths),))


@np.errstate(all="ignore")
def place_at_length(curve: Values, lengths: Values, distance: Values) -> Place:
    """The place at a distance (B,) mm from the start of a curve whose cubics have these lengths
    (B, n); distances beyond an end give that end."""
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
    velocities = _velocities(cubic_at(curve, Place(cubic, local)))
    share = _share_at_length(value_of(velocities), value_of(lengths)[index, cubic], value_of(local))
    share = np.where(np.isnan(value_of(local)), np.nan, share)
    if not isinstance(local, Dual):
        return Place(cubic, share)
    travelled = _measured(_first_part(velocities, share))
    return Place(cubic, implicit(share, travelled - local, value_of(_speed(velocities, share))))


def _past_the_end(distance: Values, lengths: Values) -> Breach:
    has = value_of(summed(lengths))
    wanted = value_of(distance)
    failed = (wanted < -_PAST) | (wanted > has + _PAST)
    return Breach("past-the-end", failed, {"distance": wanted, "length": has})


def _share_at_length(
    velocities: NDArray[np.float64], total: NDArray[np.float64], wanted: NDArray[np.float64]
) -> NDArray[np.float64]:
    """The parameter (M,) at which each cubic has the wanted length. Looks with one short sum, then
    with one long sum, find it; looks that measure to the full exactness confirm it or find the
    rest."""
    share = np.clip(
        np.where(total > 0.0, wanted / np.where(total > 0.0, total, 1.0), 0.0), 0.0, 1.0
    )
    inside = np.nonzero((wanted > 0.0) & (wanted < total))[0]
    velocities, wanted, found = velocities[:, :, inside], wanted[inside], share[inside]
    for measure, near in (
        (_by_short_sum, _NEAR),
        (_by_long_sum, _NEAR),
        (_measured, _ROUNDING),
    ):
        found = _closed_in(measure, near, velocities, wanted, found)
    share[inside] = found
    return share


def _closed_in(
    measure: Callable[[Values], Values],
    enough: float,
    velocities: NDArray[np.float64],
    wanted: NDArray[np.float64],
    share: NDArray[np.float64],
) -> NDArray[np.float64]:
    """Halley's steps kept inside a bracket; each row stops on its own."""
    share = share.copy()
    low, high = np.zeros_like(share), np.ones_like(share)
    active = np.arange(len(share))
    for _ in range(_STEPS):
        if not len(active):
            break
        t, goal = share[active], wanted[active]
        excess = measure(_first_part(velocities, t)) - goal
        low[active] = np.where(excess < 0.0, t, low[active])
        high[active] = np.where(excess < 0.0, high[active], t)
        stepped = t - _step(velocities, t, excess)
        inside = (stepped > low[active]) & (stepped < high[active])
        near = np.abs(excess) <= enough + 4e-16 * goal
        stepped = np.where(inside, stepped, 0.5 * (low[active] + high[active]))
        share[active] = np.where(near & ~inside, t, stepped)
        left = ~(near | (stepped == t))
        active, velocities = active[left], velocities[:, :, left]
    return share


def _step(
    velocities: NDArray[np.float64], t: NDArray[np.float64], excess: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Halley's step: Newton's, bettered by how the speed changes."""
    square, linear, constant = velocities
    velocity = (square * t + linear) * t + constant
    change = 2.0 * square * t + linear
    slope = velocity[0] * velocity[0] + velocity[1] * velocity[1]
    bend = velocity[0] * change[0] + velocity[1] * change[1]
    step = excess / np.sqrt(slope)
    return np.asarray(step / (1.0 - 0.5 * step * bend / slope))


def _velocities(cubics: Values) -> Values:
    """The derivatives of cubics (..., 4, 2) as polynomials (3, 2, ...): the square term, the
    linear one and the constant, across and down."""
    first, second, third = (3.0 * (cubics[..., i + 1, :] - cubics[..., i, :]) for i in range(3))
    terms = [first - 2.0 * second + third, 2.0 * (second - first), first]
    return np.stack([np.stack([term[..., 0], term[..., 1]]) for term in terms])


def _first_part(velocities: Values, share: NDArray[np.float64]) -> Values:
    """The same of the cubics' parts from their start to a parameter (M,)."""
    powers = np.stack([share * share * share, share * share, share])
    return velocities * powers[:, None]


def _last_part(velocities: Values, share: float) -> Values:
    """The same of the cubics' parts from one parameter for all to their end."""
    square, linear, constant = velocities[0], velocities[1], velocities[2]
    rest = 1.0 - share
    return np.stack(
        [
            square * (rest * rest * rest),
            (2.0 * share * square + linear) * (rest * rest),
            ((square * share + linear) * share + constant) * rest,
        ]
    )


def _speed(velocities: Values, shares: NDArray[np.float64]) -> Values:
    """The speeds (..., M) at parameters (..., M) or, the same for all, (..., 1)."""
    return hypotenuse(*(_polynomial(velocities[:, axis], shares) for axis in (0, 1)))


def _polynomial(terms: Values, shares: NDArray[np.float64]) -> Values:
    value = terms[0] * shares
    value += terms[1]
    value *= shares
    value += terms[2]
    return value


def _measured(velocities: Values, halvings: int = _HALVINGS) -> Values:
    """The length (M,) of cubics, given by the polynomials (3, 2, M) of their derivative."""
    return _in_blocks(lambda block: _measured_at_once(block, halvings), velocities)


def _by_long_sum(velocities: NDArray[np.float64]) -> NDArray[np.float64]:
    """The length (M,) by the longest sum alone, with no look at the error left."""
    lengths = _in_blocks(lambda block: _added(_FINE * _speed(block, _SHARES)), velocities)
    return np.asarray(lengths)


def _by_short_sum(velocities: NDArray[np.float64]) -> NDArray[np.float64]:
    lengths = _in_blocks(lambda block: _added(_COARSE * _speed(block, _SHARES[::2])), velocities)
    return np.asarray(lengths)


def _in_blocks(measure: Callable[[Values], Values], velocities: Values) -> Values:
    count = velocities.shape[2]
    if count <= _BLOCK:
        return measure(velocities)
    starts = range(0, count, _BLOCK)
    return np.concatenate([measure(velocities[:, :, at : at + _BLOCK]) for at in starts])


def _measured_at_once(velocities: Values, halvings: int) -> Values:
    speed = _speed(velocities, _SHARES)
    fine = _added(_FINE * speed)
    plain = value_of(speed)
    coarse, rough = _added(_COARSE * plain[::2]), _added(_ROUGH * plain[::4])
    first = np.abs(rough - value_of(fine))
    second = np.abs(coarse - value_of(fine))
    # Where the speed stays well away from nought it is smooth, and doubling the nodes squares the
    # share of error that is left. Where it comes near nought it may have a kink between the nodes:
    # there two rules must agree outright.
    smooth = plain.min(axis=0) > 0.2 * plain.max(axis=0)
    left = np.where(smooth, second * (second / first) ** 2, second)
    uneven = (second > _AGREED) & ~(left <= _AGREED)
    if halvings == 0 or not uneven.any():
        return fine
    whole = velocities[:, :, uneven]
    half = np.full(whole.shape[2], 0.5)
    halves = [_first_part(whole, half), _last_part(whole, 0.5)]
    again = _measured(np.concatenate(halves, axis=2), halvings - 1)
    return replaced(fine, uneven, again[: len(half)] + again[len(half) :])


def _added(parts: Values) -> Values:
    """The sum (M,) of parts (nodes, M), added node by node so that its bits never depend on the
    batch."""
    total = parts[0] + parts[1]
    for part in range(2, len(parts)):
        total += parts[part]
    return total
