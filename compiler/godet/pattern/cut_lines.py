"""The cutting line of a piece: every edge moved out by its allowance, joined at the corners.

In: the outline as `Side`s in walking order, clockwise as printed. Out: one closed path, or what is
in the way: a `TooTight` hollow, or `Crosses` where the line would cross itself. On a fold the
cutting line is the fold.

    cut_line([Side(neck_path, 10.0, on_fold=False, folds_back=False), ...])
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from godet.geometry.flattening import flattened
from godet.pattern.corners import Corner, corner
from godet.pattern.crossing_itself import crossing_itself, turns
from godet.pattern.hem_corners import hem_corner
from godet.pattern.moving_out import Run, Side, TooTight, runs
from godet.pattern.paths import closed, part
from godet.pattern.pieces import Path

FLATNESS = 0.02  # mm, of the chords that are tried for a crossing
_LEAST = 1e-9  # of a cubic's parameter


@dataclass(frozen=True, slots=True)
class Crosses:
    """The cutting line crosses itself: an allowance has no room."""


def cut_line(sides: Sequence[Side]) -> Path | TooTight | Crosses:
    """The closed cutting line, walked as the outline is."""
    moved = runs(sides)
    if isinstance(moved, TooTight):
        return moved
    corners = [_corner(run, moved[(number + 1) % len(moved)]) for number, run in enumerate(moved)]
    parts = []
    for number, run in enumerate(moved):
        enters, leaves = corners[number - 1].enters, corners[number].leaves
        if leaves - enters <= _LEAST:
            return Crosses()
        parts += [part(run.moved, enters, leaves), corners[number].between]
    line = closed(parts)
    # the chain ends where it began: the last point is left to the first
    chain = flattened(line, FLATNESS)[:-1]
    return Crosses() if crossing_itself(chain) or abs(turns(chain)) != 1 else line


def _corner(before: Run, after: Run) -> Corner:
    turned_up = before.folds_back != after.folds_back and before.edge != after.edge
    if turned_up and not (before.on_fold or after.on_fold):
        found = hem_corner(before, after)
        if found is not None:
            return found
    return corner(before, after)
