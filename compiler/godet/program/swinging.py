"""Darts swung to another place, or turned into what takes up as much.

In: a linked piece and the alteration. Out: the altered piece, and where its points went. What the
rest of the piece is sewn to keeps its length: only what lies between the old place and the new one
moves, turning about the dart's pivot. A dart or an edge the piece does not have raises `Problems`.

    altered, carry = swing(front, graph, line)
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from godet.base.places import Place
from godet.graph.node import Graph
from godet.graph.taken_up import sewn_inputs
from godet.graph.types import ANGLE, CURVE, GATHERS, LENGTH, POINT, RATIO
from godet.program.alterations import Convert, Swing
from godet.program.opening import opened, pivot_and_short, uneven
from godet.program.parts import (
    Cut,
    Cuts,
    Motion,
    Part,
    dart_of,
    on_edge,
    run_of,
    sides_between,
    stretch,
    turned_as,
    whole,
)
from godet.program.program import DartLine, DartManner, PieceLines
from godet.program.ring import Side, ring
from godet.program.swinging_along import Carry, swing_along


@dataclass(frozen=True, slots=True)
class Altered:
    piece: PieceLines
    carry: Carry


def swing(piece: PieceLines, graph: Graph, line: Swing) -> Altered:
    """A dart, or a share of it, opened at a place on another edge or merged into another dart."""
    old, edge = dart_of(piece, line.dart, line.place)
    into, target = (None, line.edge)
    if line.into is not None:
        into, target = dart_of(piece, line.into, line.place)
    assert target is not None
    if target == edge:
        return Altered(*swing_along(piece, graph, line, old, into, edge))
    part = _freed(piece, graph, line, old, edge, target, into)
    pivot, short = pivot_and_short(graph, (into or old).node, line.place)
    gone = frozenset({line.dart, *([line.into] if line.into is not None else [])})
    edges, darts = {}, {}
    for cut in (part.cuts.first, part.cuts.last):
        before, after = part.halves(cut)
        others = part.others(piece, cut.side.edge, gone)
        if cut.side.edge == target:
            made, curve = opened(graph, before, after, pivot, short, others, line.place)
            name = line.into or line.name
            darts[name] = DartLine(
                made, "dart", line.place, target, uneven(graph, before, after, pivot, line.place)
            )
        elif line.share is None:
            curve = whole(graph, "joined", (before, after), line.place)
        else:
            own = pivot_and_short(graph, old.node, line.place)
            made, curve = opened(graph, before, after, *own, others, line.place)
            darts[line.dart] = replace(old, node=made, strays=None)
        edges[cut.side.edge] = part.turned_as(curve, cut.side)
    moved = part.moved(piece, edges, gone)
    return Altered(replace(moved, darts={**moved.darts, **darts}), part.point)


def convert(piece: PieceLines, graph: Graph, line: Convert) -> Altered:
    """A dart turned into flare at another edge, or into gathers, ease, a pleat or a tuck where it
    is."""
    if line.into == "flare":
        return _flared(piece, graph, line)
    old, edge = dart_of(piece, line.dart, line.place)
    if line.into in ("gathers", "ease"):
        return Altered(_gathered(piece, graph, line, old, edge), _still)
    return Altered(_pleated(piece, line, old), _still)


def _still(point: int) -> int:
    return point


def _flared(piece: PieceLines, graph: Graph, line: Convert) -> Altered:
    old, edge = dart_of(piece, line.dart, line.place)
    assert line.edge is not None
    part = _freed(piece, graph, line, old, edge, line.edge, None)
    edges = {}
    for cut in (part.cuts.first, part.cuts.last):
        if cut.side.edge == line.edge:
            edges[line.edge] = part.faired(cut, _half_of(graph, cut.side.curve, line.place))
        else:
            curve = whole(graph, "joined", part.halves(cut), line.place)
            edges[cut.side.edge] = part.turned_as(curve, cut.side)
    return Altered(part.moved(piece, edges, frozenset({line.dart})), part.point)


def _freed(
    piece: PieceLines,
    graph: Graph,
    line: Swing | Convert,
    old: DartLine,
    edge: str,
    target: str,
    into: DartLine | None,
) -> Part:
    """The part between a dart and another place, turned about the pivot until the dart is
    closed."""
    place = line.place
    share = line.share if isinstance(line, Swing) else None
    first, last, between = sides_between(piece, graph, (edge, target), line.holding, place)
    pivot, _ = pivot_and_short(graph, old.node, place)

    def cut(side: Side, stands_first: bool) -> Cut:
        corners = (side.first, side.last) if stands_first else (side.last, side.first)
        dart = old if side.edge == edge else into
        if dart is None:
            assert line.at is not None
            return Cut(side, line.at, line.at)
        ends = [
            graph.add("mouth_end", (side.curve, dart.node, corner), type=POINT, place=place)
            for corner in corners
        ]
        return Cut(side, *ends)

    cuts = Cuts(cut(first, stands_first=True), cut(last, stands_first=False), between)
    closed = cuts.first if first.edge == edge else cuts.last
    inputs = (pivot, closed.moving, closed.standing)
    angle = graph.add("turn_about", inputs, type=ANGLE, place=place)
    if share is not None:
        angle = graph.add("part_of_turn", (angle, share), type=ANGLE, place=place)
    run = run_of(graph, cuts, place)
    return Part(graph, cuts, run, pivot, Motion(pivot, pivot, angle), place)


def _half_of(graph: Graph, curve: int, place: Place) -> int:
    """A half of a curve's length: the edge is made fair as far as that on either side."""
    length = graph.add("length", (curve,), type=LENGTH, place=place)
    half = graph.add("number", type=RATIO, place=None, value=Fraction(1, 2))
    return graph.add("multiply", (length, half), type=LENGTH, place=place)


