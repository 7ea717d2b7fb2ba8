"""The lines across a piece at its levels.

In: the name and depth of a level, and the paths of the piece's edges. Out: the `Level`, from the
innermost to the outermost place of the outline there, or a `Missed` where the piece does not reach
it.

    level_line("waist", 410.0, edges)                    # Level("waist", 410.0, 0.0, 222.0)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from godet.geometry.widths import reach_at
from godet.pattern.pieces import Level, Path


@dataclass(frozen=True, slots=True)
class Missed:
    """Between which depths in mm the piece lies."""

    highest: float
    lowest: float


def level_line(name: str, at: float, edges: Mapping[str, Path]) -> Level | Missed:
    # in the order of names, as a recipe's own widths are measured: the same bits
    outline = np.concatenate([path for _, path in sorted(edges.items())])
    reach = reach_at(outline[None], np.array([at]))
    (breach,) = reach.breaches
    if breach.failed[0]:
        return Missed(float(breach.numbers["highest"][0]), float(breach.numbers["lowest"][0]))
    left, right = reach.value[0]
    return Level(name, at, float(left), float(right))
