"""Two pieces joined on a seam, the second laid to the first with all that it has.

In: two linked pieces and the alteration. Out: one piece. The second is turned, and mirrored where
it would else lie on top of the first, until its edge lies on the first's. Edges of one name that
meet at an end of the seam become one; other names that both have are known with that of the second
piece before them (`back_centre`). A dart on each side of the seam makes one dart with two points.
Edges that can't be told to match raise `Problems`; a gap of more than 1 mm at an end of the seam
fails for a body.

    join(front_yoke, back_yoke, graph, line)
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from godet.base.places import Place
from godet.base.problems import Problem, Problems, problem
from godet.graph.node import Graph
from godet.graph.types import ANGLE, CONDITION, CURVE, POINT, Type
from godet.program.alterations import Join
from godet.program.laying import met
from godet.program.parts import stretch, turned_as
from godet.program.program import DartLine, EdgeLine, NotchLine, PieceLines
from godet.program.ring import Side, begun_at, ring
from godet.program.swinging import Altered


def join(piece: PieceLines, other: PieceLines, graph: Graph, line: Join) -> Altered:
    """The first piece with the second joined to its edge."""
    return _Joining(piece, other, graph, line).joined()


@dataclass(frozen=True, slots=True)
class _Laid:
    """How the second piece is laid to the first."""

    graph: Graph
    corners: tuple[int, int]  # of the second's edge
    goals: tuple[int, int]  # of the first's
    over: int  # a condition: it is mirrored
    place: Place

    def of(self, node: int, type: Type) -> int:
        add = self.graph.add
        flat, flipped = (
            add("laid", (each, *self._motion()), type=type, place=self.place)
            for each in (node, add("mirrored", (node, *self.corners), type=type, place=self.place))
        )
        return add("either", (self.over, flipped, flat), type=type, place=self.place)

    def _motion(self) -> tuple[int, int, int]:
        inputs = (*self.corners, *self.goals)
        angle = self.graph.add("turn_between", inputs, type=ANGLE, place=self.place)
        return self.corners[0], self.goals[0], angle


class _Joining:
    def __init__(self, piece: PieceLines, other: PieceLines, graph: Graph, line: Join) -> None:
        self.piece, self.other, self.graph, self.line = piece, other, graph, line
        self.place = line.place
        self.own = begun_at(ring(piece, graph, self.place), line.edge)
        theirs = begun_at(ring(other, graph, self.place), line.other)
        self.theirs = self._matched(theirs)
        seams = self.own[0], self.theirs[0]
        self.corners = seams[1].first, seams[1].last
        self.goals = seams[0].first, seams[0].last
        self.laid = self._laid()

    def _matched(self, theirs: tuple[Side, ...]) -> tuple[Side, ...]:
        """The second ring, walked so that its seam begins where the first's does."""
        before, after = self.own[-1].edge, self.own[1].edge
        if theirs[-1].edge == before or theirs[1].edge == after:
            return theirs
        if theirs[-1].edge == after or theirs[1].edge == before:
            turned = [Side(s.edge, s.curve, s.last, s.first) for s in reversed(theirs[1:])]
            seam = theirs[0]
            return (Side(seam.edge, seam.curve, seam.last, seam.first), *turned)
        names = {self.own[-1].edge, self.own[1].edge}, {theirs[-1].edge, theirs[1].edge}
        raise Problems(
            [
                problem(
                    "join-corners",
                    self.place,
                    first=", ".join(sorted(names[0])),
                    second=", ".join(sorted(names[1])),
                )
            ]
        )

    def _laid(self) -> _Laid:
        """Mirrored where it would lie on the same side of the seam as the first piece."""
        graph, place = self.graph, self.place
        runs = [self._rest(self.own), self._rest(self.theirs)]
        over = graph.add("same_side", tuple(runs), type=CONDITION, place=place)
        return _Laid(graph, self.corners, self.goals, over, place)

    def _rest(self, sides: tuple[Side, ...]) -> int:
        """All of an outline but its seam."""
        curves = tuple(self._along(side) for side in sides[1:])
        return self.graph.add("joined", curves, type=CURVE, place=self.place)

    def _along(self, side: Side) -> int:
        return stretch(self.graph, side.curve, side.first, side.last, self.place)

    def joined(self) -> Altered:
        piece, other, line = self.piece, self.other, self.line
        edges = {name: each for name, each in piece.edges.items() if name != line.edge}
        names: dict[str, str] = {}  # the second piece's edges: what they are called now
        for own, their, after in (
            (self.own[1], self.theirs[1], True),
            (self.own[-1], self.theirs[-1], False),
        ):
            corner = self.goals[1] if after else self.goals[0]
            laid = self.laid.of(self._along(their), CURVE)
            # the seam's ends are those of the first piece
            whole = self._met(laid, corner, at_start=after)
            if own.edge == their.edge:
                line_of = edges[own.edge]
                curve = self._one(own, whole, after=after)
                edges[own.edge] = replace(line_of, curve=curve, blends=())
                names[their.edge] = own.edge
            else:
                names[their.edge] = self._free(their.edge, edges)
                edges[names[their.edge]] = EdgeLine(whole, self.place)
        for side in self.theirs[2:-1]:
            names[side.edge] = self._free(side.edge, edges)
            curve = self.laid.of(side.curve, CURVE)
            edges[names[side.edge]] = replace(other.edges[side.edge], curve=curve, blends=())
        return Altered(self._whole(edges, names), lambda point: point)

    def _met(self, curve: int, corner: int, *, at_start: bool) -> int:
        inputs = (curve, corner)
        return self.graph.add("brought_to", inputs, type=CURVE, place=self.place, at_start=at_start)

    def _one(self, own: Side, their: int, *, after: bool) -> int:
        """An edge that goes on over the seam: where it follows the seam, the second piece's part of
        it comes first."""
        graph, place = self.graph, self.place
        part = self._along(own)
        back = graph.add("reversed", (their,), type=CURVE, place=place)
        curves = (back, part) if after else (part, back)
        curve = graph.add("joined", curves, type=CURVE, place=place)
        return turned_as(graph, curve, own, place)

    def _free(self, name: str, taken: dict[str, EdgeLine]) -> str:
        return name if name not in taken else f"{self.other.name}_{name}"

    def _whole(self, edges: dict[str, EdgeLine], names: dict[str, str]) -> PieceLines:
        piece, other, line = self.piece, self.other, self.line
        points = dict(piece.points)
        for name, node in other.points.items():
            own = name if name not in points else f"{other.name}_{name}"
            points[own] = self.laid.of(node, POINT)
        notches = [n for n in piece.notches if n.edge != line.edge]
        notches += [self._notch(n, names) for n in other.notches if n.edge != line.other]
        allowances, allowed_at = dict(piece.allowances), dict(piece.allowed_at)
        for name, now in names.items():
            if now not in piece.edges and name in other.allowances:
                allowances[now] = other.allowances[name]
                if name in other.allowed_at:
                    allowed_at[now] = other.allowed_at[name]
        for each in (allowances, allowed_at):
            each.pop(line.edge, None)
        values = {n: v for n, v in piece.values.items() if self.graph[v].type != CURVE}
        return replace(
            piece,
            points=points,
            edges=edges,
            notches=tuple(notches),
            allowances=allowances,
            allowed_at=allowed_at,
            fold=piece.fold if piece.fold is not None and piece.fold.edge != line.edge else None,
            darts=self._darts(names),
            values=values,
        )

    def _notch(self, notch: NotchLine, names: dict[str, str]) -> NotchLine:
        at = self.laid.of(notch.at, POINT)
        return replace(notch, edge=names[notch.edge], at=at, inherited=True)

    def _darts(self, names: dict[str, str]) -> dict[str, DartLine]:
        line, graph = self.line, self.graph
        darts = {n: d for n, d in self.piece.darts.items() if d.edge != line.edge}
        upper = {n: d for n, d in sorted(self.piece.darts.items()) if d.edge == line.edge}
        lower = {n: d for n, d in sorted(self.other.darts.items()) if d.edge == line.other}
        for name, dart in self.other.darts.items():
            if dart.edge == line.other:
                continue
            own = name if name not in darts else f"{self.other.name}_{name}"
            edge = names[dart.edge] if dart.edge is not None else None
            darts[own] = replace(
                dart, node=self.laid.of(dart.node, graph[dart.node].type), edge=edge
            )
        pairs = {n: n for n in upper if n in lower}
        rest = [n for n in upper if n not in pairs], [n for n in lower if n not in pairs.values()]
        if len(upper) != len(lower):
            raise Problems([_unpaired(self.place, len(upper), len(lower))])
        pairs |= dict(zip(*rest, strict=True))
        for name, their in pairs.items():
            laid = self.laid.of(lower[their].node, graph[lower[their].node].type)
            darts[name] = met(upper[name].node, laid, graph, self.place)
        return darts


def _unpaired(place: Place, first: int, second: int) -> Problem:
    def counted(darts: int) -> str:
        return {0: "no dart", 1: "one dart"}.get(darts, f"{darts} darts")

    return problem("join-darts", place, first=counted(first), second=counted(second))
