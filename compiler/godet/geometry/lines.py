"""Straight lines, as one cubic.

In: two points (B, 2). Out: a curve (B, 1, 4, 2) with its control points at thirds. Fails with
"zero-length" when the points coincide.

    line(np.array([[0.0, 0.0]]), np.array([[30.0, 0.0]])).value[0, 0, 1]     # [10, 0]
"""

from __future__ import annotations

from godet.geometry.bodies import matched, stacked
from godet.geometry.dual import Values, value_of
from godet.geometry.guards import Breach, Guarded
from godet.geometry.points import COINCIDENT, norm


def line(a: Values, b: Values) -> Guarded:
    """The straight line from a to b (B, 2), a curve (B, 1, 4, 2). Fails with "zero-length"."""
    a, b = matched(a, b)
    chord = b - a
    third = chord / 3.0
    points = [a, a + third, b - third, b]
    short = value_of(norm(chord)) <= COINCIDENT
    return Guarded(stacked(points, axis=1)[:, None], (Breach("zero-length", short, {}),))
