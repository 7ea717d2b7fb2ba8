"""An arc square to an edge.

In: two points (B, 2) and an edge (B, n, 4, 2) on which one of them lies. Out: the arc (B, 4, 4, 2)
that meets the edge at a right angle there. Fails as `arc` and `square_direction` do; for each body
the end nearer to the edge is the one that lies on it.

    square_arc(hem_centre, hem_side, centre)
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.angles import square_direction
from godet.geometry.arcs import arc
from godet.geometry.bodies import matched
from godet.geometry.cubics import reversed_curve, selected
from godet.geometry.dual import Values, value_of
from godet.geometry.guards import Guarded
from godet.geometry.locating import at_joint, locate


def square_arc(start: Values, end: Values, edge: Values) -> Guarded:
    """The arc (B, 4, 4, 2). Fails with "zero-length", "off-edge", "no-side"."""
    start, end, edge = matched(start, end, edge)
    at_end = _lies_at_end(start, end, edge)
    near, far = start, end
    if at_end.any():
        turned = at_end[:, None]
        near, far = np.where(turned, end, start), np.where(turned, start, end)
    direction = square_direction(edge, near, far)
    drawn = arc(near, far, direction.value)
    curve = selected(at_end, reversed_curve(drawn.value), drawn.value)
    return Guarded(curve, (*direction.breaches, *drawn.breaches))


def _lies_at_end(start: Values, end: Values, edge: Values) -> NDArray[np.bool_]:
    """For which bodies (B,) it is the arc's end that lies on the edge. Mostly the edge ends
    there, which is told without a search."""
    starts_on, _ = at_joint(edge, start)
    if starts_on.all():
        return ~starts_on
    ends_on, _ = at_joint(edge, end)
    at_end = ends_on & ~starts_on
    unsure = np.nonzero(~(starts_on | ends_on))[0]
    if len(unsure):
        plain = value_of(edge)[unsure]
        away = [locate(plain, value_of(point)[unsure])[1] for point in (start, end)]
        at_end[unsure] = away[1] < away[0]
    return at_end
