"""The path at one distance to the left of another, for one body, as close as can be cut.

In: a smooth path and a distance in mm. Out: the moved `Stretch`es, end to end. Where the path is
hollowed tighter than the distance, the parallel runs backward: that is a stretch of its own, which
says how tight the path is there. Nothing fails.

    moved_out(neck_path, 10.0)                           # one Stretch, within 0.005 mm

A cubic is halved until its parallel (`geometry.parallel`) is true to the distance; so a straight
line stays one cubic, and a tight bend gets as many as it needs.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from godet.geometry.cubics import derivative, evaluate, first_part, second_derivative
from godet.geometry.ends import end_direction, start_direction
from godet.geometry.parallel import parallel
from godet.geometry.points import cross, dot, norm
from godet.pattern.paths import turned
from godet.pattern.pieces import Path

TOLERANCE = 0.005  # mm, between the moved path and the true parallel
_HALVINGS = 8
_SAMPLES = 65  # where the curvature is looked at on each cubic
_ROUNDING = 1e-9
_TRIED = np.arange(1, 8) / 8.0  # where a parallel is measured

Numbers = NDArray[np.float64]


@dataclass(frozen=True)
class Tight:
    """How tight the sewing line is hollowed where its parallel has no room."""

    radius: float  # mm; nought at a corner
    at: Numbers  # (2,), where it is tightest
    turn: float  # radians, of the sewing line all along
    has_loop: bool = True  # not where the line may only step from one allowance to another


@dataclass(frozen=True)
class Stretch:
    """A part of a moved path; the parallel runs backward where it is tight."""

    path: Path
    tight: Tight | None = None


def moved_out(path: Path, distance: float) -> tuple[Stretch, ...]:
    """The stretches of the parallel to the left of the path's own way, in its order."""
    if distance == 0.0:
        return (Stretch(path),)
    found: list[Stretch] = []
    for cubic in path:
        for piece, tight in _parted(cubic, distance):
            # what lies where the parallel runs backward is cut away: its shape does not matter
            moved = _true(piece[None], distance, 0 if tight else _HALVINGS)
            if found and (found[-1].tight is None) == (tight is None):
                found[-1] = _joined(found[-1], moved, tight)
            else:
                found.append(Stretch(moved, tight))
    return tuple(found)


def _joined(before: Stretch, path: Path, tight: Tight | None) -> Stretch:
    tightest = before.tight
    if tight is not None and tightest is not None:
        turn = tight.turn + tightest.turn
        tightest = replace(min(tightest, tight, key=lambda each: each.radius), turn=turn)
    return replace(before, path=np.concatenate([before.path, path]), tight=tightest)


def _parted(cubic: Path, distance: float) -> list[tuple[Path, Tight | None]]:
    """A cubic cut where its parallel begins to run backward, and where it ends to."""
    shares = np.linspace(0.0, 1.0, _SAMPLES)
    room = _room(cubic, shares, distance)
    backward = room < -_ROUNDING * np.abs(room).max()
    if not backward.any():
        return [(cubic, None)]
    changes = np.nonzero(backward[1:] != backward[:-1])[0]
    cuts = [_between(cubic, distance, shares[k], shares[k + 1]) for k in changes]
    knots = [0.0, *cuts, 1.0]
    parts: list[tuple[Path, Tight | None]] = []
    is_backward = bool(backward[0])
    for first, last in pairwise(knots):
        piece = _part(cubic, first, last)
        parts.append((piece, _tightest(piece) if is_backward else None))
        is_backward = not is_backward
    return parts


def _room(cubic: Path, shares: Numbers, distance: float) -> Numbers:
    """The speed of the parallel as a share of the path's own, times the cube of that: below nought
    where the parallel runs backward."""
    first, second = derivative(cubic[None], shares), second_derivative(cubic[None], shares)
    room: Numbers = norm(first) ** 3 + distance * cross(first, second)
    return room


def _between(cubic: Path, distance: float, low: float, high: float) -> float:
    """The share at which the parallel turns back, between two where it goes different ways."""
    at_low = float(_room(cubic, np.array([low]), distance)[0]) < 0.0
    while True:
        middle = (low + high) / 2.0
        if middle in (low, high):
            return middle
        if (float(_room(cubic, np.array([middle]), distance)[0]) < 0.0) == at_low:
            low = middle
        else:
            high = middle


def _part(cubic: Path, first: float, last: float) -> Path:
    begun: Path = first_part(cubic[None], np.array([last]))
    if first > 0.0:
        begun = first_part(begun[:, ::-1], np.array([1.0 - first / last]))[:, ::-1]
    piece: Path = begun[0]
    return piece


def _tightest(piece: Path) -> Tight:
    shares = np.linspace(0.0, 1.0, _SAMPLES)
    first, second = derivative(piece[None], shares), second_derivative(piece[None], shares)
    with np.errstate(all="ignore"):
        radii = norm(first) ** 3 / np.abs(cross(first, second))
    place = int(np.nanargmin(radii))
    begin, end = (
        start_direction(piece[None, None]).value[0],
        end_direction(piece[None, None]).value[0],
    )
    turn = math.atan2(abs(float(cross(begin, end))), float(dot(begin, end)))
    return Tight(float(radii[place]), evaluate(piece, shares[place]), turn)


def _true(cubics: Path, distance: float, halvings: int) -> Path:
    """The parallels of cubics that follow each other; those that stray are halved, and tried
    again."""
    moved: Path = parallel(cubics[:, None], np.full(len(cubics), -distance), parts=1).value[:, 0]
    strays = _strays(cubics, moved, distance) > TOLERANCE
    if halvings == 0 or not strays.any():
        return moved
    half = np.array([0.5])
    parts = []
    for number, cubic in enumerate(cubics):
        if strays[number]:
            halves = [first_part(cubic[None], half), turned(first_part(turned(cubic[None]), half))]
            parts.append(_true(np.concatenate(halves), distance, halvings - 1))
        else:
            parts.append(moved[number : number + 1])
    return np.concatenate(parts)


def _strays(cubics: Path, moved: Path, distance: float) -> Numbers:
    """How far (n,) each moved cubic is, at most, from lying at the distance from its own."""
    tried = np.broadcast_to(_TRIED, (len(cubics), len(_TRIED)))
    points, shares = evaluate(moved[:, None], tried), tried
    own = cubics[:, None]
    for _ in range(4):  # Newton's steps to the foot of each point
        offset = points - evaluate(own, shares)
        first, second = derivative(own, shares), second_derivative(own, shares)
        square = dot(first, first)
        slope = np.maximum(square - dot(offset, second), 0.05 * square)
        with np.errstate(all="ignore"):
            step = np.where(square > 0.0, dot(offset, first) / slope, 0.0)
        shares = np.clip(shares + step, 0.0, 1.0)
    away = norm(points - evaluate(own, shares))
    worst: Numbers = np.abs(away - distance).max(axis=1)
    return worst
