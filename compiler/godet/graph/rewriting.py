"""Makes values again over others: what a graph would be if some of its nodes were other ones.

In: a graph and which nodes stand for which. Out: the node that means the same over the new ones;
one that needs none of them stays what it is. Nothing fails.

    Rewriting(graph, {old_armhole: new_armhole}).of(cap_length)
"""

from __future__ import annotations

from dataclasses import dataclass

from godet.graph.node import Graph
from godet.graph.taken_up import sewn_inputs


@dataclass(slots=True)
class Rewriting:
    graph: Graph
    new: dict[int, int]  # a node: what stands for it; filled further as nodes are made again

    def of(self, number: int) -> int:
        graph = self.graph
        for each in graph.reached_from([number]):
            if each in self.new:
                continue
            node = graph[each]
            rewritten = tuple(self.new.get(n, n) for n in node.inputs)
            inputs = sewn_inputs(graph, node.operation, rewritten)
            again = each
            if inputs != node.inputs:
                place, constants = graph.places[each], dict(node.constants)
                again = graph.add(node.operation, inputs, type=node.type, place=place, **constants)
            self.new[each] = again
        return self.new[number]

    def maybe(self, number: int | None) -> int | None:
        return self.of(number) if number is not None else None
