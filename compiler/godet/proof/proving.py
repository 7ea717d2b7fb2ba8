"""Proves what must hold for every body: requirements, advice, and that seams' sides match.

In: a linked draft and one of its lines. Out: `Proved`, or `NotProved`, which says nothing against
the line. What is proved is so in exact arithmetic, for all measures within their plausible ranges,
given or estimated, all choices within theirs, and all cloths; of a body for which the draft fails
nothing is said. Steps are counted, not timed: the same text always gets the same answer.

    prove_check(draft, draft.checks[0])
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from godet.base.recursion import room_to_recurse
from godet.graph.types import LENGTH
from godet.program.draft import Draft
from godet.program.program import CheckLine, SeamLine
from godet.proof.atoms import Facts
from godet.proof.deciding import nowhere_negative
from godet.proof.forms import Forms, WordNeeded
from godet.proof.polynomials import Budget, OutOfBudget, Polynomial
from godet.proof.quotients import Quotient, Undefined
from godet.proof.verdicts import NotProved, Proved

STEPS = 200_000

Goal = Callable[[Forms], bool]


def prove_check(draft: Draft, check: CheckLine, steps: int = STEPS) -> Proved | NotProved:
    """Whether the condition of a `require` or `advise` always holds."""
    return _proved(draft, lambda forms: _holds(forms, check.condition, ()), steps)


def matching(seam: SeamLine) -> bool:
    """Whether a seam says that its sides match, but for an ease of a stated amount."""
    return seam.easing is not None or seam.manner is None


def prove_seam(draft: Draft, seam: SeamLine, steps: int = STEPS) -> Proved | NotProved:
    """Whether both sides of a seam are always as long, but for the ease that it states."""
    return _proved(draft, lambda forms: _match(forms, seam), steps)


def _proved(draft: Draft, goal: Goal, steps: int) -> Proved | NotProved:
    try:
        with room_to_recurse():
            return Proved() if _in_every_case(draft, goal, {}, Budget(steps)) else NotProved("open")
    except OutOfBudget:
        return NotProved("steps")


def _in_every_case(draft: Draft, goal: Goal, words: Mapping[int, str], budget: Budget) -> bool:
    """With each of the words on which the goal turns out to depend."""
    budget.spend(1)
    try:
        return goal(Forms(draft, words, budget))
    except WordNeeded as needed:
        node, choices = needed.node, needed.words
    except Undefined:
        return False
    return all(_in_every_case(draft, goal, {**words, node: word}, budget) for word in choices)


def _holds(forms: Forms, condition: int, facts: Facts) -> bool:
    """Whether a condition holds wherever the facts do."""
    sure = forms.truth(condition)
    if sure is not None:
        return sure
    node = forms.draft.graph[condition]
    match node.operation:
        case "at_least" | "more_than":
            left, right = (forms.scalar(n) for n in node.inputs)
            return _positive(forms, left - right, node.operation == "more_than", facts)
        case "both":
            return all(_holds(forms, each, facts) for each in node.inputs)
        case "any_of":
            return _one_holds(forms, node.inputs, facts, _holds, forms.facts, False)
        case "negated":
            return _fails(forms, node.inputs[0], facts)
        case _:
            return False


def _fails(forms: Forms, condition: int, facts: Facts) -> bool:
    """Whether a condition does not hold wherever the facts do."""
    sure = forms.truth(condition)
    if sure is not None:
        return not sure
    node = forms.draft.graph[condition]
    match node.operation:
        case "at_least" | "more_than":
            left, right = (forms.scalar(n) for n in node.inputs)
            return _positive(forms, right - left, node.operation == "at_least", facts)
        case "any_of":
            return all(_fails(forms, each, facts) for each in node.inputs)
        case "both":
            return _one_holds(forms, node.inputs, facts, _fails, forms.facts, True)
        case "negated":
            return _holds(forms, node.inputs[0], facts)
        case _:
            return False


def _one_holds(
    forms: Forms,
    conditions: tuple[int, ...],
    facts: Facts,
    proves: Callable[[Forms, int, Facts], bool],
    facts_of: Callable[[int, bool], tuple[Polynomial, ...]],
    otherwise: bool,
) -> bool:
    """One of two by itself, or the first where the second leaves it alone."""
    first, second = conditions
    return proves(forms, second, facts) or proves(
        forms, first, [*facts, *facts_of(second, otherwise)]
    )


def _positive(forms: Forms, value: Quotient, strict: bool, facts: Facts) -> bool:
    return nowhere_negative(forms.functions.sign_of(value), strict, facts, forms.atoms)


def _match(forms: Forms, seam: SeamLine) -> bool:
    first, second = (forms.scalar(length) for length in seam.lengths or ())
    apart = first - second
    if seam.easing is not None:
        apart = apart - forms.scalar(seam.easing)
    return _nothing(forms, apart) or any(
        _nothing(forms, other) for other in _by_equations(forms, apart)
    )


def _nothing(forms: Forms, value: Quotient) -> bool:
    above = forms.atoms.reduced(value.above)
    return not above.terms or all(
        nowhere_negative(each, False, (), forms.atoms) for each in (above, -above)
    )


def _by_equations(forms: Forms, apart: Quotient) -> list[Quotient]:
    """The difference once an equation by which an unknown is found is taken off or added: its sides
    are as long to a thousandth of what a seam may be off by."""
    found = []
    atoms = apart.above.atoms()
    for line in forms.draft.finds:
        if forms.draft.graph[line.left].type != LENGTH:
            continue
        sides = forms.scalar(line.left) - forms.scalar(line.right)
        if sides.above.atoms() & atoms:
            found += [apart - sides, apart + sides]
    return found
