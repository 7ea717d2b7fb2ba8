"""Rigid motions: what is laid elsewhere and turned, mirrored, or carried along with a part.

In: points, curves or darts (B, ..., 2), points (B, 2), angles (B,) in radians. Out: the same,
moved. A part is known by the run of the outline that bounds it (B, n, 4, 2), closed straight by way
of a point. Nothing fails.

    laid(sleeve_cap, start, goal, angle)
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import matched, stacked
from godet.geometry.cubics import evaluate, point_on
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import end_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.locating import ON_EDGE, closest_place
from godet.geometry.points import cross, dot, norm, unit
from godet.geometry.polygons import within

_CHORDS = 16  # to a cubic, of the polygon that tells what lies inside a part


def laid(thing: Values, start: Values, goal: Values, angle: Values) -> Values:
    """The thing (B, ..., 2) turned by an angle (B,), and so laid that what was at `start` (B, 2)
    comes to `goal`."""
    thing, start, goal, angle = matched(thing, start, goal, angle)
    wide = (len(angle), *(1,) * (thing.ndim - 2))
    cosine, sine = (each.reshape(*wide) for each in (np.cos(angle), np.sin(angle)))
    offset = thing - start.reshape(*wide, 2)
    across = offset[..., 0] * cosine - offset[..., 1] * sine
    down = offset[..., 0] * sine + offset[..., 1] * cosine
    return stacked([across, down], axis=across.ndim) + goal.reshape(*wide, 2)


def mirrored(thing: Values, first: Values, last: Values) -> Values:
    """The thing (B, ..., 2) in the mirror of the line through two points (B, 2)."""
    thing, first, last = matched(thing, first, last)
    wide = (len(first), *(1,) * (thing.ndim - 2), 2)
    way = unit(last - first).reshape(*wide)
    offset = thing - first.reshape(*wide)
    return 2.0 * dot(offset, way)[..., None] * way - offset + first.reshape(*wide)


def carried(
    thing: Values, run: Values, by_way_of: Values, start: Values, goal: Values, angle: Values
) -> Values:
    """A point (B, 2) or dart (B, 5, 2), laid as `laid` does where it lies inside the part that
    `run` bounds or on the run itself, and left where it is elsewhere."""
    thing, run, by_way_of, start, goal, angle = matched(thing, run, by_way_of, start, goal, angle)
    place = value_of(thing) if thing.ndim == 2 else value_of(thing)[:, 0]
    moves = belongs(run, by_way_of, place)
    moved = laid(thing, start, goal, angle)
    return np.where(moves.reshape(-1, *(1,) * (thing.ndim - 1)), moved, thing)


def belongs(run: Values, by_way_of: Values, point: Values) -> NDArray[np.bool_]:
    """Whether (B,) the point lies inside the part or on its run of the outline. The ends of the run
    go with it: the moving end of a mouth comes to lie on the other where the dart is closed."""
    curve, corner, place = (value_of(each) for each in matched(run, by_way_of, point))
    nearest = point_on(curve, closest_place(curve, place))
    on_run = norm(nearest - place) <= ON_EDGE
    return np.asarray(on_run | _inside(curve, corner, place))


def _inside(
    run: NDArray[np.float64], corner: NDArray[np.float64], point: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Whether a ray outward from the point leaves the part's polygon an odd number of times."""
    shares = np.linspace(0.0, 1.0, _CHORDS, endpoint=False)
    chords = evaluate(run[:, :, None], shares[None, None]).reshape(len(run), -1, 2)
    polygon = np.concatenate([chords, end_point(run)[:, None], corner[:, None]], axis=1)
    return within(polygon, point)


def turn_about(pivot: Values, start: Values, goal: Values) -> Values:
    """The angle (B,) in radians, turning from outward to down, that takes the direction from the
    pivot to `start` into that to `goal`."""
    before, after = start - pivot, goal - pivot
    return np.arctan2(cross(before, after), dot(before, after))


def part_of_turn(angle: Values, share: Values) -> Guarded:
    """A share (B,) of an angle (B,) in radians. Fails with "dart-share" {share} unless it is more
    than nothing and less than all of it."""
    angle, share = matched(angle, share)
    given = value_of(share)
    return Guarded(
        angle * share, (Breach("dart-share", (given <= 0.0) | (given >= 1.0), {"share": given}),)
    )


def turn_between(first: Values, last: Values, new_first: Values, new_last: Values) -> Values:
    """The angle (B,) that takes the direction from first to last into that from new_first to
    new_last."""
    before, after = last - first, new_last - new_first
    return np.arctan2(cross(before, after), dot(before, after))
