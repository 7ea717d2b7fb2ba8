"""The points between which a curve is drawn, where the text names them.

In: a graph and the node of a curve. Out: the node of the point at its first or its last end; None
for a curve that is not drawn by that point, as a parallel one. Nothing fails.

    end_of(graph, side, last=True)                   # the node of hem_side
"""

from __future__ import annotations

from godet.graph.node import Graph
from godet.graph.types import POINT


def end_of(graph: Graph, curve: int, last: bool) -> int | None:
    """The point at one end of a curve."""
    node = graph[curve]
    given = node.inputs
    match node.operation:
        case "line" | "arc" | "square_arc":
            return given[1 if last else 0]
        case "spline":
            points = [n for n in given if graph[n].type == POINT]
            return points[-1 if last else 0]
        case "joined":
            return end_of(graph, given[-1 if last else 0], last)
        case "blend":
            return end_of(graph, given[1 if last else 0], last)
        case "until":
            return given[1] if last else end_of(graph, given[0], last)
        case "from_point":
            return end_of(graph, given[0], last) if last else given[1]
        case _:
            return None
