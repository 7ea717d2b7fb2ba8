"""Slash and spread: a piece cut from one edge to another, and the cuts opened.

In: a linked piece and the alteration. Out: the altered piece, and where its points went. Hinged,
the part beyond a cut turns about its end on the other edge; with both ends opened by as much it is
moved aside. The edges are made fair again at the cuts. Several cuts are opened one after the
other, the one farthest from the edge that holds first. Wrong edges raise `Problems`.

    altered, carry = spread(front, graph, line)
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from godet.graph.node import Graph
from godet.graph.taken_up import sewn_inputs
from godet.graph.types import ANGLE, LENGTH, POINT, RATIO
from godet.program.alterations import Spread
from godet.program.parts import Cut, Cuts, Motion, Part, run_of, sides_between
from godet.program.program import PieceLines
from godet.program.ring import Side
from godet.program.swinging import Altered

# mm: the corner at a hinge is rounded so far to either side (ours); a corner of 10 degrees then
# costs the edge 0.1 mm
_AT_HINGE = Fraction(20)


def spread(piece: PieceLines, graph: Graph, line: Spread) -> Altered:
    """The piece with its cuts opened."""
    return _Spreading(graph, line, line.count).spread(piece)


@dataclass(frozen=True, slots=True)
class _Spreading:
    graph: Graph
    line: Spread
    count: int

    def spread(self, piece: PieceLines) -> Altered:
        line = self.line
        edges = (line.edge, line.other)
        first, last, _ = sides_between(piece, self.graph, edges, line.holding, line.place)
        places = {
            side.edge: self._places(side, stands_first=side is first) for side in (first, last)
        }
        parts: list[Part] = []
        reaches = {side.edge: self._reach(side) for side in (first, last)}
        for number in reversed(range(self.count)):
            at = {name: each[number] for name, each in places.items()}
            piece, part = self._opened(piece, at, reaches)
            parts.append(part)

        def carry(point: int) -> int:
            for part in parts:
                point = part.point(point)
            return point

        return Altered(piece, carry)

    def _opened(
        self, piece: PieceLines, places: dict[str, int], reaches: dict[str, int]
    ) -> tuple[PieceLines, Part]:
        graph, line = self.graph, self.line
        edges = (line.edge, line.other)
        first, last, between = sides_between(piece, graph, edges, line.holding, line.place)
        cut_first, cut_last = (Cut(s, places[s.edge], places[s.edge]) for s in (first, last))
        cuts = Cuts(cut_first, cut_last, between)
        run = run_of(graph, cuts, line.place)
        wide = {line.edge: self._each(line.by), line.other: self._each(line.other_by)}
        inputs = (run, wide[first.edge], wide[last.edge])
        angle = graph.add("spread_angle", inputs, type=ANGLE, place=line.place)
        inputs = (run, wide[last.edge], angle)
        goal = graph.add("spread_to", inputs, type=POINT, place=line.place)
        motion = Motion(cuts.last.standing, goal, angle)
        part = Part(graph, cuts, run, cuts.first.standing, motion, line.place)
        drawn = {}
        for cut in (cuts.first, cuts.last):
            drawn[cut.side.edge] = part.faired(cut, reaches[cut.side.edge])
        return part.moved(piece, drawn, frozenset()), part

    def _reach(self, side: Side) -> int:
        """How far from a cut its edge is made fair: half-way to the next cut, and at a hinge only
        so far that the edge keeps its length for its seam."""
        graph, line = self.graph, self.line
        length = graph.add("length", (side.curve,), type=LENGTH, place=line.place)
        half = Fraction(1, 2 * (self.count + 1))
        share = graph.add("number", type=RATIO, place=None, value=half)
        halfway = graph.add("multiply", (length, share), type=LENGTH, place=line.place)
        if side.edge == line.edge or line.other_by is not None:
            return halfway
        near = graph.add("number", type=LENGTH, place=None, value=_AT_HINGE)
        return graph.add("min", (halfway, near), type=LENGTH, place=line.place)

    def _each(self, total: int | None) -> int:
        """How wide one cut is opened at this edge."""
        graph = self.graph
        if total is None:
            return graph.add("number", type=LENGTH, place=None, value=Fraction(0))
        share = graph.add("number", type=RATIO, place=None, value=Fraction(1, self.count))
        return graph.add("multiply", (total, share), type=LENGTH, place=self.line.place)

    def _places(self, side: Side, *, stands_first: bool) -> list[int]:
        """The cuts at this edge, the one nearest to what stands still first."""
        line, graph = self.line, self.graph
        at = line.at if side.edge == line.edge else line.other_at
        if at is not None:
            return [at] * self.count
        corner = side.first if stands_first else side.last
        inputs = sewn_inputs(graph, "length", (side.curve,))
        length = graph.add("length", inputs, type=LENGTH, place=line.place)
        found = []
        for number in range(1, self.count + 1):
            share = Fraction(number, self.count + 1)
            part = graph.add("number", type=RATIO, place=None, value=share)
            reach = graph.add("multiply", (length, part), type=LENGTH, place=line.place)
            walked = sewn_inputs(graph, "along", (side.curve, corner, reach))
            found.append(graph.add("along", walked, type=POINT, place=line.place))
        return found
