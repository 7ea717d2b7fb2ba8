"""Failures of what a body's draft leaves out are none.

In: a draft and its outcome. Out: the outcome less those failures that, for a body, nothing needs
but pieces whose condition does not hold. Nothing fails.

    of_what_is_there(draft, outcome).failures
"""

from __future__ import annotations

from dataclasses import replace

from godet.pattern.finish import targets
from godet.pattern.seams import kept_seams
from godet.program.draft import Draft
from godet.solve.outcome import Failure, Outcome


def of_what_is_there(draft: Draft, outcome: Outcome) -> Outcome:
    """The outcome with the failures that concern what is drawn."""
    needed: dict[frozenset[str], frozenset[int]] = {}

    def concerns(failure: Failure) -> bool:
        left_out = _left_out(draft, outcome, failure.body)
        if left_out not in needed:
            pieces = {name: p for name, p in draft.pieces.items() if name not in left_out}
            there = replace(draft, pieces=pieces, seams=kept_seams(draft.seams, pieces))
            needed[left_out] = frozenset(draft.graph.reached_from(sorted(targets(there))))
        return failure.node in needed[left_out]

    return replace(outcome, failures=tuple(each for each in outcome.failures if concerns(each)))


def _left_out(draft: Draft, outcome: Outcome, body: int) -> frozenset[str]:
    """The pieces whose condition is known not to hold."""
    return frozenset(
        name
        for name, piece in draft.pieces.items()
        if piece.when is not None
        and outcome.holds(piece.when, body)
        and not outcome.value(piece.when, body)
    )
