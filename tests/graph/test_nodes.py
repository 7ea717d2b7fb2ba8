"""The graph: the same value is one node, and its digest is of what it means."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from godet.base.places import Place
from godet.graph.node import Graph
from godet.graph.types import LENGTH, RATIO

HERE, THERE = Place("a.godet", 1, 1, 1, 2), Place("b.godet", 9, 1, 9, 2)


def number(graph: Graph, value: int, place: Place | None = None) -> int:
    return graph.add("number", type=LENGTH, place=place, value=Fraction(value))


def test_the_same_operation_on_the_same_inputs_is_the_same_node():
    graph = Graph()
    a, b = number(graph, 1, HERE), number(graph, 2)
    assert number(graph, 1, THERE) == a
    assert graph.add("add", (a, b), type=LENGTH, place=HERE) == graph.add(
        "add", (a, b), type=LENGTH, place=THERE
    )
    assert len(graph.nodes) == 3
    assert graph.places[a] == HERE


def test_what_differs_in_inputs_constants_or_type_is_another_node():
    graph = Graph()
    a, b = number(graph, 1), number(graph, 2)
    ratio = graph.add("number", type=RATIO, place=None, value=Fraction(1))
    others = {
        graph.add("subtract", (a, b), type=LENGTH, place=None),
        graph.add("subtract", (b, a), type=LENGTH, place=None),
        graph.add("add", (a, b), type=LENGTH, place=None),
    }
    assert len({a, b, ratio, *others}) == 6


def test_inputs_come_before_what_is_made_of_them():
    graph = Graph()
    total = number(graph, 0)
    for value in range(1, 50):
        total = graph.add("add", (total, number(graph, value)), type=LENGTH, place=None)
    assert all(max(node.inputs, default=-1) < n for n, node in enumerate(graph.nodes))
    assert graph.reached_from([total]) == list(range(len(graph.nodes)))


@given(st.permutations(list(range(6))))
def test_a_digest_knows_nothing_of_order_and_places(order: list[int]):
    plain, shuffled = Graph(), Graph()
    for value in range(6):
        number(plain, value, HERE)
    for value in order:
        number(shuffled, value, THERE)
    sums = [
        graph.add("add", (number(graph, 2), number(graph, 5)), type=LENGTH, place=None)
        for graph in (plain, shuffled)
    ]
    assert plain.digest(sums[0]) == shuffled.digest(sums[1])


def test_a_digest_tells_apart_what_differs_deep_down():
    digests = set()
    for deepest in (1, 2):
        graph = Graph()
        total = number(graph, deepest)
        for value in range(3, 40):
            total = graph.add("add", (total, number(graph, value)), type=LENGTH, place=None)
        digests.add(graph.digest(total))
    assert len(digests) == 2
