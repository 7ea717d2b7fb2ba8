"""One failure that befalls many bodies of a batch, told once.

In: the bodies that fail in one statement, how badly each does, and those that pass it. Out: the
words for the bodies, the one whose numbers are told, and notes: that it is the worst, and which
body that passes is closest in measures to one that fails. One body alone is told by its label and
has no notes. Nothing fails.

    told = told_together(failing, passing, [412], outcome, draft, "cm")
    told.bodies    # "size_18, size_20, size_22"
    told.notes     # size_16 passes here and is the closest to size_18, which fails: ...
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from godet.base.problems import Note, problem
from godet.base.quantities import LengthUnit
from godet.program.draft import Draft
from godet.program.measured import measures_behind
from godet.program.saying import said
from godet.solve.outcome import Outcome

_NAMED_BODIES = 10
_NAMED_MEASURES = 3


@dataclass(frozen=True, slots=True)
class ToldTogether:
    bodies: str
    worst: int
    notes: tuple[Note, ...]


def told_together(
    failing: Mapping[int, float],
    passing: Sequence[int],
    statement: Iterable[int],
    outcome: Outcome,
    draft: Draft,
    units: LengthUnit,
) -> ToldTogether:
    """How the failure of one statement is told for all its bodies.

    `failing` gives for each body how badly it fails, a larger number being worse and NaN where
    there is no such number; `statement` are the nodes whose measures can make the difference.
    """
    worst = max(failing, key=lambda body: (not math.isnan(failing[body]), failing[body]))
    notes = []
    if any(badness < failing[worst] for badness in failing.values()):
        words = problem("numbers-of-the-worst", None, body=outcome.labels[worst]).sentence
        notes.append(Note(words))
    closest = _closest(sorted(failing), passing, statement, outcome, draft, units)
    if closest is not None:
        notes.append(closest)
    return ToldTogether(_listed([outcome.labels[b] for b in sorted(failing)]), worst, tuple(notes))


def _listed(labels: Sequence[str]) -> str:
    told = ", ".join(labels[:_NAMED_BODIES])
    more = len(labels) - _NAMED_BODIES
    return f"{told} and {more} more" if more > 0 else told


def _closest(
    failing: Sequence[int],
    passing: Sequence[int],
    statement: Iterable[int],
    outcome: Outcome,
    draft: Draft,
    units: LengthUnit,
) -> Note | None:
    """The pair of a failing and a passing body that are most alike, and where they differ most."""
    nodes = measures_behind(draft.graph, draft.finds, statement)
    if not passing or not nodes:
        return None
    values = {name: _values(node, outcome) for name, node in nodes.items()}
    scaled = np.stack([values[name] / _scale(name, values[name], draft) for name in nodes], axis=1)
    near = [_distances(scaled[list(passing)], scaled[body]) for body in failing]
    which = int(np.argmin([distances.min() for distances in near]))
    fails, passes = failing[which], passing[int(np.argmin(near[which]))]
    apart = dict(zip(nodes, np.abs(scaled[fails] - scaled[passes]), strict=True))
    estimated = {
        name: not all(_is_given(draft, node, outcome, body) for body in (fails, passes))
        for name, node in nodes.items()
    }
    differences = []
    # what an estimate makes of another measure explains less than that measure
    for name in sorted(apart, key=lambda name: (estimated[name], -apart[name])):
        type = draft.measures[name].type
        has, other = (said(values[name][body], type, units) for body in (passes, fails))
        if math.isfinite(apart[name]) and has != other:
            differences.append(f"{name} {has}, not {other}")
    if not differences:
        return None
    words = problem(
        "closest-that-passes",
        None,
        passing=outcome.labels[passes],
        failing=outcome.labels[fails],
        differences="; ".join(differences[:_NAMED_MEASURES]),
    ).sentence
    return Note(words)


def _values(node: int, outcome: Outcome) -> NDArray[np.float64]:
    """A measure's value for each body, NaN where it has none."""
    bodies = range(len(outcome.labels))
    if node not in outcome.values:
        return np.full(len(bodies), np.nan)
    return np.array([outcome.value(node, b) if outcome.holds(node, b) else np.nan for b in bodies])


def _scale(name: str, values: NDArray[np.float64], draft: Draft) -> float:
    """How far a measure spreads over people, so that a height and a neck can be compared."""
    measure = draft.measures[name]
    if measure.lowest is not None and measure.highest is not None:
        return measure.highest - measure.lowest
    known = values[np.isfinite(values)]
    return float(np.abs(known).max(initial=0.0)) or 1.0


def _distances(others: NDArray[np.float64], one: NDArray[np.float64]) -> NDArray[np.float64]:
    """How unlike one body (measures,) each of the others (bodies, measures) is: the root of the
    mean square over the measures that both have."""
    apart = others - one
    known = np.isfinite(apart)
    count = known.sum(axis=1)
    total = np.where(known, apart**2, 0.0).sum(axis=1)
    return np.where(count > 0, np.sqrt(total / np.maximum(count, 1)), np.inf)


def _is_given(draft: Draft, node: int, outcome: Outcome, body: int) -> bool:
    return bool(np.isfinite(outcome.value(draft.graph[node].inputs[0], body)))
