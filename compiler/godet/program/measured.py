"""Which measures of the body a value comes from.

In: a linked graph and some of its nodes. Out: each measure among or behind them, by name, with the
node of its value, given or estimated. Nothing fails.

    measures_among(graph, graph.reached_from([hip_side]))   # {"hip_girth": 12}
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence

from godet.graph.node import Graph
from godet.program.program import FindLine
from godet.program.unknowns import needs


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


def measures_behind(
    graph: Graph,
    finds: Sequence[FindLine],
    targets: Iterable[int],
    given: Container[str] = (),
) -> dict[str, int]:
    """The measures on which the targets depend, those of the unknowns they need among them. What
    the estimate of a given measure would need is not needed."""
    reached = _reached(graph, targets, given)
    waiting = list(finds)
    while needed := [line for line in waiting if line.unknown in reached]:
        waiting = [line for line in waiting if line.unknown not in reached]
        sides = [number for line in needed for number in needs(line)]
        reached |= _reached(graph, sides, given)
    return measures_among(graph, sorted(reached))


def _reached(graph: Graph, targets: Iterable[int], given: Container[str]) -> set[int]:
    """The nodes that the targets need, the estimates of given measures left out."""

    def inputs(number: int) -> tuple[int, ...]:
        node = graph[number]
        leaf = graph[node.inputs[0]] if node.operation == "known" else None
        measured = leaf is not None and leaf.operation == "measure"
        if leaf is not None and measured and str(leaf.constant("name")) in given:
            return node.inputs[:1]
        return node.inputs

    return set(graph.reached_from(targets, inputs))
