"""A half piece made whole over one of its edges.

In: a linked piece and the alteration. Out: the whole piece. The two edges that meet the fold run on
over it; every other edge, and every point and dart off the fold, is there twice, the mirror image
called `other_side`, `other_underarm`. A piece of fewer than three edges raises `Problems`.

    unfold(front, graph, line)
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from godet.base.problems import Problems, problem
from godet.graph.node import Graph
from godet.graph.types import CURVE, POINT, Type
from godet.program.alterations import MIRRORED, Unfold
from godet.program.parts import stretch, turned_as
from godet.program.program import DartLine, EdgeLine, MarkLine, PieceLines
from godet.program.ring import Side, begun_at, point_of, ring
from godet.program.swinging import Altered

_FEWEST = 3  # edges: two that meet the fold, and the fold


def unfold(piece: PieceLines, graph: Graph, line: Unfold) -> Altered:
    """The piece with its mirror image beyond the edge."""
    sides = begun_at(ring(piece, graph, line.place), line.edge)
    if len(sides) < _FEWEST:
        raise Problems([problem("unfold-too-few", line.place, piece=piece.name)])
    return Altered(_Unfolding(graph, line, sides).whole(piece), lambda point: point)


@dataclass(frozen=True, slots=True)
class _Unfolding:
    graph: Graph
    line: Unfold
    sides: tuple[Side, ...]

    @property
    def fold(self) -> Side:
        return self.sides[0]

    def mirrored(self, node: int, type: Type) -> int:
        inputs = (node, self.fold.first, self.fold.last)
        return self.graph.add("mirrored", inputs, type=type, place=self.line.place)

    def whole(self, piece: PieceLines) -> PieceLines:
        graph = self.graph
        meeting = {self.sides[1].edge, self.sides[-1].edge}
        double = {side.edge for side in self.sides[2:-1]}
        edges: dict[str, EdgeLine] = {}
        for name, each in piece.edges.items():
            if name in meeting:
                edges[name] = replace(each, curve=self._over(name), blends=())
            elif name in double:
                edges[name] = each
                curve = self.mirrored(each.curve, CURVE)
                edges[f"{MIRRORED}{name}"] = replace(each, curve=curve, blends=())
        on_fold = {self.fold.first, self.fold.last}
        off = {n: p for n, p in piece.points.items() if point_of(graph, p) not in on_fold}
        points = {f"{MIRRORED}{n}": self.mirrored(p, POINT) for n, p in off.items()}
        notches = [replace(n, inherited=True) for n in piece.notches if n.edge in edges]
        notches += [
            replace(
                n,
                edge=n.edge if n.edge in meeting else f"{MIRRORED}{n.edge}",
                at=self.mirrored(n.at, POINT),
                name=f"{MIRRORED}{n.name}" if n.name else "",
            )
            for n in notches
            if point_of(graph, n.at) not in on_fold
        ]
        darts = {n: d for n, d in piece.darts.items() if d.edge != self.line.edge}
        darts |= {f"{MIRRORED}{n}": self._dart(d, meeting) for n, d in darts.items()}
        twice = {name: name for name in (*meeting, *double)}
        twice |= {f"{MIRRORED}{name}": name for name in double}
        allowances, allowed_at = piece.allowances, piece.allowed_at
        return replace(
            piece,
            points={**piece.points, **points},
            edges=edges,
            notches=tuple(notches),
            fold=None if piece.fold is None or piece.fold.edge == self.line.edge else piece.fold,
            darts=darts,
            marks=(*piece.marks, *(self._mark(m) for m in piece.marks if m.point in off)),
            values={n: v for n, v in piece.values.items() if graph[v].type != CURVE},
            allowances={n: allowances[of] for n, of in twice.items() if of in allowances},
            allowed_at={n: allowed_at[of] for n, of in twice.items() if of in allowed_at},
        )

    def _mark(self, line: MarkLine) -> MarkLine:
        return replace(line, point=f"{MIRRORED}{line.point}")

    def _over(self, name: str) -> int:
        """An edge that meets the fold, run on over it."""
        graph, place = self.graph, self.line.place
        side = self.sides[1] if self.sides[1].edge == name else self.sides[-1]
        own = stretch(graph, side.curve, side.first, side.last, place)
        image = graph.add("reversed", (self.mirrored(own, CURVE),), type=CURVE, place=place)
        # the edge behind the fold is walked away from it, the one before it towards it
        curves = (image, own) if side is self.sides[1] else (own, image)
        curve = graph.add("joined", curves, type=CURVE, place=place)
        return turned_as(graph, curve, side, place)

    def _dart(self, line: DartLine, meeting: set[str]) -> DartLine:
        node = self.mirrored(line.node, self.graph[line.node].type)
        edge = line.edge if line.edge is None or line.edge in meeting else f"{MIRRORED}{line.edge}"
        return replace(line, node=node, edge=edge)
