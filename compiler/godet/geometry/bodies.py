"""Bodies on the leading axis: bringing arguments to the same number of bodies, and sums that keep
bits.

In: arrays whose leading axis is bodies, 1 or B. Out: the same, broadcast; or sums over the
trailing axis. Arrays whose leading axes are neither 1 nor B raise ValueError (a programming
mistake).

    a, b = matched(np.zeros((1, 2)), np.zeros((5, 2)))   # both (5, 2)
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from godet.geometry.dual import Dual, Values, value_of


def matched(*arrays: Values) -> tuple[Values, ...]:
    """Each array (B or 1, ...) with the common number of bodies on its leading axis."""
    bodies = np.broadcast_shapes(*((array.shape[0],) for array in arrays))
    return tuple(
        array if array.shape[:1] == bodies else np.broadcast_to(array, bodies + array.shape[1:])
        for array in arrays
    )


def stacked(parts: Sequence[Values], axis: int) -> Values:
    """As `np.stack`, on an axis behind that of the bodies; the result keeps all bodies side by
    side in memory, along which elementwise arithmetic is several times faster than along the two
    coordinates of a point."""
    if any(isinstance(part, Dual) for part in parts):
        return np.stack(parts, axis=axis)
    turned = [part.T for part in parts]
    return np.stack(turned, axis=turned[0].ndim - axis).T


def strung(parts: Sequence[Values], axis: int) -> Values:
    """As `np.concatenate`, with the memory of `stacked`."""
    if any(isinstance(part, Dual) for part in parts):
        return np.concatenate(parts, axis=axis)
    turned = [part.T for part in parts]
    return np.concatenate(turned, axis=turned[0].ndim - 1 - axis).T


def picked(values: NDArray[Any], bodies: NDArray[np.intp]) -> NDArray[Any]:
    """The values (B, ...) of some bodies, with the memory of `stacked`."""
    return np.take(values.T, bodies, axis=-1).T


def gathered(curve: Values, body: NDArray[np.intp], cubic: NDArray[np.intp]) -> Values:
    """The cubics (M, 4, 2) of those numbers on the curves (B, n, 4, 2) of those bodies (M,), with
    the memory of `stacked`."""
    if isinstance(curve, Dual):
        return curve[body, cubic]
    count = curve.shape[1]
    together = np.ascontiguousarray(curve.T).reshape(2, 4, count * len(curve))
    return np.take(together, cubic * len(curve) + body, axis=-1).T


def summed(values: Values) -> Values:
    """The sum over the trailing axis, added from first to last, so that its bits never depend on
    the batch."""
    return np.cumsum(values, axis=-1)[..., -1]


def finite(*arrays: Values) -> NDArray[np.bool_]:
    """Which bodies have only numbers in every array, (B,): the others are left without a breach."""
    found: Any = True
    for array in arrays:
        numbers = np.isfinite(value_of(array))
        found = found & numbers.reshape(len(numbers), -1).all(axis=1)
    return np.asarray(found)


def replaced(values: Values, chosen: NDArray[np.bool_], new: Values) -> Values:
    """`values` (M, ...) with the chosen items taken in turn from `new` (count of chosen, ...)."""
    position = np.maximum(np.cumsum(chosen) - 1, 0)
    mask = chosen.reshape(-1, *(1,) * (values.ndim - 1))
    return np.where(mask, new[position], values)
