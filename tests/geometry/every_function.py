"""Every numeric function of the kernel with inputs for many bodies: the tests that hold for all
run over it.

What an operation needs besides its inputs is given with `partial`, so that it can be told which
function stands behind. Those of OF_CONDITIONS carry no derivative, or say themselves that a number
is missing.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

import numpy as np
from dart_functions import not_derived, of_darts
from garment_curves import DOWN, Floats, bodice

from godet.geometry import (
    angles,
    arc_length,
    arcs,
    arcs_square,
    areas,
    bends,
    blending,
    coordinates,
    crossings,
    cubics,
    ends,
    extremes,
    hobby,
    joining,
    lines,
    locating,
    nearest,
    outlines,
    parallel,
    points,
    reshaping,
    scalars,
    sewn,
    splines,
    widths,
)
from godet.geometry.guards import Guarded

BODIES = 500
_RANDOM = np.random.default_rng(7)


def _random(low: float, high: float, *shape: int) -> Floats:
    return _RANDOM.uniform(low, high, (BODIES, *shape))


_BODICE = bodice(BODIES)
_ARMHOLE, _SIDE, _BOTTOM = _BODICE.armhole, _BODICE.side, _BODICE.bottom
_ALONG_ARMHOLE = _random(0.1, 0.9) * arc_length.length(_ARMHOLE)
_ON_ARMHOLE = arc_length.along(_ARMHOLE, _ALONG_ARMHOLE).value
_NEAR_ARMHOLE = _ON_ARMHOLE + _random(-8.0, 8.0, 2)
_ACROSS = lines.line(
    _random(-60.0, -50.0, 2) + np.array([[0, 210]]), _random(300.0, 310.0, 2) - np.array([[0, 150]])
).value
_LEVEL = _random(90.0, 400.0)
_P, _Q, _R = _random(-50, 50, 2), _random(100, 150, 2), _random(200, 250, 2)
_WAY = points.direction_at(_random(0.3, 1.2))
_OVER = _random(40.0, 90.0)
_LATE_ON_ARMHOLE = arc_length.along(
    _ARMHOLE, _random(0.75, 0.95) * arc_length.length(_ARMHOLE)
).value
_ON_NECK = arc_length.along(_BODICE.neck, _random(0.1, 0.9) * arc_length.length(_BODICE.neck)).value
_HANGING = splines.hobby(
    [_P, _P + _random(190, 210, 2) * np.array([[1.0, 0.05]])],
    points.direction_at(_random(0.6, 1.0)),
    points.direction_at(_random(-1.0, -0.6)),
).value
_SHARE = _random(0.97, 1.06)
_SHUFFLED = [4, 5, 6, 7, 8, 9, 10, 11, 12, 3, 0, 1, 2, 13]  # side and bottom, armhole, neck, ..
_SMALL = _random(4.0, 12.0)
_TURN, _NEAR_LEVEL = _random(0.2, 1.2), _LEVEL + np.where(_SMALL > 8.0, 5.0, -5.0)
_BELOW = lines.line(ends.end_point(_SIDE), ends.end_point(_SIDE) + _random(30, 40, 2) + 90 * DOWN)
_LOWER = _BELOW.value


def plain(result: Any) -> Any:
    """The value itself of a plain or a guarded result."""
    return result.value if isinstance(result, Guarded) else result


def _cut(curve: Any, point: Any) -> Any:
    """The curve up to a point: for about half of the bodies its last cubic is degenerate."""
    return locating.until(curve, point).value


_TO_CUT = (_ARMHOLE, _ON_ARMHOLE)
Function = Callable[..., Any]

EVERY_FUNCTION: dict[str, tuple[Function, tuple[Floats, ...]]] = {
    "moved": (points.moved, (_P, _WAY, _SMALL)),
    "toward": (points.toward, (_P, _Q, _SMALL)),
    "between": (points.between, (_P, _Q, _random(0.0, 1.0))),
    "distance": (points.distance, (_P, _Q)),
    "direction_at": (points.direction_at, (_random(-3.0, 3.0),)),
    "direction_between": (points.direction_between, (_P, _Q)),
    "turned_quarter": (points.turned_quarter, (_WAY,)),
    "line": (lines.line, (_P, _Q)),
    "hobby free": (lambda p, q, r: hobby.hobby([p, q, r]), (_P, _Q, _R)),
    "hobby given": (lambda p, q, w: hobby.hobby([p, q], w, w), (_P, _Q, _WAY)),
    "hobby half given": (lambda p, q, w: hobby.hobby([p, q], arriving=w), (_P, _Q, _WAY)),
    "hobby through": (lambda p, q, r, w: hobby.hobby([p, q, r, r + p], w, w), (_P, _Q, _R, _WAY)),
    "arc": (arcs.arc, (_P, _Q, _WAY)),
    "arc at end": (lambda p, q, w: arcs.arc(p, q, w, at_end=True), (_P, _Q, _WAY)),
    "arc of more than half a circle": (lambda p, q, w: arcs.arc(p, q, -w), (_P, _Q, _WAY)),
    "length": (arc_length.length, (_ARMHOLE,)),
    "length of a cut": (lambda c, p: arc_length.length(_cut(c, p)), _TO_CUT),
    "along": (arc_length.along, (_ARMHOLE, _ALONG_ARMHOLE)),
    "start_direction": (ends.start_direction, (_ARMHOLE,)),
    "end_direction": (lambda c, p: ends.end_direction(_cut(c, p)), _TO_CUT),
    "reversed_curve": (cubics.reversed_curve, (_ARMHOLE,)),
    "from the centre": (partial(ends.from_the, which="centre"), (_BOTTOM,)),
    "from the top": (partial(ends.from_the, which="top"), (_BODICE.shoulder,)),
    "joined": (joining.joined, (_ARMHOLE, _SIDE)),
    "extended": (lambda c, p, d: joining.extended(_cut(c, p), d), (*_TO_CUT, _SMALL)),
    "locate": (lambda c, p: np.stack(locating.locate(c, p), axis=-1), (_ARMHOLE, _NEAR_ARMHOLE)),
    "until": (locating.until, (_ARMHOLE, _ON_ARMHOLE)),
    "from_point": (locating.from_point, (_ARMHOLE, _ON_ARMHOLE)),
    "blend": (blending.blend, (_SIDE, _LOWER, _OVER)),
    "blend of curves": (blending.blend, (_ARMHOLE, _SIDE, _OVER)),
    "blend_gives": (blending.blend_gives, (_SIDE, _LOWER, _OVER)),
    "blend_strays": (blending.blend_strays, (_SIDE, _LOWER, _OVER)),
    "fair blend": (lambda a, b, d: blending.blend(a, b, d, fair=True), (_ARMHOLE, _SIDE, _OVER)),
    "fair blend_gives": (
        lambda a, b, d: blending.blend_gives(a, b, d, fair=True),
        (_ARMHOLE, _SIDE, _OVER),
    ),
    "fair blend_strays": (
        lambda a, b, d: blending.blend_strays(a, b, d, fair=True),
        (_SIDE, _LOWER, _OVER),
    ),
    "lowest": (partial(extremes.extreme, way="lowest"), (_HANGING,)),
    "innermost": (lambda c: extremes.extreme(-c[..., ::-1], "innermost"), (_HANGING,)),
    "nearest_on": (nearest.nearest_on, (_ARMHOLE, _NEAR_ARMHOLE)),
    "radius_at": (bends.radius_at, (_BODICE.neck, _ON_NECK)),
    "reshaped to a length": (reshaping.reshaped, (_ARMHOLE, 1.01 * arc_length.length(_ARMHOLE))),
    "reshaped": (lambda c, s: reshaping.reshaped(c, s * arc_length.length(c)), (_ARMHOLE, _SHARE)),
    "reshaped cut": (
        lambda c, p: reshaping.reshaped(_cut(c, p), 1.002 * arc_length.length(_cut(c, p))),
        (_ARMHOLE, _LATE_ON_ARMHOLE),
    ),
    "enclosed": (areas.enclosed, (_BODICE.outline[:, _SHUFFLED],)),
    "hobby with tension": (
        lambda p, q, r, w, t: splines.hobby([p, q, r, r + p], w, w, t),
        (_P, _Q, _R, _WAY, _random(0.75, 3.0)),
    ),
    "crossing": (lambda a, b: crossings.crossing(a, b, "lowest"), (_ARMHOLE, _ACROSS)),
    "crossing nearest": (
        lambda a, b, p: crossings.crossing(a, b, "nearest", p),
        (_BODICE.outline, _ACROSS, _P),
    ),
    "width_at": (widths.width_at, (_BODICE.outline, _LEVEL)),
    "reach_at": (widths.reach_at, (_BODICE.outline, _LEVEL)),
    "angle_between": (angles.angle_between, (_SIDE, _ARMHOLE)),
    "corner_over_seam": (angles.corner_over_seam, (_SIDE, _ARMHOLE, _ARMHOLE, _SIDE)),
    "square_direction": (angles.square_direction, (_ARMHOLE, _ON_ARMHOLE, _P)),
    "direction_along": (angles.direction_along, (_ARMHOLE, _ON_ARMHOLE, _P)),
    "parallel": (parallel.parallel, (_ARMHOLE, _SMALL)),
    "parallel of a cut": (lambda c, p, d: parallel.parallel(_cut(c, p), d), (*_TO_CUT, _SMALL)),
    "area": (areas.area, (_BODICE.outline,)),
    "spline": (partial(splines.spline, leaving=True, arriving=True), (_P, _Q, _R, _WAY, _WAY)),
    "square_arc": (arcs_square.square_arc, (_ON_ARMHOLE, _R, _ARMHOLE)),
    "together": (outlines.together, (_ARMHOLE, _SIDE, _BOTTOM)),
    "depth_of": (outlines.depth_of, (_P,)),
    "extended from its end": (joining.extended, (_ARMHOLE, _SMALL)),
    "start_point": (ends.start_point, (_ARMHOLE,)),
    "end_point": (ends.end_point, (_ARMHOLE,)),
    "end_direction of a whole": (ends.end_direction, (_ARMHOLE,)),
    "along_from": (
        sewn.along_as_sewn,
        (_ARMHOLE, ends.end_point(_ARMHOLE), _ALONG_ARMHOLE),
    ),
    "crossing_by": (partial(crossings.crossing_by, selector="lowest"), (_ARMHOLE, _ACROSS)),
    "point_at": (coordinates.point_at, (_LEVEL, _OVER)),
    "offset": (coordinates.offset, (_P, _Q)),
    "shifted": (coordinates.shifted, (_P, _Q)),
    "across_from": (coordinates.across_from, (_P, _Q)),
    "down_from": (coordinates.down_from, (_P, _Q)),
    "total": (scalars.total, (_LEVEL, _OVER)),
    "difference": (scalars.difference, (_LEVEL, _OVER)),
    "product": (scalars.product, (_LEVEL, _OVER)),
    "quotient": (scalars.quotient, (_LEVEL, _OVER)),
    "negative": (scalars.negative, (_LEVEL,)),
    "to_the_power": (partial(scalars.to_the_power, numerator=3, denominator=2), (_SMALL,)),
    "sine": (scalars.sine, (_TURN,)),
    "cosine": (scalars.cosine, (_TURN,)),
    "tangent": (scalars.tangent, (_TURN,)),
    "angle_of_slope": (scalars.angle_of_slope, (_SMALL, _OVER)),
    "least": (scalars.least, (_LEVEL, _NEAR_LEVEL)),
    "greatest": (scalars.greatest, (_LEVEL, _NEAR_LEVEL)),
    "size": (scalars.size, (_LEVEL,)),
    **of_darts(BODIES),
}

_YES, _NO = _LEVEL > 200.0, _OVER > 60.0
OF_CONDITIONS: dict[str, tuple[Function, tuple[Any, ...]]] = {
    "within": (scalars.within, (_OVER, _OVER - 1.0, _OVER + 1.0)),
    "given": (scalars.given, (_OVER,)),
    "at_least": (scalars.at_least, (_LEVEL, _NEAR_LEVEL)),
    "more_than": (scalars.more_than, (_LEVEL, _NEAR_LEVEL)),
    "same_word": (partial(scalars.same_word, word="easy"), (np.where(_YES, "easy", "close"),)),
    "both": (scalars.both, (_YES, _NO)),
    "any_of": (scalars.any_of, (_YES, _NO)),
    "negated": (scalars.negated, (_YES,)),
    "compass": (partial(coordinates.compass, way="down"), ()),
    **not_derived(BODIES),
}


def behind(function: Function) -> Function:
    """The kernel's own function behind one that is given some of its constants."""
    return function.func if isinstance(function, partial) else function
