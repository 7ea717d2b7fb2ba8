"""Which end of an edge is its first by the kind of its piece.

In: the linked pieces and their graph. Out: by piece and edge "top" or "centre", as the kind names
it; an edge that no kind names, and one that was altered, is left out. Nothing fails.

    first_ends(draft.pieces, graph)["front", "side"]     # "top"
"""

from __future__ import annotations

from collections.abc import Mapping

from godet.graph.node import Graph
from godet.program.program import PieceLines


def first_ends(pieces: Mapping[str, PieceLines], graph: Graph) -> dict[tuple[str, str], str]:
    """The first ends that are known."""
    found = {}
    for name, piece in pieces.items():
        for edge, line in piece.edges.items():
            node = graph[line.curve]
            while node.operation in ("darted", "taken_up"):
                node = graph[node.inputs[0]]
            if node.operation == "from_the":
                found[name, edge] = str(node.constant("which"))
    return found
