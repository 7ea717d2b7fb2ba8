"""Notches that meet when a seam is sewn, placed on both its sides by walking it.

In: the lines of the drawn pieces, how their seams meet, and the solved values. Out: the pieces with
a notch at each point that a seam is matched at, and one on its other side where the point comes to
lie; the notches at both ends of gathers are met so too. A corner that is sewn already marks itself
and has none. Where nothing can be matched, a problem says why, and the notches are left out.

    pieces, problems = matched(drawn, meetings, graph, values, order)
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.graph.node import Graph
from godet.pattern.easing import Spread
from godet.pattern.meeting import Meetings
from godet.pattern.notching import ON_EDGE, cuts_of_pair, notch_at
from godet.pattern.order import Order
from godet.pattern.pieces import Notch, Piece, Point
from godet.pattern.rows import End, Row, Walked, at_fold
from godet.pattern.seams import TOLERANCE
from godet.pattern.sewn_edges import SewnEdge, sewn_edge, taken_up
from godet.pattern.short_lengths import short_length
from godet.pattern.solved import BodyValues
from godet.program.program import PieceLines, PointLine, SeamLine

_GATHERED = ("gathers", "ease")


def matched(
    drawn: Mapping[str, PieceLines],
    meetings: Meetings,
    graph: Graph,
    values: BodyValues,
    order: Order,
) -> tuple[dict[str, Piece], tuple[Problem, ...]]:
    """The pieces with the notches of their seams."""
    pieces = meetings.pieces
    edges = {
        (name, edge.name): sewn_edge(drawn[name].edges[edge.name], edge.path, graph, values)
        for name, piece in pieces.items()
        for edge in piece.edges.values()
    }
    matching = _Matching(pieces, edges, meetings, values, order)
    gathers = tuple(_gathers(drawn, graph, values))
    for line in meetings.lines:
        matching.match(line, gathers)
    return matching.with_notches(), tuple(matching.problems)


@dataclass(frozen=True, slots=True)
class _Gathers:
    """One end of what is gathered over a part of an edge."""

    piece: str
    edge: str
    name: str
    at: Point


def _gathers(
    drawn: Mapping[str, PieceLines], graph: Graph, values: BodyValues
) -> Iterator[_Gathers]:
    for piece, lines in sorted(drawn.items()):
        for edge, line in sorted(lines.edges.items()):
            on_edge = taken_up(line, graph)
            for name, dart in sorted(lines.darts.items()):
                if dart.manner not in _GATHERED or dart.node not in on_edge:
                    continue
                sewn = sewn_edge(line, values.path(line.curve), graph, values)
                ends = [(float(across), float(down)) for across, down in values.rows(dart.node)[:2]]
                ends.sort(key=lambda end: sewn.distance_to(end) or 0.0)
                yield _Gathers(piece, edge, f"{name}_first", ends[0])
                yield _Gathers(piece, edge, f"{name}_last", ends[1])


@dataclass(frozen=True, slots=True)
class _Spot:
    """A place on a row: so far from its beginning, and so far along one of its edges."""

    walked: Walked
    along: float  # mm as sewn, from the edge's first end
    from_begin: float


class _Side:
    """A row with its lengths as sewn."""

    def __init__(self, row: Row, edges: Mapping[tuple[str, str], SewnEdge]) -> None:
        self.row = row
        self.edges = edges
        self.starts = [0.0]
        for each in row.edges:
            self.starts.append(self.starts[-1] + edges[each.piece, each.edge].length)

    @property
    def length(self) -> float:
        return self.starts[-1]

    def spot(self, walked: Walked, start: float, along: float) -> _Spot:
        length = self.edges[walked.piece, walked.edge].length
        return _Spot(walked, along, start + (length - along if walked.turned else along))

    def spot_at(self, from_begin: float) -> _Spot:
        """The place so far from the beginning."""
        number = max(
            n for n in range(len(self.row.edges)) if n == 0 or self.starts[n] <= from_begin
        )
        walked, within = self.row.edges[number], from_begin - self.starts[number]
        length = self.edges[walked.piece, walked.edge].length
        return self.spot(walked, self.starts[number], length - within if walked.turned else within)


@dataclass
class _Matching:
    pieces: Mapping[str, Piece]
    edges: Mapping[tuple[str, str], SewnEdge]
    meetings: Meetings
    values: BodyValues
    order: Order
    problems: list[Problem] = field(default_factory=list)
    found: dict[str, list[Notch]] = field(default_factory=dict)  # by piece

    def match(self, line: SeamLine, gathers: Sequence[_Gathers]) -> None:
        """The notches of one seam."""
        sewn = {(piece, edge) for piece, edge, _ in (*line.first, *line.second)}
        gathered = [end for end in gathers if (end.piece, end.edge) in sewn]
        if not line.matches and not gathered:
            return
        meeting = self.meetings.of(line)
        if meeting is None:
            own = [point.place for point in line.matches if not point.inherited]
            if own or gathered:
                self._report("seam-ends-unclear", (own or [line.place])[0], seam=line.name)
            return
        sides = (_Side(meeting.first, self.edges), _Side(meeting.second, self.edges))
        spread = self._spread(line, sides)
        if spread is None:
            return
        for end in gathered:
            self._both(sides, spread, end.name, self._spots(sides, end.piece, end.at, end.edge))
        for point in line.matches:
            spots = self._spots(sides, point.piece, self.values.point(point.node))
            if not any(spots):
                self._report_missed(line, point, sides)
            self._both(sides, spread, point.name, spots)

    def with_notches(self) -> dict[str, Piece]:
        """The pieces, a notch that is matched taking the place of one that was there."""
        pieces = dict(self.pieces)
        for name, notches in self.found.items():
            piece = pieces[name]
            kept = [old for old in piece.notches if not any(_same(old, new) for new in notches)]
            rank = {step.edge: number for number, step in enumerate(piece.outline)}
            together = sorted((*kept, *notches), key=lambda each: (rank[each.edge], each.along))
            pieces[name] = replace(piece, notches=tuple(together))
        return pieces

    def _report(self, code: str, place: Place, **facts: Any) -> None:
        self.problems.append(problem(code, place, body=self.order.body, **facts))

    def _spread(self, line: SeamLine, sides: tuple[_Side, _Side]) -> Spread | None:
        """How the fullness is spread; None where that can't be, which is told."""
        first, second = sides[0].length, sides[1].length
        between = None
        if line.between is not None:
            reached: list[tuple[float, float, float]] = []  # as a share; from begin and from end
            for point in line.between:
                spots = self._spots(sides, point.piece, self.values.point(point.node))
                if not any(spots):
                    self._report_missed(line, point, sides)
                    return None
                for side, there in zip(sides, spots, strict=True):
                    reached.extend(
                        (s.from_begin / side.length, s.from_begin, side.length - s.from_begin)
                        for s in there
                    )
            # outside the stretch both sides lie on each other mm for mm
            between = (min(reached)[1], first - max(reached)[2])
        spread = Spread(first, second, between)
        if between is None or spread.fits:
            return spread
        units = self.order.units
        fuller, room = (short_length(mm, units) for mm in (first - second, between[1] - between[0]))
        self._report("no-room-for-ease", line.place, seam=line.name, ease=fuller, room=room)
        return None

    def _spots(
        self, sides: tuple[_Side, _Side], piece: str, at: Point, edge: str | None = None
    ) -> tuple[list[_Spot], list[_Spot]]:
        """Where a point of a piece lies on either side; on this edge alone where one is named."""
        first, second = (
            [
                side.spot(walked, start, along)
                for walked, start in zip(side.row.edges, side.starts, strict=False)
                if walked.piece == piece and edge in (None, walked.edge)
                if self.edges[piece, walked.edge].away(at) <= ON_EDGE
                if (along := self.edges[piece, walked.edge].distance_to(at)) is not None
            ]
            for side in sides
        )
        return first, second

    def _report_missed(self, line: SeamLine, point: PointLine, sides: tuple[_Side, _Side]) -> None:
        """Why a point lies on neither side; one that came with a block goes with the part of the
        edge that was replaced."""
        if point.inherited:
            return
        at, name = self.values.point(point.node), f"{point.piece}.{point.name}"
        rows = (*sides[0].row.edges, *sides[1].row.edges)
        edges = sorted({each.edge for each in rows if each.piece == point.piece})
        if not edges:
            self._report("match-of-other-piece", point.place, seam=line.name, piece=point.piece)
            return
        away, edge = min((self.edges[point.piece, edge].away(at), edge) for edge in edges)
        if away <= ON_EDGE:
            self._report("match-in-dart", point.place, point=name, edge=edge)
            return
        distance = short_length(away, self.order.units)
        self._report("match-off-seam", point.place, point=name, seam=line.name, distance=distance)

    def _both(
        self,
        sides: tuple[_Side, _Side],
        spread: Spread,
        name: str,
        spots: tuple[Sequence[_Spot], Sequence[_Spot]],
    ) -> None:
        """A notch at each of these spots, and the one that each of them meets."""
        onto = (spread.on_second, spread.on_first)
        for other, here, across in zip((sides[1], sides[0]), spots, onto, strict=True):
            for spot in here:
                there = other.spot_at(min(max(across(spot.from_begin), 0.0), other.length))
                pieces = [spot.walked.piece, there.walked.piece]
                on_fold = any(self._at_fold(each) for each in (spot, there))
                count = cuts_of_pair(pieces, name, on_fold=on_fold)
                for each in (spot, there):
                    self._notch(each, name, count)

    def _end(self, spot: _Spot) -> End | None:
        """The end of the edge that a spot is no further from than seams may differ."""
        walked = spot.walked
        if spot.along <= TOLERANCE:
            return End(walked.piece, walked.edge, last=False)
        if spot.along >= self.edges[walked.piece, walked.edge].length - TOLERANCE:
            return End(walked.piece, walked.edge, last=True)
        return None

    def _at_fold(self, spot: _Spot) -> bool:
        end = self._end(spot)
        return end is not None and at_fold(end, self.pieces)

    def _notch(self, spot: _Spot, name: str, count: Any) -> None:
        """A notch at the spot, unless it is a corner that needs none or has it already."""
        walked, end = spot.walked, self._end(spot)
        if end is not None and not at_fold(end, self.pieces):
            return
        piece, sewn = self.pieces[walked.piece], self.edges[walked.piece, walked.edge]
        along = spot.along if end is None else (sewn.length if end.last else 0.0)
        turned = next(step.turned for step in piece.outline if step.edge == walked.edge)
        there = self.found.setdefault(piece.name, [])
        alike = sum(each.edge == walked.edge and _base(each.name) == name for each in there)
        called = name if not alike else f"{name}_{alike + 1}"
        notch = notch_at(
            walked.edge, called, sewn.point_at(along), sewn, turned=turned, count=count
        )
        if isinstance(notch, Notch) and not any(_same(each, notch) for each in there):
            there.append(notch)


def _base(name: str) -> str:
    """The name of a notch without the number of one that is placed again."""
    stem, _, number = name.rpartition("_")
    return stem if stem and number.isdigit() else name


def _same(one: Notch, other: Notch) -> bool:
    # by their points: both legs of a dart lie equally far along an edge as sewn
    return one.edge == other.edge and math.dist(one.at, other.at) <= TOLERANCE
