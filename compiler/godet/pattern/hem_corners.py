"""Corners of a hem: cut so that the hem, turned up along its sewing line, lies flat on the piece.

In: a hem's run and the run beside it, in walking order. Out: a `Corner` whose part beyond the hem
line is the mirror image of the neighbour's own cutting line; None where the corner stays a plain
one, because the neighbour is too short to be mirrored as deep as the hem, or runs on so nearly
along the hem line that its image would end farther away than `MITRE` times the allowance.

    hem_corner(side_run, bottom_run)

Near its end the hem line is taken as the straight line that it ends in: over the few centimetres
that a hem is deep a curved one strays from that by less than a fold does.
"""

from __future__ import annotations

import numpy as np

from godet.geometry.levels import across_at_level, at_level
from godet.geometry.points import cross, dot, norm
from godet.pattern.corners import (
    MITRE,
    Corner,
    Vector,
    ahead,
    behind,
    nearest_meeting,
    walked_back,
)
from godet.pattern.moving_out import Run
from godet.pattern.paths import NOTHING, part, straight, turned
from godet.pattern.pieces import Path


def hem_corner(before: Run, after: Run) -> Corner | None:
    """The corner between two runs of which one folds back."""
    reach = MITRE * max(before.allowance, after.allowance)
    at = before.corner
    if after.folds_back:
        side = ahead(before.moved, before.arriving, reach)
        return _mirrored(before.moved, side, after.moved, after.leaving, at, reach)
    # walked the other way round, the hem comes after its neighbour here too
    side = ahead(turned(after.moved), -after.leaving, reach)
    found = _mirrored(turned(after.moved), side, turned(before.moved), -before.arriving, at, reach)
    return walked_back(found, before, after) if found is not None else None


def _mirrored(
    moved: Path, side: Path, hem: Path, hem_way: Vector, at: Vector, reach: float
) -> Corner | None:
    """From the neighbour's moved path (and the same carried on, `side`) to the hem's."""
    leaves = _crossing(side, at, hem_way)
    if leaves is None:
        return None
    own = part(side, 0.0, leaves)
    turn: Vector = own[-1, 3]
    image = _across(turned(own), at, hem_way)
    foot = nearest_meeting(image, behind(hem, hem_way, reach), turn)
    if foot is None or foot.first <= 0.0 or float(norm(foot.at - at)) > reach:
        return None
    lines = [straight(moved[-1, 3], turn)] if leaves > len(moved) else []
    lines.append(part(image, 0.0, foot.first))
    lines.append(straight(foot.at, hem[0, 0]) if foot.second < 1.0 else NOTHING)
    return Corner(
        min(leaves, float(len(moved))), np.concatenate(lines), max(foot.second - 1.0, 0.0)
    )


def _across(path: Path, at: Vector, way: Vector) -> Path:
    """The mirror image across the line through a point."""
    offset = path - at
    image: Path = at + 2.0 * dot(offset, way)[..., None] * way - offset
    return image


def _crossing(path: Path, at: Vector, way: Vector) -> float | None:
    """The parameter, more than nought, at which a path crosses the line through a point, nearest
    to that point."""
    offset = path - at
    beside = np.stack([dot(offset, way), cross(way, offset)], axis=-1)
    level = np.zeros(1)
    places = at_level(beside[None], level)
    parameters = places.cubic + places.share
    away = np.where(parameters > 0.0, np.abs(across_at_level(beside[None], level, places)), np.inf)
    if not np.isfinite(away).any():
        return None
    return float(parameters[np.argmin(away)])
