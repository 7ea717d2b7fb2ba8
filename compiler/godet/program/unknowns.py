"""Which unknowns need each other, known from the text alone.

In: a graph and the equations of its unknowns. Out: the unknowns in groups that are found together,
and the equations that say nothing of what they are to find. Nothing fails.

    groups(graph, finds)   # ((a,), (b, c)): `b` and `c` stand in each other's equations
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from godet.base.problems import Problem, problem
from godet.graph.node import Graph
from godet.program.program import FindLine

Group = tuple[FindLine, ...]


def groups(graph: Graph, finds: Iterable[FindLine]) -> tuple[Group, ...]:
    """Every unknown, once, with those that it needs and that need it, in the order of the text."""
    lines = sorted(finds, key=lambda line: (line.place, line.name))
    reach = _reach(graph, lines)
    found: list[Group] = []
    grouped: set[int] = set()
    for line in lines:
        number = line.unknown
        if number in grouped:
            continue
        together = tuple(
            other
            for other in lines
            if other.unknown == number
            or (other.unknown in reach[number] and number in reach[other.unknown])
        )
        grouped.update(other.unknown for other in together)
        found.append(together)
    return tuple(found)


def frame(line: FindLine) -> tuple[int, ...]:
    """What must be known before the search begins: the ends of the range, and a value named."""
    ends = (line.lowest, line.highest)
    return ends if line.reference is None else (*ends, line.reference)


def needs(line: FindLine) -> tuple[int, ...]:
    """All that an unknown needs: both sides of its equation, and what stands beside it."""
    return (line.left, line.right, *frame(line))


def with_nodes(line: FindLine, of: Callable[[int], int], name: str) -> FindLine:
    """The equation under another name, with another node in place of each of its nodes."""
    return replace(
        line,
        name=name,
        unknown=of(line.unknown),
        lowest=of(line.lowest),
        highest=of(line.highest),
        left=of(line.left),
        right=of(line.right),
        reference=of(line.reference) if line.reference is not None else None,
    )


def unused(graph: Graph, finds: Sequence[FindLine]) -> tuple[Problem, ...]:
    """The equations that depend neither on their unknown nor on any that is found with it.

    None is told while a whole outline or girth is still open, as before linking.
    """
    sides = {line.unknown: set(graph.reached_from([line.left, line.right])) for line in finds}
    if any(graph[number].operation == "own" for reached in sides.values() for number in reached):
        return ()
    return tuple(
        problem("unknown-unused", line.place, name=line.name.rpartition(".")[2])
        for group in groups(graph, finds)
        for line in group
        if sides[line.unknown].isdisjoint(other.unknown for other in group)
    )


def _reach(graph: Graph, lines: Sequence[FindLine]) -> dict[int, set[int]]:
    """For each unknown, all that it needs, directly or through the equations of others."""
    unknowns = {line.unknown for line in lines}
    direct = {
        line.unknown: unknowns.intersection(graph.reached_from(needs(line))) for line in lines
    }
    reach: dict[int, set[int]] = {}
    for number in unknowns:
        reached: set[int] = set()
        waiting = [number]
        while waiting:
            new = direct[waiting.pop()] - reached
            reached |= new
            waiting.extend(new)
        reach[number] = reached
    return reach
