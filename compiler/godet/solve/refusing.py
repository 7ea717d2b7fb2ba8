"""Unknowns that no body could have found, whatever its measures.

In: a linked graph and the equations of its unknowns. Out: a problem for each that is asked for in
a way that cannot be. Loads no numpy.

    unsolvable(draft.graph, draft.finds)
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from godet.base.problems import Note, Problem, problem
from godet.graph.node import Graph
from godet.program.program import FindLine
from godet.program.unknowns import Group, frame, groups
from godet.solve.schedule import find_step


def unsolvable(graph: Graph, finds: Iterable[FindLine]) -> tuple[Problem, ...]:
    """What is wrong with the unknowns, in the order of the text."""
    found: list[Problem] = []
    for group in groups(graph, finds):
        in_ranges = tuple(_ranges(graph, group))
        found.extend(in_ranges or _selectors(graph, group))
    return tuple(found)


def _ranges(graph: Graph, group: Group) -> Iterator[Problem]:
    """Ranges, and values named beside them, that need what is still to be found."""
    for line in group:
        reached = set(graph.reached_from(frame(line)))
        for other in group:
            if other.unknown in reached:
                notes = [] if other is line else [sought(other)]
                yield problem(
                    "range-needs-unknown", line.place, name=line.name, other=other.name, notes=notes
                )
                break


def _selectors(graph: Graph, group: Group) -> Iterator[Problem]:
    """`near` says where a search for several begins; the other words choose among all answers."""
    if len(group) == 1:
        (line,) = group
        if line.selector == "near":
            yield problem("near-alone", line.place, name=line.name)
        return
    if find_step(graph, group).linear:
        return
    for line in group:
        if line.selector not in (None, "near"):
            others = [other for other in group if other is not line]
            yield problem(
                "choosing-together",
                line.place,
                selector=line.selector,
                name=line.name,
                notes=[sought(other) for other in others],
            )


def sought(line: FindLine) -> Note:
    """Where an unknown stands that another needs."""
    return Note(problem("unknown-concerned", line.place, name=line.name).sentence, line.place)