def _around(
    piece: PieceLines, graph: Graph, dart: DartLine, edge: str, place: Place
) -> tuple[Side, int, int]:
    """The side of a dart's edge, and its parts before and behind the mouth, as walked."""
    side = next(side for side in ring(piece, graph, place) if side.edge == edge)
    ends = [
        graph.add("mouth_end", (side.curve, dart.node, corner), type=POINT, place=place)
        for corner in (side.first, side.last)
    ]
    before = stretch(graph, side.curve, side.first, ends[0], place)
    after = stretch(graph, side.curve, ends[1], side.last, place)
    return side, before, after


def _gathered(
    piece: PieceLines, graph: Graph, line: Convert, old: DartLine, edge: str
) -> PieceLines:
    """The mouth faired over, and what the dart took up gathered or eased in."""
    place = line.place
    assert line.over is not None
    side, before, after = _around(piece, graph, old, edge, place)

    def add(operation: str, *inputs: int) -> int:
        measured = sewn_inputs(graph, operation, inputs)
        return graph.add(operation, measured, type=LENGTH, place=place)

    none = graph.add("number", type=LENGTH, place=None, value=Fraction(0))
    bridged = whole(graph, "bridged", (before, after, none), place)
    others = on_edge(piece, graph, edge, without=frozenset({line.dart}))
    faired = graph.add("taken_up", (bridged, *others), type=CURVE, place=place)
    taken = add("subtract", add("length", faired), add("length", side.curve))
    cut = [
        add("length", graph.add("as_cut", (n,), type=CURVE, place=place))
        for n in (faired, before, after)
    ]
    half = graph.add("number", type=RATIO, place=None, value=Fraction(1, 2))
    difference = add("subtract", add("add", cut[0], cut[1]), cut[2])
    reach = add("multiply", difference, half)
    as_cut = graph.add("as_cut", (faired,), type=CURVE, place=place)
    middle = graph.add("along", (as_cut, side.first, reach), type=POINT, place=place)
    gathers = graph.add("gathers", (as_cut, middle, line.over, taken), type=GATHERS, place=place)
    curve = turned_as(graph, bridged, side, place)
    manner: DartManner = "gathers" if line.into == "gathers" else "ease"
    made = DartLine(gathers, manner, place, edge)
    return _redrawn(piece, edge, curve, {line.dart: made})


def _pleated(piece: PieceLines, line: Convert, old: DartLine) -> PieceLines:
    """The mouth folded as it is, and not sewn to a point: the cloth below is free."""
    manner: DartManner = "pleat" if line.into == "pleat" else "tuck"
    made = replace(old, manner=manner, place=line.place, sewn_for=line.over)
    return replace(piece, darts={**piece.darts, line.dart: made})


def _redrawn(piece: PieceLines, edge: str, curve: int, darts: dict[str, DartLine]) -> PieceLines:
    line = replace(piece.edges[edge], curve=curve, blends=())
    return replace(piece, edges={**piece.edges, edge: line}, darts={**piece.darts, **darts})
