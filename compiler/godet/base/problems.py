"""A problem is data: a code, a sentence, a place; the terminal, JSON and an editor only show it.

In: a code of the table in `words` and the facts its sentence names. Out: a `Problem`.
Fails with `KeyError` only when the code or a fact is not in the table: a mistake in Godet itself.

    problem("unknown-name", place, name="hip_girt", hint="Did you mean hip_girth?")
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from godet.base.places import Place
from godet.base.words import WORDS, Severity


@dataclass(frozen=True, slots=True)
class Note:
    """A further sentence, often with the other end of a conflict."""

    words: str
    place: Place | None = None


@dataclass(frozen=True, slots=True)
class Fix:
    """A cure that a machine can apply: the text at `place` becomes `replacement`."""

    words: str
    place: Place
    replacement: str


@dataclass(frozen=True, slots=True)
class Problem:
    code: str
    severity: Severity
    sentence: str
    place: Place | None = None
    notes: tuple[Note, ...] = ()
    fix: Fix | None = None
    # what its sentence was made of, so that it can be told anew of several bodies at once
    facts: Mapping[str, object] = field(default_factory=dict, compare=False, repr=False)


class Problems(Exception):
    """Carries problems out of a stage that cannot go on; caught where they are shown."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("; ".join(p.sentence for p in self.problems))


def problem(
    code: str,
    place: Place | None,
    *,
    notes: Sequence[Note] = (),
    fix: Fix | None = None,
    **facts: object,
) -> Problem:
    """The problem with this code, its sentence made from the table of words and the facts."""
    severity, sentence = WORDS[code]
    return Problem(code, severity, sentence.format(**facts), place, tuple(notes), fix, facts)


def has_errors(problems: Iterable[Problem]) -> bool:
    return any(p.severity is Severity.ERROR for p in problems)
