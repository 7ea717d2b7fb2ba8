"""The order in which the nodes of a draft are computed; the same for every body.

In: a graph, its unknowns' equations and the nodes wanted. Out: steps, each after all it needs: a
node, or an unknown to be found (whose equation is computed again and again with trial values).
Two unknowns that need each other raise `Problems` with "unknowns-together".

    for step in schedule(graph, finds, targets): ...
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from godet.base.problems import Note, Problems, problem
from godet.graph.node import Graph
from godet.program.program import FindLine


@dataclass(frozen=True, slots=True)
class FindStep:
    line: FindLine
    trial: tuple[int, ...]  # the nodes that change with the unknown, in order of computing


Step = int | FindStep


def schedule(
    graph: Graph, finds: Mapping[int, FindLine], targets: Iterable[int]
) -> tuple[Step, ...]:
    """The steps that compute the targets. `finds` maps the node of an unknown to its equation."""
    plans = {number: _plan(graph, line) for number, line in finds.items()}
    steps: list[Step] = []
    done: set[int] = set()
    opened: set[int] = set()
    waiting = list(reversed(list(targets)))
    while waiting:
        number = waiting[-1]
        if number in done:
            waiting.pop()
            continue
        step, needs = plans[number] if number in plans else (number, graph[number].inputs)
        if number not in opened:
            opened.add(number)
            waiting.extend(need for need in reversed(needs) if need not in done)
            continue
        if any(need not in done for need in needs):
            _together(finds, opened - done)
        steps.append(step)
        done.add(number)
        waiting.pop()
    return tuple(steps)


def _plan(graph: Graph, line: FindLine) -> tuple[FindStep, tuple[int, ...]]:
    """The step of an unknown, and the nodes it needs that do not change with it."""
    changing: set[int] = {line.unknown}
    reached = graph.reached_from([line.left, line.right])
    for number in reached:
        if changing.intersection(graph[number].inputs):
            changing.add(number)
    changing.discard(line.unknown)
    trial = tuple(number for number in reached if number in changing)
    frame = [line.lowest, line.highest, line.left, line.right]
    if line.reference is not None:
        frame.append(line.reference)
    given = [n for number in trial for n in graph[number].inputs] + frame
    still = {n: None for n in given if n not in changing and n != line.unknown}
    return FindStep(line, trial), tuple(still)


def _together(finds: Mapping[int, FindLine], open_nodes: set[int]) -> None:
    lines = sorted((finds[n] for n in open_nodes if n in finds), key=lambda line: line.name)
    names = " and ".join(f"`{line.name}`" for line in lines)
    notes = [Note(f"`{line.name}` is sought here", line.place) for line in lines[1:]]
    raise Problems([problem("unknowns-together", lines[0].place, names=names, notes=notes)])
