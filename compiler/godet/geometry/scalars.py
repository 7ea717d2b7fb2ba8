"""Arithmetic on one number a body.

In: arrays of shape (bodies,), or dual numbers over them. Out: the same shape. Dividing by zero, the
root of a negative number and the tangent of a right angle are breaches; NaN in is NaN out.

    quotient(np.array([6.0]), np.array([3.0]))   # Guarded(array([2.]), ...)
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import numpy as np

from godet.geometry.dual import value_of
from godet.geometry.guards import Breach, Guarded

Values = Any  # an array, or a Dual over one

_ROUNDING = 1e-12  # mm or plain: what is left of a difference of equal figures
_UPRIGHT = 1e-9  # radians from a right angle


def total(*terms: Values) -> Values:
    """The sum, added from the left."""
    result = terms[0]
    for term in terms[1:]:
        result = result + term
    return result


def difference(left: Values, right: Values) -> Values:
    return left - right


def product(left: Values, right: Values) -> Values:
    return left * right


def quotient(left: Values, right: Values) -> Guarded:
    """`left / right`; breach "divided-by-zero" {left}, also where rounding alone keeps `right` from
    being nought."""
    zero = np.broadcast_to(
        np.abs(value_of(right)) <= _ROUNDING,
        np.broadcast_shapes(value_of(left).shape, value_of(right).shape),
    )
    with np.errstate(divide="ignore", invalid="ignore"):
        value = left / right
    return Guarded(value, (Breach("divided-by-zero", zero, {"left": value_of(left)}),))


def negative(value: Values) -> Values:
    return -value


def to_the_power(base: Values, numerator: int, denominator: int) -> Guarded:
    """`base ** (numerator/denominator)`; breach "root-of-negative" {base}."""
    exponent = float(Fraction(numerator, denominator))
    below = (value_of(base) < 0) & (denominator % 2 == 0)
    with np.errstate(invalid="ignore"):
        if denominator == 2 and numerator == 1:
            value = np.sqrt(base)
        else:
            value = base**exponent
    return Guarded(value, (Breach("root-of-negative", below, {"base": value_of(base)}),))


def sine(angle: Values) -> Values:
    return np.sin(angle)


def cosine(angle: Values) -> Values:
    return np.cos(angle)


def tangent(angle: Values) -> Guarded:
    """The tangent; breach "no-tangent" {angle} for a right angle, where it grows beyond all
    bounds."""
    upright = np.abs(np.cos(value_of(angle))) <= _UPRIGHT
    return Guarded(np.tan(angle), (Breach("no-tangent", upright, {"angle": value_of(angle)}),))


def angle_of_slope(rise: Values, run: Values) -> Values:
    """The angle whose tangent is rise / run, in radians."""
    return np.arctan2(rise, run)


def least(*values: Values) -> Values:
    result = values[0]
    for value in values[1:]:
        result = np.minimum(result, value)
    return result


def greatest(*values: Values) -> Values:
    result = values[0]
    for value in values[1:]:
        result = np.maximum(result, value)
    return result


def size(value: Values) -> Values:
    """The number without its sign."""
    return np.abs(value)


def within(value: Values, lowest: Values, highest: Values) -> Guarded:
    """The value itself; breach "choice-out-of-range" {value, lowest, highest}."""
    chosen, low, high = value_of(value), value_of(lowest), value_of(highest)
    outside = (chosen < low) | (chosen > high)
    numbers = {"value": chosen, "lowest": low, "highest": high}
    return Guarded(value, (Breach("choice-out-of-range", outside, numbers),))


def given(value: Values) -> Guarded:
    """A measure that must be there; breach "missing-measure"."""
    return Guarded(value, (Breach("missing-measure", np.isnan(value_of(value)), {}),))


def at_least(left: Values, right: Values) -> Values:
    return value_of(left) >= value_of(right)


def more_than(left: Values, right: Values) -> Values:
    return value_of(left) > value_of(right)


def same_word(value: Values, word: str) -> Values:
    return np.asarray(value) == word


def both(left: Values, right: Values) -> Values:
    return left & right


def any_of(left: Values, right: Values) -> Values:
    return left | right


def negated(condition: Values) -> Values:
    return ~condition
