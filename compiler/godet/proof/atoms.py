"""What a proof knows of the values that algebra does not take apart: between which ends they lie.

In: atoms in the order in which they are needed, so that what bounds one has a smaller number. Out:
their numbers, one for each key. Nothing fails.

    number = atoms.number("hip_girth", Bounds(low, high))
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from godet.proof.polynomials import Budget, Polynomial
from godet.proof.quotients import Quotient


@dataclass(frozen=True, slots=True)
class Branch:
    """One of the values that an atom may be, and polynomials that are not negative where it is."""

    value: Quotient
    facts: tuple[Polynomial, ...]


@dataclass(frozen=True, slots=True)
class Atom:
    """Between `low` and `high`, None being without bounds; or one of the branches."""

    low: Quotient | None = None
    high: Quotient | None = None
    branches: tuple[Branch, ...] = ()
    cosine: int | None = None  # of a sine: the atom that is the cosine of the same angle


@dataclass(slots=True)
class Atoms:
    budget: Budget
    known: list[Atom] = field(default_factory=list)
    numbers: dict[Hashable, int] = field(default_factory=dict)

    def __getitem__(self, number: int) -> Atom:
        return self.known[number]

    def number(self, key: Hashable, atom: Atom) -> int:
        """The number of the atom with this key, new or known."""
        if key not in self.numbers:
            self.numbers[key] = len(self.known)
            self.known.append(atom)
        return self.numbers[key]

    def value(self, key: Hashable, atom: Atom) -> Quotient:
        return Quotient.whole(Polynomial.of_atom(self.number(key, atom)), self.budget)

    def between(self, key: Hashable, low: Fraction | None, high: Fraction | None) -> Quotient:
        """An atom between two plain numbers."""
        first, last = (
            Quotient.constant(end, self.budget) if end is not None else None for end in (low, high)
        )
        return self.value(key, Atom(first, last))

    def reduced(self, value: Polynomial) -> Polynomial:
        """The square of a sine stands as one less the square of the cosine, so that what is equal
        is equal in form."""
        sines = [n for n in value.atoms() if self.known[n].cosine is not None]
        for number in sines:
            value = self._without_squares(value, number)
        return value

    def _without_squares(self, value: Polynomial, sine: int) -> Polynomial:
        parts = value.coefficients(sine)
        if len(parts) < 3:
            return value
        cosine = Polynomial.of_atom(self.known[sine].cosine or 0)
        square = Polynomial.constant(1) - cosine.times(cosine, self.budget)
        whole = Polynomial.constant(0)
        for power, part in enumerate(parts):
            turned = part.times(square.power(power // 2, self.budget), self.budget)
            odd = turned.times(Polynomial.of_atom(sine), self.budget) if power % 2 else turned
            whole = whole + odd
        return whole


def key_of(name: str, *values: Quotient) -> Hashable:
    """What tells one function of some values from another."""
    return name, *((value.above, value.below) for value in values)


Facts = Sequence[Polynomial]
