"""Darts: where their mouth lies on an edge, what they are sewn to, and how the mouth is trued.

In: an edge (B, n, 4, 2), points (B, 2), amounts (B,). Out: a dart (B, 5, 2), its rows the first end
of the mouth along the edge, the cap of the mouth, its last end, the dart point, and the pivot. Both
legs are equally long: where the edge makes one shorter, it is lengthened, and the edge is led to
it. The angle at the pivot is what the dart takes up; the dart point lies on the line that halves
it, short of the pivot. Fails with "off-edge", "dart-past-edge" {half, room}, "dart-too-short"
{short, leg}, "not-positive" {distance}, "same-point" and "dart-mouth-open" {angle}.

    dart(side, place, bust_point, 3 cm, 2 cm).value[:, 3]      # the dart point
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.angles import direction_on
from godet.geometry.arc_length import along, length
from godet.geometry.bodies import finite, matched, stacked
from godet.geometry.crossings import crossing
from godet.geometry.cubics import curve_before, point_on
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import end_direction, end_point, start_direction, start_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.lines import line
from godet.geometry.locating import ON_EDGE, closest_place, place_on
from godet.geometry.points import COINCIDENT, cross, distance, dot, norm, turned_quarter, unit

FIRST, CAP, LAST, POINT, PIVOT = range(5)  # the rows of a dart
DOUBLE = 4  # rows of a dart with two points: one end of its widest place, the upper point, the
# other end, the lower point

_COMPASS = {"down": (0.0, 1.0), "up": (0.0, -1.0), "outward": (1.0, 0.0), "inward": (-1.0, 0.0)}
_PAST = 1e-9  # mm
_BEYOND = 3.0  # of the way to the edge: how far a leg is carried on to find it


@np.errstate(all="ignore")
def dart(
    edge: Values,
    place: Values,
    pivot: Values,
    amount: Values,
    short: Values,
    by: str = "width",
    pressed: str = "",
) -> Guarded:
    """The dart (B, 5, 2) at a place on the edge, by its width along it in mm or by its angle in
    radians, with its point `short` of the pivot (B,)."""
    edge, place, pivot, amount, short = matched(edge, place, pivot, amount, short)
    at = place_on(edge, place)
    away = value_of(distance(point_on(edge, at), place))
    given = value_of(amount)
    breaches = [
        Breach("off-edge", away > ON_EDGE, {"distance": away}),
        Breach("not-positive", given <= 0.0, {"distance": given}),
    ]
    if by == "width":
        mouth = _by_width(edge, length(curve_before(edge, at)), amount)
    else:
        mouth = _by_angle(edge, place, pivot, amount, direction_on(edge, at).value)
    first, last = mouth.value[:, 0], mouth.value[:, 1]
    ways = tuple(direction_on(edge, closest_place(edge, end)).value for end in (first, last))
    found = closed_dart(first, last, pivot, short, ways, pressed)
    return Guarded(found.value, (*breaches, *mouth.breaches, *found.breaches))


def dart_between(
    before: Values, after: Values, pivot: Values, short: Values, pressed: str = ""
) -> Guarded:
    """The dart whose mouth opens between the end of one curve and the start of the next."""
    before, after, pivot, short = matched(before, after, pivot, short)
    ways = end_direction(before), start_direction(after)
    found = closed_dart(
        end_point(before),
        start_point(after),
        pivot,
        short,
        (ways[0].value, ways[1].value),
        pressed,
    )
    return Guarded(found.value, (*ways[0].breaches, *ways[1].breaches, *found.breaches))


def double_dart(middle: Values, width: Values, upper: Values, lower: Values) -> Guarded:
    """The dart (B, 4, 2) inside a piece that ends in a point above and in one below: its rows one
    end of its widest place, the upper point, the other end and the lower point. It is widest at the
    middle, square to the line between its points."""
    middle, width, upper, lower = matched(middle, width, upper, lower)
    down = lower - upper
    way = turned_quarter(unit(down))
    half = (width / 2.0)[:, None] * way
    wide = value_of(width)
    breaches = (
        Breach("same-point", value_of(norm(down)) <= COINCIDENT, {}),
        Breach("not-positive", wide <= 0.0, {"distance": wide}),
    )
    rows = [middle + half, upper, middle - half, lower]
    return Guarded(stacked(rows, axis=1), breaches)


def joined_darts(upper: Values, lower: Values) -> Guarded:
    """Two darts that meet at a seam as one with two points. The lower one is moved so that the
    middles of their mouths meet; the width is the upper one's."""
    upper, lower = matched(upper, lower)
    middles = [(each[:, FIRST] + each[:, LAST]) / 2.0 for each in (upper, lower)]
    reach = lower[:, POINT] - middles[1]
    wide = width(upper)
    return double_dart(middles[0], wide, upper[:, POINT], middles[0] + reach)


def width(dart: Values) -> Values:
    """How wide (B,) the mouth of a dart is, straight across."""
    return norm(dart[:, LAST] - dart[:, FIRST])


def angle(dart: Values) -> Values:
    """The angle (B,) at the pivot, in radians."""
    first, last = dart[:, FIRST] - dart[:, PIVOT], dart[:, LAST] - dart[:, PIVOT]
    return np.arctan2(np.absolute(cross(first, last)), dot(first, last))


def leg(dart: Values) -> Values:
    """How long (B,) either leg is, from the mouth to the dart point."""
    return norm(dart[:, FIRST] - dart[:, POINT])


