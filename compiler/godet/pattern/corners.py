"""Plain corners of the cutting line: how one moved run goes over into the next.

In: two runs that meet on the sewing line, in walking order. Out: a `Corner`: the parameter at which
the first moved path is left, what is drawn between, and the parameter at which the second is
entered. Nothing fails: where the moved paths of a hollow corner do not meet, the corner is a loop,
to be cut out of the whole line; what else cannot be joined well gives a line that crosses itself.

    corner(side_run, bottom_run).between                 # two straight lines, to the mitre and on

Moved runs that cross are trimmed there. Others are carried on straight to where they meet, but no
farther from the corner than `MITRE` times the larger allowance: a sharper corner is squared off.
Where an edge goes on almost straight with another allowance, the cutting line steps over. Towards a
fold the neighbour always ends on the line of the fold, because the cloth is double there.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from godet.geometry.meetings import crossings
from godet.geometry.points import cross, dot, norm, unit
from godet.pattern.moving_out import Run
from godet.pattern.paths import NOTHING, straight, turned
from godet.pattern.pieces import Path

MITRE = 2.5  # of the larger allowance
_FAR = 40.0  # of the larger allowance: how far a fold is carried on to find its neighbour
_JOINED = 1e-3  # mm
_PARALLEL = 1e-9
_BACK = 0.02  # radians, short of a half turn

Vector = NDArray[np.float64]  # (2,)


@dataclass(frozen=True, slots=True)
class Corner:
    leaves: float  # 0 to the number of cubics of the first run's moved path
    between: Path
    enters: float  # 0 to the number of cubics of the second one's
    is_loop: bool = False  # the way between runs backward


@dataclass(frozen=True, slots=True)
class Meeting:
    """A place where two paths cross: the parameters on both."""

    at: Vector
    first: float
    second: float


def corner(before: Run, after: Run) -> Corner:
    """The plain corner: trimmed, mitred, squared off or stepped."""
    end, start = before.moved[-1, 3], after.moved[0, 0]
    if float(norm(start - end)) <= _JOINED:
        return Corner(len(before.moved), NOTHING, 0.0)
    limit = MITRE * max(before.allowance, after.allowance)
    fold = before.on_fold or after.on_fold
    sharp = float(dot(before.arriving, after.leaving)) < 0.0
    mitre = mitred(before, after)
    if mitre is not None:
        if float(norm(mitre - before.corner)) <= limit:
            return _through(before, after, mitre)
        if sharp:
            return _through(before, after, *_squared_off(before, after, limit))
    if _turns_back(before, after):
        return _through(before, after, *_squared_off(before, after, limit))
    reach = _FAR * limit / MITRE if fold else limit
    trimmed = _trimmed(before, after, reach)
    if trimmed is not None and (fold or sharp or float(norm(trimmed.at - before.corner)) <= limit):
        return joined_at(before.moved, after.moved, trimmed)
    return loop(before, after) if is_hollow(before, after) else _through(before, after)


def is_hollow(before: Run, after: Run) -> bool:
    """Whether the sewing line turns outward between the two."""
    return float(cross(before.arriving, after.leaving)) < 0.0 and not _turns_back(before, after)


def _turns_back(before: Run, after: Run) -> bool:
    """Whether the sewing line goes back as it came: then the ends of both do not tell on which side
    it turns, but a piece has a tip there and no slit."""
    turn = abs(float(cross(before.arriving, after.leaving)))
    return turn < _BACK and float(dot(before.arriving, after.leaving)) < 0.0


def loop(before: Run, after: Run) -> Corner:
    """A hollow corner left as it comes, with the way back from the one to the other."""
    return replace(_through(before, after), is_loop=True)


def ahead(path: Path, way: Vector, by: float) -> Path:
    """The path carried on straight at its end."""
    return np.concatenate([path, straight(path[-1, 3], path[-1, 3] + by * way)])


def behind(path: Path, way: Vector, by: float) -> Path:
    """The path begun earlier, straight, by one cubic."""
    return np.concatenate([straight(path[0, 0] - by * way, path[0, 0]), path])


def nearest_meeting(first: Path, second: Path, place: Vector) -> Meeting | None:
    """The place nearest to a point where two paths cross."""
    found = crossings(first[None], second[None])
    count = int(found.valid[0].sum())
    if count == 0:
        return None
    chosen = int(np.argmin(norm(found.point[0, :count] - place)))
    return Meeting(
        found.point[0, chosen],
        float(found.parameter_a[0, chosen]),
        float(found.parameter_b[0, chosen]),
    )


def joined_at(before: Path, after: Path, meeting: Meeting) -> Corner:
    """The corner at a meeting of `ahead(before)` with `behind(after)`."""
    count = float(len(before))
    lines = []
    if meeting.first > count:
        lines.append(straight(before[-1, 3], meeting.at))
    if meeting.second < 1.0:
        lines.append(straight(meeting.at, after[0, 0]))
    between = np.concatenate(lines) if lines else NOTHING
    return Corner(min(meeting.first, count), between, max(meeting.second - 1.0, 0.0))


def walked_back(found: Corner, before: Run, after: Run) -> Corner:
    """The corner of two runs, found for the same two walked the other way round."""
    leaves, enters = len(before.moved) - found.enters, len(after.moved) - found.leaves
    return Corner(leaves, turned(found.between), enters)


def _trimmed(before: Run, after: Run, reach: float) -> Meeting | None:
    return nearest_meeting(
        ahead(before.moved, before.arriving, reach),
        behind(after.moved, after.leaving, reach),
        before.corner,
    )


def mitred(before: Run, after: Run) -> Vector | None:
    """Where the straight continuations of both meet, if that lies ahead of the one and behind the
    other."""
    end, arriving = before.moved[-1, 3], before.arriving
    start, leaving = after.moved[0, 0], after.leaving
    turn = float(cross(arriving, leaving))
    if abs(turn) <= _PARALLEL:
        return None
    gap = start - end
    onward, back = float(cross(gap, leaving)) / turn, float(cross(arriving, gap)) / turn
    if min(onward, back) < -_JOINED:
        return None
    point: Vector = end + max(onward, 0.0) * arriving
    return point


def _squared_off(before: Run, after: Run, limit: float) -> tuple[Vector, Vector]:
    """The two points in which the continuations reach a line square to the corner, `limit` away;
    on a fold square to the fold."""
    if before.on_fold or after.on_fold:
        way = before.arriving if before.on_fold else -after.leaving
    else:
        way = unit(before.arriving - after.leaving)

    def reached(point: Vector, towards: Vector) -> Vector:
        missing = limit - float(dot(point - before.corner, way))
        found: Vector = point + max(missing, 0.0) / float(dot(towards, way)) * towards
        return found

    return (
        reached(before.moved[-1, 3], before.arriving),
        reached(after.moved[0, 0], -after.leaving),
    )


def _through(before: Run, after: Run, *points: Vector) -> Corner:
    """Straight from the end of the first through the points to the start of the second."""
    stops = [before.moved[-1, 3], *points, after.moved[0, 0]]
    lines = [straight(a, b) for a, b in pairwise(stops)]
    return Corner(float(len(before.moved)), np.concatenate(lines), 0.0)
