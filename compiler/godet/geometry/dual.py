"""Numbers that carry their derivatives along: forward-mode differentiation.

In: arrays of values and, for each of D seed directions, how they change. Out: the same arithmetic
on `Dual` numbers as on plain arrays, with the same bits in the values. Numeric functions are
written once, on numpy calls, and take either. An operation without a rule raises TypeError (a
programming mistake).

    x = Dual(np.array([3.0]), np.array([[1.0]]))
    (x * x).tangent                                  # [[6.0]]

Found values (a place at an arc length, a closest place, a crossing) are solved on stripped values.
Then `implicit` gives the root its derivative. With residual(root, data) = 0 for all data, the
implicit function theorem says d root = -d residual / (d residual / d root), the residual
differentiated at the root held fixed. That is the tangent of one Newton step on dual numbers,
exact once the root has converged; the step's own value is below rounding and is dropped, so the
root keeps its bits with and without tangents.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np
from numpy.lib.mixins import NDArrayOperatorsMixin
from numpy.typing import NDArray

from godet.geometry.dual_rules import PARTIALS, PLAIN, STEEP

Values: TypeAlias = Any  # an ndarray of float64, or a Dual


@dataclass(frozen=True, eq=False, slots=True)
class Dual(NDArrayOperatorsMixin):
    """A value of shape S and its tangent of shape (D,) + S, one layer for each seed direction."""

    value: NDArray[np.float64]
    tangent: NDArray[np.float64]

    @property
    def shape(self) -> tuple[int, ...]:
        return self.value.shape

    @property
    def ndim(self) -> int:
        return self.value.ndim

    def __len__(self) -> int:
        return len(self.value)

    def __getitem__(self, index: Any) -> Dual:
        """Index the value; advanced indices must stand side by side, as the tangent has a leading
        axis."""
        index = index if isinstance(index, tuple) else (index,)
        return Dual(self.value[index], self.tangent[(slice(None), *index)])

    def reshape(self, *shape: int) -> Dual:
        value = self.value.reshape(*shape)
        return Dual(value, self.tangent.reshape(len(self.tangent), *value.shape))

    # Code that works in place on plain arrays, to spare memory, makes new numbers of these.

    def __iadd__(self, other: Any) -> Any:
        return self + other

    def __imul__(self, other: Any) -> Any:
        return self * other

    def __array_ufunc__(self, ufunc: np.ufunc, method: str, *inputs: Any, **options: Any) -> Any:
        if method != "__call__" or options:
            return NotImplemented
        values = tuple(value_of(item) for item in inputs)
        result = ufunc(*values)
        if ufunc in PLAIN:
            return result
        if ufunc not in PARTIALS:
            return NotImplemented
        tangent: Any = None
        for item, partial in zip(inputs, PARTIALS[ufunc], strict=True):
            if isinstance(item, Dual):
                moved = _aligned(item.tangent, np.ndim(result))
                term = _moved(ufunc, partial(result, *values), moved)
                tangent = term if tangent is None else tangent + term
        return Dual(result, np.broadcast_to(tangent, (len(tangent), *np.shape(result))))

    def __array_function__(
        self, function: Callable[..., Any], types: Any, arguments: Any, options: Any
    ) -> Any:
        if function not in _FUNCTIONS:
            return NotImplemented
        return _FUNCTIONS[function](*arguments, **options)


def value_of(values: Values) -> NDArray[Any]:
    """The values without their tangents."""
    return values.value if isinstance(values, Dual) else np.asarray(values)


def tangent_of(values: Values, seeds: int) -> NDArray[np.float64]:
    """The tangent (seeds,) + S; noughts for plain values."""
    return values.tangent if isinstance(values, Dual) else np.zeros((seeds, *np.shape(values)))


def implicit(root: NDArray[np.float64], residual: Values, slope: Values) -> Values:
    """Give a solved root (S) its derivative.

    `residual` (S) is the solved equation at the root, computed with the root held fixed; `slope`
    (S) is its derivative by the root. Where the slope is nought the root is taken to stand still.
    Plain residuals give back the root untouched.
    """
    if not isinstance(residual, Dual):
        return root
    slopes = value_of(slope)
    flat = slopes == 0.0
    return Dual(root, np.where(flat, 0.0, -residual.tangent / np.where(flat, 1.0, slopes)))


def hypotenuse(a: Values, b: Values) -> Values:
    """The root of a^2 + b^2, elementwise; it stands still at nought.

    Several times faster than numpy's `hypot`, whose care for numbers beyond 1e150 lengths in mm
    can spare.
    """
    x, y = value_of(a), value_of(b)
    value = np.sqrt(x * x + y * y)
    if not (isinstance(a, Dual) or isinstance(b, Dual)):
        return value
    return Dual(value, np.hypot(a, b).tangent)


def _moved(ufunc: np.ufunc, partial: Any, tangent: NDArray[np.float64]) -> NDArray[np.float64]:
    """What an argument's move does to the result: nothing where the argument does not count, or
    stands still, however steep the function is there."""
    if ufunc in STEEP:
        with np.errstate(invalid="ignore"):
            return np.where(tangent == 0.0, 0.0, partial * tangent)
    if getattr(partial, "dtype", None) == np.bool_:
        return np.where(partial, tangent, 0.0)
    moved: NDArray[np.float64] = partial * tangent
    return moved


def _aligned(tangent: NDArray[np.float64], dimensions: int) -> NDArray[np.float64]:
    missing = dimensions + 1 - tangent.ndim
    return tangent.reshape(tangent.shape[0], *(1,) * missing, *tangent.shape[1:])


def _shifted(axis: int) -> int:
    return axis if axis < 0 else axis + 1


def _seeds(*items: Any) -> int:
    return next(len(item.tangent) for item in items if isinstance(item, Dual))


def _where(condition: NDArray[np.bool_], first: Values, second: Values) -> Dual:
    seeds = _seeds(first, second)
    value = np.where(condition, value_of(first), value_of(second))
    tangents = (_aligned(tangent_of(item, seeds), value.ndim) for item in (first, second))
    return Dual(value, np.where(condition, *tangents))


def _combined(combine: Callable[..., Any]) -> Callable[..., Dual]:
    def run(items: Sequence[Values], axis: int = 0) -> Dual:
        seeds = _seeds(*items)
        return Dual(
            combine([value_of(item) for item in items], axis=axis),
            combine([tangent_of(item, seeds) for item in items], axis=_shifted(axis)),
        )

    return run


def _along_axis(function: Callable[..., Any]) -> Callable[..., Dual]:
    def run(item: Dual, axis: int) -> Dual:
        return Dual(function(item.value, axis=axis), function(item.tangent, axis=_shifted(axis)))

    return run


def _broadcast_to(item: Dual, shape: tuple[int, ...]) -> Dual:
    tangent = _aligned(item.tangent, len(shape))
    return Dual(
        np.broadcast_to(item.value, shape), np.broadcast_to(tangent, (len(tangent), *shape))
    )


def _take_along_axis(item: Dual, indices: NDArray[np.intp], axis: int) -> Dual:
    layers = np.broadcast_to(indices, (len(item.tangent), *indices.shape))
    return Dual(
        np.take_along_axis(item.value, indices, axis),
        np.take_along_axis(item.tangent, layers, _shifted(axis)),
    )


def _zeros_like(item: Dual) -> NDArray[np.float64]:
    return np.zeros_like(item.value)


_FUNCTIONS: dict[Callable[..., Any], Callable[..., Any]] = {
    np.where: _where,
    np.stack: _combined(np.stack),
    np.concatenate: _combined(np.concatenate),
    np.sum: _along_axis(np.sum),
    np.cumsum: _along_axis(np.cumsum),
    np.expand_dims: _along_axis(np.expand_dims),
    np.broadcast_to: _broadcast_to,
    np.take_along_axis: _take_along_axis,
    np.zeros_like: _zeros_like,
}
