"""Solves a draft for a batch of bodies.

In: a graph, the equations of its unknowns, the nodes wanted, and the inputs of the bodies. Out: an
`Outcome`; one failing body never spoils the others, and every body gets the same bits alone and in
a batch. The unknowns must not be among those that `refusing` tells of.

    outcome = solve(graph, finds, targets, inputs)
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from godet.graph.node import Graph
from godet.program.program import FindLine
from godet.solve.evaluator import Evaluator
from godet.solve.finding import find
from godet.solve.inputs import Inputs
from godet.solve.outcome import Failure, Outcome
from godet.solve.schedule import FindStep, schedule


# a body whose draft fails computes with what is no number; its fault says so in words
@np.errstate(all="ignore")
def solve(
    graph: Graph, finds: Sequence[FindLine], targets: Iterable[int], inputs: Inputs
) -> Outcome:
    """The targets for every body, and what failed."""
    wanted = tuple(dict.fromkeys(targets))
    evaluator = Evaluator(graph, inputs)
    for step in schedule(graph, finds, wanted):
        if isinstance(step, FindStep):
            find(evaluator, step)
        else:
            evaluator.compute(step)
    failures = tuple(_failures(evaluator, wanted))
    return Outcome(inputs.labels, evaluator.values, failures, evaluator.fault_of)


def _failures(evaluator: Evaluator, targets: Sequence[int]) -> list[Failure]:
    """Each statement that failed, once for each body it failed for."""
    found: dict[tuple[int, int], Failure] = {}
    bodies = len(evaluator.inputs.labels)
    for target in targets:
        numbers = evaluator.fault_of.get(target)
        if numbers is None:
            continue
        everywhere = np.broadcast_to(numbers, (bodies,))
        for body in np.nonzero(everywhere)[0]:
            key = (int(body), int(everywhere[body]))
            if key not in found:
                found[key] = _failure(evaluator, *key)
    return sorted(found.values(), key=lambda failure: (failure.body, failure.node))


def _failure(evaluator: Evaluator, body: int, number: int) -> Failure:
    fault = evaluator.faults[number - 1]
    bodies = len(evaluator.inputs.labels)

    def at(values: NDArray[np.float64]) -> float:
        return float(np.broadcast_to(values, (bodies,))[body])

    numbers = {name: at(values) for name, values in fault.breach.numbers.items()}
    others = {node: at(values) for node, values in fault.others.items()}
    place = evaluator.graph.places[fault.node]
    return Failure(body, fault.breach.code, fault.node, place, numbers, others)
