"""Linked drafts made by hand, with the values that a solver would have found for them.

draft = HandDraft()
draft.piece("front", {"top": straight((0, 0), (100, 0)), ...}, allow={"top": 10.0})
pattern, problems = draft.finish()
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from godet.base.places import Place
from godet.base.problems import Problem
from godet.graph.node import Graph
from godet.graph.types import CONDITION, CURVE, DART, DIRECTION, LENGTH, LEVEL, POINT, Type
from godet.pattern.finish import finish, targets
from godet.pattern.order import Order
from godet.pattern.paths import length
from godet.pattern.pieces import Pattern, Piece
from godet.pattern.sewn_edges import SewnEdge
from godet.program.curves import BlendNote
from godet.program.draft import Draft
from godet.program.laying import times
from godet.program.program import (
    CheckLine,
    CornerLine,
    CutLine,
    DartLine,
    DartManner,
    EdgeLine,
    FoldLine,
    MarkLine,
    NotchLine,
    PieceLines,
    PointLine,
    SeamLine,
)

Floats = NDArray[np.float64]
Points = tuple[float, float]

OWN, BASE = "hand.godet", "base.godet"


def straight(*points: Points) -> Floats:
    """Straight cubics from point to point."""
    ends = np.array(points, dtype=np.float64)
    return ends[:-1, None] + (ends[1:] - ends[:-1])[:, None] * np.arange(4)[:, None] / 3


def curved(*points: Points) -> Floats:
    """One cubic with these control points."""
    return np.array([points], dtype=np.float64)


def rectangle(width: float, height: float) -> dict[str, Floats]:
    """`top` and `bottom` from the centre outward, `centre` and `side` downward."""
    return {
        "top": straight((0, 0), (width, 0)),
        "side": straight((width, 0), (width, height)),
        "bottom": straight((0, height), (width, height)),
        "centre": straight((0, 0), (0, height)),
    }


HALF_FRONT = {
    "neck": curved((0, 90), (40, 90), (72, 60), (75, 0)),
    "shoulder": straight((75, 0), (190, 50)),
    "armhole": curved((190, 50), (172, 130), (190, 210), (240, 210)),
    "side": curved((240, 210), (240, 340), (215, 440), (245, 605)),
    "bottom": straight((0, 605), (245, 605)),
    "centre": straight((0, 90), (0, 605)),
}


def dense(path: Floats, each: int = 400) -> Floats:
    """Points all along a path, by Bernstein's polynomials."""
    t = np.linspace(0, 1, each + 1)[:, None]
    s = 1 - t
    weights = np.concatenate([s**3, 3 * s**2 * t, 3 * s * t**2, t**3], axis=1)
    return np.concatenate([weights @ cubic for cubic in path])


