"""Corners of a hem: cut so that the hem, turned up along its sewing line, lies flat on the piece.

In: a hem's run and the run beside it, in walking order. Out: a `Corner` whose part beyond the hem
line is the mirror image of the neighbour's own cutting line; None where the neighbour is too short
to be mirrored as deep as the hem, and the corner stays a plain one.

    hem_corner(side_run, bottom_run)

Near its end the hem line is taken as the straight line that it ends in: over the few centimetres
that a hem is deep a curved one strays from that by less than a fold does.
"""

from __future__ import annotations

import numpy as np

from godet.geometry.points import dot
from godet.pattern.corners import (
    MITRE,
    Corner,
    Vector,
    ahead,
    behind,
    nearest_meeting,
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
    if found is None:
        return None
    leaves, enters = len(before.moved) - found.enters, len(after.moved) - found.leaves
    return Corner(leaves, turned(found.between), enters)


def _mirrored(
    moved: Path, side: Path, hem: Path, hem_way: Vector, at: Vector, reach: float
) -> Corner | None:
    """From the neighbour's moved path (and the same carried on, `side`) to the hem's."""
    line = straight(at - reach * hem_way, at + reach * hem_way)
    turn = nearest_meeting(side, line, at)
    if turn is None or turn.first <= 0.0:
        return None
    image = _across(turned(part(side, 0.0, turn.first)), at, hem_way)
    foot = nearest_meeting(image, behind(hem, hem_way, reach), turn.at)
    if foot is None or foot.first <= 0.0:
        return None
    lines = [straight(moved[-1, 3], turn.at)] if turn.first > len(moved) else []
    lines.append(part(image, 0.0, foot.first))
    lines.append(straight(foot.at, hem[0, 0]) if foot.second < 1.0 else NOTHING)
    return Corner(
        min(turn.first, float(len(moved))), np.concatenate(lines), max(foot.second - 1.0, 0.0)
    )


def _across(path: Path, at: Vector, way: Vector) -> Path:
    """The mirror image across the line through a point."""
    offset = path - at
    image: Path = at + 2.0 * dot(offset, way)[..., None] * way - offset
    return image
