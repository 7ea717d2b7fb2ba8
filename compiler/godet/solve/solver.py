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

from godet.geometry.bodies import picked
from godet.geometry.dual import Dual, Values, implicit, tangent_of, value_of
from godet.geometry.guards import Breach
from godet.graph.node import Graph
from godet.program.program import FindLine
from godet.solve.evaluator import Evaluator
from godet.solve.inputs import Inputs
from godet.solve.outcome import Failure, Outcome
from godet.solve.roots import Floats, Roots, roots
from godet.solve.schedule import FindStep, schedule


# a body whose draft fails computes with what is no number; its fault says so in words
@np.errstate(all="ignore")
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
    for number in (line.lowest, line.highest, line.reference):
        if number is not None and number in evaluator.fault_of:
            evaluator.pass_on(line.unknown, evaluator.fault_of[number])
    _blame(evaluator, step, found, lowest)
    evaluator.values[line.unknown] = _with_derivative(evaluator, step, found.root)
    for breach in _breaches(line, found, lowest, highest):
        evaluator.fail(line.unknown, breach)


def _blame(evaluator: Evaluator, step: FindStep, found: Roots, trial: Floats) -> None:
    """Where no trial gives a number, what stands in the way is the fault: a measure that is
    missing, or a guard that the first trial breaks."""
    line = step.line
    hopeless = np.isinf(found.closest)
    if not hopeless.any():
        return
    attempt = _attempt(evaluator, step, trial, np.arange(len(trial)))
    evaluator.faults = attempt.faults
    for number in (line.left, line.right):
        faults = attempt.fault_of.get(number, evaluator.fault_of.get(number))
        if faults is not None:
            evaluator.pass_on(line.unknown, np.where(hopeless, faults, 0))


def _tried(
    evaluator: Evaluator, step: FindStep, trial: Values, lanes: NDArray[np.intp] | None
) -> Values:
    """How far the two sides are apart with trial values; plain numbers where `lanes` pick bodies.

    A trial that breaks a guard, or needs what has failed before, counts as no number.
    """
    attempt = _attempt(evaluator, step, trial, lanes)
    apart = attempt.values[step.line.left] - attempt.values[step.line.right]
    for side in (step.line.left, step.line.right):
        faults = attempt.fault_of.get(side)
        if faults is not None and lanes is not None:
            apart = np.where(faults != 0, np.nan, apart)
    if lanes is not None:
        apart = np.broadcast_to(apart, (len(lanes),))
    return apart


def _attempt(
    evaluator: Evaluator, step: FindStep, trial: Values, lanes: NDArray[np.intp] | None
) -> Evaluator:
    """All that changes with the unknown, computed with trial values; faults of before stand first
    among its faults."""
    attempt = Evaluator(evaluator.graph, evaluator.inputs, faults=list(evaluator.faults))
    attempt.values[step.line.unknown] = trial
    needed = {n for number in step.trial for n in evaluator.graph[number].inputs}
    needed |= {step.line.left, step.line.right}
    for number in needed:
        known = evaluator.values.get(number)
        if known is not None:
            attempt.values[number] = known if lanes is None else _picked(known, lanes)
        faults = evaluator.fault_of.get(number)
        if faults is not None:
            chosen = faults if lanes is None or len(faults) == 1 else faults[lanes]
            attempt.pass_on(number, chosen)
    for number in step.trial:
        attempt.compute(number)
    return attempt


def _picked(values: Values, lanes: NDArray[np.intp]) -> NDArray[np.float64]:
    """The values of the bodies that `lanes` name, in ascending order once or more; where there are
    as many as bodies, these are all of them."""
    plain = value_of(values)
    return plain if len(plain) in (1, len(lanes)) else picked(plain, lanes)


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
    upside_down = lowest >= highest
    none = (found.count == 0) & ~upside_down
    closest = {**span, "closest": found.closest, "at": found.closest_at}
    many = ((found.count > 1) & (line.selector is None) | found.tie) & ~upside_down
    answers = {"count": found.count.astype(float), "least": found.least, "most": found.most}
    return (
        Breach("range-upside-down", upside_down, span),
        Breach("no-answer-in-range", none, closest),
        Breach("many-answers", many, {**span, **answers}),
    )
