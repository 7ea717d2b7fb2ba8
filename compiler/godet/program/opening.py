"""A dart opened between two parts of an edge.

In: a graph, the parts as they lie now, and the dart they belong to. Out: nodes of the new dart, of
the edge with its mouth, and of what its legs differ by. Nothing fails.

    dart, edge = opened(graph, before, after, pivot, short, (), place)
"""

from __future__ import annotations

from godet.base.places import Place
from godet.graph.node import Graph
from godet.graph.types import DART, LENGTH, POINT
from godet.program.parts import whole


def opened(
    graph: Graph,
    before: int,
    after: int,
    pivot: int,
    short: int,
    others: tuple[int, ...],
    place: Place,
) -> tuple[int, int]:
    """The dart between two parts of an edge, and the edge with its mouth; others are on it."""
    dart = graph.add(
        "dart_between", (before, after, pivot, short), type=DART, place=place, pressed=""
    )
    return dart, whole(graph, "around_dart", (before, dart, after, *others), place)


def uneven(graph: Graph, before: int, after: int, pivot: int, place: Place) -> int:
    """By how much a leg of the dart is lengthened: the darts' pivots were not one."""
    return graph.add("legs_differ", (before, after, pivot), type=LENGTH, place=place)


def pivot_and_short(graph: Graph, dart: int, place: Place) -> tuple[int, int]:
    """The pivot of a dart, and how far short of it the dart stops."""
    pivot = graph.add("dart_row", (dart,), type=POINT, place=place, row=4)
    return pivot, graph.add("dart_short", (dart,), type=LENGTH, place=place)
