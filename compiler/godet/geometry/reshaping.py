"""A curve made longer or shorter between the same ends, which it leaves and reaches as before.

In: a curve (B, n, 4, 2) and a length (B,) in mm. Out: the curve of that length, (B, n, 4, 2), to
1e-10 mm, with the directions of the old one at its ends and at every joint. Fails with
"shorter-than-chord" where the straight way between the ends is longer already, and with
"out-of-reach" where so much would take the curve out of shape.

    reshaped(armhole, np.array([240.0])).value           # (B, n, 4, 2)

All handles are drawn out or in by one factor, and the chord between the ends bears the rest: the
new curve is the factor times the old one and the rest of the straight chord, cubic by cubic. A
straight line in it has no share of the chord, and so stays straight, longer or shorter. The
speed along it is the length of a vector that changes evenly with the factor, so its arc length is
a convex function of it, least at nought, where the curve is its chord: one factor at most gives
the length, and Newton's steps run straight to it. Out of shape is a factor below a half or above
two, or one with which a cubic bends to the other side than it did; a curve of straight lines alone
has no other shape.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from godet.geometry.arc_length import cubic_lengths, length
from godet.geometry.bodies import matched, picked, summed
from godet.geometry.dual import Dual, Values, implicit, tangent_of, value_of
from godet.geometry.ends import end_point, start_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.points import cross, distance, norm

_LEAST, _MOST = 0.5, 2.0
_ALIKE = 1e-6  # mm: a length as near as this to one that can be had is had
_EXACT = 1e-11  # mm
_STEPS = 60

Floats = NDArray[np.float64]


@np.errstate(all="ignore")
def reshaped(curve: Values, wanted: Values) -> Guarded:
    """The curve (B, n, 4, 2) with the wanted length (B,) in mm.

    Fails with "shorter-than-chord" {wanted, chord} and "out-of-reach" {wanted, shortest, longest}.
    """
    curve, wanted = matched(curve, wanted)
    straight = _straightened(curve)
    plain, plain_straight, goal = value_of(curve), value_of(straight), value_of(wanted)
    bent = ~_straight(plain).all(axis=1)
    least = np.where(bent, _LEAST, 1.0)
    most = np.where(bent, _most(plain, plain_straight), 1.0)
    shortest, longest = (length(_mixed(plain, plain_straight, end)) for end in (least, most))
    factor = _found(plain, plain_straight, goal, (least, most))
    residual = length(_mixed(curve, straight, factor)) - wanted
    factor_now: Values = factor
    if isinstance(residual, Dual):
        factor_now = implicit(factor, residual, _growth(plain, plain_straight, factor)[1])
    chord = value_of(distance(start_point(curve), end_point(curve)))
    too_short = goal < chord - _ALIKE
    beyond = (goal < shortest - _ALIKE) | (goal > longest + _ALIKE)
    breaches = (
        Breach("shorter-than-chord", too_short, {"wanted": goal, "chord": chord}),
        Breach(
            "out-of-reach",
            beyond & ~too_short,
            {"wanted": goal, "shortest": shortest, "longest": longest},
        ),
    )
    return Guarded(_mixed(curve, straight, factor_now), breaches)


def _straightened(curve: Values) -> Values:
    """The chord between the ends as n cubics without handles; those that bend share it by their
    lengths."""
    lengths = cubic_lengths(curve)
    lengths = np.where(_straight(value_of(curve)), 0.0, lengths)
    whole = summed(lengths)
    whole = np.where(value_of(whole) > 0.0, whole, 1.0)
    start, way = start_point(curve), end_point(curve) - start_point(curve)
    shares = np.cumsum(lengths / whole[..., None], axis=-1)
    knots: list[Values] = [start]
    knots += [start + shares[:, n][..., None] * way for n in range(curve.shape[1] - 1)]
    knots.append(end_point(curve))
    cubics = [np.stack([a, a, b, b], axis=1) for a, b in pairwise(knots)]
    return np.stack(cubics, axis=1)


def _straight(curve: Floats) -> NDArray[np.bool_]:
    """Which cubics (B, n) are straight lines."""
    chord = curve[..., 3, :] - curve[..., 0, :]
    handles = curve[..., 1, :] - curve[..., 0, :], curve[..., 3, :] - curve[..., 2, :]
    aside = [np.abs(cross(handle, chord)) <= _ALIKE * norm(chord) for handle in handles]
    # a cubic that comes back to its start bends, unless it has no length at all
    straight = aside[0] & aside[1] & ((norm(chord) > _ALIKE) | (norm(handles[0]) <= _ALIKE))
    return np.asarray(straight)


def _mixed(curve: Values, straight: Values, factor: Values) -> Values:
    # so written, the ends keep their bits, and with a factor of 1 all of the curve does
    return curve + (factor - 1.0)[:, None, None, None] * (curve - straight)


def _most(curve: Floats, straight: Floats) -> Floats:
    """The largest factor (B,) with which no cubic comes to bend to the other side at an end of
    it."""
    legs, chord = curve[..., 1:, :] - curve[..., :-1, :], straight[..., 2, :] - straight[..., 1, :]
    most = np.full(len(curve), _MOST)
    for first, second, own, other in (
        (legs[..., 0, :], legs[..., 1, :], legs[..., 0, :], chord),
        (legs[..., 1, :], legs[..., 2, :], chord, legs[..., 2, :]),
    ):
        # of both legs together the factor leaves: factor * bends + (1 - factor) * rest
        bends, rest = cross(first, second), cross(own, other)
        turns_over = rest / (rest - bends)
        counts = (np.abs(bends) > _ALIKE) & (turns_over > 1.0)
        most = np.minimum(most, np.where(counts, turns_over, np.inf).min(axis=1))
    return most


def _growth(curve: Floats, straight: Floats, factor: Floats) -> tuple[Floats, Floats]:
    """The length (B,) with a factor, and how it grows with that."""
    moving = Dual(factor, np.ones((1, len(factor))))
    grown = length(_mixed(curve, straight, moving))
    return value_of(grown), tangent_of(grown, 1)[0]


def _found(
    curve: Floats, straight: Floats, wanted: Floats, range_: tuple[Floats, Floats]
) -> Floats:
    """The factor (B,) that gives the length, by Newton's steps from the curve as it is, held to a
    range; each body stops on its own."""
    least, most = range_
    factor = np.where(np.isfinite(wanted), 1.0, np.nan)
    active = np.nonzero(np.isfinite(wanted))[0]
    for _ in range(_STEPS):
        if not len(active):
            break
        now = factor[active]
        reached, slope = _growth(picked(curve, active), picked(straight, active), now)
        excess = reached - wanted[active]
        stepped = np.clip(now - excess / slope, least[active], most[active])
        settled = (np.abs(excess) <= _EXACT) | (stepped == now) | ~np.isfinite(stepped)
        factor[active] = np.where(settled, now, stepped)
        active = active[~settled]
    return factor
