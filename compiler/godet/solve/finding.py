"""Finds the unknowns of a step, and enters them among the values.

In: an evaluator that knows all that the step needs. Out: the unknowns' values, with derivatives
where the inputs carry some; or faults. Linear equations are solved directly, one other unknown is
sought over its range, several from a start.

    find(evaluator, step)
"""

from __future__ import annotations

import numpy as np

from godet.geometry.guards import Breach
from godet.solve.blaming import Blame, enter
from godet.solve.evaluator import Evaluator
from godet.solve.linear import solve_linear
from godet.solve.newton import solve_newton
from godet.solve.ranges import Ranges, at_every_body, ranges_of
from godet.solve.roots import Roots, roots
from godet.solve.schedule import FindStep
from godet.solve.slopes import with_slopes
from godet.solve.trials import Bodies, Floats, attempt, sides_apart


def find(evaluator: Evaluator, step: FindStep) -> None:
    """Find the unknowns of a step for every body."""
    ranges = ranges_of(evaluator, step)
    for line in step.lines:
        for number in (line.lowest, line.highest, line.reference):
            if number is not None and number in evaluator.fault_of:
                evaluator.pass_on(line.unknown, evaluator.fault_of[number])
    if step.linear or len(step.lines) > 1:
        values = _together(evaluator, step, ranges)
    else:
        values = _alone(evaluator, step, ranges)
    for line, found in zip(step.lines, with_slopes(evaluator, step, ranges, values), strict=True):
        evaluator.values[line.unknown] = found
    _share_faults(evaluator, step)


def _together(evaluator: Evaluator, step: FindStep, ranges: Ranges) -> Floats:
    """The values (unknowns, B) of linear equations, or of several."""
    upside_down = ranges.lowest >= ranges.highest
    blames = [
        Blame(int(body), "range-upside-down", int(line), ranges.numbers(line, body))
        for line, body in np.argwhere(upside_down)
    ]
    lanes = np.nonzero(~upside_down.any(axis=0))[0]
    values = np.full(ranges.lowest.shape, np.nan)
    if len(lanes):
        solve = solve_linear if step.linear else solve_newton
        answers = solve(evaluator, step, ranges.of(lanes), lanes)
        values[:, lanes] = answers.values
        hopeless = lanes[answers.hopeless]
        _blame_trial(evaluator, step, ranges.start, hopeless)
        blames += answers.blames
        values[:, hopeless] = np.nan
    values[:, [blame.body for blame in blames]] = np.nan
    enter(evaluator, step, blames)
    return values


def _alone(evaluator: Evaluator, step: FindStep, ranges: Ranges) -> Floats:
    """The values (1, B) of the one unknown of an equation, sought over its range."""
    (line,), lowest, highest = step.lines, ranges.lowest[0], ranges.highest[0]
    reference = at_every_body(evaluator, line.reference) if line.reference is not None else None

    def residual(trial: Floats, lanes: Bodies) -> Floats:
        return np.asarray(sides_apart(evaluator, step, (trial,), lanes)[0])

    found = roots(residual, lowest, highest, line.selector, reference)
    _blame_trial(evaluator, step, ranges.lowest, np.nonzero(np.isinf(found.closest))[0])
    for breach in _breaches(found, line.selector, lowest, highest):
        evaluator.fail(line.unknown, breach)
    return found.root[None]


def _blame_trial(evaluator: Evaluator, step: FindStep, trial: Floats, hopeless: Bodies) -> None:
    """Where a trial gives no number, what stands in the way is the fault: a measure that is
    missing, or a guard that the trial breaks."""
    if not len(hopeless):
        return
    bodies = trial.shape[1]
    tried = attempt(evaluator, step, tuple(trial), np.arange(bodies))
    evaluator.faults = tried.faults
    stands = np.isin(np.arange(bodies), hopeless)
    for line in step.lines:
        for number in (line.left, line.right):
            faults = tried.fault_of.get(number)
            if faults is not None:
                evaluator.pass_on(line.unknown, np.where(stands, faults, 0))


def _share_faults(evaluator: Evaluator, step: FindStep) -> None:
    """An unknown has no answer for a body where one that it needs has none."""
    faults = [evaluator.fault_of.get(line.unknown) for line in step.lines]
    for line in step.lines:
        for known in faults:
            if known is not None:
                evaluator.pass_on(line.unknown, known)


def _breaches(
    found: Roots, selector: str | None, lowest: Floats, highest: Floats
) -> tuple[Breach, ...]:
    span = {"lowest": lowest, "highest": highest}
    upside_down = lowest >= highest
    none = (found.count == 0) & ~upside_down
    closest = {**span, "closest": found.closest, "at": found.closest_at}
    many = ((found.count > 1) & (selector is None) | found.tie) & ~upside_down
    answers = {"count": found.count.astype(float), "least": found.least, "most": found.most}
    return (
        Breach("range-upside-down", upside_down, span),
        Breach("no-answer-in-range", none, closest),
        Breach("many-answers", many, {**span, **answers}),
        Breach("equation-flat", found.flat & ~upside_down, {**span, "value": found.root}),
    )
