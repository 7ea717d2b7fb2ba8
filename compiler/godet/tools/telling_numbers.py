"""The numbers by which a curve or a dart is told.

In: a graph and a node of any type. Out: the node of the number it is told by, with its title, and
those that are told beside it. A point or a number is told by itself. Nothing fails.

    told_by(graph, waist_dart)   # ToldBy("width", 12, (("angle", 13), ("leg", 14)))
"""

from __future__ import annotations

from dataclasses import dataclass

from godet.graph.node import Graph
from godet.graph.taken_up import sewn_inputs
from godet.graph.types import ANGLE, CURVE, DART, DOUBLE_DART, GATHERS, LENGTH


@dataclass(frozen=True, slots=True)
class ToldBy:
    title: str  # "" where the value tells itself
    node: int
    beside: tuple[tuple[str, int], ...] = ()


def told_by(graph: Graph, node: int) -> ToldBy:
    """What tells of a node."""
    place = graph.places[node]
    match graph[node].type:
        case type if type == CURVE:
            measured = sewn_inputs(graph, "length", (node,))
            sewn = graph.add("length", measured, type=LENGTH, place=place)
            if len(measured) == 1:
                return ToldBy("length", sewn)
            cut = graph.add("length", (node,), type=LENGTH, place=place)
            return ToldBy("length as sewn", sewn, (("length as cut", cut),))
        case type if type == DART:
            width = graph.add("dart_width", (node,), type=LENGTH, place=place)
            angle = graph.add("dart_angle", (node,), type=ANGLE, place=place)
            leg = graph.add("dart_leg", (node,), type=LENGTH, place=place)
            return ToldBy("width", width, (("angle", angle), ("leg", leg)))
        case type if type == DOUBLE_DART:
            return ToldBy("width", graph.add("dart_width", (node,), type=LENGTH, place=place))
        case type if type == GATHERS:
            return ToldBy("taken up", _taken(graph, node))
    return ToldBy("", node)


def _taken(graph: Graph, node: int) -> int:
    """The amount that is gathered or eased in; laid elsewhere it is the same."""
    while graph[node].operation != "gathers":
        node = graph[node].inputs[0]
    return graph[node].inputs[3]
