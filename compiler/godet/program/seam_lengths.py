"""How long the two sides of a seam are as sewn, as values of the graph.

In: a seam, the linked pieces by name and their graph. Out: the seam with the nodes of both lengths:
darts closed and gathers drawn up, an edge that is sewn `whole` as often as its piece is cut. Raises
`Problems` where a piece has no longer the edge that the seam joins.

    with_lengths(waist_seam, draft_pieces, graph).lengths    # (skirt side, band side)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from functools import reduce

from godet.base.problems import Note, Problems, problem
from godet.graph.node import Graph
from godet.graph.types import LENGTH, RATIO
from godet.program.laying import times
from godet.program.program import PieceLines, SeamLine


def with_lengths(seam: SeamLine, pieces: Mapping[str, PieceLines], graph: Graph) -> SeamLine:
    """The seam with its `lengths`."""

    def added(first: int, second: int) -> int:
        return graph.add("add", (first, second), type=LENGTH, place=seam.place)

    def side(edges: tuple[tuple[str, str, bool], ...]) -> int:
        return reduce(added, [_length(seam, *edge, pieces, graph) for edge in edges])

    return replace(seam, lengths=(side(seam.first), side(seam.second)))


def _length(
    seam: SeamLine,
    piece: str,
    edge: str,
    whole: bool,
    pieces: Mapping[str, PieceLines],
    graph: Graph,
) -> int:
    lines = pieces[piece]
    if edge not in lines.edges:
        notes = [Note("the piece is given here", lines.place)]
        raise Problems(
            [
                problem(
                    "seam-without-edge",
                    seam.place,
                    seam=seam.name,
                    edge=f"{piece}.{edge}",
                    notes=notes,
                )
            ]
        )
    line = lines.edges[edge]
    length = line.sewn
    if length is None:
        length = graph.add("length", (line.curve,), type=LENGTH, place=line.place)
    if not whole:
        return length
    count = graph.add("number", type=RATIO, place=None, value=Fraction(times(lines)))
    return graph.add("multiply", (length, count), type=LENGTH, place=line.place)
