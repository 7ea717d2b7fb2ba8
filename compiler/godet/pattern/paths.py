"""Paths of one body: their lengths, parts, straight lines and closed chains.

In: paths (n, 4, 2) in mm, as the pieces hold them. Out: the same, or numbers. Nothing fails.

    length(straight((0.0, 0.0), (30.0, 40.0)))           # 50.0
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from godet.geometry import arc_length
from godet.geometry.cubics import Place, curve_after, curve_before, reversed_curve
from godet.geometry.ends import DEGENERATE
from godet.geometry.points import norm
from godet.pattern.pieces import Path

NOTHING: Path = np.empty((0, 4, 2))


def with_length(path: Path) -> Path:
    """The path without its cubics of no length, such as a cut leaves beyond its place."""
    size = norm(path[:, 1:] - path[:, :1]).max(axis=1)
    kept: Path = path[size > DEGENERATE]
    return kept


def turned(path: Path) -> Path:
    """The path walked from its end to its start."""
    back: Path = reversed_curve(path)
    return back


def straight(start: ArrayLike, end: ArrayLike) -> Path:
    """The straight line between two points (2,), one cubic; nothing when they fall together."""
    first, last = np.asarray(start, dtype=np.float64), np.asarray(end, dtype=np.float64)
    step = (last - first) / 3.0
    return with_length(np.stack([first, first + step, last - step, last])[None])


def length(path: Path) -> float:
    """The arc length in mm."""
    return float(arc_length.length(path[None])[0])


def part(path: Path, first: float, last: float) -> Path:
    """The part between two parameters, each from 0 to the number of cubics, first below last."""
    start, end = _place(path, first), _place(path, last)
    if start.cubic[0] == end.cubic[0]:
        # what is left of that cubic once its end is cut off has parameters of its own
        start = Place(start.cubic, start.share / end.share)
    both: Path = curve_after(curve_before(path[None], end), start)[0]
    return with_length(both)


def closed(parts: Sequence[Path]) -> Path:
    """The parts as one closed path: each cubic starts exactly where the one before it ends."""
    chain = with_length(np.concatenate(parts))
    chain[:, 0] = np.roll(chain[:, 3], 1, axis=0)
    return chain


def _place(path: Path, parameter: float) -> Place:
    cubic = min(int(parameter), len(path) - 1)
    return Place(np.array([cubic]), np.array([parameter - cubic]))
