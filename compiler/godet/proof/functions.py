"""Functions of quotients: roots, sizes, the least and the greatest, sines and cosines.

In: quotients over known atoms. Out: quotients; what is no quotient becomes an atom between its
ends, or one with branches, the same for the same arguments. Raises `OutOfBudget`.

    Functions(atoms).root(x * x)                     # x, where that is never negative
"""

from __future__ import annotations

from fractions import Fraction
from math import isqrt
from typing import Any

from godet.graph.algebra import square_root
from godet.proof.atoms import Atom, Atoms, Branch, key_of
from godet.proof.deciding import nowhere_negative
from godet.proof.polynomials import Polynomial
from godet.proof.quotients import Quotient

# pi lies between these
PI = (Fraction(314159265358979, 10**14), Fraction(314159265358980, 10**14))
_HIGHEST = 8  # power that is written out


class Functions:
    def __init__(self, atoms: Atoms) -> None:
        self.atoms = atoms
        self.budget = atoms.budget

    def constant(self, value: Fraction | int) -> Quotient:
        return Quotient.constant(value, self.budget)

    def by_name(self) -> dict[str, Any]:
        """What the formulas of records may call."""
        return {
            "sqrt": self.root, "cos": self.cosine, "sin": self.sine, "tan": self.tangent,
            "Abs": self.size, "Rational": Fraction,
        }  # fmt: skip

    def branched(
        self, key: Any, values: tuple[Quotient, ...], facts: tuple[tuple[Polynomial, ...], ...]
    ) -> Quotient:
        if all(value == values[0] for value in values):
            return values[0]
        branches = tuple(Branch(v, f) for v, f in zip(values, facts, strict=True))
        return self.atoms.value(key, Atom(branches=branches))

    def sign_of(self, value: Quotient) -> Polynomial:
        """A polynomial of the same sign, wherever the value is a number."""
        if value.below.number is not None:
            return value.above
        return value.above.times(value.below, self.budget)

    def power(self, base: Quotient, exponent: Fraction) -> Quotient:
        if exponent.denominator == 1 and abs(exponent) <= _HIGHEST:
            return base ** int(exponent)
        if exponent.denominator == 2 and abs(exponent) <= _HIGHEST:
            return self.root(base) ** exponent.numerator
        low = Fraction(0) if exponent.denominator % 2 == 0 else None
        return self.atoms.between(key_of(f"power {exponent}", base), low, None)

    def root(self, value: Quotient) -> Quotient:
        """The root of n/d is the root of n d over d without its sign."""
        inside = self.atoms.reduced(self.sign_of(value))
        below = Quotient.whole(value.below, self.budget)
        size = below if value.below.number is not None else self.size(below)
        return self._root_of(inside) / size

    def _root_of(self, inside: Polynomial) -> Quotient:
        number = inside.number
        if number is not None and number >= 0:
            return self._root_of_number(number)
        self.budget.spend(len(inside.terms))
        exact = square_root(inside.terms)
        if exact is not None:
            return self.size(Quotient.whole(Polynomial.of(dict(exact)), self.budget))
        return self.atoms.between(("root", inside), Fraction(0), None)

    def _root_of_number(self, number: Fraction) -> Quotient:
        above, below = isqrt(number.numerator), isqrt(number.denominator)
        if above * above == number.numerator and below * below == number.denominator:
            return self.constant(Fraction(above, below))
        # to forty binary places
        scale = 2**40
        low = isqrt(number.numerator * scale**2 // number.denominator)
        ends = Fraction(low, scale), Fraction(low + 1, scale)
        return self.atoms.between(("root", number), *ends)

    def size(self, value: Quotient) -> Quotient:
        """The value without its sign: plain where the sign is the same for all."""
        sign = self.sign_of(value)
        if nowhere_negative(sign, False, (), self.atoms):
            return value
        if nowhere_negative(-sign, False, (), self.atoms):
            return -value
        return self.branched(key_of("size", value), (value, -value), ((sign,), (-sign,)))

    def extreme(self, values: list[Quotient], largest: bool) -> Quotient:
        facts = []
        for one in values:
            others = [other for other in values if other is not one]
            apart = [one - other if largest else other - one for other in others]
            facts.append(tuple(self.sign_of(each) for each in apart))
        name = "largest" if largest else "least"
        return self.branched(key_of(name, *values), tuple(values), tuple(facts))

    def cosine(self, angle: Quotient) -> Quotient:
        return Quotient.whole(Polynomial.of_atom(self._circle(angle)[0]), self.budget)

    def sine(self, angle: Quotient) -> Quotient:
        return Quotient.whole(Polynomial.of_atom(self._circle(angle)[1]), self.budget)

    def tangent(self, angle: Quotient) -> Quotient:
        return self.sine(angle) / self.cosine(angle)

    def _circle(self, angle: Quotient) -> tuple[int, int]:
        """The atoms of cosine and sine, not negative where the angle is in the first quarter."""
        quarter = self.atoms.between("pi", *PI) / 2
        acute = all(
            nowhere_negative(self.sign_of(each), False, (), self.atoms)
            for each in (angle, quarter - angle)
        )
        low = self.constant(0 if acute else -1)
        high = self.constant(1)
        cosine = self.atoms.number(key_of("cosine", angle), Atom(low, high))
        sine = self.atoms.number(key_of("sine", angle), Atom(low, high, cosine=cosine))
        return cosine, sine
