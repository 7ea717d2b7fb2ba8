"""Lengths and places as sewn: darts closed, gathers and pleats taken up.

In: a curve (B, n, 4, 2) as cut, and what is taken up on it: darts (B, 5, 2), or gathers (B, 3, 2)
whose rows are the ends of the gathered stretch and, between them, where the first would
reach if all that is taken up were at once: a share of the straight way. What lies on
none of the curve takes nothing from it. Out: lengths (B,) in mm, points (B, 2). Fails with
"in-dart-mouth" where the curve begins or ends inside a mouth, and as `along_from` does.

    length_as_sewn(waist, first_dart, second_dart)
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from godet.geometry.arc_length import along, length
from godet.geometry.bodies import matched, stacked, summed
from godet.geometry.cubics import curve_before, point_on, reversed_curve
from godet.geometry.darts import CAP, DOUBLE, FIRST, LAST, PIVOT, POINT
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import end_point, start_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.joining import MEETING
from godet.geometry.locating import ON_EDGE, at_joint, place_on
from godet.geometry.points import between, dot, norm
from godet.geometry.points import distance as distance_between
from godet.geometry.polygons import within
from godet.geometry.widths import width_at

_GATHERS = 3  # rows of what is taken up evenly over a stretch; a dart has more


@dataclass(frozen=True, slots=True)
class _Spans:
    """Stretches of a curve (B, k), first to last: where they begin and end, and which share of them
    is taken up."""

    start: Values
    end: Values
    share: Values

    @property
    def taken(self) -> Values:
        return (self.end - self.start) * self.share


def length_as_sewn(curve: Values, *take_ups: Values) -> Values | Guarded:
    """The length (B,) of a curve once everything on it is taken up."""
    if not take_ups:
        return length(curve)
    curve, *taken = matched(curve, *take_ups)
    spans, breach = _spans(curve, taken)
    return Guarded(length(curve) - summed(spans.taken), (breach,))


def along_as_sewn(curve: Values, end: Values, distance: Values, *take_ups: Values) -> Guarded:
    """The point (B, 2) at a distance as sewn from one of the curve's ends (B, 2). At a dart it is
    the nearer end of the mouth. Fails with "not-an-end" {gap} when `end` is neither."""
    curve, end, distance, *taken = matched(curve, end, distance, *take_ups)
    to_start = value_of(distance_between(end, start_point(curve)))
    to_end = value_of(distance_between(end, end_point(curve)))
    from_end = (to_end < to_start)[:, None, None, None]
    curve = np.where(from_end, reversed_curve(curve), curve)
    breaches: tuple[Breach, ...] = ()
    if taken:
        spans, breach = _spans(curve, taken)
        distance, breaches = _as_cut(distance, spans), (breach,)
    gap = np.minimum(to_start, to_end)
    # without an end there is nothing to measure from
    distance = np.where(np.isnan(gap), np.nan, distance)
    walked = along(curve, distance)
    not_an_end = Breach("not-an-end", gap > MEETING, {"gap": gap})
    return Guarded(walked.value, (not_an_end, *breaches, *walked.breaches))


def reached_as_sewn(curve: Values, point: Values, *take_ups: Values) -> Guarded:
    """How far (B,) along the curve as sewn the place nearest to a point (B, 2) lies; both ends of
    a dart's mouth lie equally far. Fails with "in-dart-mouth" between them."""
    curve, point, *taken = matched(curve, point, *take_ups)
    reached, _ = _reached(curve, point)
    if not taken:
        return Guarded(reached, ())
    spans, _ = _spans(curve, taken)
    here = reached[:, None]
    before = np.minimum(np.maximum(here - spans.start, 0.0), spans.end - spans.start)
    inside = (value_of(here) > value_of(spans.start) + ON_EDGE) & (
        value_of(here) < value_of(spans.end) - ON_EDGE
    )
    in_mouth = (inside & (value_of(spans.share) == 1.0)).any(axis=1)
    return Guarded(reached - summed(before * spans.share), (Breach("in-dart-mouth", in_mouth, {}),))


