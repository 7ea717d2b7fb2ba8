"""Stretches of an edge between two of its points, and the gap where an edge was cut open.

In: curves (B, n, 4, 2), points (B, 2), darts (B, 5, 2). Out: a stretch that runs from the first
point to the last, the end of a dart's mouth on the side of a corner, curves joined over a gap.
Fails with "off-edge" {distance} and "same-point".

    stretch(side, underarm, notch).value                 # (B, n, 4, 2)
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from godet.geometry.arc_length import cubic_lengths, length, place_at_length
from godet.geometry.bodies import matched, strung, summed
from godet.geometry.cubics import curve_before, point_on, reversed_curve, selected
from godet.geometry.darts import FIRST, LAST
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import DEGENERATE, end_direction, end_point, start_direction, start_point
from godet.geometry.guards import Guarded
from godet.geometry.hobby import hobby
from godet.geometry.locating import ON_EDGE, from_point, place_on, until
from godet.geometry.points import COINCIDENT, distance, norm, unit

MOST = 0.5  # of either side of a gap: how much of it is drawn anew to make the edge fair
ENDS_OF = {5: (FIRST, LAST)}  # the rows where a dart ends on its edge; of all else the first two


def stretch(curve: Values, first: Values, last: Values) -> Guarded:
    """The part (B, n, 4, 2) of a curve from one of its points to another, whichever comes first
    along it. Fails with "off-edge" {distance}."""
    curve, first, last = matched(curve, first, last)
    places = [value_of(place_on(curve, point).parameter) for point in (first, last)]
    against = places[0] > places[1]
    curve = selected(against, reversed_curve(curve), curve)
    ended = until(curve, last)
    begun = from_point(ended.value, first)
    return Guarded(begun.value, (*ended.breaches, *begun.breaches))


def mouth_end(curve: Values, dart: Values, corner: Values) -> Values:
    """The end (B, 2) of the dart's mouth that is reached first along the curve from one of its ends
    (B, 2)."""
    curve, dart, corner = matched(curve, dart, corner)
    from_start = value_of(distance(start_point(curve), corner)) <= value_of(
        distance(end_point(curve), corner)
    )
    ends = [dart[:, row] for row in (FIRST, LAST)]
    places = [value_of(place_on(curve, end).parameter) for end in ends]
    chosen = (places[0] <= places[1]) == from_start
    return np.where(chosen[:, None], *ends)


@np.errstate(all="ignore")
def closed_up(curve: Values, between: int) -> Values:
    """What the two parts of an edge of n cubics make, with `between` cubics between them: its
    (B, 2 n + between, 4, 2) as (B, n + 1 + between, 4, 2). Either part has all cubics of the edge,
    those beyond the cut of no length: n - 1 of these are left out."""
    count = curve.shape[1]
    dropped = (count - between) // 2 - 1
    plain = value_of(curve)
    still = np.abs(plain - plain[:, :, :1]).max(axis=(2, 3)) <= COINCIDENT
    out = still & (np.cumsum(still, axis=1) <= dropped)
    kept = np.argsort(out, axis=1, kind="stable")[:, : count - dropped]
    return np.take_along_axis(curve, kept[:, :, None, None], axis=1)


def bridged(before: Values, after: Values, reach: Values, *take_ups: Values) -> Guarded:
    """Two curves (B, n, 4, 2) and (B, m, 4, 2) with a smooth curve over the gap between them,
    (B, n + 1 + m, 4, 2). It begins `reach` (B,) mm before the gap and ends as far behind it, so
    that an edge that was bent at the gap is fair again; less far where what is taken up on the
    edge, or its other end, is nearer. Fails with "same-point"."""
    before, after, reach, *taken = matched(before, after, reach, *take_ups)
    # a cut that ends in a corner leaves nothing of the edge on one side: nothing is bent there
    corner = _empty(before) | _empty(after)
    reach = np.where(corner, 0.0, reach)
    first = _shortened(before, reach, taken)
    last = reversed_curve(_shortened(reversed_curve(after), reach, taken))
    gap = start_point(last) - end_point(first)
    ways = [
        np.where(_empty(part)[:, None], unit(gap), direction.value)
        for part, direction in ((before, end_direction(first)), (after, start_direction(last)))
    ]
    over = hobby([end_point(first), start_point(last)], *ways)
    shut = corner & (value_of(norm(gap)) <= COINCIDENT)
    here = np.broadcast_to(end_point(first)[:, None, None], over.value.shape)
    bridge = np.where(shut[:, None, None, None], here, over.value)
    breaches = (replace(each, failed=each.failed & ~shut) for each in over.breaches)
    return Guarded(strung([first, bridge, last], axis=1), tuple(breaches))


def _empty(curve: Values) -> NDArray[np.bool_]:
    """Whether (B,) nothing is left of a part."""
    size = norm(value_of(curve)[:, :, 1:] - value_of(curve)[:, :, :1])
    return np.asarray((size <= DEGENERATE).all(axis=(1, 2)))


def _shortened(curve: Values, reach: Values, take_ups: list[Values]) -> Values:
    """The curve without its last `reach` mm, or as much of them as can be spared: half of it at
    most, and nothing of what is taken up on it."""
    lengths = cubic_lengths(curve)
    whole = summed(lengths)
    spared = np.minimum(reach, whole * MOST)
    for each in take_ups:
        for row in ENDS_OF.get(each.shape[1], (0, 1)):
            place = place_on(curve, each[:, row])
            on_it = value_of(distance(point_on(curve, place), each[:, row])) <= ON_EDGE
            left = whole - length(curve_before(curve, place))
            # some of the edge is left, whose direction is not that of the mouth
            spared = np.where(on_it, np.minimum(spared, MOST * left), spared)
    return curve_before(curve, place_at_length(curve, lengths, whole - spared))
