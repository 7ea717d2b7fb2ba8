"""A piece divided along a line, and of both parts the one that is kept.

In: a linked piece and the alteration. Out: the part that is kept, with the line as its new edge.
Edges that the line cuts are kept as far as it; those beyond it go, with what is on them. A dart
with two points becomes an ordinary one on the new edge. Levels go too, since the part may not reach
them. Wrong edges, and a new edge with the name of one that stays, raise `Problems`; a line that
does not end on its edges, or does not cross a dart with two points, fails for a body.

    divide(front, graph, line)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from godet.base.problems import Problems, problem
from godet.graph.node import Graph
from godet.graph.taken_up import sewn_inputs
from godet.graph.types import CURVE, DART, LENGTH, POINT
from godet.program.alterations import Divide
from godet.program.parts import sides_between, stretch, turned_as
from godet.program.program import DartLine, EdgeLine, PieceLines
from godet.program.ring import begun_at, ring
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
    stays = set(piece.edges) - names
    if line.name in stays:
        raise Problems([problem("given-twice", place, name=line.name)])
    kept = {
        name: replace(each, curve=cut[name], blends=()) if name in cut else each
        for name, each in piece.edges.items()
        if name in stays
    }
    walk = ring(piece, graph, place)
    darts = {n: d for n, d in piece.darts.items() if d.edge is None or d.edge in stays}
    if any(dart.manner == "double" for dart in darts.values()):
        along = stretch(graph, line.along, ends[first.edge], ends[last.edge], place)
        rest = [side for side in begun_at(walk, last.edge)[1:] if side.edge in stays - set(cut)]
        run = [stretch(graph, each.curve, each.first, each.last, place) for each in rest]
        around = graph.add("joined", (before, along, after, *run), type=CURVE, place=place)
        new, darts = _cut_through(darts, graph, line, new, around)
    kept[line.name] = EdgeLine(new, place)
    corners = {each for side in gone for each in (side.first, side.last)}
    standing = {
        each for side in walk if side.edge in stays - set(cut) for each in (side.first, side.last)
    }
    dropped = corners - standing
    divided = replace(
        piece,
        points={n: each for n, each in piece.points.items() if each not in dropped},
        edges=kept,
        levels={},
        parted=True,
        notches=tuple(replace(n, inherited=True) for n in piece.notches if n.edge in stays),
        allowances={n: each for n, each in piece.allowances.items() if n in stays},
        allowed_at={n: each for n, each in piece.allowed_at.items() if n in stays},
        corners={n: each for n, each in piece.corners.items() if n in stays},
        fold=piece.fold if piece.fold is not None and piece.fold.edge in stays else None,
        darts=darts,
        values={n: v for n, v in piece.values.items() if graph[v].type != CURVE},
    )
    return Altered(divided, lambda point: point)


def _cut_through(
    darts: Mapping[str, DartLine], graph: Graph, line: Divide, new: int, around: int
) -> tuple[int, dict[str, DartLine]]:
    """The new edge with what is left on it of the darts with two points, and all darts by name;
    `around` is the outline of the part."""
    place, drawn, left = line.place, new, dict(darts)
    for name, dart in sorted(darts.items()):
        if dart.manner != "double":
            continue
        node = graph.add("cut_dart", (dart.node, drawn, around), type=DART, place=place)
        strays = graph.add("dart_strays", (drawn, node), type=LENGTH, place=place)
        left[name] = DartLine(node, "dart", dart.place, line.name, strays)
        new = graph.add(
            "darted", sewn_inputs(graph, "darted", (new, node)), type=CURVE, place=place
        )
    return new, left