def width_as_sewn(outline: Values, down: Values, *darts: Values) -> Guarded:
    """The width (B,) of an outline at a depth (B,), less what darts take up there: those whose
    mouth is in the outline, and those with two points. Fails as `width_at`."""
    width = width_at(outline, down)
    if not darts:
        return width
    value, down, outline, *taken_up = matched(width.value, down, outline, *darts)
    for each in taken_up:
        if each.shape[1] == _GATHERS:  # below the edge the cloth is free
            continue
        taken = _taken_at(each, down)
        if each.shape[1] != DOUBLE:
            ends = [at_joint(outline, each[:, row])[0] for row in (FIRST, LAST)]
            taken = np.where(ends[0] & ends[1], taken, 0.0)
        value = value - taken
    return Guarded(value, width.breaches)


def _taken_at(dart: Values, down: Values) -> Values:
    """By how much (B,) a dart makes the piece narrower at a depth: all that lies between its sides.
    Where the level comes in over one leg and goes out by the mouth it runs along the leg instead,
    once the dart is sewn."""
    between_sides: Values = 0.0
    for row in range(4):
        share, crossed, sign = _crossed(dart[:, row], dart[:, (row + 1) % 4], down)
        here, there = dart[:, row, 0], dart[:, (row + 1) % 4, 0]
        between_sides = between_sides + np.where(crossed, sign, 0.0) * (
            here + share * (there - here)
        )
    taken = np.absolute(between_sides)
    if dart.shape[1] == DOUBLE:
        return taken
    legs = [_crossed(dart[:, POINT], dart[:, row], down) for row in (FIRST, LAST)]
    whole = norm(dart[:, FIRST] - dart[:, POINT])
    for (share, crossed, _), (_, other, _) in (legs, legs[::-1]):
        taken = np.where(crossed & ~other, taken - (1.0 - share) * whole, taken)
    return taken


def _crossed(
    here: Values, there: Values, down: Values
) -> tuple[Values, NDArray[np.bool_], NDArray[np.float64]]:
    """Where on the way from one point (B, 2) to another a level lies: the share of the way, whether
    it lies on it, and 1 where the way goes down there, -1 where it goes up."""
    above = value_of(here)[:, 1] <= value_of(down)
    crossed = np.asarray(above != (value_of(there)[:, 1] <= value_of(down)))
    rise = np.where(crossed, there[:, 1] - here[:, 1], 1.0)
    return (down - here[:, 1]) / rise, crossed, np.where(above, 1.0, -1.0)


def _as_cut(distance: Values, spans: _Spans) -> Values:
    """How far along the cut curve a distance as sewn reaches."""
    order = np.argsort(value_of(spans.start), axis=1, kind="stable")
    starts, ends, shares = (
        np.take_along_axis(each, order, 1) for each in (spans.start, spans.end, spans.share)
    )
    cut = distance
    for number in range(order.shape[1]):
        start, end, share = starts[:, number], ends[:, number], shares[:, number]
        left = 1.0 - share
        evenly = value_of(left) > 0.0
        # how far along its stretch: what is sewn of it counts for more of the cloth
        within = np.where(evenly, (cut - start) / np.where(evenly, left, 1.0), end - start)
        inside = np.minimum(np.maximum(within, 0.0), end - start)
        # a place that is the very start of a mouth is its nearer end
        cut = np.where(value_of(cut) > value_of(start) + MEETING, cut + inside * share, cut)
    return cut


def _spans(curve: Values, take_ups: list[Values]) -> tuple[_Spans, Breach]:
    starts, ends, shares = [], [], []
    inside = np.zeros(curve.shape[0], dtype=bool)
    for each in take_ups:
        evenly = each.shape[1] == _GATHERS
        rows = (0, 1) if evenly else (FIRST, LAST)
        at, away = zip(*(_reached(curve, each[:, row]) for row in rows), strict=True)
        if not evenly:
            off = [value > ON_EDGE for value in away]
            missing = off[0] | off[1]
            others = [value_of(one) for one in take_ups if one is not each]
            inside |= _cut_into(value_of(curve), value_of(each), off, others)
            at = tuple(np.where(missing, 0.0, place) for place in at)
        starts.append(np.minimum(*at))
        ends.append(np.maximum(*at))
        shares.append(_share(each) if evenly else np.ones(curve.shape[0]))
    spans = _Spans(*(stacked(parts, axis=1) for parts in (starts, ends, shares)))
    return spans, Breach("in-dart-mouth", inside, {})


