"""The edges of an outline moved outward by their allowances, one smooth run at a time.

In: the outline as `Side`s in walking order, clockwise as printed. Out: `Run`s, each with its moved
path, or a `TooTight` where a hollow bends tighter than its allowance. An edge with a corner in it
makes several runs, because each side of a corner moves its own way.

    runs([Side(neck_path, 10.0, on_fold=False, folds_back=False), ...])
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from godet.geometry.ends import end_direction, start_direction
from godet.geometry.parallel import parallel
from godet.geometry.points import cross, norm, turned_quarter
from godet.pattern.paths import part, straight
from godet.pattern.pieces import Path

_SMOOTH = 1e-3  # radians: a smaller turn at a joint is no corner; 3 cm of allowance stay joined
_STRAIGHT = 1e-9  # mm


@dataclass(frozen=True)
class Side:
    """One edge as the outline walks it."""

    path: Path
    allowance: float
    on_fold: bool
    folds_back: bool


@dataclass(frozen=True)
class Run:
    """A smooth stretch of one edge, and the same moved outward."""

    edge: int  # which side it belongs to
    sewing: Path
    moved: Path
    allowance: float
    on_fold: bool
    folds_back: bool

    @property
    def corner(self) -> NDArray[np.float64]:
        """Where the run ends on the sewing line."""
        end: NDArray[np.float64] = self.sewing[-1, 3]
        return end

    @property
    def leaving(self) -> NDArray[np.float64]:
        """The unit direction in which it starts."""
        way: NDArray[np.float64] = start_direction(self.sewing[None]).value[0]
        return way

    @property
    def arriving(self) -> NDArray[np.float64]:
        """The unit direction in which it ends."""
        way: NDArray[np.float64] = end_direction(self.sewing[None]).value[0]
        return way


@dataclass(frozen=True, slots=True)
class TooTight:
    edge: int
    radius: float  # mm
    allowance: float


def runs(sides: Sequence[Side]) -> tuple[Run, ...] | TooTight:
    """Every run of every side, in walking order; at least two."""
    found: list[Run] = []
    for edge, side in enumerate(sides):
        for sewing in _smooth_parts(side.path, at_least=2 if len(sides) == 1 else 1):
            moved = _moved_out(sewing, side.allowance)
            if isinstance(moved, float):
                return TooTight(edge, moved, side.allowance)
            found.append(Run(edge, sewing, moved, side.allowance, side.on_fold, side.folds_back))
    return tuple(found)


def _smooth_parts(path: Path, at_least: int) -> list[Path]:
    """The path cut at its corners; a smooth one that is an outline by itself is cut in half, so
    that its ends meet as those of two runs do."""
    parts = [path[:1]]
    for cubic in path[1:]:
        before = end_direction(parts[-1][None]).value[0]
        after = start_direction(cubic[None, None]).value[0]
        if math.atan2(abs(cross(before, after)), float((before * after).sum())) > _SMOOTH:
            parts.append(cubic[None])
        else:
            parts[-1] = np.concatenate([parts[-1], cubic[None]])
    if len(parts) < at_least:
        count = float(len(path))
        return [part(path, 0.0, count / 2), part(path, count / 2, count)]
    return parts


def _moved_out(path: Path, allowance: float) -> Path | float:
    """The path moved to the left of its walk, out of the piece; or the radius that is too small.

    A straight line stays one cubic.
    """
    if allowance == 0.0:
        return path
    chord = path[-1, 3] - path[0, 0]
    size = float(norm(chord))
    strays = np.abs(cross(chord, path - path[0, 0]))
    if len(path) == 1 and size > 0.0 and float(strays.max()) <= _STRAIGHT * size:
        by = -allowance * turned_quarter(chord / size)
        return straight(path[0, 0] + by, path[-1, 3] + by)
    moved = parallel(path[None], np.array([-allowance]))
    for breach in moved.breaches:
        if breach.code == "radius-too-small" and breach.failed[0]:
            return float(breach.numbers["radius"][0])
    result: Path = moved.value[0]
    return result
