"""The ends of a curve: points and directions there, and which end comes first.

In: curves (B, n, 4, 2). Out: points and unit directions (B, 2), or the curve turned about. Cubics
that are degenerate at an end are passed over: the direction is that of the first (or last) cubic
with a length. Fails with "zero-length" when no cubic has one.

    start_direction(curve).value                         # (B, 2), the way the curve leaves
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from godet.geometry.cubics import reversed_curve, selected
from godet.geometry.dual import Values, value_of
from godet.geometry.guards import Breach, Guarded
from godet.geometry.points import norm, unit

DEGENERATE = 2e-6  # mm: a shorter handle tells no direction; joints may be up to 1e-6 mm open


def start_point(curve: Values) -> Values:
    """The first point (B, 2)."""
    return curve[:, 0, 0]


def end_point(curve: Values) -> Values:
    """The last point (B, 2)."""
    return curve[:, -1, 3]


@np.errstate(all="ignore")
def start_direction(curve: Values) -> Guarded:
    """The unit direction (B, 2) in which the curve leaves its start. Fails with "zero-length"."""
    return _first_direction(curve)


@np.errstate(all="ignore")
def end_direction(curve: Values) -> Guarded:
    """The unit direction (B, 2) in which the curve arrives at its end. Fails with "zero-length"."""
    backward = _first_direction(reversed_curve(curve))
    return Guarded(-backward.value, backward.breaches)


def _first_direction(curve: Values) -> Guarded:
    first = curve[:, 0, 1] - curve[:, 0, 0]
    if (value_of(norm(first)) > DEGENERATE).all():  # nearly always: no need to look further along
        return Guarded(unit(first), (Breach("zero-length", np.zeros(len(first), bool), {}),))
    handles = curve[:, :, 1:] - curve[:, :, :1]
    usable = value_of(norm(handles)) > DEGENERATE
    chosen = handles[:, -1, -1]
    for cubic in reversed(range(curve.shape[1])):
        for handle in reversed(range(3)):
            chosen = np.where(usable[:, cubic, handle, None], handles[:, cubic, handle], chosen)
    sizes = value_of(norm(handles)).reshape(len(handles), -1)
    return Guarded(
        unit(chosen), (Breach("zero-length", np.asarray((sizes <= DEGENERATE).all(axis=1)), {}),)
    )


def from_the(curve: Values, which: Literal["centre", "top"]) -> Values:
    """The curve so turned, for each body, that it starts nearer the centre (smaller across) or
    nearer the top (smaller down); the control points keep their bits."""
    axis = {"centre": 0, "top": 1}[which]
    starts, ends = value_of(start_point(curve)), value_of(end_point(curve))
    return selected(starts[:, axis] <= ends[:, axis], curve, reversed_curve(curve))
