"""How much cloth is left beyond each edge, and which edges fold back.

In: a piece's lines, its solved values, and the edges that seams join. Out: the allowance in mm of
each edge, or whether an edge is turned up. Nothing fails here; an allowance may be negative, which
the caller reports.

    allowances(front, values)                            # {"centre": 0.0, "bottom": 25.0, ...}
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from godet.pattern.pieces import OutlineStep
from godet.pattern.solved import BodyValues
from godet.program.program import PieceLines

# what an edge gets of which the recipe says nothing: 1 cm (common practice, no source)
DEFAULT_ALLOWANCE = 10.0  # mm
_DEEPER = 0.01  # mm: a smaller difference is rounding


def allowances(piece: PieceLines, values: BodyValues) -> dict[str, float]:
    """The allowance of each edge: none on the fold and where the recipe says `none`."""
    amounts: dict[str, float] = {}
    fold = piece.fold.edge if piece.fold is not None else None
    for edge in piece.edges:
        node = piece.allowances.get(edge)
        if edge == fold or (edge in piece.allowances and node is None):
            amounts[edge] = 0.0
        else:
            amounts[edge] = DEFAULT_ALLOWANCE if node is None else values.number(node)
    return amounts


def folds_back(
    number: int,
    walk: tuple[OutlineStep, ...],
    amounts: Mapping[str, float],
    sewn: Collection[str],
) -> bool:
    """Whether the edge at this place of the walk is a hem, turned up along its sewing line.

    It is one when no seam joins it, so that it is finished by itself, and when more is allowed on
    it than on either neighbour, more than it needs for being sewn (the shape of its corners so
    follows from what the recipe says, not from what the edge is called).
    """
    edge = walk[number].edge
    neighbours = (walk[number - 1].edge, walk[(number + 1) % len(walk)].edge)
    deepest = max(amounts[name] for name in neighbours)
    return edge not in sewn and amounts[edge] > deepest + _DEEPER
