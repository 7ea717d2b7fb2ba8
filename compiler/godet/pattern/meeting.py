"""How the two sides of a seam meet: which end of the one lies on which end of the other.

In: finished pieces and the seams. Out: both sides as rows that begin at ends which meet. That is
told by where the seam is said to begin; or else by the first ends that their kind names, by the
seams that go on from the ends, and by the names of what lies there, `front_underarm` and the
`underarm` of `front` being nearer than that of `back`. Nothing fails: where none of these tells, or
they contradict each other, it is not known.

    meetings_of(drawn, finished, seam_lines, {"front": 2}, graph, values).of(armhole).second.begin
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from godet.graph.node import Graph
from godet.pattern.first_ends import first_ends
from godet.pattern.pieces import Piece, Point
from godet.pattern.rows import (
    End,
    Row,
    beyond,
    edges_of,
    row_of,
    seams_before,
)
from godet.pattern.solved import BodyValues
from godet.program.program import PieceLines, SeamLine

_AT = 0.01  # mm: a point so near an end lies at it


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two rows whose beginnings meet, and whose ends."""

    first: Row
    second: Row


def meetings_of(
    drawn: Mapping[str, PieceLines],
    pieces: Mapping[str, Piece],
    lines: Sequence[SeamLine],
    times: Mapping[str, int],
    graph: Graph,
    values: BodyValues,
) -> Meetings:
    """How the seams of one body's pieces meet."""
    begun = {
        line.name: tuple((point.piece, values.point(point.node)) for point in line.begun)
        for line in lines
        if line.begun is not None
    }
    return Meetings(pieces, lines, times, first_ends(drawn, graph), begun)


