"""How wide an outline is at a level.

In: an outline (B, n, 4, 2), all the edges of a piece in any order, and a depth (B,) in mm. Out:
the innermost and outermost place across (B, 2), or the width between them (B,). A level above or
below the whole outline fails with "level-misses".

    width_at(outline, hip_depth).value                   # (B,) mm
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import finite, matched
from godet.geometry.dual import Values, value_of
from godet.geometry.guards import Breach, Guarded
from godet.geometry.levels import across_at_level, at_level, depth_range


def width_at(outline: Values, down: Values) -> Guarded:
    """The width (B,) in mm at a depth (B,). Fails with "level-misses" {down, highest, lowest}."""
    reach = reach_at(outline, down)
    return Guarded(reach.value[:, 1] - reach.value[:, 0], reach.breaches)


@np.errstate(all="ignore")
def reach_at(outline: Values, down: Values) -> Guarded:
    """The innermost and the outermost place across (B, 2) at a depth (B,). Fails with
    "level-misses" {down, highest, lowest}."""
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
    return Guarded(reach, (Breach("level-misses", missed, numbers),))


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
