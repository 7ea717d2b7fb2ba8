"""A piece divided along a line, and of both parts the one that is kept.

In: a linked piece and the alteration. Out: the part that is kept, with the line as its new edge.
Edges that the line cuts are kept as far as it; those beyond it go, with what is on them. Levels go
too, since the part may not reach them. Wrong edges raise `Problems`; a line that does not end on
its edges fails for a body.

    divide(front, graph, line)
"""

from __future__ import annotations

from dataclasses import replace

from godet.graph.node import Graph
from godet.graph.types import CURVE, POINT
from godet.program.alterations import Divide
from godet.program.parts import sides_between, stretch, turned_as
from godet.program.program import EdgeLine, PieceLines
from godet.program.ring import ring
from godet.program.swinging import Altered


def divide(piece: PieceLines, graph: Graph, line: Divide) -> Altered:
    """The part of the piece on the side of the edge that is kept."""
    place = line.place
    ends = {
        edge: graph.add(which, (line.along,), type=POINT, place=place)
        for edge, which in ((line.first, "start_point"), (line.last, "end_point"))
    }
    edges = (line.first, line.last)
    first, last, gone = sides_between(piece, graph, edges, line.keeping, place, "keeping")
    before = stretch(graph, first.curve, first.first, ends[first.edge], place)
    after = stretch(graph, last.curve, ends[last.edge], last.last, place)
    cut = {
        first.edge: turned_as(graph, before, first, place),
        last.edge: turned_as(graph, after, last, place),
    }
    # drawn between the very points at which the edges are cut
    new = stretch(graph, line.along, ends[line.first], ends[line.last], place)
    names = {side.edge for side in gone}
    kept = {
        name: replace(each, curve=cut[name], blends=()) if name in cut else each
        for name, each in piece.edges.items()
        if name not in names
    }
    kept[line.name] = EdgeLine(new, place)
    corners = {each for side in gone for each in (side.first, side.last)}
    standing = {
        each
        for side in ring(piece, graph, place)
        if side.edge in set(kept) - set(cut)
        for each in (side.first, side.last)
    }
    dropped = corners - standing
    divided = replace(
        piece,
        points={n: each for n, each in piece.points.items() if each not in dropped},
        edges=kept,
        levels={},
        parted=True,
        notches=tuple(replace(n, inherited=True) for n in piece.notches if n.edge in kept),
        allowances={n: each for n, each in piece.allowances.items() if n in kept},
        allowed_at={n: each for n, each in piece.allowed_at.items() if n in kept},
        fold=piece.fold if piece.fold is not None and piece.fold.edge in kept else None,
        darts={n: d for n, d in piece.darts.items() if d.edge is None or d.edge in kept},
        values={n: v for n, v in piece.values.items() if graph[v].type != CURVE},
    )
    return Altered(divided, lambda point: point)
