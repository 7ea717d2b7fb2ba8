"""Requirements that do not hold, in the recipe's own words.

In: a draft, its outcome, and the bodies to try. Out: problems, one for each requirement, with the
bodies that do not meet it and, of the one furthest from it, the numbers. A requirement that could
not be worked out for a body says nothing of it. Nothing fails.

    unmet_requirements(draft, outcome, [0, 3], "cm")
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from godet.base.problems import Problem, problem
from godet.base.quantities import LengthUnit
from godet.pattern.checks import wanted_words
from godet.program.draft import Draft
from godet.program.program import CheckLine
from godet.program.saying import said
from godet.solve.outcome import Outcome
from godet.tools.many_bodies import told_together


def unmet_requirements(
    draft: Draft, outcome: Outcome, bodies: Iterable[int], units: LengthUnit
) -> tuple[Problem, ...]:
    """The requirements that do not hold for some of these bodies, of those worked out."""
    tried = tuple(bodies)
    problems = []
    for check in draft.checks:
        if check.level != "require":
            continue
        failing = {b: _short_by(check, outcome, b) for b in tried if _is(check, outcome, b, False)}
        if failing:
            problems.append(_problem(check, failing, draft, outcome, units))
    return tuple(problems)


def _problem(
    check: CheckLine,
    failing: dict[int, float],
    draft: Draft,
    outcome: Outcome,
    units: LengthUnit,
) -> Problem:
    everybody = range(len(outcome.labels))
    passing = [body for body in everybody if _is(check, outcome, body, True)]
    together = told_together(failing, passing, [check.condition], outcome, draft, units)
    numbers = ""
    if check.measured is not None and check.wanted is not None:
        type = draft.graph[check.measured].type
        measured, wanted = (
            said(outcome.value(n, together.worst), type, units)
            for n in (check.measured, check.wanted)
        )
        numbers = f": {measured}, and {wanted_words(check.sign, wanted)} is required"
    return problem(
        "requirement-fails",
        check.place,
        notes=together.notes,
        body=together.bodies,
        words=check.words or "a requirement does not hold",
        numbers=numbers,
    )


def _is(check: CheckLine, outcome: Outcome, body: int, met: bool) -> bool:
    """Whether the requirement could be worked out for the body, and is met, or is not."""
    return (
        outcome.holds(check.condition, body) and bool(outcome.value(check.condition, body)) is met
    )


def _short_by(check: CheckLine, outcome: Outcome, body: int) -> float:
    if check.measured is None or check.wanted is None:
        return math.nan
    measured, wanted = (float(outcome.value(n, body)) for n in (check.measured, check.wanted))
    return abs(measured - wanted)
