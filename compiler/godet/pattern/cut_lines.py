"""The cutting line of a piece: every edge moved out by its allowance, joined at the corners.

In: the outline as `Side`s in walking order, clockwise as printed, and the shapes that are asked of
some corners. Out: a `CutLine`: one closed path, the hollows whose loops were cut out of it, and the
shapes that could not be drawn; or what is in the way: a `TooTight` hollow, or `Crosses` where the
line would cross itself. On a fold the cutting line is the fold.

    cut_line([Side(neck_path, 10.0, on_fold=False, folds_back=False), ...], [])
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from godet.geometry.flattening import flattened
from godet.geometry.points import dot, norm
from godet.pattern.corner_shapes import rounded_corner, square_corner
from godet.pattern.corners import Corner, corner, is_hollow, loop
from godet.pattern.crossing_itself import crossing_itself, turns
from godet.pattern.fold_corners import fold_corner, tight_on_fold
from godet.pattern.hem_corners import hem_corner
from godet.pattern.loops import Trimmed, without_loops
from godet.pattern.moving_out import Run, Side, runs
from godet.pattern.outline import MEETING
from godet.pattern.parallel_paths import Stretch, Tight
from godet.pattern.paths import closed, part
from godet.pattern.pieces import Path, Point

FLATNESS = 0.02  # mm, of the chords that are tried for a crossing
_LEAST = 1e-9  # of a cubic's parameter


@dataclass(frozen=True, slots=True)
class CornerShape:
    """What a recipe asks of the corner of an edge."""

    edge: int  # its side
    at: Point
    shape: str  # square, mitred, rounded or folded


@dataclass(frozen=True, slots=True)
class TrimmedHollow:
    """An edge hollowed tighter than its allowance, whose cutting line comes to a point there."""

    edge: int
    radius: float  # mm, the least
    at: Point  # on the sewing line, where it is tightest
    away: float  # mm from there to the point of the cutting line


@dataclass(frozen=True)
class CutLine:
    path: Path
    trimmed: tuple[TrimmedHollow, ...]
    not_drawn: tuple[CornerShape, ...]  # these corners are drawn as if nothing was asked


@dataclass(frozen=True, slots=True)
class TooTight:
    """The allowance of an edge is deeper than one of its hollows has room for."""

    edge: int
    radius: float  # mm


@dataclass(frozen=True, slots=True)
class Crosses:
    """The cutting line crosses itself: an allowance has no room."""


def cut_line(sides: Sequence[Side], shapes: Sequence[CornerShape]) -> CutLine | TooTight | Crosses:
    """The closed cutting line, walked as the outline is."""
    moved = runs(sides)
    trimmed: list[Trimmed] = []
    not_drawn: list[CornerShape] = []
    corners: list[Corner] = []
    for number, run in enumerate(moved):
        after = moved[(number + 1) % len(moved)]
        tight = tight_on_fold(run, after)
        if tight is not None:
            found = fold_corner(run, after, tight)
            if found is None:
                return _too_tight(moved, tight)
            corners.append(found[0])
            trimmed.append(found[1])
            continue
        asked = next((shape for shape in shapes if _is_at(shape, run, after)), None)
        shaped = _shaped(run, after, asked.shape, asked.edge) if asked is not None else None
        if asked is not None and shaped is None:
            not_drawn.append(asked)
        corners.append(shaped or _usual(run, after))
    line = _strung(moved, _swallowed(moved, corners))
    if line is None:
        return Crosses()
    cut = without_loops(line, max(side.allowance for side in sides))
    if isinstance(cut, Tight):
        return _too_tight(moved, cut) if cut.radius > 0.0 else Crosses()
    path = closed([stretch.path for stretch in cut[0]])
    # the chain ends where it began: the last point is left to the first
    chain = flattened(path, FLATNESS)[:-1]
    if crossing_itself(chain) or abs(turns(chain)) != 1:
        return Crosses()
    trimmed += [each for each in cut[1] if each.tight.radius > 0.0]
    hollows = tuple(_hollow(each, _edge_of(each.tight, moved)) for each in trimmed)
    return CutLine(path, hollows, tuple(not_drawn))


def _edge_of(tight: Tight, moved: Sequence[Run]) -> int:
    return next(run.edge for run in moved if any(s.tight is tight for s in run.stretches))


def _too_tight(moved: Sequence[Run], tight: Tight) -> TooTight:
    return TooTight(_edge_of(tight, moved), tight.radius)


def _at_corner(before: Run, after: Run) -> Tight:
    is_sharp = float(dot(before.arriving, after.leaving)) < 0.0
    return Tight(0.0, before.corner, 0.0, has_loop=is_sharp)


def _hollow(trimmed: Trimmed, edge: int) -> TrimmedHollow:
    across, down = trimmed.tight.at
    away = float(norm(trimmed.at - trimmed.tight.at))
    return TrimmedHollow(edge, trimmed.tight.radius, (float(across), float(down)), away)


def _is_at(shape: CornerShape, before: Run, after: Run) -> bool:
    near = float(norm(before.corner - shape.at)) <= MEETING
    return near and shape.edge in (before.edge, after.edge)


def _shaped(before: Run, after: Run, shape: str, edge: int) -> Corner | None:
    """The corner as it is asked for the one edge; None where it can't be drawn so."""
    if before.on_fold or after.on_fold:
        return None
    if shape == "square":
        return square_corner(before, after, squared=before if before.edge == edge else after)
    if shape == "rounded":
        return rounded_corner(before, after)
    if shape == "folded":
        first, last = (replace(run, folds_back=run.edge == edge) for run in (before, after))
        return hem_corner(first, last) if before.edge != after.edge else None
    return corner(before, after)


def _usual(before: Run, after: Run) -> Corner:
    """Mitred, but folded back where a hem meets an edge that is none."""
    turned_up = before.folds_back != after.folds_back and before.edge != after.edge
    if turned_up and not (before.on_fold or after.on_fold):
        found = hem_corner(before, after)
        if found is not None:
            return found
    return corner(before, after)


def _swallowed(moved: Sequence[Run], corners: Sequence[Corner]) -> list[Corner]:
    """The corners, those left as loops at whose hollows the whole of a run would be cut off."""
    found = list(corners)
    for number in range(len(moved)):
        if found[number].leaves - found[number - 1].enters > _LEAST:
            continue
        for end in (number - 1, number):
            before, after = moved[end], moved[(end + 1) % len(moved)]
            if is_hollow(before, after) and not (before.on_fold or after.on_fold):
                found[end] = loop(before, after)
    return found


def _strung(moved: Sequence[Run], corners: Sequence[Corner]) -> list[Stretch] | None:
    """The whole line; None where nothing is left of a run."""
    line: list[Stretch] = []
    for number, run in enumerate(moved):
        enters, leaves = corners[number - 1].enters, corners[number].leaves
        if leaves - enters <= _LEAST:
            return None
        begin = 0.0
        for stretch in run.stretches:
            end = begin + len(stretch.path)
            low, high = max(enters, begin) - begin, min(leaves, end) - begin
            if high - low > _LEAST:
                line.append(Stretch(part(stretch.path, low, high), stretch.tight))
            begin = end
        found = corners[number]
        if len(found.between):
            tight = _at_corner(run, moved[(number + 1) % len(moved)]) if found.is_loop else None
            line.append(Stretch(found.between, tight))
    return line