class HandDraft:
    """Builds the records that linking would give, and answers for their nodes."""

    def __init__(self) -> None:
        self.graph = Graph()
        self.values: dict[int, Any] = {}
        self.pieces: dict[str, PieceLines] = {}
        self.seams: list[SeamLine] = []
        self.checks: list[CheckLine] = []
        self.line = 0

    def value(self, node: int, body: int) -> Any:
        return self.values[node]

    def place(self, file: str = OWN) -> Place:
        self.line += 1
        return Place(file, self.line, 1, self.line, 9)

    def node(self, value: Any, type: Type) -> int:
        place = self.place()
        number = self.graph.add("known", type=type, place=place, number=len(self.graph.nodes))
        self.values[number] = np.array(value) if isinstance(value, tuple) else value
        return number

    def piece(
        self,
        name: str,
        edges: Mapping[str, Floats],
        *,
        allow: Mapping[str, float | None] | None = None,
        corners: Sequence[tuple[str, str, Points]] = (),
        fold: str | None = None,
        folded: bool | None = None,
        grain: Points | None = None,
        cut: tuple[int, str, bool] | None = None,
        points: Mapping[str, Points] | None = None,
        levels: Mapping[str, float] | None = None,
        notches: Sequence[tuple[str, str, Points]] = (),
        inherited: Sequence[tuple[str, str, Points]] = (),
        marks: Sequence[str] = (),
        blends: Mapping[str, float] | None = None,
        title: str = "",
        when: bool | None = None,
        darts: Mapping[str, tuple[str, DartManner, Floats]] | None = None,
    ) -> None:
        """`darts` by name: the edge each lies on, its manner and its points, one a row. `folded`:
        whether the fold's condition holds."""
        node, place = self.node, self.place

        def notch(edge: str, name: str, at: Points, file: str) -> NotchLine:
            return NotchLine(edge, node(at, POINT), place(file), name, inherited=file == BASE)

        def blend(gives: float) -> BlendNote:
            return BlendNote(
                node(gives, LENGTH), node(3.0, LENGTH), node(80.0, LENGTH), "side_waist", place()
            )

        drawn = {
            n: (DartLine(node(rows, DART), manner, place(), edge), rows)
            for n, (edge, manner, rows) in (darts or {}).items()
        }
        self.pieces[name] = PieceLines(
            name=name,
            place=place(),
            base=None,
            points={n: node(at, POINT) for n, at in (points or {}).items()},
            edges={n: self._edge(n, path, blends or {}, drawn, blend) for n, path in edges.items()},
            darts={n: line for n, (line, _) in drawn.items()},
            levels={n: node(down, LEVEL) for n, down in (levels or {}).items()},
            notches=(
                *(notch(*each, BASE) for each in inherited),
                *(notch(*each, OWN) for each in notches),
            ),
            allowances={
                n: node(by, LENGTH) if by is not None else None for n, by in (allow or {}).items()
            },
            corners=self._corners(corners),
            fold=FoldLine(fold, place(), self._condition(folded)) if fold is not None else None,
            grain=node(grain, DIRECTION) if grain is not None else None,
            cut=CutLine(*cut, place()) if cut is not None else None,
            marks=tuple(MarkLine(point) for point in marks),
            title=title,
            when=self._condition(when),
        )

    def _condition(self, holds: bool | None) -> int | None:
        return self.node(holds, CONDITION) if holds is not None else None

    def _edge(
        self,
        name: str,
        path: Floats,
        blends: Mapping[str, float],
        darts: Mapping[str, tuple[DartLine, Floats]],
        blend: Callable[[float], BlendNote],
    ) -> EdgeLine:
        curve, place = self.node(path, CURVE), self.place()
        on_edge = [line.node for line, _ in darts.values() if line.edge == name]
        sewn = None
        if on_edge:
            sewn = self.graph.add("length", (curve, *on_edge), type=LENGTH, place=place)
            rows = tuple(rows for line, rows in darts.values() if line.edge == name)
            self.values[sewn] = SewnEdge(path, rows).length
        blended = (blend(blends[name]),) if name in blends else ()
        return EdgeLine(curve, place, blended, sewn=sewn)

    def _corners(
        self, corners: Sequence[tuple[str, str, Points]]
    ) -> dict[str, tuple[CornerLine, ...]]:
        """By edge; each of edges (`top, side`), a shape and a point is a line of its own."""
        found: dict[str, tuple[CornerLine, ...]] = {}
        for edges, shape, at in corners:
            line = CornerLine(self.node(at, POINT), shape, self.place())
            for edge in edges.split(", "):
                found[edge] = (*found.get(edge, ()), line)
        return found

    def seam(
        self,
        name: str,
        first: Sequence[tuple[str, str, bool]],
        second: Sequence[tuple[str, str, bool]],
        *,
        manner: str | None = None,
        easing: float | None = None,
        after: Sequence[str] = (),
        matches: Sequence[tuple[str, str]] = (),
        begun: tuple[tuple[str, str], tuple[str, str]] | None = None,
        between: tuple[tuple[str, str], tuple[str, str]] | None = None,
        when: bool | None = None,
    ) -> None:
        """`matches`, `begun` and `between` name points of pieces."""
        amount = self.node(easing, LENGTH) if easing is not None else None
        self.seams.append(
            SeamLine(
                name,
                tuple(first),
                tuple(second),
                manner,
                amount,
                tuple(after),
                self.place(),
                lengths=(self._sewn(first), self._sewn(second)),
                matches=tuple(self._point(*each) for each in matches),
                begun=(self._point(*begun[0]), self._point(*begun[1])) if begun else None,
                between=(self._point(*between[0]), self._point(*between[1])) if between else None,
                when=self._condition(when),
            )
        )

    def _point(self, piece: str, name: str) -> PointLine:
        return PointLine(piece, name, self.pieces[piece].points[name], self.place())

    def _sewn(self, side: Sequence[tuple[str, str, bool]]) -> int:
        """The node of a side's length, a whole edge as often as its piece is cut."""
        total = 0.0
        for piece, edge, whole in side:
            line = self.pieces[piece].edges[edge]
            cut = length(self.values[line.curve])
            sewn = self.values[line.sewn] if line.sewn is not None else cut
            total += sewn * (times(self.pieces[piece]) if whole else 1)
        return self.node(total, LENGTH)

    def check(
        self,
        level: str,
        holds: bool,
        words: str,
        compared: tuple[float, str, float, Type] | None = None,
        place: Place | None = None,
    ) -> None:
        measured = wanted = None
        sign = ""
        if compared is not None:
            found, sign, aim, type = compared
            measured, wanted = self.node(found, type), self.node(aim, type)
        condition = self.node(holds, CONDITION)
        self.checks.append(
            CheckLine(level, condition, measured, wanted, sign, words, place or self.place())
        )

    def draft(self) -> Draft:
        return Draft(
            name="column_dress",
            doc="",
            edition=1,
            file=OWN,
            graph=self.graph,
            kind=None,
            also=frozenset(),
            pieces=self.pieces,
            seams=tuple(self.seams),
            checks=tuple(self.checks),
            finds=(),
            choices={},
            settable={},
            measures={},
            names={},
            blocks=(),
        )

    def finish(self, units: str = "cm") -> tuple[Pattern | None, tuple[Problem, ...]]:
        """Finished; every node that is asked for must be among the targets."""
        draft = self.draft()
        known = set(targets(draft))
        self.values = {node: value for node, value in self.values.items() if node in known}
        order = Order(
            body="adult_a",
            date="2027-03-01",
            units="in" if units == "in" else "cm",
            version="0.1.0",
            digest="5c30",
            measures={"hip_girth": 1020.0},
            estimated={"waist_to_hip": "ours"},
            choices={"fit": "close"},
        )
        return finish(draft, self, 0, order)

    def finished(self) -> Pattern:
        """The pattern of a draft with nothing wrong in it."""
        pattern, problems = self.finish()
        assert problems == ()
        assert pattern is not None
        return pattern


def one_piece(edges: Mapping[str, Floats], name: str = "panel", **lines: Any) -> Piece:
    """The only piece of a sound draft."""
    draft = HandDraft()
    draft.piece(name, edges, **lines)
    return draft.finished().pieces[0]


def problems_of(edges: Mapping[str, Floats], units: str = "cm", **lines: Any) -> list[Problem]:
    """What there is to say of a draft with this one piece, named `panel`."""
    draft = HandDraft()
    draft.piece("panel", edges, **lines)
    return list(draft.finish(units)[1])
