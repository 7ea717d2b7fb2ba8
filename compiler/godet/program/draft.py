"""A linked program: one recipe on the blocks it takes, ready for any body.

Out of `linking`, into `solve` and `pattern`. Every node number can be solved; no placeholder is
left. Plain records; nothing here fails.

    draft.pieces["front"].points["hip_side"], draft.digest
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from godet.graph.node import Graph
from godet.graph.types import Type
from godet.program.program import (
    CheckLine,
    Choice,
    FindLine,
    Measure,
    PieceLines,
    PointLine,
    SeamLine,
)


@dataclass(frozen=True, slots=True)
class Draft:
    name: str
    doc: str
    edition: int
    file: str
    graph: Graph
    kind: str | None
    also: frozenset[str]  # the kinds that it is as well
    pieces: Mapping[str, PieceLines]
    seams: tuple[SeamLine, ...]
    checks: tuple[CheckLine, ...]
    finds: tuple[FindLine, ...]
    choices: Mapping[str, Choice]
    settable: Mapping[str, Type]  # the choices that its taker can set, by their names in it
    measures: Mapping[str, Measure]
    names: Mapping[str, int]  # "front.hip_side", "side_out", "top.front.side": for explaining
    blocks: tuple[str, ...]  # what it was linked with: "top = knit_tee"

    @property
    def digest(self) -> str:
        """A digest of meaning: the same for the same draft, however its text is laid out."""
        summary = hashlib.sha256(repr((self.edition, self.kind)).encode())
        for line in _lines_of_meaning(self):
            summary.update(repr(line).encode())
        return summary.hexdigest()


def _lines_of_meaning(draft: Draft) -> Iterator[tuple[object, ...]]:
    graph = draft.graph

    def node(number: int | None) -> str | None:
        return graph.digest(number).hex() if number is not None else None

    def notched(point: PointLine) -> tuple[str, str, str | None, str]:
        return point.piece, point.name, node(point.node), node(point.when) or ""

    for name, piece in sorted(draft.pieces.items()):
        marks = sorted((mark.point, node(mark.when) or "") for mark in piece.marks)
        yield (name, piece.title, marks, node(piece.grain), node(piece.when))
        cut, fold = piece.cut, piece.fold
        yield (fold and (fold.edge, node(fold.when)), cut and (cut.count, cut.cloth, cut.mirrored))
        yield tuple(sorted((n, node(p)) for n, p in piece.points.items()))
        yield tuple(sorted((n, node(e.curve)) for n, e in piece.edges.items()))
        yield tuple(sorted((n, node(at)) for n, at in piece.levels.items()))
        darts = sorted(piece.darts.items())
        yield tuple((n, d.manner, node(d.node), node(d.sewn_for)) for n, d in darts)
        yield tuple(sorted((n, node(a)) for n, a in piece.allowances.items()))
        yield tuple(
            sorted((n, line.shape, node(line.at)) for n, ls in piece.corners.items() for line in ls)
        )
        yield tuple(sorted((n.edge, node(n.at), node(n.when) or "") for n in piece.notches))
    for seam in sorted(draft.seams, key=lambda seam: seam.name):
        yield (
            seam.name,
            seam.first,
            seam.second,
            seam.manner,
            node(seam.easing),
            sorted(seam.after),
            node(seam.when),
            [notched(point) for point in seam.begun or ()],
            [notched(point) for point in seam.between or ()],
            sorted(notched(point) for point in seam.matches),
        )
    yield tuple(sorted((c.level, node(c.condition), c.words) for c in draft.checks))
    for find in sorted(draft.finds, key=lambda find: find.name):
        ends = (find.left, find.right, find.lowest, find.highest, find.reference)
        yield (find.name, find.selector, tuple(node(end) for end in ends))
    yield tuple(sorted((name, node(c.node)) for name, c in draft.choices.items()))
