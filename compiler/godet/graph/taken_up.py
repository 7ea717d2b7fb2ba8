"""What is taken up on a curve when it is sewn: the darts and gathers behind its node.

In: a graph and a node. Out: the nodes of the darts and gathers that lie on the curve, or on the
curve it is a part of; those of an outline, with the darts inside it. A measure as sewn has them
among its inputs, behind those it is written with. Nothing fails.

    take_ups(graph, waist_edge)                          # (first_dart, second_dart)
    sewn_inputs(graph, "length", (waist_edge,))          # (waist_edge, first_dart, second_dart)
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from godet.graph.node import Graph
from godet.graph.types import CURVE

# measures as sewn, and how many inputs they are written with
_MEASURES = {"length": 1, "along": 3, "width": 2}
# what gives a part of a curve, or the same curve drawn otherwise
_PARTS = frozenset({"until", "from_point", "stretch", "from_the", "extended", "reversed"})
_TOGETHER = frozenset({"joined", "blend", "bridged", "together", "either"})
_MOVED = frozenset({"laid", "mirrored"})


def sewn_inputs(graph: Graph, operation: str, inputs: Sequence[int]) -> tuple[int, ...]:
    """The inputs of an operation: of a measure as sewn with all that is taken up."""
    if operation == "bridged":  # what is taken up is not drawn over
        return (*inputs[:3], *_all(graph, inputs[:2]))
    written = _MEASURES.get(operation)
    if written is None:
        return tuple(inputs)
    return (*inputs[:written], *take_ups(graph, inputs[0]))


def take_ups(graph: Graph, curve: int) -> tuple[int, ...]:
    """The nodes of what is taken up on a curve, in the order in which it was put there."""
    node = graph[curve]
    operation, inputs = node.operation, node.inputs
    if operation in _PARTS:
        return take_ups(graph, inputs[0])
    if operation in _TOGETHER:
        return _all(graph, inputs)
    if operation in ("darted", "taken_up", "with_darts"):
        return tuple(dict.fromkeys((*take_ups(graph, inputs[0]), *inputs[1:])))
    if operation == "undarted":
        closed = _also_known_as(graph, inputs[1])
        return tuple(each for each in take_ups(graph, inputs[0]) if each not in closed)
    if operation == "around_dart":
        before, dart, after = inputs
        return tuple(dict.fromkeys((*_all(graph, (before,)), dart, *_all(graph, (after,)))))
    if operation == "around_pleat":
        before, _, after, pleat = inputs
        return tuple(dict.fromkeys((*_all(graph, (before,)), pleat, *_all(graph, (after,)))))
    if operation in _MOVED:
        return tuple(
            graph.add(
                operation, (each, *inputs[1:]), type=graph[each].type, place=graph.places[curve]
            )
            for each in take_ups(graph, inputs[0])
        )
    return ()


def _also_known_as(graph: Graph, dart: int) -> set[int]:
    """The nodes by which a dart may be known on its edge. One that was carried along, or not, with
    a part of a piece is on the part that stood still or on the one that moved."""
    node = graph[dart]
    if node.operation != "carried":
        return {dart}
    thing, _, _, *motion = node.inputs
    known = _also_known_as(graph, thing)
    place = graph.places[dart]
    moved = {graph.add("laid", (each, *motion), type=node.type, place=place) for each in known}
    return {dart, *known, *moved}


def _all(graph: Graph, curves: Iterable[int]) -> tuple[int, ...]:
    found = [
        each for curve in curves if graph[curve].type == CURVE for each in take_ups(graph, curve)
    ]
    return tuple(dict.fromkeys(found))
