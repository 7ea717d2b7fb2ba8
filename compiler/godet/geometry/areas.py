"""The area inside a closed chain of cubics.

In: curves (B, n, 4, 2), closed. Out: areas (B,) in mm2, exact for cubics (Green's theorem).
Nothing fails; an open chain is taken as closed by a straight line.

    area(outline)                                        # (B,) mm2, never negative
"""

from __future__ import annotations

import numpy as np

from godet.geometry.bodies import summed
from godet.geometry.dual import Values
from godet.geometry.points import cross

# The integral of (x dy - y dx) / 2 over a cubic is the sum of these shares of the outer products
# of its points.
_SHARES = (
    (0, 1, 6.0 / 20.0),
    (0, 2, 3.0 / 20.0),
    (0, 3, 1.0 / 20.0),
    (1, 2, 3.0 / 20.0),
    (1, 3, 3.0 / 20.0),
    (2, 3, 6.0 / 20.0),
)


def area(curve: Values) -> Values:
    """The area (B,) in mm2 inside the chain, whichever way round it runs."""
    return np.absolute(signed_area(curve))


def signed_area(curve: Values) -> Values:
    """The area (B,) in mm2, positive when the chain runs clockwise as seen on the page (outward,
    then down)."""
    local = curve - curve[:, :1, :1]  # measured from the first point: far origins cost no digits
    parts = [share * cross(local[:, :, i], local[:, :, j]) for i, j, share in _SHARES]
    return summed(np.concatenate(parts, axis=1))
