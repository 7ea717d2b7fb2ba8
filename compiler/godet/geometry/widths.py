"""How wide an outline is at a level.

In: an outline (B, n, 4, 2), all the edges of a piece in any order, and a depth (B,) in mm. Out:
the innermost and outermost place across (B, 2), or the width between them (B,). A level above or
below the whole outline fails with "level-misses", one that only touches it there, as the lowest
point of a bow, with "level-touches": the least change would miss it, or find it wide.

    width_at(outline, hip_depth).value                   # (B,) mm
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import finite, matched
from godet.geometry.dual import Values, value_of
from godet.geometry.guards import Breach, Guarded
from godet.geometry.levels import (
    ON_LEVEL,
    TANGENT,
    LevelPlaces,
    across_at_level,
    angle_to_level,
    at_level,
    depth_range,
)


def width_at(outline: Values, down: Values) -> Guarded:
    """The width (B,) in mm at a depth (B,). Fails with "level-misses" {down, highest, lowest} and
    "level-touches" {angle}."""
    reach, misses, touches = _reach(outline, down)
    return Guarded(reach[:, 1] - reach[:, 0], (misses, touches))


def reach_at(outline: Values, down: Values) -> Guarded:
    """The innermost and the outermost place across (B, 2) at a depth (B,). Fails with
    "level-misses" {down, highest, lowest}."""
    reach, misses, _ = _reach(outline, down)
    return Guarded(reach, (misses,))


@np.errstate(all="ignore")
def _reach(outline: Values, down: Values) -> tuple[Values, Breach, Breach]:
    """Both places across (B, 2), the bodies whose level misses, and those whose level touches."""
    outline, down = matched(outline, down)
    bodies = len(outline)
    places = at_level(outline, down)
    across = across_at_level(outline, down, places)
    found = np.zeros(bodies, dtype=bool)
    found[places.body] = True
    inner = _first_with_least(places.body, value_of(across), bodies)
    outer = _first_with_least(places.body, -value_of(across), bodies)
    if len(places.body):
        ends = np.stack([across[inner], across[outer]], axis=-1)
        reach = np.where(found[:, None], ends, np.nan)
    else:
        reach = np.full((bodies, 2), np.nan)
    missed = ~found & finite(outline, down)
    numbers = {}
    if missed.any():
        highest, lowest = depth_range(outline)
        numbers = {"down": value_of(down), "highest": highest, "lowest": lowest}
    angle = _steepest(outline, places, value_of(across), np.stack([inner, outer])).min(axis=0)
    return (
        reach,
        Breach("level-misses", missed, numbers),
        Breach("level-touches", found & (angle < TANGENT), {"angle": angle}),
    )


def _steepest(
    outline: Values, places: LevelPlaces, across: NDArray[np.float64], ends: NDArray[np.intp]
) -> NDArray[np.float64]:
    """At the places of these numbers (K, B), the largest angle (K, B) to the level among the edges
    that come together there."""
    steepest = np.zeros(ends.shape)
    if not len(places.body):
        return steepest
    angle = angle_to_level(outline, places)
    for row, end in zip(steepest, ends, strict=True):
        here = np.abs(across - across[end][places.body]) <= ON_LEVEL
        np.maximum.at(row, places.body[here], angle[here])
    return steepest


def _first_with_least(
    body: NDArray[np.intp], key: NDArray[np.float64], bodies: int
) -> NDArray[np.intp]:
    """For each body the number of its first place with the least key; 0 for a body without a
    place."""
    least = np.full(bodies, np.inf)
    np.minimum.at(least, body, key)
    chosen = np.full(bodies, len(body), dtype=np.intp)
    number = np.nonzero(key == least[body])[0]
    np.minimum.at(chosen, body[number], number)
    return np.where(chosen == len(body), 0, chosen)
