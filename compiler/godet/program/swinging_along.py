"""A dart swung along its own edge, to a place or into another dart there.

In: a linked piece, the alteration, the dart and what it is swung to. Out: the altered piece, and
where its points went. Only the stretch of the edge between the two places moves, turning about the
dart's pivot. Which of them comes first along the edge differs from body to body: the edge is drawn
both ways, and chosen for each. Nothing fails here.

    swing_along(back, graph, line, inner_dart, outer_dart, "waist")
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from godet.base.places import Place
from godet.graph.node import Graph
from godet.graph.types import ANGLE, CONDITION, CURVE, DART, LENGTH, POINT, Type
from godet.program.alterations import Swing
from godet.program.opening import opened, pivot_and_short, uneven
from godet.program.parts import stretch, turned_as
from godet.program.program import DartLine, PieceLines
from godet.program.ring import Side, point_of, ring

Carry = Callable[[int], int]  # the node of a point: the node of where it lies now


@dataclass(frozen=True, slots=True)
class _Drawn:
    """The edge as it is when one of the places comes first."""

    curve: int
    dart: int  # that is opened
    rest: int | None  # what stays of the old one
    run: int  # the stretch that moves, where it was
    angle: int
    uneven: int


def swing_along(
    piece: PieceLines, graph: Graph, line: Swing, old: DartLine, into: DartLine | None, edge: str
) -> tuple[PieceLines, Carry]:
    """The piece with the dart opened elsewhere on its edge, and what carries its points."""
    return _Along(piece, graph, line, old, into, edge).swung()


class _Along:
    def __init__(
        self,
        piece: PieceLines,
        graph: Graph,
        line: Swing,
        old: DartLine,
        into: DartLine | None,
        edge: str,
    ) -> None:
        self.piece, self.graph, self.line = piece, graph, line
        self.old, self.into, self.edge = old, into, edge
        self.place: Place = line.place
        sides = ring(piece, graph, self.place)
        self.side: Side = next(side for side in sides if side.edge == edge)
        self.corners = {point for side in sides for point in (side.first, side.last)}
        self.pivot, self.short = pivot_and_short(graph, old.node, self.place)
        self.gone = {line.dart, *([line.into] if line.into is not None else [])}

    def swung(self) -> tuple[PieceLines, Carry]:
        graph, line, side = self.graph, self.line, self.side
        onward, back = self._drawn(side.first, side.last), self._drawn(side.last, side.first)
        first = self._comes_first()

        def chosen(one: int, other: int, type: Type) -> int:
            inputs = (first, one, other)
            return graph.add("either", inputs, type=type, place=self.place)

        turned = graph.add("reversed", (back.curve,), type=CURVE, place=self.place)
        curve = turned_as(graph, chosen(onward.curve, turned, CURVE), side, self.place)
        run = chosen(onward.run, back.run, CURVE)
        angle = chosen(onward.angle, back.angle, ANGLE)
        dart = chosen(onward.dart, back.dart, DART)
        strays = chosen(onward.uneven, back.uneven, LENGTH)
        darts = {line.into or line.name: DartLine(dart, "dart", self.place, self.edge, strays)}
        if onward.rest is not None and back.rest is not None:
            rest = chosen(onward.rest, back.rest, DART)
            darts[line.dart] = replace(self.old, node=rest, strays=None)

        def carried(node: int, type: Type) -> int:
            return self._carried(node, type, run, angle)

        def carry(node: int) -> int:
            corner = point_of(graph, node) in self.corners
            return node if corner else carried(node, POINT)

        return self._moved(curve, darts, carried, carry), carry

    def _comes_first(self) -> int:
        """Whether the dart comes before what it is swung to, as the edge is walked."""
        graph, place = self.graph, self.place
        whole = graph.add("as_cut", (self.side.curve,), type=CURVE, place=place)
        reached = []
        for dart in (self.old, self.into):
            at = self._ends(dart, self.side.first, self.side.last)[0]
            part = stretch(graph, whole, self.side.first, at, place)
            reached.append(graph.add("length", (part,), type=LENGTH, place=place))
        return graph.add("more_than", (reached[1], reached[0]), type=CONDITION, place=place)

    def _ends(self, dart: DartLine | None, first: int, last: int) -> tuple[int, int]:
        """The nearer and the farther end of a mouth from a corner; of no dart the place twice."""
        if dart is None:
            assert self.line.at is not None
            return self.line.at, self.line.at
        near, far = (
            self.graph.add(
                "mouth_end", (self.side.curve, dart.node, corner), type=POINT, place=self.place
            )
            for corner in (first, last)
        )
        return near, far

    def _drawn(self, first: int, last: int) -> _Drawn:
        """The edge walked from one corner, the dart coming first."""
        graph, place, pivot = self.graph, self.place, self.pivot
        near, far = self._ends(self.old, first, last)
        place_near, place_far = self._ends(self.into, first, last)
        run = stretch(graph, self.side.curve, far, place_near, place)
        angle = graph.add("turn_about", (pivot, far, near), type=ANGLE, place=place)
        if self.line.share is not None:
            inputs = (angle, self.line.share)
            angle = graph.add("part_of_turn", inputs, type=ANGLE, place=place)
        moved = graph.add("laid", (run, pivot, pivot, angle), type=CURVE, place=place)
        standing = stretch(graph, self.side.curve, first, near, place)
        after = stretch(graph, self.side.curve, place_far, last, place)
        others = tuple(
            self._carried(dart.node, DART, run, angle)
            for name, dart in sorted(self.piece.darts.items())
            if dart.edge == self.edge and name not in self.gone and graph[dart.node].type == DART
        )
        rest = None
        if self.line.share is None:
            before = graph.add("joined", (standing, moved), type=CURVE, place=place)
        else:
            rest, before = opened(graph, standing, moved, pivot, self.short, others, place)
        new_pivot, short = pivot, self.short
        if self.into is not None:
            new_pivot, short = pivot_and_short(graph, self.into.node, place)
        dart, curve = opened(graph, before, after, new_pivot, short, others, place)
        differ = uneven(graph, before, after, new_pivot, place)
        return _Drawn(curve, dart, rest, run, angle, differ)

    def _carried(self, node: int, type: Type, run: int, angle: int) -> int:
        inputs = (node, run, self.pivot, self.pivot, self.pivot, angle)
        return self.graph.add("carried", inputs, type=type, place=self.place)

    def _moved(
        self,
        curve: int,
        darts: dict[str, DartLine],
        carried: Callable[[int, Type], int],
        carry: Carry,
    ) -> PieceLines:
        piece, graph = self.piece, self.graph

        def dart(line: DartLine) -> DartLine:
            if line.edge not in (None, self.edge):
                return line
            return replace(line, node=carried(line.node, graph[line.node].type))

        kept = {n: dart(d) for n, d in piece.darts.items() if n not in self.gone}
        edge = replace(piece.edges[self.edge], curve=curve, blends=())
        return replace(
            piece,
            points={name: carry(node) for name, node in piece.points.items()},
            edges={**piece.edges, self.edge: edge},
            notches=tuple(replace(n, at=carry(n.at), inherited=True) for n in piece.notches),
            darts={**kept, **darts},
            values={n: v for n, v in piece.values.items() if graph[v].type != CURVE},
        )
