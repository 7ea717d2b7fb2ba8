"""Bodies on the leading axis: bringing arguments to the same number of bodies, and sums that keep
bits.

In: arrays whose leading axis is bodies, 1 or B. Out: the same, broadcast; or sums over the
trailing axis. Arrays whose leading axes are neither 1 nor B raise ValueError (a programming
mistake).

    a, b = matched(np.zeros((1, 2)), np.zeros((5, 2)))   # both (5, 2)
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from godet.geometry.dual import Values, value_of


def matched(*arrays: Values) -> tuple[Values, ...]:
    """Each array (B or 1, ...) with the common number of bodies on its leading axis."""
    bodies = np.broadcast_shapes(*((array.shape[0],) for array in arrays))
    return tuple(
        array if array.shape[:1] == bodies else np.broadcast_to(array, bodies + array.shape[1:])
        for array in arrays
    )


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