def legs_differ(before: Values, after: Values, pivot: Values) -> Values:
    """How much longer (B,) the way from the pivot to one part of an edge is than to the next."""
    first, last = norm(end_point(before) - pivot), norm(start_point(after) - pivot)
    return np.absolute(last - first)


def row_of(dart: Values, row: int) -> Values:
    """One of the points of a dart (B, 2)."""
    return dart[:, row]


def middle(dart: Values) -> Values:
    """The point (B, 2) half-way between the ends of the mouth."""
    return (dart[:, FIRST] + dart[:, LAST]) / 2.0


def short_of_pivot(dart: Values) -> Values:
    """How far (B,) the dart point lies from the pivot."""
    return norm(dart[:, POINT] - dart[:, PIVOT])


def _by_width(edge: Values, at: Values, width: Values) -> Guarded:
    """The ends (B, 2, 2) of a mouth so wide along the edge, half of it on either side."""
    total = length(edge)
    half = width / 2.0
    room = np.minimum(value_of(at), value_of(total) - value_of(at))
    wanted = value_of(half)
    breach = Breach("dart-past-edge", wanted > room + _PAST, {"half": wanted, "room": room})
    ends = [along(edge, at - half).value, along(edge, at + half).value]
    return Guarded(stacked(ends, axis=1), (breach,))


def _by_angle(edge: Values, place: Values, pivot: Values, angle: Values, way: Values) -> Guarded:
    """The ends (B, 2, 2) of a mouth that is seen from the pivot under the angle, half of it on
    either side of the place."""
    axis = place - pivot
    beside = turned_quarter(axis)
    onward = np.where(value_of(dot(beside, way)) >= 0.0, 1.0, -1.0)
    ends, breaches = [], []
    for side in (-1.0, 1.0):
        turn = (side * onward * 0.5) * angle
        reach = _BEYOND * (np.cos(turn)[:, None] * axis + np.sin(turn)[:, None] * beside)
        found = crossing(line(pivot, pivot + reach).value, edge, "nearest", place)
        ends.append(found.value)
        missed = np.zeros(len(value_of(angle)), dtype=bool)
        for breach in found.breaches:
            missed |= np.broadcast_to(breach.failed, missed.shape)
        breaches.append(Breach("dart-misses-edge", missed, {"angle": value_of(angle)}))
    return Guarded(stacked(ends, axis=1), tuple(breaches))


def closed_dart(
    first: Values,
    last: Values,
    pivot: Values,
    short: Values,
    ways: tuple[Values, Values],
    pressed: str,
) -> Guarded:
    """The dart on these ends of its mouth, its legs made equal; `ways` are the directions (B, 2) in
    which the edge comes to the one end and leaves the other."""
    legs = [norm(first - pivot), norm(last - pivot)]
    longest = np.maximum(*legs)
    first, last = (
        np.where(
            (value_of(own) == value_of(longest))[:, None],
            end,
            pivot + longest[:, None] * unit(end - pivot),
        )
        for own, end in zip(legs, (first, last), strict=True)
    )
    middle = (first + last) / 2.0
    axis = unit(middle - pivot)
    point = pivot + short[:, None] * axis
    at_pivot = value_of(legs[0]) <= COINCIDENT
    at_pivot |= value_of(legs[1]) <= COINCIDENT
    given, deep = value_of(short), value_of(norm(middle - pivot))
    cap = _cap(first, last, point, axis, ways, pressed)
    breaches = (
        Breach("same-point", at_pivot, {}),
        Breach("dart-too-short", (given < 0.0) | (given >= deep), {"short": given, "leg": deep}),
        *cap.breaches,
    )
    return Guarded(stacked([first, cap.value, last, point, pivot], axis=1), breaches)


def _cap(
    first: Values,
    last: Values,
    point: Values,
    axis: Values,
    ways: tuple[Values, Values],
    pressed: str,
) -> Guarded:
    """The point (B, 2) of the mouth on the dart's fold.

    The dart is folded and pressed to one side; cut along the edge of that side, its cloth opens out
    to that edge's mirror image in the leg, as far as the fold, and back again.
    """
    to_first = _pressed_to_first(value_of(first), value_of(last), pressed)[:, None]
    end = np.where(to_first, first, last)
    # along the edge, away from the mouth
    away = np.where(to_first, -ways[0], ways[1])
    leg = unit(end - point)
    mirrored = 2.0 * dot(away, leg)[:, None] * leg - away
    crossed = cross(mirrored, axis)
    reach = cross(point - end, axis) / crossed
    spread = np.arctan2(
        np.absolute(cross(first - point, last - point)), dot(first - point, last - point)
    )
    open_ = ~(value_of(reach) > 0.0) & finite(end, point)
    breach = Breach("dart-mouth-open", open_, {"angle": value_of(spread)})
    return Guarded(end + reach[:, None] * mirrored, (breach,))


def _pressed_to_first(
    first: NDArray[np.float64], last: NDArray[np.float64], pressed: str
) -> NDArray[np.bool_]:
    """Whether (B,) the dart is pressed to the side of its first leg. Unsaid, an upright dart is
    pressed towards the centre and a level one down (common practice, no source)."""
    apart = first - last
    if pressed:
        across, down = _COMPASS[pressed]
        return np.asarray(apart[:, 0] * across + apart[:, 1] * down > 0.0)
    upright = np.abs(apart[:, 0]) >= np.abs(apart[:, 1])
    return np.where(upright, apart[:, 0] < 0.0, apart[:, 1] > 0.0)
