"""Solves a draft for a batch of bodies.

In: a graph, the equations of its unknowns, the nodes wanted, and the inputs of the bodies. Out: an
`Outcome`; one failing body never spoils the others, and every body gets the same bits alone and in
a batch. Raises `Problems` only for unknowns that need each other, which no body can change.

    outcome = solve(graph, finds, targets, inputs)
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from godet.geometry.dual import Dual, Values, implicit, tangent_of, value_of
from godet.geometry.guards import Breach
from godet.graph.node import Graph
from godet.program.program import FindLine
from godet.solve.evaluator import Evaluator
from godet.solve.inputs import Inputs
from godet.solve.outcome import Failure, Outcome
from godet.solve.roots import Floats, Roots, roots
from godet.solve.schedule import FindStep, schedule


def solve(
    graph: Graph, finds: Sequence[FindLine], targets: Iterable[int], inputs: Inputs
) -> Outcome:
    """The targets for every body, and what failed."""
    wanted = tuple(dict.fromkeys(targets))
    evaluator = Evaluator(graph, inputs)
    for step in schedule(graph, {line.unknown: line for line in finds}, wanted):
        if isinstance(step, FindStep):
            _find(evaluator, step)
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
    numbers = {
        name: float(np.broadcast_to(values, (len(evaluator.inputs.labels),))[body])
        for name, values in fault.breach.numbers.items()
    }
    place = evaluator.graph.places[fault.node]
    return Failure(body, fault.breach.code, fault.node, place, numbers)


def _find(evaluator: Evaluator, step: FindStep) -> None:
    """Find an unknown, and enter it among the values."""
    line = step.line
    bodies = len(evaluator.inputs.labels)
    lowest, highest = (
        np.broadcast_to(value_of(evaluator.values[n]), (bodies,))
        for n in (line.lowest, line.highest)
    )
    reference = None
    if line.reference is not None:
        reference = np.broadcast_to(value_of(evaluator.values[line.reference]), (bodies,))

    def residual(trial: Floats, lanes: NDArray[np.intp]) -> Floats:
        return np.asarray(value_of(_tried(evaluator, step, trial, lanes)))

    found = roots(residual, lowest, highest, line.selector, reference)
    evaluator.values[line.unknown] = _with_derivative(evaluator, step, found.root)
    for breach in _breaches(line, found, lowest, highest):
        evaluator.fail(line.unknown, breach)


def _tried(
    evaluator: Evaluator, step: FindStep, trial: Values, lanes: NDArray[np.intp] | None
) -> Values:
    """How far the two sides are apart with trial values; plain numbers where `lanes` pick bodies.

    A trial that breaks a guard counts as no number.
    """
    attempt = Evaluator(evaluator.graph, evaluator.inputs)
    attempt.values[step.line.unknown] = trial
    needed = {n for number in step.trial for n in evaluator.graph[number].inputs}
    needed |= {step.line.left, step.line.right}
    for number in needed:
        known = evaluator.values.get(number)
        if known is not None:
            attempt.values[number] = known if lanes is None else _picked(known, lanes)
    for number in step.trial:
        attempt.compute(number)
    apart = attempt.values[step.line.left] - attempt.values[step.line.right]
    for side in (step.line.left, step.line.right):
        faults = attempt.fault_of.get(side)
        if faults is not None and lanes is not None:
            apart = np.where(faults != 0, np.nan, apart)
    if lanes is not None:
        apart = np.broadcast_to(apart, (len(lanes),))
    return apart


def _picked(values: Values, lanes: NDArray[np.intp]) -> NDArray[np.float64]:
    """The values of the bodies that `lanes` name, in ascending order once or more; where there are
    as many as bodies, these are all of them."""
    plain = value_of(values)
    return plain if len(plain) in (1, len(lanes)) else plain[lanes]


def _with_derivative(evaluator: Evaluator, step: FindStep, root: Floats) -> Values:
    """The root, with its derivative by the implicit function theorem where others carry one."""
    duals = [v for v in evaluator.values.values() if isinstance(v, Dual)]
    if not duals:
        return root
    residual = _tried(evaluator, step, root, None)
    lanes = np.arange(len(root))
    seeded = Dual(root, np.ones((1, len(root))))
    slope = tangent_of(_tried(evaluator, step, seeded, lanes), 1)[0]
    return implicit(root, residual, slope)


def _breaches(line: FindLine, found: Roots, lowest: Floats, highest: Floats) -> tuple[Breach, ...]:
    span = {"lowest": lowest, "highest": highest}
    none = (found.count == 0) | found.jumps
    closest = {**span, "closest": found.closest, "at": found.closest_at}
    many = (found.count > 1) & (line.selector is None) & ~none
    return (
        Breach("no-answer-in-range", none, closest),
        Breach("many-answers", many, {**span, "count": found.count.astype(float)}),
    )
