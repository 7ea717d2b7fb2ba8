"""The order in which the nodes of a draft are computed; the same for every body.

In: a graph, its unknowns' equations and the nodes wanted. Out: steps, each after all it needs: a
node, or unknowns to be found together (whose equations are computed again and again with trial
values). No range may need the unknown it is for: see `refusing`.

    for step in schedule(graph, finds, targets): ...
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from godet.graph.node import Graph
from godet.program.program import FindLine
from godet.program.unknowns import Group, frame, groups
from godet.solve.linearity import is_linear


@dataclass(frozen=True, slots=True)
class FindStep:
    """Unknowns that need each other, mostly one, in the order of the text."""

    lines: tuple[FindLine, ...]
    trial: tuple[int, ...]  # the nodes that change with the unknowns, in order of computing
    needed: tuple[int, ...]  # the nodes that the trial ones and the equations are made of
    linear: bool


Step = int | FindStep


def schedule(graph: Graph, finds: Iterable[FindLine], targets: Iterable[int]) -> tuple[Step, ...]:
    """The steps that compute the targets."""
    plans = {
        line.unknown: plan for group in groups(graph, finds) for plan in [_plan(graph, group)]
        for line in group
    }  # fmt: skip
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
        steps.append(step)
        done.update([line.unknown for line in step.lines] if isinstance(step, FindStep) else [step])
        waiting.pop()
    return tuple(steps)


def find_step(graph: Graph, group: Group) -> FindStep:
    """How the unknowns of a group are found."""
    unknowns = {line.unknown for line in group}
    sides = [side for line in group for side in (line.left, line.right)]
    reached = graph.reached_from(sides)
    changing = set(unknowns)
    for number in reached:
        if changing.intersection(graph[number].inputs):
            changing.add(number)
    trial = tuple(number for number in reached if number in changing - unknowns)
    needed = dict.fromkeys([*(n for number in trial for n in graph[number].inputs), *sides])
    return FindStep(group, trial, tuple(needed), is_linear(graph, unknowns, trial))


def _plan(graph: Graph, group: Group) -> tuple[FindStep, tuple[int, ...]]:
    """The step of a group, and the nodes it needs that do not change with its unknowns."""
    step = find_step(graph, group)
    changing = {*step.trial, *(line.unknown for line in group)}
    given = [*step.needed, *(number for line in group for number in frame(line))]
    return step, tuple(dict.fromkeys(number for number in given if number not in changing))
