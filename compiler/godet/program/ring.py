"""The ring of a piece's edges: which follows which round the outline, known before any body is.

In: the edges of a linked piece. Out: the `Side`s of the ring in order of walking, each with the
nodes of the points it is walked from and to. Edges are known to meet where they are drawn from and
to one and the same point; two ends that are left over meet each other. More of them left over, and
a point at which more than two edges end, raise `Problems`.

    ring(front, graph)   # (Side("neck", 12, centre_neck, side_neck), Side("shoulder", ..), ...)
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from godet.base.places import Place
from godet.base.problems import Problem, Problems, problem
from godet.graph.node import Graph
from godet.graph.types import CURVE, POINT
from godet.program.program import PieceLines

_SAME_ENDS = frozenset({"from_the", "darted", "taken_up", "as_cut", "closed_up"})
_MOVED = frozenset({"laid", "mirrored"})


@dataclass(frozen=True, slots=True)
class Side:
    """An edge as the ring walks it."""

    edge: str
    curve: int
    first: int  # the point it is walked from
    last: int


@dataclass(frozen=True, slots=True)
class Ends:
    """The points at which a curve is drawn to begin and to end; which is which may not be known."""

    first: int
    last: int
    in_order: bool


def ring(piece: PieceLines, graph: Graph, place: Place) -> tuple[Side, ...]:
    """The edges in order of walking, from the first by name. `place` asks for it."""
    ends = {name: ends_of(graph, line.curve) for name, line in sorted(piece.edges.items())}
    ends = _settled(ends, piece, graph)
    meets = _meetings(ends, piece, place)
    start = next(iter(ends))
    walked: list[Side] = []
    edge, outward = start, 1
    while True:
        known = ends[edge]
        first, last = (known.first, known.last) if outward else (known.last, known.first)
        walked.append(Side(edge, piece.edges[edge].curve, first, last))
        edge, entered = meets[edge, outward]
        outward = 1 - entered
        if edge == start:
            break
    if len(walked) < len(ends):
        raise Problems([_unknown(piece, sorted(set(ends) - {s.edge for s in walked}), place)])
    return tuple(walked)


def _settled(ends: dict[str, Ends], piece: PieceLines, graph: Graph) -> dict[str, Ends]:
    """The ends, each that is one of two points being the one to which one other edge is drawn: of
    part of an edge that a kind has turned it is not known which of them is left."""
    drawn = [point for known in ends.values() for point in (known.first, known.last)]

    def settled(curve: int, own: int, *, last: bool) -> int:
        meant = [point for point in _one_of(graph, curve, last=last) if drawn.count(point) == 1]
        return meant[0] if len(meant) == 1 and drawn.count(own) == 1 else own

    def both(curve: int, known: Ends) -> Ends:
        while graph[curve].operation in _SAME_ENDS:
            curve = graph[curve].inputs[0]
        first = settled(curve, known.first, last=False)
        return replace(known, first=first, last=settled(curve, known.last, last=True))

    return {name: both(piece.edges[name].curve, known) for name, known in ends.items()}


def _one_of(graph: Graph, curve: int, *, last: bool) -> tuple[int, ...]:
    """The points of which one is this end of a curve; none where it is known or never drawn to."""
    operation, inputs = graph[curve].operation, graph[curve].inputs
    match operation:
        case "from_the":
            known = ends_of(graph, inputs[0])
            return (known.first, known.last)
        case "joined" | "blend":
            curves = [each for each in inputs if graph[each].type == CURVE]
            return _one_of(graph, curves[-1 if last else 0], last=last)
        case "until" | "extended":
            return () if last else _one_of(graph, inputs[0], last=False)
        case "from_point":
            return _one_of(graph, inputs[0], last=True) if last else ()
        case "reversed":
            return _one_of(graph, inputs[0], last=not last)
    return _one_of(graph, inputs[0], last=last) if operation in _SAME_ENDS else ()


def _meetings(
    ends: dict[str, Ends], piece: PieceLines, place: Place
) -> dict[tuple[str, int], tuple[str, int]]:
    """For each end of an edge, 0 or 1, the end of another that it meets."""
    at: dict[int, list[tuple[str, int]]] = {}
    for name, known in ends.items():
        at.setdefault(known.first, []).append((name, 0))
        at.setdefault(known.last, []).append((name, 1))
    pairs = [each for each in at.values() if len(each) == 2]
    loose = [end for each in at.values() if len(each) == 1 for end in each]
    crowded = [end for each in at.values() if len(each) > 2 for end in each]
    if crowded or len(loose) not in (0, 2):
        raise Problems([_unknown(piece, sorted({name for name, _ in crowded or loose}), place)])
    meets: dict[tuple[str, int], tuple[str, int]] = {}
    for first, second in [*pairs, *([loose] if loose else [])]:
        meets[first], meets[second] = second, first
    return meets


def _unknown(piece: PieceLines, edges: list[str], place: Place) -> Problem:
    return problem("corners-unknown", place, piece=piece.name, edges=", ".join(edges))


def begun_at(sides: tuple[Side, ...], edge: str) -> tuple[Side, ...]:
    """The ring walked from an edge on."""
    at = next(number for number, side in enumerate(sides) if side.edge == edge)
    return (*sides[at:], *sides[:at])


def ends_of(graph: Graph, curve: int) -> Ends:
    """The nodes of the points at which a curve is drawn to begin and to end."""
    node = graph[curve]
    operation, inputs = node.operation, node.inputs
    match operation:
        case "line" | "arc" | "square_arc":
            return Ends(point_of(graph, inputs[0]), point_of(graph, inputs[1]), in_order=True)
        case "spline":
            points = [each for each in inputs if graph[each].type == POINT]
            return Ends(point_of(graph, points[0]), point_of(graph, points[-1]), in_order=True)
        case "stretch":
            return Ends(point_of(graph, inputs[1]), point_of(graph, inputs[2]), in_order=True)
        case "joined" | "blend" | "bridged" | "around_dart":
            curves = [each for each in inputs if graph[each].type == CURVE]
            return _between(graph, curve, curves[0], curves[-1])
        case "until" | "from_point" | "extended":
            return _part(graph, curve)
        case "reversed":
            known = ends_of(graph, inputs[0])
            return Ends(known.last, known.first, known.in_order)
        case "either":
            return _either(graph, curve)
    if operation in _SAME_ENDS:
        known = ends_of(graph, inputs[0])
        return Ends(known.first, known.last, known.in_order and operation != "from_the")
    if operation in _MOVED:
        known = ends_of(graph, inputs[0])
        first, last = (
            graph.add(operation, (each, *inputs[1:]), type=POINT, place=graph.places[curve])
            for each in (known.first, known.last)
        )
        return Ends(first, last, known.in_order)
    return _as_they_are(graph, curve)


def _as_they_are(graph: Graph, curve: int) -> Ends:
    first, last = (
        graph.add(which, (curve,), type=POINT, place=graph.places[curve])
        for which in ("start_point", "end_point")
    )
    return Ends(first, last, in_order=True)


def _between(graph: Graph, curve: int, before: int, after: int) -> Ends:
    first, last = ends_of(graph, before), ends_of(graph, after)
    own = _as_they_are(graph, curve)
    return Ends(
        first.first if first.in_order else own.first,
        last.last if last.in_order else own.last,
        in_order=True,
    )


def _part(graph: Graph, curve: int) -> Ends:
    operation, inputs = graph[curve].operation, graph[curve].inputs
    whole, own = ends_of(graph, inputs[0]), _as_they_are(graph, curve)
    first = whole.first if whole.in_order else own.first
    last = whole.last if whole.in_order else own.last
    if operation == "until":
        last = point_of(graph, inputs[1])
    elif operation == "from_point":
        first = point_of(graph, inputs[1])
    else:
        last = own.last
    return Ends(first, last, in_order=True)


def _either(graph: Graph, curve: int) -> Ends:
    branches = [ends_of(graph, each) for each in graph[curve].inputs[1:]]
    own = _as_they_are(graph, curve)
    if branches[0] == branches[1]:
        return branches[0]
    return own


def point_of(graph: Graph, point: int) -> int:
    """The node of a point by which it is known: the end of a curve is what that is drawn to."""
    node = graph[point]
    if node.operation in ("start_point", "end_point"):
        ends = ends_of(graph, node.inputs[0]) if graph[node.inputs[0]].inputs else None
        if ends is not None and ends.in_order:
            return ends.first if node.operation == "start_point" else ends.last
    return point
