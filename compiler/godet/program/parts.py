"""A part of a piece that is cut free and laid elsewhere, the rest standing still.

In: a ring, and two cuts into it, at darts or at points. Out: a `Part`: the run of the outline that
bounds it, how it moves, and what everything of the piece is once it has moved. A cut into the edge
that holds, and two cuts into one edge, raise `Problems`.

    part = Part(graph, moving, motion);  part.point(bust_point)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from godet.base.places import Place
from godet.base.problems import Problems, problem
from godet.graph.node import Graph
from godet.graph.taken_up import sewn_inputs, take_ups
from godet.graph.types import CURVE, DART, GATHERS, POINT, Type
from godet.program.program import DartLine, EdgeLine, PieceLines
from godet.program.ring import Side, begun_at, ends_of, point_of, ring


@dataclass(frozen=True, slots=True)
class Cut:
    """Where an edge is cut: the point up to which it stands, and that from which it moves."""

    side: Side
    standing: int
    moving: int


@dataclass(frozen=True, slots=True)
class Cuts:
    """Both cuts in order of walking from the edge that holds, and the sides between them."""

    first: Cut
    last: Cut
    between: tuple[Side, ...]


@dataclass(frozen=True, slots=True)
class Motion:
    start: int
    goal: int
    angle: int


def sides_between(
    piece: PieceLines,
    graph: Graph,
    edges: tuple[str, str],
    holding: str | None,
    place: Place,
    word: str = "holding",
) -> tuple[Side, Side, tuple[Side, ...]]:
    """The sides of two edges in order of walking from the one that holds, and those between. `word`
    is that before the edge that holds."""
    if edges[0] == edges[1]:
        raise Problems([problem("cuts-on-one-edge", place, edge=edges[0])])
    sides = ring(piece, graph, place)
    holds = holding or "centre"
    if holds in edges or holds not in piece.edges:
        code = "holding-is-cut" if holds in edges else "holding-needed"
        named = ", ".join(sorted(set(piece.edges) - set(edges)))
        raise Problems([problem(code, place, edge=holds, edges=named, word=word)])
    walk = begun_at(sides, holds)
    at = sorted(number for number, side in enumerate(walk) if side.edge in edges)
    return walk[at[0]], walk[at[1]], walk[at[0] + 1 : at[1]]


def run_of(graph: Graph, cuts: Cuts, place: Place) -> int:
    """The run of the outline that bounds the part, from the first cut to the last."""
    first, last = cuts.first, cuts.last
    curves = [
        stretch(graph, first.side.curve, first.moving, first.side.last, place),
        *(stretch(graph, each.curve, each.first, each.last, place) for each in cuts.between),
        stretch(graph, last.side.curve, last.side.first, last.moving, place),
    ]
    return graph.add("joined", tuple(curves), type=CURVE, place=place)


def stretch(graph: Graph, curve: int, first: int, last: int, place: Place) -> int:
    return graph.add("stretch", (curve, first, last), type=CURVE, place=place)


@dataclass(frozen=True, slots=True)
class Part:
    graph: Graph
    cuts: Cuts
    run: int
    by_way_of: int  # a point inside the piece by which the run is closed
    motion: Motion
    place: Place

    def laid(self, node: int, type: Type) -> int:
        motion = self.motion
        inputs = (node, motion.start, motion.goal, motion.angle)
        return self.graph.add("laid", inputs, type=type, place=self.place)

    def point(self, node: int) -> int:
        """Where a point of the piece lies now."""
        known = point_of(self.graph, node)
        if known in self._moving_corners():
            return self.laid(node, POINT)
        if known in self._standing_corners():
            return node
        return self.carried(node, POINT)

    def carried(self, node: int, type: Type) -> int:
        motion = self.motion
        inputs = (node, self.run, self.by_way_of, motion.start, motion.goal, motion.angle)
        return self.graph.add("carried", inputs, type=type, place=self.place)

    def _moving_corners(self) -> set[int]:
        cuts = self.cuts
        inner = {each for side in cuts.between for each in (side.first, side.last)}
        return inner | {cuts.first.side.last, cuts.last.side.first}

    def _standing_corners(self) -> set[int]:
        return {self.cuts.first.side.first, self.cuts.last.side.last}

    def halves(self, cut: Cut) -> tuple[int, int]:
        """The two parts of a cut edge where they lie now, in order of walking."""
        graph, place, side = self.graph, self.place, cut.side
        if cut == self.cuts.first:
            before = stretch(graph, side.curve, side.first, cut.standing, place)
            after = stretch(graph, side.curve, cut.moving, side.last, place)
            return before, self.laid(after, CURVE)
        before = stretch(graph, side.curve, side.first, cut.moving, place)
        after = stretch(graph, side.curve, cut.standing, side.last, place)
        return self.laid(before, CURVE), after

    def faired(self, cut: Cut, reach: int) -> int:
        """A cut edge as it is now, faired over the gap from a reach before it to one behind."""
        inputs = sewn_inputs(self.graph, "bridged", (*self.halves(cut), reach))
        curve = whole(self.graph, "bridged", inputs, self.place)
        return self.turned_as(curve, cut.side)

    def others(self, piece: PieceLines, edge: str, without: frozenset[str]) -> tuple[int, ...]:
        """The darts on a cut edge, but for those of some names, where they lie now."""
        return tuple(
            self.carried(line.node, DART)
            for name, line in sorted(piece.darts.items())
            if edge in (line.edge, *line.also)
            and name not in without
            and self.graph[line.node].type == DART
        )

    def turned_as(self, curve: int, side: Side) -> int:
        """A curve drawn in the order of walking, with its first end where the old edge had it."""
        return turned_as(self.graph, curve, side, self.place)

    def moved(
        self, piece: PieceLines, edges: Mapping[str, int], without: frozenset[str]
    ) -> PieceLines:
        """The piece once the part has moved: `edges` are those that were cut, as they are now;
        the darts of `without` are left to the caller."""
        between = {side.edge for side in self.cuts.between}

        def edge(name: str, line: EdgeLine) -> EdgeLine:
            if name in edges:
                return replace(line, curve=edges[name], blends=())
            return replace(line, curve=self.laid(line.curve, CURVE)) if name in between else line

        def dart(line: DartLine) -> DartLine:
            type, on = self.graph[line.node].type, {line.edge, *line.also}
            if on <= between:
                return replace(line, node=self.laid(line.node, type))
            if line.edge is None or on & {*edges, *between}:
                return replace(line, node=self.carried(line.node, type))
            return line

        moved = replace(
            piece,
            points={name: self.point(node) for name, node in piece.points.items()},
            edges={name: edge(name, line) for name, line in piece.edges.items()},
            notches=tuple(
                replace(line, at=self.point(line.at), inherited=True) for line in piece.notches
            ),
            darts={n: dart(line) for n, line in piece.darts.items() if n not in without},
            values={n: v for n, v in piece.values.items() if self.graph[v].type != CURVE},
        )
        return taking_up(moved, self.graph)


# what puts the two parts of an edge together, and how many cubics it adds between them
_BETWEEN = {"joined": 0, "bridged": 1, "around_dart": 2}


def whole(graph: Graph, operation: str, inputs: tuple[int, ...], place: Place) -> int:
    """An edge put together from its two parts; it does not grow with the cuts made into it."""
    curve = graph.add(operation, inputs, type=CURVE, place=place)
    between = _BETWEEN[operation]
    return graph.add("closed_up", (curve,), type=CURVE, place=place, between=between)


def on_edge(
    piece: PieceLines, graph: Graph, edge: str, without: frozenset[str] = frozenset()
) -> tuple[int, ...]:
    """The nodes of all that is taken up on an edge, but for the darts of some names."""
    found = []
    for name, line in sorted(piece.darts.items()):
        if edge not in (line.edge, *line.also) or name in without:
            continue
        folded = line.manner in ("pleat", "tuck")
        found.append(
            graph.add("pleat", (line.node,), type=GATHERS, place=line.place)
            if folded
            else line.node
        )
    return tuple(found)


def taking_up(piece: PieceLines, graph: Graph) -> PieceLines:
    """The piece, each of whose edges has taken up on it what the piece has on that edge. A curve
    put together from parts that were moved would still have what was closed, and where it was."""

    def edge(name: str, line: EdgeLine) -> EdgeLine:
        taken = on_edge(piece, graph, name)
        if set(taken) == set(take_ups(graph, line.curve)):
            return line
        inputs = (line.curve, *taken)
        curve = graph.add("taken_up", inputs, type=CURVE, place=graph.places[line.curve])
        return replace(line, curve=curve)

    return replace(piece, edges={name: edge(name, line) for name, line in piece.edges.items()})


def turned_as(graph: Graph, curve: int, side: Side, place: Place) -> int:
    """A curve drawn in the order of walking, with its first end where the old edge had it."""
    which = _first_end(graph, side.curve)
    if which is not None:
        return graph.add("from_the", (curve,), type=CURVE, place=place, which=which)
    known = ends_of(graph, side.curve)
    if known.in_order and known.first != side.first:
        return graph.add("reversed", (curve,), type=CURVE, place=place)
    return curve


def _first_end(graph: Graph, curve: int) -> str | None:
    """The end at which an edge's kind says that it begins; None where none says."""
    node = graph[curve]
    if node.operation == "from_the":
        return str(node.constant("which"))
    if node.operation in ("darted", "taken_up", "laid", "mirrored"):
        return _first_end(graph, node.inputs[0])
    return None


def dart_of(piece: PieceLines, name: str, place: Place) -> tuple[DartLine, str]:
    """A dart of the piece and the edge that it is on."""
    line = piece.darts.get(name)
    if line is None or line.edge is None or line.manner != "dart":
        have = sorted(n for n, each in piece.darts.items() if each.manner == "dart")
        said = ", ".join(f"`{n}`" for n in have) or "none"
        raise Problems([problem("no-such-dart", place, name=name, have=said)])
    return line, line.edge
