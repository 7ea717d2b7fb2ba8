"""Draws a block's piece anew where it follows edges that a recipe has redrawn.

In: the piece, the edges it follows with the curves that stand for them now, and the unknowns of its
block. Out: the piece over the new edges, and the unknowns that must be found anew for it. A piece
none of whose edges is redrawn stays what it is. Nothing fails.

    followed(sleeve, {old_armhole: new_armhole}, block, "sleeve.")
"""

from __future__ import annotations

from collections.abc import Mapping

from godet.graph.rewriting import Rewriting
from godet.program import unknowns
from godet.program.draft import Draft
from godet.program.laying import nodes_of, with_nodes
from godet.program.program import FindLine, PieceLines


def followed(
    piece: PieceLines, redrawn: Mapping[int, int], block: Draft, prefix: str
) -> tuple[PieceLines, tuple[FindLine, ...]]:
    """The piece drawn to the redrawn curves; new unknowns are named behind the prefix."""
    graph = block.graph
    again = _found_again(piece, redrawn, block)
    new = dict(redrawn)
    for line in again:
        node = graph[line.unknown]
        name = prefix + line.name.rpartition(".")[2]
        new[line.unknown] = graph.add("unknown", (), type=node.type, place=line.place, name=name)
    over = Rewriting(graph, new)
    finds = tuple(
        unknowns.with_nodes(line, over.of, prefix + line.name.rpartition(".")[2]) for line in again
    )
    return with_nodes(piece, over.of), finds


def _found_again(
    piece: PieceLines, redrawn: Mapping[int, int], block: Draft
) -> tuple[FindLine, ...]:
    """The unknowns that the piece needs and whose equations the redrawn curves change."""
    graph = block.graph
    lines = {line.unknown: line for line in block.finds}
    needed: dict[int, set[int]] = {}  # unknown: all that its equation needs
    waiting = [n for n in graph.reached_from(nodes_of(piece)) if n in lines]
    while waiting:
        unknown = waiting.pop()
        if unknown not in needed:
            needed[unknown] = set(graph.reached_from(unknowns.needs(lines[unknown])))
            waiting.extend(n for n in needed[unknown] if n in lines)
    changed = set(redrawn)
    while more := {n for n, needs in needed.items() if n not in changed and needs & changed}:
        changed |= more
    return tuple(lines[n] for n in sorted(needed) if n in changed)
