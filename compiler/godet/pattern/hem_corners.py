"""Corners of a hem: cut so that the hem, turned up along its sewing line, lies flat on the piece.

In: a hem's run and the run beside it, in walking order. Out: a `Corner` whose part beyond the hem
line is the mirror image of the neighbour's own cutting line; None where the corner stays a plain
one, because the neighbour is too short to be mirrored as deep as the hem, or runs on so nearly
along the hem line that its image would end farther away than `MITRE` times the allowance.

    hem_corner(side_run, bottom_run)

A curved hem is mirrored across its own curve, and beyond its end across the straight line that it
ends in.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from godet.geometry.arc_length import cubic_lengths, place_at_length
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
from godet.pattern.mirroring import mirrored
from godet.pattern.moving_out import Run
from godet.pattern.paths import NOTHING, part, straight, turned
from godet.pattern.pieces import Path


def hem_corner(before: Run, after: Run) -> Corner | None:
    """The corner between two runs of which one folds back."""
    reach = MITRE * max(before.allowance, after.allowance)
    if after.folds_back:
        side = ahead(before.moved, before.arriving, reach)
        hem = _Hem(after.sewing, after.moved, after.leaving)
        return _folded(before.moved, side, hem, reach)
    # walked the other way round, the hem comes after its neighbour here too
    side = ahead(turned(after.moved), -after.leaving, reach)
    hem = _Hem(turned(before.sewing), turned(before.moved), -before.arriving)
    found = _folded(turned(after.moved), side, hem, reach)
    return walked_back(found, before, after) if found is not None else None


@dataclass(frozen=True)
class _Hem:
    """A hem as it is walked from the corner on."""

    sewing: Path
    moved: Path
    way: Vector  # in which it starts


def _folded(moved: Path, side: Path, hem: _Hem, reach: float) -> Corner | None:
    """From the neighbour's moved path (and the same carried on, `side`) to the hem's."""
    at: Vector = hem.sewing[0, 0]
    leaves = _crossing(side, at, hem.way)
    if leaves is None:
        return None
    own = _last_of(part(side, 0.0, leaves), 2.0 * reach)
    turn: Vector = own[-1, 3]
    image = mirrored(turned(own), behind(hem.sewing, hem.way, reach))
    foot = nearest_meeting(image, behind(hem.moved, hem.way, reach), turn)
    if foot is None or foot.first <= 0.0 or float(norm(foot.at - at)) > reach:
        return None
    lines = [straight(moved[-1, 3], turn)] if leaves > len(moved) else []
    lines.append(part(image, 0.0, foot.first))
    lines.append(straight(foot.at, hem.moved[0, 0]) if foot.second < 1.0 else NOTHING)
    return Corner(
        min(leaves, float(len(moved))), np.concatenate(lines), max(foot.second - 1.0, 0.0)
    )


def _last_of(path: Path, reach: float) -> Path:
    """As much of the end of a path as a length says."""
    lengths = cubic_lengths(path[None])
    before = float(lengths.sum()) - reach
    if before <= 0.0:
        return path
    place = place_at_length(path[None], lengths, np.array([before]))
    return part(path, float(place.parameter[0]), float(len(path)))


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
