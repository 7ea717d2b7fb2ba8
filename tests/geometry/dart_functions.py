"""The numeric functions of darts and of what alters a whole piece, with inputs for many bodies;
they stand among those of `every_function`.

What must lie on an edge to the last bit (a dart on the edge whose length is told) is made from that
edge anew inside the function that is tried, so that it stays there when the edge is moved a little.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import pairwise
from typing import Any

import numpy as np
from garment_curves import Floats, bodice

from godet.geometry import (
    arc_length,
    cut_darts,
    dart_edges,
    darts,
    lines,
    locating,
    moving,
    refairing,
    sewn,
    spreading,
    stretches,
)
from godet.geometry.ends import end_point, start_point
from godet.geometry.outlines import together

Entry = tuple[Callable[..., Any], tuple[Floats, ...]]


def _dart(edge: Any, place: Any, pivot: Any, width: Any, short: Any) -> Any:
    return darts.dart(edge, place, pivot, width, short).value


def _darted(edge: Any, *how: Any) -> Any:
    return dart_edges.darted(edge, _dart(edge, *how))


def _darted_length(edge: Any, *how: Any) -> Any:
    made = _dart(edge, *how)
    return sewn.length_as_sewn(dart_edges.darted(edge, made), made)


def _place_beyond_dart(edge: Any, place: Any, pivot: Any, width: Any, short: Any, by: Any) -> Any:
    made = _dart(edge, place, pivot, width, short)
    return sewn.along_as_sewn(dart_edges.darted(edge, made), start_point(edge), by, made)


def _gathered_length(edge: Any, place: Any, over: Any, taken: Any) -> Any:
    return sewn.length_as_sewn(edge, sewn.gathers(edge, place, over, taken).value)


def _place_in_gathers(edge: Any, place: Any, over: Any, taken: Any, by: Any) -> Any:
    made = sewn.gathers(edge, place, over, taken).value
    return sewn.along_as_sewn(edge, start_point(edge), by, made)


def _width_above_dart(edge: Any, rest: Any, down: Any, *how: Any) -> Any:
    made = _dart(edge, *how)
    return sewn.width_as_sewn(together(dart_edges.darted(edge, made), rest), down, made)


def _parts(edge: Any, *how: Any) -> tuple[Any, Any, Any]:
    """The parts of an edge before and behind a dart, with cubics of no length, and the dart."""
    made = _dart(edge, *how)
    before = locating.until(edge, made[:, darts.FIRST]).value
    return before, locating.from_point(edge, made[:, darts.LAST]).value, made


def _around(before: Any, after: Any, made: Any) -> Any:
    return dart_edges.around_dart(before, made, after)


def of_darts(bodies: int) -> dict[str, Entry]:
    """Every function by a name of its own; one with constants as a `partial`."""
    random = np.random.default_rng(19)

    def drawn(low: float, high: float, *shape: int) -> Floats:
        return random.uniform(low, high, (bodies, *shape))

    top = bodice(bodies, seed=2)
    bottom, side, armhole = top.bottom, top.side, top.armhole
    along_bottom = drawn(0.35, 0.55) * arc_length.length(bottom)
    place = arc_length.along(bottom, along_bottom).value
    pivot = place + np.array([[0.0, -160.0]]) + drawn(-25.0, 25.0, 2)
    width, short = drawn(20.0, 40.0), drawn(10.0, 25.0)
    how = (place, pivot, width, short)
    on_bottom = _dart(bottom, *how)
    on_side = arc_length.along(side, drawn(0.3, 0.6) * arc_length.length(side)).value
    far = armhole + np.array([100.0, 300.0]) + drawn(-10.0, 10.0, 1, 1, 2)
    angle, share = drawn(-0.4, 0.4), drawn(0.2, 0.8)
    first, last = drawn(-50.0, 50.0, 2), drawn(100.0, 150.0, 2)
    over, taken = drawn(60.0, 90.0), drawn(8.0, 20.0)
    run = np.concatenate([armhole, side], axis=1)
    centre = start_point(bottom)
    inside = np.array([[150.0, 300.0]]) + drawn(-20.0, 20.0, 2)
    beside = np.where(drawn(0.0, 1.0)[:, None] > 0.5, inside, inside - np.array([[140.0, 0.0]]))
    onward = end_point(bottom) + drawn(-0.4, 0.4, 2)
    upper, lower = inside - np.array([[0.0, 60.0]]), inside + np.array([[0.0, 70.0]])
    double = darts.double_dart(inside, width, upper, lower).value
    centre_end = inside * np.array([[0.0, 1.0]]) - drawn(8.0, 30.0, 1) * np.array([[0.0, 1.0]])
    side_end = centre_end + np.array([[350.0, 0.0]]) + drawn(-10.0, 10.0, 1) * np.array([[0, 1]])
    dividing = lines.line(centre_end, side_end).value
    corners = [side_end, side_end * np.array([[1.0, 0.0]]), np.zeros((bodies, 2)), centre_end]
    above = [lines.line(*ends).value for ends in pairwise(corners)]
    kept = np.concatenate([dividing, *above], axis=1)
    rest = np.concatenate([top.neck, top.shoulder, armhole, side, top.centre], axis=1)
    return {
        "dart": (darts.dart, (bottom, *how)),
        "dart pressed outward": (partial(darts.dart, pressed="outward"), (bottom, *how)),
        "dart by an angle": (
            partial(darts.dart, by="angle"),
            (side, on_side, pivot, drawn(0.1, 0.4), short),
        ),
        "dart_between": (darts.dart_between, (side, far, pivot, short)),
        "dart_between cut parts": (
            lambda *given: darts.dart_between(*_parts(*given)[:2], *given[2::2]),
            (bottom, *how),
        ),
        "double_dart": (darts.double_dart, (inside, width, upper, lower)),
        "cut_dart": (cut_darts.cut_dart, (double, dividing, kept)),
        "joined_darts": (darts.joined_darts, (on_bottom, on_bottom[:, ::-1] + pivot[:, None])),
        "darted": (_darted, (bottom, *how)),
        "around_dart": (dart_edges.around_dart, (side, on_bottom, far)),
        "around_dart cut parts": (lambda *given: _around(*_parts(*given)), (bottom, *how)),
        "pleat": (sewn.pleat, (on_bottom,)),
        "legs_differ": (darts.legs_differ, (side, far, pivot)),
        "dart_strays": (
            lambda edge, *given: dart_edges.dart_strays(edge, _dart(edge, *given)),
            (bottom, *how),
        ),
        "dart width": (darts.width, (on_bottom,)),
        "dart angle": (darts.angle, (on_bottom,)),
        "dart leg": (darts.leg, (on_bottom,)),
        "short_of_pivot": (darts.short_of_pivot, (on_bottom,)),
        "dart middle": (darts.middle, (on_bottom,)),
        "row_of": (partial(darts.row_of, row=darts.POINT), (on_bottom,)),
        "gathers": (sewn.gathers, (bottom, place, over, taken)),
        "taken_up": (sewn.taken_up, (bottom, on_bottom)),
        "with_darts": (sewn.with_darts, (bottom, on_bottom)),
        "as_cut": (sewn.as_cut, (bottom,)),
        "length_as_sewn": (sewn.length_as_sewn, (bottom,)),
        "length of a darted edge": (_darted_length, (bottom, *how)),
        "length of a gathered edge": (_gathered_length, (bottom, place, over, taken)),
        "place beyond a dart": (
            _place_beyond_dart,
            (bottom, *how, along_bottom + drawn(10.0, 40.0)),
        ),
        "place before a dart": (_place_beyond_dart, (bottom, *how, along_bottom - 45.0)),
        "place in gathers": (_place_in_gathers, (bottom, place, over, taken, along_bottom)),
        "width_as_sewn": (sewn.width_as_sewn, (top.outline, drawn(150.0, 380.0))),
        "width above a dart": (
            _width_above_dart,
            (bottom, rest, drawn(370.0, 400.0), *how),
        ),
        "width across a double dart": (
            sewn.width_as_sewn,
            (
                top.outline,
                inside[:, 1] + 20.0,
                darts.double_dart(inside, width, upper, lower).value,
            ),
        ),
        "stretch": (stretches.stretch, (armhole, *_places(armhole, random))),
        "stretch against the curve": (
            stretches.stretch,
            (armhole, *reversed(_places(armhole, random))),
        ),
        "mouth_end": (stretches.mouth_end, (bottom, on_bottom, centre)),
        "bridged": (stretches.bridged, (side, far, drawn(5.0, 20.0))),
        "bridged in a corner": (
            lambda curve, point, reach: stretches.bridged(
                curve, np.stack([point] * 4, axis=1)[:, None], reach
            ),
            (side, far[:, 0, 0], over),
        ),
        "part_of_turn": (moving.part_of_turn, (angle, share)),
        "bridged beside a dart": (stretches.bridged, (side, far, over, on_bottom)),
        "bridged cut parts": (
            lambda *given: stretches.bridged(*_parts(*given)[:2], given[3]),
            (bottom, *how),
        ),
        "reached_as_sewn": (sewn.reached_as_sewn, (bottom, place, on_bottom)),
        "closed_up": (
            lambda *given: stretches.closed_up(_around(*_parts(*given)), between=2),
            (bottom, *how),
        ),
        "closed_up whole": (partial(stretches.closed_up, between=0), (armhole,)),
        "laid": (moving.laid, (armhole, first, last, angle)),
        "mirrored": (moving.mirrored, (armhole, first, last)),
        "carried": (moving.carried, (beside, run, centre, first, last, angle)),
        "carried dart": (moving.carried, (on_bottom, run, centre, first, last, angle)),
        "turn_about": (moving.turn_about, (pivot, first, last)),
        "turn_between": (moving.turn_between, (first, last, pivot, place)),
        "ending_at": (refairing.ending_at, (bottom, onward)),
        "ending_at beyond a dart": (
            lambda edge, goal, *given: refairing.ending_at(
                dart_edges.darted(edge, _dart(edge, *given)),
                goal,
                *(_dart(edge, *given)[:, row] for row in (darts.FIRST, darts.LAST)),
            ),
            (bottom, onward, *how),
        ),
        "beginning_at": (refairing.beginning_at, (armhole, start_point(armhole) + share[:, None])),
        "brought to its end": (partial(refairing.brought_to, at_start=False), (bottom, onward)),
        "brought to its start": (
            partial(refairing.brought_to, at_start=True),
            (armhole, start_point(armhole) + drawn(-0.4, 0.4, 2)),
        ),
        "spread_angle": (spreading.spread_angle, (run, drawn(20.0, 40.0), drawn(0.0, 10.0))),
        "spread_to": (spreading.spread_to, (run, drawn(0.0, 10.0), angle)),
    }


def _places(curve: Floats, random: np.random.Generator) -> tuple[Floats, Floats]:
    """Two points of a curve, one behind the other."""
    total = arc_length.length(curve)
    shares = random.uniform(0.1, 0.4, len(total)), random.uniform(0.6, 0.9, len(total))
    first, last = (arc_length.along(curve, share * total).value for share in shares)
    return first, last


def not_derived(bodies: int) -> dict[str, Entry]:
    """What tells whether something is so of two runs; and what is tried above with a dart that
    stays on its edge."""
    top = bodice(bodies, seed=3)
    closed = lines.line(end_point(top.side), start_point(top.bottom)).value
    place = arc_length.along(top.bottom, 0.5 * arc_length.length(top.bottom)).value
    pivot = place - np.array([[0.0, 150.0]])
    made = _dart(top.bottom, place, pivot, np.full(bodies, 30.0), np.full(bodies, 10.0))
    run = np.concatenate([top.side, closed], axis=1)
    return {
        "same_side": (spreading.same_side, (run, top.bottom)),
        "darted by a dart": (dart_edges.darted, (top.bottom, made)),
        "dart_strays of a dart": (dart_edges.dart_strays, (top.bottom, made)),
    }


# by name, inputs whose numbers do not go into the result's: they tell where it is, whether it
# moves, or stand beside it. The solver passes on what failed in them.
STANDING_BESIDE: dict[str, frozenset[int]] = {
    "dart_strays": frozenset({4}),
    "taken_up": frozenset({1}),
    "with_darts": frozenset({1}),
    "place before a dart": frozenset({2, 4}),
    "place in gathers": frozenset({1, 2}),
    "width above a dart": frozenset({0, 3, 4, 5}),
    "mouth_end": frozenset({0, 2}),
    "bridged cut parts": frozenset({4}),
    "bridged in a corner": frozenset({2}),
    "bridged beside a dart": frozenset({3}),
    "carried": frozenset({1, 2, 3, 4, 5}),
    "carried dart": frozenset({1, 2, 3, 4, 5}),
}
