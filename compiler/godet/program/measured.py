"""Which measures of the body a value comes from.

In: a linked graph and some of its nodes. Out: each measure among them, by name, with the node of
its value, given or estimated. Nothing fails.

    measures_among(graph, graph.reached_from([hip_side]))   # {"hip_girth": 12}
"""

from __future__ import annotations

from collections.abc import Iterable

from godet.graph.node import Graph


def measures_among(graph: Graph, numbers: Iterable[int]) -> dict[str, int]:
    """The measures among these nodes, in the order of their names."""
    found: dict[str, int] = {}
    for number in numbers:
        node = graph[number]
        if node.operation in ("known", "given"):
            leaf = graph[node.inputs[0]]
            if leaf.operation == "measure":
                found[str(leaf.constant("name"))] = number
    return dict(sorted(found.items()))
