"""The graph: every value of a draft is a node, an operation applied to earlier nodes.

Nodes are hash-consed: the same operation on the same inputs is the same node, whichever statement
asked for it (the first one is remembered as its place). Inputs always have smaller numbers, so
ascending order is an order of computing. Edition-free and unit-free: constants are exact.

    graph.add("add", (a, b), type=LENGTH, place=place)   # the number of the node a + b
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from godet.base.places import Place
from godet.graph.types import Type

Constant = Fraction | str | int | bool


@dataclass(frozen=True, slots=True)
class Node:
    operation: str
    inputs: tuple[int, ...]
    constants: tuple[tuple[str, Constant], ...]  # by name, sorted: (("selector", "lowest"),)
    type: Type

    def constant(self, name: str) -> Constant:
        """The constant of that name; `KeyError` if the operation has none."""
        return dict(self.constants)[name]


@dataclass(slots=True)
class Graph:
    nodes: list[Node] = field(default_factory=list)
    places: list[Place | None] = field(default_factory=list)
    _numbers: dict[Node, int] = field(default_factory=dict)
    _digests: dict[int, bytes] = field(default_factory=dict)

    def __getitem__(self, number: int) -> Node:
        return self.nodes[number]

    def add(
        self,
        operation: str,
        inputs: tuple[int, ...] = (),
        *,
        type: Type,
        place: Place | None,
        **constants: Constant,
    ) -> int:
        """The number of this node, new or known."""
        node = Node(operation, inputs, tuple(sorted(constants.items())), type)
        number = self._numbers.get(node)
        if number is None:
            number = len(self.nodes)
            self.nodes.append(node)
            self.places.append(place)
            self._numbers[node] = number
        return number

    def reached_from(
        self, targets: Iterable[int], inputs: Callable[[int], tuple[int, ...]] | None = None
    ) -> list[int]:
        """Every node that the targets need, themselves included, in an order of computing. `inputs`
        tells what a node needs where that is less than all it is made of."""
        seen: set[int] = set()
        waiting = list(targets)
        while waiting:
            number = waiting.pop()
            if number not in seen:
                seen.add(number)
                waiting.extend(inputs(number) if inputs else self.nodes[number].inputs)
        return sorted(seen)

    def digest(self, number: int) -> bytes:
        """A digest of what the node means, not of its number, its place or the text's order."""
        for each in self.reached_from([number]):
            if each not in self._digests:
                node = self.nodes[each]
                summary = hashlib.sha256(repr((node.operation, node.constants)).encode())
                for given in node.inputs:
                    summary.update(self._digests[given])
                self._digests[each] = summary.digest()
        return self._digests[number]
