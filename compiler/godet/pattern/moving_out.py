"""The edges of an outline moved outward by their allowances, one smooth run at a time.

In: the outline as `Side`s in walking order, clockwise as printed. Out: `Run`s, each with its moved
path. An edge with a corner in it makes several runs, because each side of a corner moves its own
way. Nothing fails: where a hollow bends tighter than its allowance, a stretch of the run is tight.

    runs([Side(neck_path, 10.0, on_fold=False, folds_back=False), ...])
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from godet.geometry.ends import end_direction, start_direction
from godet.geometry.points import cross
from godet.pattern.parallel_paths import Stretch, moved_out
from godet.pattern.paths import part
from godet.pattern.pieces import Path

_SMOOTH = 5e-4  # radians: a smaller turn at a joint is no corner; 3 cm of allowance stay joined


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
    stretches: tuple[Stretch, ...]  # never empty
    allowance: float
    on_fold: bool
    folds_back: bool

    @cached_property
    def moved(self) -> Path:
        """The whole moved path."""
        return np.concatenate([stretch.path for stretch in self.stretches])

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


def runs(sides: Sequence[Side]) -> tuple[Run, ...]:
    """Every run of every side, in walking order; at least two."""
    found: list[Run] = []
    for edge, side in enumerate(sides):
        for sewing in smooth_parts(side.path, at_least=2 if len(sides) == 1 else 1):
            moved = moved_out(sewing, side.allowance)
            found.append(Run(edge, sewing, moved, side.allowance, side.on_fold, side.folds_back))
    return tuple(found)


def smooth_parts(path: Path, at_least: int = 1) -> list[Path]:
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
