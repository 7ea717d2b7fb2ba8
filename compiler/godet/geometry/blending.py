"""A corner between two curves made smooth.

In: two curves (B, n, 4, 2) that meet, and the length (B,) in mm over which to blend. Half of it is
cut off either curve, measured along it, and the gap is bridged by one smooth cubic; a fair blend
bridges it by three, which also keep the curvature at both ends. Out: the whole curve, or what the
blend does to the width at the joint. Fails with "blend-too-long", "not-positive",
"ends-do-not-meet", and with "same-point" or "zero-length" where nothing is left to bridge.

    blend(side_above, side_below, np.array([80.0])).value    # (B, n_above + 1 + n_below, 4, 2)

The fair bridge is the plain one in three thirds, a cubic spline with one curvature at each joint.
The end curvature of such a spline is fixed by its first three points (C. de Boor, "A Practical
Guide to Splines", 1978): the third from either end is moved square to the end direction until it
is that of the curve that is bridged to. A curve without a handle at the cut counts as straight.
"""

from __future__ import annotations

import numpy as np

from godet.geometry.arc_length import cubic_lengths, place_at_length
from godet.geometry.bends import stands_still
from godet.geometry.bodies import finite, matched, stacked, strung, summed
from godet.geometry.cubics import Place, cubic_at, curvature, curve_after, curve_before
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import end_direction, end_point, start_direction, start_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.hobby import hobby
from godet.geometry.joining import MEETING
from godet.geometry.levels import across_at_level, at_level
from godet.geometry.locating import locate
from godet.geometry.points import cross, distance, dot, turned_quarter

_USED_UP = 1e-9  # mm: what is left of a curve counts from here


@np.errstate(all="ignore")
def blend(before: Values, after: Values, over: Values, fair: bool = False) -> Guarded:
    """The joined curve (B, n_before + 1 + n_after, 4, 2), or 3 when fair, blended over a length
    (B,) in mm, half each side.

    Fails with "blend-too-long" {half, before, after} when half the length uses up either curve,
    "not-positive" {distance}, and "ends-do-not-meet" {gap}.
    """
    before, after, over = matched(before, after, over)
    half = over / 2.0
    lengths_before, lengths_after = cubic_lengths(before), cubic_lengths(after)
    has_before, has_after = summed(lengths_before), summed(lengths_after)
    last, first = (
        place_at_length(before, lengths_before, has_before - half),
        place_at_length(after, lengths_after, half),
    )
    above, below = curve_before(before, last), curve_after(after, first)
    leaving, arriving = end_direction(above), start_direction(below)
    ways = leaving.value, arriving.value
    bridged = hobby([end_point(above), start_point(below)], *ways)
    bridge = bridged.value
    if fair:
        bridge = _faired(bridge[:, 0], ways, (_bend(before, last), _bend(after, first)))
    halves, longest_before, longest_after = (value_of(x) for x in (half, has_before, has_after))
    too_long = halves >= np.minimum(longest_before, longest_after) - _USED_UP
    numbers = {"half": halves, "before": longest_before, "after": longest_after}
    gap = value_of(distance(end_point(before), start_point(after)))
    breaches = (
        Breach("not-positive", halves <= 0.0, {"distance": value_of(over)}),
        Breach("blend-too-long", too_long & (halves > 0.0), numbers),
        Breach("ends-do-not-meet", gap > MEETING, {"gap": gap}),
        *leaving.breaches,
        *arriving.breaches,
        *bridged.breaches,
    )
    return Guarded(strung([above, bridge, below], axis=1), breaches)


def _bend(curve: Values, place: Place) -> Values:
    """The curvature (B,) in 1/mm at a place; nought where the curve stands still."""
    bend = curvature(cubic_at(curve, place), place.share)
    return np.where(stands_still(curve, place), 0.0, bend)


def _faired(cubic: Values, ways: tuple[Values, Values], bends: tuple[Values, Values]) -> Values:
    """Three cubics (B, 3, 4, 2) in place of one (B, 4, 2), with these curvatures at the ends, where
    it has these directions."""
    a, b, c, d = (cubic[:, n] for n in range(4))
    # the polar values of the cubic at (0, 0, 1/3), (0, 1/3, 2/3), (1/3, 2/3, 1), (2/3, 1, 1)
    first, last = (2.0 * a + b) / 3.0, (c + 2.0 * d) / 3.0
    second = (2.0 * a + 5.0 * b + 2.0 * c) / 9.0
    third = (2.0 * b + 5.0 * c + 2.0 * d) / 9.0
    second = _bending(a, first, second, ways[0], bends[0])
    third = _bending(d, last, third, -ways[1], -bends[1])
    # the control points of its thirds, by knot insertion
    before, behind = (first + second) / 2.0, (third + last) / 2.0
    inner, outer = (2.0 * second + third) / 3.0, (second + 2.0 * third) / 3.0
    joint, other = (before + inner) / 2.0, (outer + behind) / 2.0
    cubics = [
        [a, first, before, joint],
        [joint, inner, outer, other],
        [other, behind, last, d],
    ]
    return stacked([stacked(points, axis=1) for points in cubics], axis=1)


def _bending(start: Values, first: Values, second: Values, way: Values, bend: Values) -> Values:
    """The third control point (B, 2) of a clamped spline, moved square to the way it leaves its
    start so that it bends as asked there."""
    square = dot(first - start, first - start)
    by = 3.0 * bend * square - cross(way, second - first)
    return second + by[..., None] * turned_quarter(way)


@np.errstate(all="ignore")
def blend_gives(before: Values, after: Values, over: Values, fair: bool = False) -> Guarded:
    """How much farther across (B,) in mm the blended curve lies than the joint, at the joint's own
    depth; positive where the blend gives width, negative where it takes it.

    Of several crossings of that depth the one nearest to the joint counts; nothing is given where
    the blended curve no longer comes to that depth. Fails as `blend` does.
    """
    before, after, over = matched(before, after, over)
    blended = blend(before, after, over, fair)
    joint = start_point(after)
    places = at_level(blended.value, joint[:, 1])
    across = across_at_level(blended.value, joint[:, 1], places)
    away = across - joint[places.body, 0] if len(places.body) else np.zeros(0)
    bodies = len(joint)
    # The nearest of each body's places comes first in this order.
    order = np.lexsort((np.abs(value_of(away)), places.body))
    body, first = np.unique(places.body[order], return_index=True)
    found = np.zeros(bodies, dtype=bool)
    found[body] = True
    nearest = np.zeros(bodies, dtype=np.intp)
    nearest[body] = order[first]
    # a tip that is rounded off has no width any more at its own depth
    otherwise = np.where(finite(blended.value, joint), 0.0, np.nan)
    gives = np.where(found, away[nearest], otherwise) if len(body) else otherwise
    return Guarded(gives, blended.breaches)


@np.errstate(all="ignore")
def blend_strays(before: Values, after: Values, over: Values, fair: bool = False) -> Guarded:
    """How far (B,) in mm the joint lies from the bridge, at its closest. Fails as `blend` does."""
    before, after, over = matched(before, after, over)
    blended = blend(before, after, over, fair)
    bridge = blended.value[:, before.shape[1] : blended.value.shape[1] - after.shape[1]]
    away = locate(bridge, start_point(after))[1]
    return Guarded(away, blended.breaches)
