"""What finishing finds on many bodies, told once for each statement.

In: the problems of each body's pattern, and the draft. Out: problems, one for each statement and
code, with the bodies it befalls; those of one body alone are as they were. Nothing fails.

    told_once([(0, open_outline), (1, open_outline)], outcome, draft, "cm")
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from godet.base.places import Place
from godet.base.problems import Note, Problem, problem
from godet.base.quantities import LengthUnit
from godet.pattern.finish import targets
from godet.program.draft import Draft
from godet.solve.outcome import Outcome
from godet.tools.many_bodies import told_together

# the facts that tell one statement from another at the same place
_NAMES = ("piece", "edge", "seam")


def told_once(
    found: Iterable[tuple[int, Problem]], outcome: Outcome, draft: Draft, units: LengthUnit
) -> tuple[Problem, ...]:
    """One problem for each statement and code, in the order in which they were first found."""
    same: dict[tuple[str, Place | None, tuple[object, ...]], dict[int, Problem]] = {}
    for body, each in found:
        names = tuple(each.facts.get(name) for name in _NAMES)
        same.setdefault((each.code, each.place, names), {}).setdefault(body, each)
    return tuple(_problem(of_body, outcome, draft, units) for of_body in same.values())


def _problem(
    of_body: Mapping[int, Problem], outcome: Outcome, draft: Draft, units: LengthUnit
) -> Problem:
    first = next(iter(of_body.values()))
    if "body" not in first.facts:
        return first
    bodies = range(len(outcome.labels))
    passing = [b for b in bodies if b not in of_body and not outcome.failed(b)]
    nowhere_worst = dict.fromkeys(of_body, float("nan"))
    together = told_together(nowhere_worst, passing, targets(draft), outcome, draft, units)
    notes = [*first.notes, *together.notes]
    if any({**each.facts, "body": ""} != {**first.facts, "body": ""} for each in of_body.values()):
        whose = problem("numbers-of-one", None, body=first.facts["body"])
        notes.insert(len(first.notes), Note(whose.sentence))
    facts = {**first.facts, "body": together.bodies}
    return problem(first.code, first.place, notes=notes, fix=first.fix, **facts)
