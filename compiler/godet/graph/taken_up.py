"""What is taken up on a curve when it is sewn: the darts and gathers behind its node.

In: a graph and a node. Out: the nodes of the darts and gathers that lie on the curve, or on the
curve it is a part of; those of an outline, with the darts inside it. An edge that an alteration has
cut says itself what is taken up on it ("taken_up"). A measure as sewn has them
among its inputs, behind those it is written with. Nothing fails.

    take_ups(graph, waist_edge)                          # (first_dart, second_dart)
    sewn_inputs(graph, "length", (waist_edge,))          # (waist_edge, first_dart, second_dart)
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from godet.graph.node import Graph
from godet.graph.types import CURVE, POINT

# measures as sewn, and how many inputs they are written with
_MEASURES = {"length": 1, "along": 3, "width": 2}
# what gives a part of a curve, or the same curve drawn otherwise
_SAME = frozenset({"from_the", "reversed"})
_PARTS = _SAME | {"until", "from_point", "stretch", "extended", "closed_up"}
_TOGETHER = frozenset({"joined", "blend", "bridged", "together", "either"})
_MOVED = frozenset({"laid", "mirrored"})


def sewn_inputs(graph: Graph, operation: str, inputs: Sequence[int]) -> tuple[int, ...]:
    """The inputs of an operation: of what minds what is taken up, with all of that."""
    if operation == "bridged":  # what is taken up is not drawn over
        found = (each for curve in inputs[:2] for each in take_ups(graph, curve))
        return (*inputs[:3], *dict.fromkeys(found))
    if operation == "darted":  # nor moved by a new dart beside it, nor are the edge's joints
        others = (*take_ups(graph, inputs[0]), *inputs[2:], *_joints(graph, inputs[0]))
        return (*inputs[:2], *dict.fromkeys(others))
    written = _MEASURES.get(operation)
    if written is None:
        return tuple(inputs)
    return (*inputs[:written], *take_ups(graph, inputs[0]))


def _joints(graph: Graph, curve: int) -> Iterator[int]:
    """The nodes of the points at which an edge is written to go on, as by `through` and `then`."""
    node = graph[curve]
    operation, inputs = node.operation, node.inputs
    if operation in _SAME or operation == "darted":
        yield from _joints(graph, inputs[0])
    elif operation == "spline":
        points = [each for each in inputs if graph[each].type == POINT]
        yield from points[1:-1]
    elif operation == "joined":
        for each in inputs:
            yield from _joints(graph, each)
        place = graph.places[curve]
        for each in inputs[1:]:
            yield graph.add("start_point", (each,), type=POINT, place=place)


def take_ups(graph: Graph, curve: int) -> tuple[int, ...]:
    """The nodes of what is taken up on a curve, in the order in which it was put there."""
    return _found(graph, curve, {})


def _found(graph: Graph, curve: int, known: dict[int, tuple[int, ...]]) -> tuple[int, ...]:
    """As `take_ups`; a curve that was cut comes up in both of its parts, and is looked at once."""
    if curve not in known:
        known[curve] = tuple(dict.fromkeys(_of_node(graph, curve, known)))
    return known[curve]


def _of_node(graph: Graph, curve: int, known: dict[int, tuple[int, ...]]) -> Iterator[int]:
    node = graph[curve]
    operation, inputs = node.operation, node.inputs
    if operation == "taken_up":
        yield from inputs[1:]
    elif operation in _PARTS:
        yield from _found(graph, inputs[0], known)
    elif operation in _TOGETHER:
        for each in inputs:
            if graph[each].type == CURVE:
                yield from _found(graph, each, known)
    elif operation in ("darted", "with_darts"):
        yield from _found(graph, inputs[0], known)
        yield from (each for each in inputs[1:] if graph[each].type != POINT)  # others are there
    elif operation == "around_dart":
        before, dart, after = inputs[:3]
        yield from _found(graph, before, known)
        yield dart
        yield from _found(graph, after, known)
    elif operation in _MOVED:
        place = graph.places[curve]
        for each in _found(graph, inputs[0], known):
            yield graph.add(operation, (each, *inputs[1:]), type=graph[each].type, place=place)
