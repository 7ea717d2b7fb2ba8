"""Corners in a line of the garment where it goes on over a seam: a neck over the shoulder, a hem
over the side, an armhole over both.

In: finished pieces, their seams and how these meet. Out: an advice for each end of a seam where two
edges that make one line meet it at angles that make less or more than a straight line together. Two
edges make one line where the same side of a seam has both, and where both are in no seam. Nothing
fails; where it is not known how a seam meets, nothing is said.

    corners_over_seams(meetings, order, draft.file)
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from godet.base.problems import Problem, problem
from godet.geometry.ends import end_direction, start_direction
from godet.geometry.points import cross, dot
from godet.graph.types import ANGLE
from godet.pattern.meeting import Meetings
from godet.pattern.order import Order
from godet.pattern.paths import turned
from godet.pattern.pieces import Path, Piece
from godet.pattern.rows import End, beyond
from godet.program.program import SeamLine
from godet.program.saying import said

LEAST = math.radians(5)  # a smaller corner is ironed out of sight: ours
# a greater one is meant, as at the top of a slit, whose edges lie on each other: ours
MOST = math.radians(90)


def corners_over_seams(meetings: Meetings, order: Order, file: str) -> tuple[Problem, ...]:
    """An advice for each corner, in the order of the seams; of the two edges it blames the one that
    stands in the recipe's own `file`."""
    found: dict[tuple[str, ...], Problem] = {}
    for line in meetings.lines:
        for a, b in _ends_that_meet(line, meetings):
            first, second = (beyond(end, meetings.pieces) for end in (a, b))
            if not _one_line(first, second, line, meetings):
                continue
            one, other = (_angle(end, meetings.pieces[end.piece]) for end in (a, b))
            if not LEAST < abs(math.pi - one - other) <= MOST:
                continue
            names = [f"{end.piece}.{end.edge}" for end in (first, second)]
            angles = [said(angle, ANGLE, order.units) for angle in (one, other, one + other)]
            places = [meetings.pieces[end.piece].edges[end.edge].place for end in (first, second)]
            found[line.name, *sorted(names)] = problem(
                "corner-over-seam",
                next((each for each in places if each.file == file), places[0]),
                body=order.body,
                seam=line.name,
                first=names[0],
                second=names[1],
                one=angles[0],
                other=angles[1],
                both=angles[2],
            )
    return tuple(found.values())


def _ends_that_meet(line: SeamLine, meetings: Meetings) -> Iterator[tuple[End, End]]:
    meeting = meetings.of(line)
    if meeting is not None:
        yield meeting.first.begin, meeting.second.begin
        yield meeting.first.end, meeting.second.end


def _one_line(a: End, b: End, line: SeamLine, meetings: Meetings) -> bool:
    """Whether two edges that meet at a seam make one line of the garment."""
    if any(meetings.pieces[end.piece].edges[end.edge].on_fold for end in (a, b)):
        return False
    sides = [
        {(piece, edge) for piece, edge, _ in side}
        for seam in meetings.lines
        if seam.name != line.name
        for side in (seam.first, seam.second)
    ]
    free = not any({a[:2], b[:2]} & side for side in sides)
    return free or any({a[:2], b[:2]} <= side for side in sides)


def _angle(end: End, piece: Piece) -> float:
    """The angle inside the piece at one end of an edge, 0 to 2 pi."""
    walk = piece.outline
    number = next(n for n, step in enumerate(walk) if step.edge == end.edge)
    onward = end.last != walk[number].turned
    before, after = (
        _walked(piece, (number + shift) % len(walk)) for shift in ((0, 1) if onward else (-1, 0))
    )
    arriving, leaving = end_direction(before[None]).value, start_direction(after[None]).value
    # the outline has the piece on its right
    turn = np.arctan2(cross(arriving, leaving), dot(arriving, leaving))
    return math.pi - float(turn[0])


def _walked(piece: Piece, number: int) -> Path:
    step = piece.outline[number]
    path = piece.edges[step.edge].path
    return turned(path) if step.turned else path
