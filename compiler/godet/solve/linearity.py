"""Whether equations are linear in their unknowns, told from the graph's structure alone.

In: a graph, the unknowns, and the nodes that change with them. Out: yes, or not that it can be
told: an equation that is linear by chance, such as one of lengths of straight lines, counts as not.
Each operation's record says in which of its inputs it is linear. Nothing fails; loads no numpy.

    is_linear(graph, {x}, changing)
"""

from __future__ import annotations

from collections.abc import Iterable, Set

from godet.graph.node import Graph
from godet.operations.catalogue import OPERATIONS


def is_linear(graph: Graph, unknowns: Set[int], changing: Iterable[int]) -> bool:
    """Whether every node that changes does so linearly, whatever the body."""
    moving = {*unknowns, *changing}
    return all(_is_linear(graph, number, moving) for number in changing)


def _is_linear(graph: Graph, number: int, moving: Set[int]) -> bool:
    node = graph[number]
    places = {place for place, given in enumerate(node.inputs) if given in moving}
    if node.operation in ("either", "known"):
        # as long as what decides between the two stands still
        return 0 not in places
    record = OPERATIONS[node.operation]
    names = {record.takes[place] for place in places} if len(record.takes) > max(places) else None
    return names is not None and any(names <= set(together) for together in record.linear)
