"""Notches on a finished outline.

In: a notch's edge, name and point, the edge as it is sewn, how the outline walks it, and how many
cuts mark it. Out: the `Notch`, or how far its point lies from the edge.

    notch_at("side", "hip_side", (240.0, 410.0), sewn_side, turned=False, count=1)
"""

from __future__ import annotations

from collections.abc import Collection
from typing import Literal

import numpy as np

from godet.geometry.angles import direction_on
from godet.geometry.cubics import curve_before, point_on
from godet.geometry.locating import closest_place
from godet.geometry.points import distance, turned_quarter
from godet.pattern.paths import length
from godet.pattern.pieces import Notch, Point
from godet.pattern.sewn_edges import SewnEdge

ON_EDGE = 0.01  # mm


def notch_at(
    edge: str, name: str, at: Point, sewn: SewnEdge, *, turned: bool, count: Literal[1, 2]
) -> Notch | float:
    """The notch; where its point is more than `ON_EDGE` from the edge, that distance in mm."""
    curve, point = sewn.path[None], np.array([at])
    place = closest_place(curve, point)
    away = float(distance(point_on(curve, place), point)[0])
    if away > ON_EDGE:
        return away
    # the walk has the piece on its right
    inward = turned_quarter(direction_on(curve, place).value)[0] * (-1.0 if turned else 1.0)
    along = sewn.distance_to(at)
    return Notch(
        edge=edge,
        name=name,
        at=at,
        outward=(0.0 - float(inward[0]), 0.0 - float(inward[1])),
        count=count,
        along=along if along is not None else length(curve_before(curve, place)[0]),
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


def cuts_of_pair(pieces: Collection[str], point: str, *, on_fold: bool) -> Literal[1, 2]:
    """How many cuts mark two notches that meet, and so must look alike: as on a piece of its own,
    one where either of them is on a front piece (common practice, no source)."""
    if any(piece.startswith("front") for piece in pieces):
        return 1
    piece = next((name for name in pieces if name.startswith("back")), "")
    return cuts(piece, point, sewn_to_front=False, on_fold=on_fold)
