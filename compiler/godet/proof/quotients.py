"""Quotients of polynomials, with the arithmetic in which the formulas of operations are written.

In: polynomials and a `Budget`. Out: quotients over the least denominator that is plain to see. A
divisor that may be nought is no matter: a draft that divides by nothing fails, so nothing is
claimed of it; one that is nought always raises `Undefined`.

    Quotient.whole(x, budget) / Quotient.whole(y, budget)
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias

from godet.proof.polynomials import Budget, Polynomial

_ONE = Polynomial.constant(1)
Operand: TypeAlias = "Quotient | Fraction | int"


class Undefined(Exception):
    """The value never is a number, whatever the body."""


@dataclass(frozen=True, slots=True)
class Quotient:
    above: Polynomial
    below: Polynomial
    budget: Budget = field(compare=False, repr=False)

    @staticmethod
    def whole(value: Polynomial, budget: Budget) -> Quotient:
        return Quotient(value, _ONE, budget)

    @staticmethod
    def constant(value: Fraction | int, budget: Budget) -> Quotient:
        return Quotient(Polynomial.constant(value), _ONE, budget)

    @property
    def number(self) -> Fraction | None:
        """The value where it is the same for all; None where it is not plain to see."""
        above, below = self.above.number, self.below.number
        return above / below if above is not None and below is not None else None

    def _as(self, other: Operand) -> Quotient:
        return other if isinstance(other, Quotient) else Quotient.constant(other, self.budget)

    def __add__(self, operand: Operand) -> Quotient:
        other = self._as(operand)
        if self.below == other.below:
            return self._over(self.above + other.above, self.below)
        times = self._times
        above = times(self.above, other.below) + times(other.above, self.below)
        return self._over(above, times(self.below, other.below))

    def __neg__(self) -> Quotient:
        return Quotient(-self.above, self.below, self.budget)

    def __sub__(self, operand: Operand) -> Quotient:
        return self + -self._as(operand)

    def __rsub__(self, operand: Operand) -> Quotient:
        return self._as(operand) - self

    def __mul__(self, operand: Operand) -> Quotient:
        other = self._as(operand)
        above, below = self.above, self.below
        # what stands above in one and below in the other goes
        if above == other.below:
            return self._over(other.above, below)
        if below == other.above:
            return self._over(above, other.below)
        return self._over(self._times(above, other.above), self._times(below, other.below))

    __radd__ = __add__
    __rmul__ = __mul__

    def __truediv__(self, operand: Operand) -> Quotient:
        other = self._as(operand)
        if other.above.number == 0:
            raise Undefined
        return self * Quotient(other.below, other.above, self.budget)

    def __rtruediv__(self, operand: Operand) -> Quotient:
        return self._as(operand) / self

    def __pow__(self, exponent: int) -> Quotient:
        if exponent < 0:
            return Quotient.constant(1, self.budget) / self**-exponent
        return self._over(
            self.above.power(exponent, self.budget), self.below.power(exponent, self.budget)
        )

    def _times(self, a: Polynomial, b: Polynomial) -> Polynomial:
        return a.times(b, self.budget)

    def _over(self, above: Polynomial, below: Polynomial) -> Quotient:
        number = below.number
        if number is not None:
            return Quotient(above.scaled(1 / number), _ONE, self.budget)
        if not above.terms:
            return Quotient(above, _ONE, self.budget)
        return Quotient(above, below, self.budget)
