"""A corner between two curves made smooth.

In: two curves (B, n, 4, 2) that meet, and the length (B,) in mm over which to blend. Half of it is
cut off either curve, measured along it, and the gap is bridged by one smooth cubic. Out: the whole
curve, or what the blend does to the width at the joint. Fails with "blend-too-long",
"not-positive", "ends-do-not-meet".

    blend(side_above, side_below, np.array([80.0])).value    # (B, n_above + 1 + n_below, 4, 2)
"""

from __future__ import annotations

import numpy as np

from godet.geometry.arc_length import cubic_lengths, place_at_length
from godet.geometry.bodies import finite, matched, strung, summed
from godet.geometry.cubics import curve_after, curve_before
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import end_direction, end_point, start_direction, start_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.hobby import hobby
from godet.geometry.joining import MEETING
from godet.geometry.levels import across_at_level, at_level
from godet.geometry.locating import locate
from godet.geometry.points import distance

_USED_UP = 1e-9  # mm: what is left of a curve counts from here


@np.errstate(all="ignore")
def blend(before: Values, after: Values, over: Values) -> Guarded:
    """The joined curve (B, n_before + 1 + n_after, 4, 2), blended over a length (B,) in mm, half
    each side.

    Fails with "blend-too-long" {half, before, after} when half the length uses up either curve,
    "not-positive" {distance}, and "ends-do-not-meet" {gap}.
    """
    before, after, over = matched(before, after, over)
    half = over / 2.0
    lengths_before, lengths_after = cubic_lengths(before), cubic_lengths(after)
    has_before, has_after = summed(lengths_before), summed(lengths_after)
    above = curve_before(before, place_at_length(before, lengths_before, has_before - half))
    below = curve_after(after, place_at_length(after, lengths_after, half))
    bridge = hobby(
        [end_point(above), start_point(below)],
        end_direction(above).value,
        start_direction(below).value,
    )
    halves, longest_before, longest_after = (value_of(x) for x in (half, has_before, has_after))
    too_long = halves >= np.minimum(longest_before, longest_after) - _USED_UP
    numbers = {"half": halves, "before": longest_before, "after": longest_after}
    gap = value_of(distance(end_point(before), start_point(after)))
    breaches = (
        Breach("not-positive", halves <= 0.0, {"distance": value_of(over)}),
        Breach("blend-too-long", too_long & (halves > 0.0), numbers),
        Breach("ends-do-not-meet", gap > MEETING, {"gap": gap}),
    )
    return Guarded(strung([above, bridge.value, below], axis=1), breaches)


@np.errstate(all="ignore")
def blend_gives(before: Values, after: Values, over: Values) -> Guarded:
    """How much farther across (B,) in mm the blended curve lies than the joint, at the joint's own
    depth; positive where the blend gives width, negative where it takes it.

    Of several crossings of that depth the one nearest to the joint counts; nothing is given where
    the blended curve no longer comes to that depth. Fails as `blend` does.
    """
    before, after, over = matched(before, after, over)
    blended = blend(before, after, over)
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
def blend_strays(before: Values, after: Values, over: Values) -> Guarded:
    """How far (B,) in mm the joint lies from the bridge, at its closest. Fails as `blend` does."""
    before, after, over = matched(before, after, over)
    blended = blend(before, after, over)
    count = before.shape[1]
    away = locate(blended.value[:, count : count + 1], start_point(after))[1]
    return Guarded(away, blended.breaches)