def _cut_into(
    curve: NDArray[np.float64],
    dart: NDArray[np.float64],
    off: list[NDArray[np.bool_]],
    others: list[NDArray[np.float64]],
) -> NDArray[np.bool_]:
    """Whether (B,) a curve has part of the dart's mouth only: `off` tells for either end of the
    mouth whether it lies off the curve. A curve that goes up to the mouth has none of it; of a
    mouth that lies across that of another dart finishing tells, which knows their names."""
    ends = start_point(curve), end_point(curve)
    found = np.zeros(len(dart), dtype=bool)
    for here, there in ((0, 1), (1, 0)):
        row, gone = dart[:, (FIRST, LAST)[here]], dart[:, (FIRST, LAST)[there]]
        nearest = np.minimum(*(norm(row - end) for end in ends))
        covered = np.zeros(len(dart), dtype=bool)
        for other in others:
            if other.shape[1] == dart.shape[1]:
                covered |= within(other[:, :PIVOT], gone)
        found |= ~off[here] & off[there] & (nearest > ON_EDGE) & ~covered
    return found | _in_mouth(dart, ends[0]) | _in_mouth(dart, ends[1])


def _in_mouth(dart: NDArray[np.float64], point: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether (B,) a point lies on a side of the dart's mouth, and at neither end of it."""
    cap, found = dart[:, CAP], np.zeros(len(dart), dtype=bool)
    for end in (dart[:, FIRST], dart[:, LAST]):
        way, reach = cap - end, point - end
        share = np.clip(dot(reach, way) / dot(way, way), 0.0, 1.0)
        beside = norm(reach - share[:, None] * way) <= ON_EDGE
        found |= beside & (norm(reach) > ON_EDGE)
    return found


def _share(gathers: Values) -> Values:
    """Which share (B,) of a stretch is taken up."""
    way = gathers[:, 1] - gathers[:, 0]
    return norm(gathers[:, 2] - gathers[:, 0]) / norm(way)


def _reached(curve: Values, point: Values) -> tuple[Values, NDArray[np.float64]]:
    """How far along the curve (B,) the place nearest to a point lies, and how far away (B,) from
    the point."""
    place = place_on(curve, point)
    away: NDArray[np.float64] = value_of(distance_between(point_on(curve, place), point))
    return length(curve_before(curve, place)), away


def gathers(edge: Values, place: Values, over: Values, taken: Values) -> Guarded:
    """What is gathered or eased in on an edge, (B, 3, 2): `taken` (B,) mm of it over a stretch
    `over` mm long, half of it on either side of the place (B, 2). Fails with "off-edge",
    "dart-past-edge" {half, room}, "gathers-too-full" {taken, over}."""
    edge, place, over, taken = matched(edge, place, over, taken)
    at, away = _reached(edge, place)
    half = over / 2.0
    room = np.minimum(value_of(at), value_of(length(edge)) - value_of(at))
    wide, less = value_of(over), value_of(taken)
    breaches = (
        Breach("off-edge", away > ON_EDGE, {"distance": away}),
        Breach("dart-past-edge", wide / 2.0 > room + ON_EDGE, {"half": wide / 2.0, "room": room}),
        Breach("gathers-too-full", (less < 0.0) | (less >= wide), {"taken": less, "over": wide}),
    )
    ends = [along(edge, at - half).value, along(edge, at + half).value]
    return Guarded(stacked([*ends, between(ends[0], ends[1], taken / over)], axis=1), breaches)


def pleat(dart: Values) -> Values:
    """What a dart takes up where it is only folded, (B, 3, 2): all of its mouth."""
    first, last = dart[:, FIRST], dart[:, LAST]
    return stacked([first, last, last], axis=1)


def taken_up(edge: Values, *take_ups: Values) -> Values:
    """The edge as it is cut: what is taken up on it changes nothing of that."""
    return matched(edge, *take_ups)[0]


def with_darts(outline: Values, *darts: Values) -> Values:
    """The outline itself: what lies inside it bounds nothing."""
    return matched(outline, *darts)[0]


def as_cut(curve: Values) -> Values:
    """The curve as it is cut, its darts and gathers left open."""
    return curve
