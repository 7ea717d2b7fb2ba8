"""How each elementary function changes with its arguments: the rules behind `dual`.

In: a numpy function. Out: for each argument, its partial derivative from (result, *arguments), all
plain arrays. A function that is in neither table has no rule and fails where it is used.

    PARTIALS[np.sqrt][0](2.0, 4.0)                   # 0.25

Where a function has a kink, a derivative on one side is given: `abs` and `hypot` stand still at
nought (a degenerate cubic has no length and gains none), `minimum` and `maximum` follow their
first argument at a tie (their partials are yes and no: which argument counts). A root has no
derivative at nought, where it rises beyond all bounds: infinite, unless its argument stands still.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

Partial = Callable[..., Any]


def _one(result: Any, *arguments: Any) -> Any:
    return 1.0


def _less_one(result: Any, *arguments: Any) -> Any:
    return -1.0


def _over(part: Any, whole: Any) -> Any:
    nought = whole == 0.0
    return np.where(nought, 0.0, part / np.where(nought, 1.0, whole))


def _no_exponent(result: Any, base: Any, exponent: Any) -> Any:
    raise TypeError("the exponent of a power must be a constant")


PARTIALS: dict[np.ufunc, tuple[Partial, ...]] = {
    np.add: (_one, _one),
    np.subtract: (_one, _less_one),
    np.negative: (_less_one,),
    np.positive: (_one,),
    np.multiply: (lambda r, a, b: b, lambda r, a, b: a),
    np.divide: (lambda r, a, b: 1.0 / b, lambda r, a, b: -r / b),
    np.power: (lambda r, a, b: b * np.power(a, b - 1.0), _no_exponent),
    np.sqrt: (lambda r, a: 0.5 / r,),
    np.exp: (lambda r, a: r,),
    np.log: (lambda r, a: 1.0 / a,),
    np.sin: (lambda r, a: np.cos(a),),
    np.cos: (lambda r, a: -np.sin(a),),
    np.tan: (lambda r, a: 1.0 + r * r,),
    np.arcsin: (lambda r, a: 1.0 / np.sqrt(1.0 - a * a),),
    np.arccos: (lambda r, a: -1.0 / np.sqrt(1.0 - a * a),),
    np.arctan: (lambda r, a: 1.0 / (1.0 + a * a),),
    np.arctan2: (
        lambda r, a, b: _over(b, a * a + b * b),
        lambda r, a, b: _over(-a, a * a + b * b),
    ),
    np.absolute: (lambda r, a: np.sign(a),),
    np.sign: (lambda r, a: 0.0,),
    np.hypot: (lambda r, a, b: _over(a, r), lambda r, a, b: _over(b, r)),
    np.minimum: (lambda r, a, b: a <= b, lambda r, a, b: b < a),
    np.maximum: (lambda r, a, b: a >= b, lambda r, a, b: b > a),
}

# Functions that may rise beyond all bounds at an end of where they are defined.
STEEP: frozenset[np.ufunc] = frozenset({np.sqrt, np.power})

# Answers without a derivative: plain arrays.
PLAIN: frozenset[np.ufunc] = frozenset(
    {
        np.less,
        np.less_equal,
        np.greater,
        np.greater_equal,
        np.equal,
        np.not_equal,
        np.isnan,
        np.isfinite,
        np.floor,
    }
)
