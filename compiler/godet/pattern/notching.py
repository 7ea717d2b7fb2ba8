"""Notches on a finished outline.

In: a notch's line and point, the path of its edge, how the outline walks it, and how many cuts mark
it. Out: the `Notch`, or how far its point lies from the edge.

    notch_at(line, (240.0, 410.0), side_path, turned=False, count=1)
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from godet.geometry.angles import direction_on
from godet.geometry.cubics import point_on
from godet.geometry.locating import closest_place
from godet.geometry.points import distance, turned_quarter
from godet.geometry.sewn import reached_as_sewn
from godet.pattern.pieces import Notch, Path, Point
from godet.program.program import NotchLine

ON_EDGE = 0.01  # mm


def notch_at(
    line: NotchLine,
    at: Point,
    path: Path,
    take_ups: Sequence[NDArray[np.float64]] = (),
    *,
    turned: bool,
    count: Literal[1, 2],
) -> Notch | float:
    """The notch; where its point is more than `ON_EDGE` from the edge, that distance in mm.
    `take_ups` is all that is taken up on the edge when it is sewn."""
    curve, point = path[None], np.array([at])
    place = closest_place(curve, point)
    away = float(distance(point_on(curve, place), point)[0])
    if away > ON_EDGE:
        return away
    # the walk has the piece on its right
    inward = turned_quarter(direction_on(curve, place).value)[0] * (-1.0 if turned else 1.0)
    return Notch(
        edge=line.edge,
        name=line.name,
        at=at,
        outward=(0.0 - float(inward[0]), 0.0 - float(inward[1])),
        count=count,
        along=float(reached_as_sewn(curve, point, *(rows[None] for rows in take_ups))[0]),
    )


def cuts(piece: str, point: str, *, sewn_to_front: bool, on_fold: bool) -> Literal[1, 2]:
    """How many cuts mark a notch: one on the front, two on the back (common practice, no source).

    Two on a back piece and at a point named for the back, as on the back half of a sleeve cap. One
    where a back edge is sewn to a front one, because the two notches that meet must look alike,
    and one on a fold, which opens into its own mirror image.
    """
    if on_fold:
        return 1
    back_piece = piece.startswith("back") and not sewn_to_front
    return 2 if back_piece or "back" in point else 1
