"""A curve made longer or shorter between the same ends, which it leaves and reaches as before.

In: a curve (B, n, 4, 2) and a length (B,) in mm. Out: the curve of that length, (B, n, 4, 2), to
1e-10 mm, with the directions of the old one at its ends, and smooth where that was. Fails with
"shorter-than-chord" where the straight way between the ends is longer already, and with
"out-of-reach" where so much would take the curve out of shape.

    reshaped(armhole, np.array([240.0])).value           # (B, n, 4, 2)

What the curve lies away from its chord is multiplied by one factor. The chord is run through
without haste at its ends, so that nothing is taken there from the curve's own speed, which keeps
the directions; of a single cubic the factor draws both handles out or in. A straight line at either
end stays what it is. The speed is the length of a vector that changes evenly with the factor, so
the arc length is a convex function of it, least at nought, where the curve is its chord: one
factor at most gives the length, and Newton's steps run straight to it.

Out of shape is a factor below a half or above two, or one with which the curve comes to bend to and
fro more often than it did; a curve of straight lines alone has no other shape.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from godet.geometry.arc_length import length
from godet.geometry.bodies import matched, picked
from godet.geometry.dual import Dual, Values, implicit, tangent_of, value_of
from godet.geometry.ends import DEGENERATE, end_point, start_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.points import cross, distance, norm

_LEAST, _MOST = 0.5, 2.0
_ALIKE = 1e-6  # mm: a length as near as this to one that can be had is had
_FLAT = 1e-9  # of the legs' lengths: a smaller cross product tells no side
_EXACT = 1e-11  # mm
_STEPS = 60

Floats = NDArray[np.float64]
Which = NDArray[np.bool_]


@np.errstate(all="ignore")
def reshaped(curve: Values, wanted: Values) -> Guarded:
    """The curve (B, n, 4, 2) with the wanted length (B,) in mm.

    Fails with "shorter-than-chord" {wanted, chord} and "out-of-reach" {wanted, shortest, longest}.
    """
    curve, wanted = matched(curve, wanted)
    away = curve - _chord_run_through(curve)
    plain, plain_away, goal = value_of(curve), value_of(away), value_of(wanted)
    ends = _reach(plain, plain_away)
    shortest, longest = (length(_stretched(plain, plain_away, end)) for end in ends)
    factor = _found(plain, plain_away, goal, ends)
    residual = length(_stretched(curve, away, factor)) - wanted
    moving: Values = factor
    if isinstance(residual, Dual):
        moving = implicit(factor, residual, _growth(plain, plain_away, factor)[1])
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
    return Guarded(_stretched(curve, away, moving), breaches)


def _stretched(curve: Values, away: Values, factor: Values) -> Values:
    # so written, the ends keep their bits, and with a factor of 1 all of the curve does
    return curve + (factor - 1.0)[:, None, None, None] * away


# --- the chord ------------------------------------------------------------------------------------


def _chord_run_through(curve: Values) -> Values:
    """The chord from the first cubic that bends to the last, run through as the curve is, in n
    cubics; a straight line before or behind is itself.

    With a parameter u from 0 to 1 for all cubics, in which the curve has no jump of its speed, the
    chord is reached at a share of 3 u^2 - 2 u^3.
    """
    inside = _inside(value_of(curve))
    body = np.arange(len(inside))
    first = np.argmax(inside, axis=1)
    last = inside.shape[1] - 1 - np.argmax(inside[:, ::-1], axis=1)
    start = curve[body, first][:, 0]
    way = curve[body, last][:, 3] - start
    knots = _knots(curve, inside)
    cubics = []
    for number, (a, b) in enumerate(pairwise(knots)):
        # the polar values of the share at (a, a, a), (a, a, b), (a, b, b), (b, b, b)
        shares = [
            x * y + y * z + z * x - 2.0 * (x * y * z)
            for x, y, z in ((a, a, a), (a, a, b), (a, b, b), (b, b, b))
        ]
        run = np.stack([start + share[:, None] * way for share in shares], axis=1)
        cubics.append(np.where(inside[:, number, None, None], run, curve[:, number]))
    return np.stack(cubics, axis=1)


def _inside(curve: Floats) -> Which:
    """The cubics (B, n) from the first that bends to the last."""
    chord = curve[..., 3, :] - curve[..., 0, :]
    handles = curve[..., 1, :] - curve[..., 0, :], curve[..., 3, :] - curve[..., 2, :]
    aside = [np.abs(cross(handle, chord)) > _ALIKE * norm(chord) for handle in handles]
    # one that comes back to its start bends, unless it has no length at all
    back = (norm(chord) <= _ALIKE) & (norm(handles[0]) > _ALIKE)
    bends = aside[0] | aside[1] | back
    begun = np.logical_or.accumulate(bends, axis=1)
    left = np.logical_or.accumulate(bends[:, ::-1], axis=1)[:, ::-1]
    return np.asarray(begun & left)


def _knots(curve: Values, inside: Which) -> list[Values]:
    """The parameter (B,) at the start of each cubic and the end of the last: it grows with each
    cubic so that the speed by it is the same on both sides of a joint."""
    knots: list[Values] = [np.zeros(len(inside))]
    pace: Values = np.ones(len(inside))  # of the parameter, by the speed at the last joint
    for number in range(curve.shape[1]):
        cubic = curve[:, number]
        size = value_of(norm(cubic[:, 1:] - cubic[:, :1])).max(axis=1)
        counts = inside[:, number] & (size > DEGENERATE)
        leaving, arriving = (
            np.where(value_of(norm(handle)) > DEGENERATE, norm(handle), size / 3.0)
            for handle in (cubic[:, 1] - cubic[:, 0], cubic[:, 3] - cubic[:, 2])
        )
        step = np.where(counts, pace * leaving, 0.0)
        pace = np.where(counts, step / np.where(counts, arriving, 1.0), pace)
        knots.append(knots[-1] + step)
    whole = np.where(value_of(knots[-1]) > 0.0, knots[-1], 1.0)
    return [knot / whole for knot in knots]


# --- the factor -----------------------------------------------------------------------------------


def _reach(curve: Floats, away: Floats) -> tuple[Floats, Floats]:
    """The least and the largest factor (B,) with which the curve keeps its shape.

    The cross products of a cubic's legs, first with second, first with third, second with third,
    tell to which side it bends on its way (they are the control values of that). Divided by the
    factor each is linear in it, since along the chord all legs are parallel: so the sides change
    only at known factors, and between two of these their turns are counted.
    """
    legs = curve[..., 1:, :] - curve[..., :-1, :]
    along = legs - (away[..., 1:, :] - away[..., :-1, :])
    sides, rests = [], []
    for one, other in ((0, 1), (0, 2), (1, 2)):
        first, last = legs[..., one, :], legs[..., other, :]
        side = cross(first, last)
        sides.append(np.where(np.abs(side) <= _FLAT * norm(first) * norm(last), 0.0, side))
        rests.append(cross(first, along[..., other, :]) + cross(along[..., one, :], last))
    now, rest = (np.stack(each, axis=-1).reshape(len(curve), -1) for each in (sides, rests))
    bends = _inside(curve).any(axis=1)
    least, most = (1.0 + _kept(now, rest, end - 1.0) for end in (_LEAST, _MOST))
    return np.where(bends, least, 1.0), np.where(bends, most, 1.0)


def _kept(now: Floats, rest: Floats, farthest: float) -> Floats:
    """How far (B,) from 1, at most `farthest`, the factor may go before the sides, now (B, m), turn
    over more often than they do."""
    allowed = _turns(now)
    way, reach = np.sign(farthest), abs(farthest)
    changes = way * (rest / (rest - now) - 1.0)
    stops = np.sort(np.where((changes > 0.0) & (changes < reach), changes, reach), axis=1)
    kept = np.full(len(now), reach)
    before = np.zeros(len(now))
    for behind in [*stops.T, np.full(len(now), reach)]:
        factor = 1.0 + way * (before + behind)[:, None] / 2.0
        worse = _turns(factor * now + (1.0 - factor) * rest) > allowed
        kept = np.where(worse, np.minimum(kept, before), kept)
        before = behind
    return np.asarray(way * kept)


def _turns(sides: Floats) -> NDArray[np.intp]:
    """How often (B,) the sides (B, m) change along the curve, those that tell none passed over."""
    count = np.zeros(len(sides), dtype=np.intp)
    latest = np.zeros(len(sides))
    for side in sides.T:
        count += side * latest < 0.0
        latest = np.where(side != 0.0, np.sign(side), latest)
    return count


def _growth(curve: Floats, away: Floats, factor: Floats) -> tuple[Floats, Floats]:
    """The length (B,) with a factor, and how it grows with that."""
    grown = length(_stretched(curve, away, Dual(factor, np.ones((1, len(factor))))))
    return value_of(grown), tangent_of(grown, 1)[0]


def _found(curve: Floats, away: Floats, wanted: Floats, ends: tuple[Floats, Floats]) -> Floats:
    """The factor (B,) that gives the length, by Newton's steps from the curve as it is, held to a
    range; each body stops on its own."""
    factor = np.where(np.isfinite(wanted), 1.0, np.nan)
    active = np.nonzero(np.isfinite(wanted))[0]
    for _ in range(_STEPS):
        if not len(active):
            break
        now = factor[active]
        reached, slope = _growth(picked(curve, active), picked(away, active), now)
        excess = reached - wanted[active]
        stepped = np.clip(now - excess / slope, ends[0][active], ends[1][active])
        settled = (np.abs(excess) <= _EXACT) | (stepped == now) | ~np.isfinite(stepped)
        factor[active] = np.where(settled, now, stepped)
        active = active[~settled]
    return factor
