"""Polynomials with exact rational coefficients, and quotients of them, whose growth is counted.

In: atoms, which are numbered, and a `Budget`. Out: sums, products and powers in one normal form:
two that are equal as polynomials are equal as objects. What would take more steps than the budget
has left raises `OutOfBudget`, which is for the prover alone to catch.

    x = Polynomial.of_atom(0)
    (x + one).times(x - one, budget)                 # x^2 - 1
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

# the atoms of a product with their exponents, in the order of their numbers; () is one
Monomial = tuple[tuple[int, int], ...]


class OutOfBudget(Exception):
    """A proof has come to the limit of its steps; no error of anybody."""


@dataclass(slots=True)
class Budget:
    """Steps that are left: products of two terms, and goals tried."""

    steps: int

    def spend(self, steps: int) -> None:
        self.steps -= steps
        if self.steps < 0:
            raise OutOfBudget


@dataclass(frozen=True, slots=True)
class Polynomial:
    terms: tuple[tuple[Monomial, Fraction], ...]  # sorted, no coefficient nought

    @staticmethod
    def of(terms: Mapping[Monomial, Fraction]) -> Polynomial:
        return Polynomial(tuple(sorted((m, c) for m, c in terms.items() if c)))

    @staticmethod
    def constant(value: Fraction | int) -> Polynomial:
        return Polynomial.of({(): Fraction(value)})

    @staticmethod
    def of_atom(number: int) -> Polynomial:
        return Polynomial.of({((number, 1),): Fraction(1)})

    @property
    def number(self) -> Fraction | None:
        """The value of a polynomial without atoms; None of another."""
        if not self.terms:
            return Fraction(0)
        ((monomial, value), *more) = self.terms
        return value if not more and monomial == () else None

    def atoms(self) -> set[int]:
        return {atom for monomial, _ in self.terms for atom, _ in monomial}

    def __add__(self, other: Polynomial) -> Polynomial:
        total = dict(self.terms)
        for monomial, value in other.terms:
            total[monomial] = total.get(monomial, Fraction(0)) + value
        return Polynomial.of(total)

    def __neg__(self) -> Polynomial:
        return Polynomial(tuple((monomial, -value) for monomial, value in self.terms))

    def __sub__(self, other: Polynomial) -> Polynomial:
        return self + -other

    def scaled(self, by: Fraction) -> Polynomial:
        return Polynomial.of({monomial: value * by for monomial, value in self.terms})

    def times(self, other: Polynomial, budget: Budget) -> Polynomial:
        budget.spend(len(self.terms) * len(other.terms))
        total: dict[Monomial, Fraction] = {}
        for first, a in self.terms:
            for second, b in other.terms:
                product = _product(first, second)
                total[product] = total.get(product, Fraction(0)) + a * b
        return Polynomial.of(total)

    def power(self, exponent: int, budget: Budget) -> Polynomial:
        result = Polynomial.constant(1)
        for _ in range(exponent):
            result = result.times(self, budget)
        return result

    def coefficients(self, atom: int) -> list[Polynomial]:
        """By powers of one atom, from the nought-th up: polynomials in the others."""
        by_power: dict[int, dict[Monomial, Fraction]] = {}
        for monomial, value in self.terms:
            power = dict(monomial).get(atom, 0)
            rest = tuple(each for each in monomial if each[0] != atom)
            by_power.setdefault(power, {})[rest] = value
        return [Polynomial.of(by_power.get(n, {})) for n in range(max(by_power, default=0) + 1)]


def _product(first: Monomial, second: Monomial) -> Monomial:
    exponents = dict(first)
    for atom, exponent in second:
        exponents[atom] = exponents.get(atom, 0) + exponent
    return tuple(sorted(exponents.items()))


def total(parts: Iterable[Polynomial]) -> Polynomial:
    result = Polynomial.constant(0)
    for part in parts:
        result = result + part
    return result
