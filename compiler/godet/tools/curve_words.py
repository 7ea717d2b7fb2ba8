"""What a curve is drawn from, in words.

In: a graph, the node of a curve, and what nodes are called. Out: its parts in the order in which it
runs. A curve or point with a name is told by it. Nothing fails.

    drawn_from(graph, side, names, "cm")   # ("top.front.side until side_waist", "a straight ..")
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from godet.base.quantities import LengthUnit
from godet.graph.ends import end_of
from godet.graph.node import Graph
from godet.graph.types import POINT, Quantity
from godet.operations.catalogue import OPERATIONS
from godet.program.saying import all_of, said


def drawn_from(
    graph: Graph, curve: int, names: Mapping[int, str], units: LengthUnit
) -> tuple[str, ...]:
    """The parts of a curve, whatever it is called itself."""
    without = {node: name for node, name in names.items() if node != curve}
    return tuple(_Telling(graph, without, units).parts(curve))


@dataclass(frozen=True, slots=True)
class _Telling:
    graph: Graph
    names: Mapping[int, str]
    units: LengthUnit

    def parts(self, curve: int) -> list[str]:
        if curve in self.names:
            return [self.names[curve]]
        node = self.graph[curve]
        match node.operation:
            case "joined" | "together":
                return [part for each in node.inputs for part in self.parts(each)]
            case "blend":
                before, after, over = node.inputs
                corner = f"the corner with the next part rounded over {self.number(over)}"
                return [*self.parts(before), corner, *self.parts(after)]
            case "either":
                _, then, otherwise = node.inputs
                return [f"{self.curve(then)}, or else {self.curve(otherwise)}"]
            case "from_the":
                return self.parts(node.inputs[0])
            case _:
                return [self.single(curve)]

    def single(self, number: int) -> str:
        """A curve that is no row of others."""
        node = self.graph[number]
        given = node.inputs
        match node.operation:
            case "line":
                return f"a straight line from {self.point(given[0])} to {self.point(given[1])}"
            case "spline":
                points = [n for n in given if self.graph[n].type == POINT]
                first, *through, last = (self.point(n) for n in points)
                by = f" through {all_of(through)}" if through else ""
                return f"a smooth curve from {first}{by} to {last}"
            case "arc":
                return f"an arc of a circle from {self.point(given[0])} to {self.point(given[1])}"
            case "square_arc":
                ends = f"from {self.point(given[0])} to {self.point(given[1])}"
                return f"an arc of a circle {ends}, square to {self.curve(given[2])}"
            case "until":
                return f"{self.curve(given[0])} until {self.point(given[1])}"
            case "from_point":
                return f"{self.curve(given[0])} from {self.point(given[1])}"
            case "parallel":
                return f"parallel to {self.curve(given[0])} by {self.number(given[1])}"
            case "extended":
                return f"{self.curve(given[0])} carried straight on by {self.number(given[1])}"
            case operation:
                return OPERATIONS[operation].sentence

    def curve(self, number: int) -> str:
        parts = self.parts(number)
        return parts[0] if len(parts) == 1 else f"({', then '.join(parts)})"

    def point(self, number: int) -> str:
        if number in self.names:
            return self.names[number]
        node = self.graph[number]
        match node.operation:
            case "start_point" | "end_point":
                last = node.operation == "end_point"
                end = end_of(self.graph, node.inputs[0], last)
                if end is not None:
                    return self.point(end)
                return f"the {'last' if last else 'first'} end of {self.curve(node.inputs[0])}"
            case "moved" | "toward" | "shifted":
                return f"a point beside {self.point(node.inputs[0])}"
            case "between":
                return (
                    f"a point between {self.point(node.inputs[0])} and {self.point(node.inputs[1])}"
                )
            case _:
                return OPERATIONS[node.operation].sentence

    def number(self, number: int) -> str:
        if number in self.names:
            return self.names[number]
        node = self.graph[number]
        if node.operation == "number" and isinstance(node.type, Quantity):
            return said(float(node.constant("value")), node.type, self.units)
        return "a length worked out"
