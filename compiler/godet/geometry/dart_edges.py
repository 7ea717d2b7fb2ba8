"""Edges with darts in them: as they are cut, with the mouths of the darts.

In: an edge (B, n, 4, 2) and a dart (B, 5, 2) on it, or the two parts of an edge that a dart comes
between. Out: one curve, the mouth in it as two straight lines that meet on the dart's fold. The
edge is led to the ends of the mouth where the dart's legs were made equal. Nothing fails.

    darted(waist, waist_dart)                            # (B, n + 3, 4, 2)
"""

from __future__ import annotations

import numpy as np

from godet.geometry.bodies import matched, strung
from godet.geometry.crossings import crossing
from godet.geometry.cubics import curve_after, curve_before, point_on
from godet.geometry.darts import CAP, FIRST, LAST, PIVOT
from godet.geometry.dual import Values, value_of
from godet.geometry.lines import line
from godet.geometry.locating import ON_EDGE, closest_place
from godet.geometry.points import norm
from godet.geometry.refairing import beginning_at, ending_at


@np.errstate(all="ignore")
def darted(edge: Values, dart: Values, *others: Values) -> Values:
    """The edge (B, n + 3, 4, 2) with the dart's mouth in it; the other darts are on it already, and
    the points (B, 2) among them are joints of the edge, which stay where they are."""
    edge, dart = matched(edge, dart)
    count = edge.shape[1]
    ends = [closest_place(edge, _on_edge(edge, dart, row)) for row in (FIRST, LAST)]
    before, after = curve_before(edge, ends[0]), curve_after(edge, ends[1])
    parts = around_dart(before, dart, after, *others)
    # what lies behind the mouth has at most as many cubics as are left of the part before it
    slot = np.arange(count + 3)[None]
    last_before = ends[0].cubic[:, None]
    behind = np.where(slot <= last_before, slot, slot - last_before - 1 + count)
    taken = np.where(slot > last_before + 2, slot - 1 + count, behind)
    return np.take_along_axis(parts, taken[:, :, None, None], axis=1)


def around_dart(before: Values, dart: Values, after: Values, *others: Values) -> Values:
    """The curve (B, n + 2 + m, 4, 2) of two parts and the mouth between them. Other darts' mouths,
    and points, on the parts stay where they are, and so does what lies beyond them."""
    before, dart, after = matched(before, dart, after)
    first, cap, last = (dart[:, row] for row in (FIRST, CAP, LAST))
    mouth = [line(first, cap).value, line(cap, last).value]
    still = [each for each in others if each.ndim == 2]
    still += [each[:, row] for each in others if each.ndim > 2 for row in (FIRST, LAST)]
    led = ending_at(before, first, *still), beginning_at(after, last, *still)
    return strung([led[0], *mouth, led[1]], axis=1)


def dart_strays(edge: Values, dart: Values) -> Values:
    """By how much (B,) in mm a leg of the dart was lengthened past the edge."""
    edge, dart = matched(edge, dart)
    return np.maximum(*(norm(dart[:, row] - _on_edge(edge, dart, row)) for row in (FIRST, LAST)))


@np.errstate(all="ignore")
def _on_edge(edge: Values, dart: Values, row: int) -> Values:
    """Where (B, 2) a leg of the dart comes from the edge, before it was lengthened past that."""
    end = dart[:, row]
    away = value_of(norm(end - point_on(edge, closest_place(edge, end))))
    elsewhere = ~(away <= ON_EDGE)
    if not elsewhere.any():
        return end
    found = crossing(line(dart[:, PIVOT], end).value, edge, "nearest", end)
    missed = next(b.failed for b in found.breaches if b.code == "no-crossing")
    return np.where((elsewhere & ~missed)[:, None], found.value, end)
