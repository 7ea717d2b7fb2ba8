"""Whether a polynomial is nowhere negative, whatever its atoms are between their ends.

In: a polynomial, what its atoms are known to be, and facts: polynomials that are not negative where
the question is asked. Out: True where that is proved, False where it is not, which says nothing of
the contrary. Raises `OutOfBudget`.

One atom after another is done away with, the last first. One with branches becomes each of them in
turn, under the facts of that branch. One between two ends gives the coefficients of Bernstein's
form between these (Lorentz, Bernstein Polynomials, 1953): a mean of them, weighted by shares that
are never negative, is the polynomial's value, so it is enough that each of them is nowhere
negative, which is asked of what the other atoms are. A polynomial that is linear in an atom has two
such coefficients: its values at both ends. A fact may be taken off as often as takes a term away.

    nowhere_negative(x - one, strict=False, facts=[], atoms=atoms)
"""

from __future__ import annotations

from fractions import Fraction
from math import comb

from godet.proof.atoms import Atom, Atoms, Facts
from godet.proof.polynomials import Polynomial, total
from godet.proof.quotients import Quotient

_HIGHEST = 8  # power of an atom: beyond this nothing is tried


def nowhere_negative(value: Polynomial, strict: bool, facts: Facts, atoms: Atoms) -> bool:
    """Proved to be at least nought everywhere; with `strict`, more than nought."""
    atoms.budget.spend(1)
    value = atoms.reduced(value)
    number = value.number
    if number is not None:
        return number > 0 if strict else number >= 0
    last = max(value.atoms())
    atom = atoms[last]
    usable = [fact for fact in facts if max(fact.atoms(), default=-1) <= last]
    if atom.branches:
        return all(
            _on_branch(value, last, n, strict, usable, atoms) for n in range(len(atom.branches))
        )
    if _between_ends(value, last, strict, usable, atoms):
        return True
    return any(
        nowhere_negative(less, strict, [other for other in usable if other is not fact], atoms)
        for fact in usable
        for less in _without(value, fact, last)
    )


def impossible(facts: Facts, atoms: Atoms) -> bool:
    """Proved that the facts never hold together: one of them is always less than nought."""
    return any(nowhere_negative(-fact, True, (), atoms) for fact in facts)


def _on_branch(
    value: Polynomial, number: int, branch: int, strict: bool, facts: Facts, atoms: Atoms
) -> bool:
    taken = atoms[number].branches[branch]
    if impossible(taken.facts, atoms):
        return True
    here = [substituted(fact, number, taken.value, atoms) for fact in facts]
    inside = substituted(value, number, taken.value, atoms)
    return nowhere_negative(inside, strict, [*here, *taken.facts], atoms)


def _without(value: Polynomial, fact: Polynomial, last: int) -> list[Polynomial]:
    """The value less a fact as often as takes one of its terms with the last atom away."""
    mine, its = dict(value.terms), dict(fact.terms)
    shares = {
        mine[monomial] / its[monomial]
        for monomial in mine
        if monomial in its and any(atom == last for atom, _ in monomial)
    }
    return [value - fact.scaled(share) for share in sorted(shares) if share > 0]


def substituted(value: Polynomial, number: int, by: Quotient, atoms: Atoms) -> Polynomial:
    """A polynomial of the same sign with a quotient in place of an atom: multiplied by an even
    power of what the quotient divides by."""
    parts = value.coefficients(number)
    if len(parts) == 1:
        return value
    degree = len(parts) - 1
    return total(
        part.times(_raised(by, power, degree, atoms), atoms.budget)
        for power, part in enumerate(parts)
    )


def _between_ends(value: Polynomial, number: int, strict: bool, facts: Facts, atoms: Atoms) -> bool:
    """By the coefficients of Bernstein's form, or of powers of the distance from the one end."""
    atom = atoms[number]
    parts = value.coefficients(number)
    others = [fact for fact in facts if number not in fact.atoms()]
    if len(parts) - 1 > _HIGHEST or (atom.low is None and atom.high is None):
        return False
    for index, part in enumerate(_coefficients(parts, atom, atoms)):
        # with one end only the value there must be more than nought, not what is added farther off
        sharp = strict and (index == 0 or (atom.low is not None and atom.high is not None))
        if not nowhere_negative(part, sharp, others, atoms):
            return False
    return True


def _coefficients(parts: list[Polynomial], atom: Atom, atoms: Atoms) -> list[Polynomial]:
    if atom.low is not None and atom.high is not None:
        return _bernstein(parts, atom.low, atom.high, atoms)
    if atom.low is not None:
        return _powers(parts, atom.low, 1, atoms)
    assert atom.high is not None
    return _powers(parts, atom.high, -1, atoms)


def _bernstein(
    parts: list[Polynomial], low: Quotient, high: Quotient, atoms: Atoms
) -> list[Polynomial]:
    """The coefficients between two ends, all multiplied by one even power of what these divide
    by."""
    degree = len(parts) - 1
    budget = atoms.budget

    def coefficient(number: int) -> Polynomial:
        # the polar form at the one end `degree - number` times, and at the other `number` times
        whole = []
        for power, part in enumerate(parts):
            for highs in range(max(0, power - degree + number), min(number, power) + 1):
                ways = comb(number, highs) * comb(degree - number, power - highs)
                share = Fraction(ways, comb(degree, power))
                ends = _raised(high, highs, degree, atoms).times(
                    _raised(low, power - highs, degree, atoms), budget
                )
                whole.append(part.times(ends, budget).scaled(share))
        return total(whole)

    return [coefficient(number) for number in range(degree + 1)]


def _powers(parts: list[Polynomial], end: Quotient, way: int, atoms: Atoms) -> list[Polynomial]:
    """The coefficients of powers of the distance from an end, inward, all multiplied by one even
    power of what the end divides by."""
    degree = len(parts) - 1
    return [
        total(
            part.times(_raised(end, power - number, degree, atoms), atoms.budget).scaled(
                Fraction(way**number * comb(power, number))
            )
            for power, part in enumerate(parts)
            if power >= number
        )
        for number in range(degree + 1)
    ]


def _raised(end: Quotient, exponent: int, degree: int, atoms: Atoms) -> Polynomial:
    """A power of an end, times the even power of what it divides by that is enough for `degree`."""
    budget = atoms.budget
    even = degree + degree % 2
    return end.above.power(exponent, budget).times(end.below.power(even - exponent, budget), budget)