@dataclass(slots=True)
class Meetings:
    pieces: Mapping[str, Piece]
    lines: Sequence[SeamLine]
    times: Mapping[str, int]  # how often each piece is cut
    first_ends: Mapping[tuple[str, str], str]  # by piece and edge: "top", "centre"
    # by seam: where both sides are said to begin, each a point of a piece
    begun: Mapping[str, tuple[tuple[str, Point], ...]]
    _found: dict[str, Meeting | None] = field(default_factory=dict)

    def of(self, line: SeamLine) -> Meeting | None:
        """How the sides of a seam meet; None where that can't be told."""
        if line.name not in self._found:
            self._found[line.name] = None  # what needs itself is not known
            self._found[line.name] = self._worked_out(line)
        return self._found[line.name]

    def _worked_out(self, line: SeamLine) -> Meeting | None:
        if line.first == line.second and len(line.first) == 1:
            row = Row(edges_of(line.first, self.times)[:1])
            return Meeting(row, row)
        first, second = self._row(line, line.first), self._row(line, line.second)
        if first is None or second is None:
            return None
        if line.name in self.begun:
            starts = self.begun[line.name]
            first, second = self._from(first, starts[0]), self._from(second, starts[1])
            if first is None or second is None:
                return None
            if not (first.ring or second.ring):
                return Meeting(first, second)
        elif first.ring and second.ring:
            folds = self._folds_that_meet(first, second)
            if folds is None:
                return None
            first, second = first.beginning_with(folds[0]), second.beginning_with(folds[1])
        elif first.ring or second.ring:
            return None
        return self._turned_to_meet(first, second, line)

    def _row(self, line: SeamLine, side: Sequence[tuple[str, str, bool]]) -> Row | None:
        edges = edges_of(side, self.times)
        before = seams_before(line, self.lines)
        found = row_of(edges, self.pieces, lambda a, b: self._sewn(a, b, before))
        if found is not None:
            return found
        others = [
            each
            for each in self.lines
            if each.name != line.name and line not in seams_before(each, self.lines)
        ]
        return row_of(edges, self.pieces, lambda a, b: self._sewn(a, b, others))

    def _sewn(self, a: End, b: End, seams: Sequence[SeamLine]) -> bool:
        """Whether one of the seams joins two edges so that these ends meet."""
        for line in seams:
            edges = {(piece, edge) for piece, edge, _ in (*line.first, *line.second)}
            if not {a[:2], b[:2]} <= edges:
                continue
            meeting = self.of(line)
            if meeting is None:
                continue
            first, second = meeting.first, meeting.second
            if {(a, b), (b, a)} & {(first.begin, second.begin), (first.end, second.end)}:
                return True
        return False

    def _from(self, row: Row, start: tuple[str, Point]) -> Row | None:
        """The row walked from a point that it begins at, ends at, or as a ring passes through from
        one edge to the next."""
        piece, at = start

        def begins(end: End) -> bool:
            return end.piece == piece and self._lies_at(at, end)

        if row.ring:
            starts = [number for number, each in enumerate(row.edges) if begins(each.begin)]
            return row.beginning_with(starts[0]) if starts else None
        if begins(row.begin):
            return row
        return row.reversed() if begins(row.end) else None

    def _lies_at(self, point: Point, end: End) -> bool:
        return math.dist(point, self._point(end)) <= _AT

    def _point(self, end: End) -> Point:
        path = self.pieces[end.piece].edges[end.edge].path
        across, down = path[-1, 3] if end.last else path[0, 0]
        return float(across), float(down)

    def _folds_that_meet(self, first: Row, second: Row) -> tuple[int, int] | None:
        """Of two rings, the folds that are most alike by their names: front and front."""
        alike = sorted(
            (
                (len(self._words(a) & self._words(b)), i, j)
                for i, a in _folds(first)
                for j, b in _folds(second)
            ),
            reverse=True,
        )
        if not alike or (len(alike) > 1 and alike[0][0] == alike[1][0]):
            return None
        return alike[0][1:]

    def _turned_to_meet(self, first: Row, second: Row, line: SeamLine) -> Meeting | None:
        straight = Meeting(first, second)
        if first.mirrored or second.mirrored:
            return straight
        votes = {self._by_kind(first, second), self._by_seams(first, second, line)}
        votes |= {self._by_names(first, second)}
        if {1, -1} <= votes or votes == {0}:
            return None
        return straight if 1 in votes else Meeting(first, second.reversed())

    # what tells: 1 that the beginnings meet, -1 that they don't, 0 nothing

    def _by_kind(self, first: Row, second: Row) -> int:
        if len(first.edges) > 1 or len(second.edges) > 1:
            return 0
        a, b = first.edges[0], second.edges[0]
        named = {self.first_ends.get((each.piece, each.edge)) for each in (a, b)}
        if len(named) > 1 or None in named:
            return 0
        axis = 0 if named == {"centre"} else 1
        ways = [
            self._point(each.begin)[axis] <= self._point(each.end)[axis] for each in (first, second)
        ]
        return 1 if ways[0] == ways[1] else -1

    def _by_seams(self, first: Row, second: Row, line: SeamLine) -> int:
        def go_on(a: End, b: End) -> int:
            one, other = (beyond(end, self.pieces) for end in (a, b))
            return int(self._go_on_together(one, other, line))

        return _sign(
            go_on(first.begin, second.begin)
            + go_on(first.end, second.end)
            - go_on(first.begin, second.end)
            - go_on(first.end, second.begin)
        )

    def _go_on_together(self, a: End, b: End, line: SeamLine) -> bool:
        """Whether two edges are both on a fold, or in another seam together."""
        if all(self.pieces[end.piece].edges[end.edge].on_fold for end in (a, b)):
            return True
        return any(
            {a[:2], b[:2]} <= {(p, e) for p, e, _ in (*each.first, *each.second)}
            for each in self.lines
            if each.name != line.name
        )

    def _by_names(self, first: Row, second: Row) -> int:
        def alike(a: End, b: End) -> int:
            return len(self._words(a) & self._words(b))

        return _sign(
            alike(first.begin, second.begin)
            + alike(first.end, second.end)
            - alike(first.begin, second.end)
            - alike(first.end, second.begin)
        )

    def _words(self, end: End) -> set[str]:
        """The words in the names of the piece, of the points at an end, and of the edge beyond."""
        piece = self.pieces[end.piece]
        points = [name for name, at in piece.points.items() if self._lies_at(at, end)]
        names = (end.piece, beyond(end, self.pieces).edge, *points)
        return {word for name in names for word in name.split("_")}


def _folds(ring: Row) -> Iterator[tuple[int, End]]:
    """The edges of a ring that begin where the same edge ended on the piece's other half."""
    for number, each in enumerate(ring.edges):
        if each.begin == ring.edges[number - 1].end:
            yield number, each.begin


def _sign(number: int) -> int:
    return (number > 0) - (number < 0)
