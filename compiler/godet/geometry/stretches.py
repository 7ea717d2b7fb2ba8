"""Stretches of an edge between two of its points, and the gap where an edge was cut open.

In: curves (B, n, 4, 2), points (B, 2), darts (B, 5, 2). Out: a stretch that runs from the first
point to the last, the end of a dart's mouth on the side of a corner, curves joined over a gap.
Fails with "off-edge" {distance} and "same-point".

    stretch(side, underarm, notch).value                 # (B, n, 4, 2)
"""

from __future__ import annotations

import numpy as np

from godet.geometry.bodies import matched, strung
from godet.geometry.cubics import reversed_curve, selected
from godet.geometry.darts import FIRST, LAST
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import end_direction, end_point, start_direction, start_point
from godet.geometry.guards import Guarded
from godet.geometry.hobby import hobby
from godet.geometry.locating import from_point, place_on, until
from godet.geometry.points import COINCIDENT, distance


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


def bridged(before: Values, after: Values) -> Guarded:
    """Two curves (B, n, 4, 2) and (B, m, 4, 2) with a smooth curve over the gap between them,
    (B, n + 1 + m, 4, 2). Fails with "same-point" and "zero-length"."""
    before, after = matched(before, after)
    leaving, arriving = end_direction(before), start_direction(after)
    over = hobby([end_point(before), start_point(after)], leaving.value, arriving.value)
    return Guarded(
        strung([before, over.value, after], axis=1),
        (*leaving.breaches, *arriving.breaches, *over.breaches),
    )
