"""The area inside a closed chain of cubics, or inside edges that close when chained.

In: curves (B, n, 4, 2). Out: areas (B,) in mm2, exact for cubics (Green's theorem). Edges in any
order and sense fail with "ends-do-not-meet" where they do not close.

    area(outline)                                        # (B,) mm2, never negative
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import summed
from godet.geometry.dual import Values, value_of
from godet.geometry.guards import Breach, Guarded
from godet.geometry.points import cross, norm

MEETING = 1e-3  # mm: ends no farther apart than this are one, as where a piece is cut out

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
    """The area (B,) in mm2 inside the chain, whichever way round it runs; an open chain is taken as
    closed by a straight line."""
    return np.absolute(signed_area(curve))


def signed_area(curve: Values) -> Values:
    """The area (B,) in mm2, positive when the chain runs clockwise as seen on the page (outward,
    then down)."""
    return summed(_swept(curve))


@np.errstate(all="ignore")
def enclosed(edges: Values) -> Guarded:
    """The area (B,) in mm2 inside edges (B, n, 4, 2), one behind the other in any order and sense,
    that close when chained by their ends. Fails with "ends-do-not-meet" {gap}."""
    plain = value_of(edges)
    starts = _first_of_each(plain)
    ends = np.append(starts[1:], plain.shape[1])
    turned, gap = _chained(plain[:, starts, 0], plain[:, ends - 1, 3])
    sense = np.where(turned, -1.0, 1.0)
    of_cubic = np.repeat(np.arange(len(starts)), ends - starts)
    within = np.absolute(summed(sense[:, of_cubic] * _swept(edges)))
    return Guarded(within, (Breach("ends-do-not-meet", gap > MEETING, {"gap": gap}),))


def _swept(curve: Values) -> Values:
    """The area (B, n) in mm2 that each cubic sweeps, seen from the first point: far origins cost no
    digits."""
    local = curve - curve[:, :1, :1]
    swept = np.zeros(local.shape[:2])
    for i, j, share in _SHARES:
        swept = swept + share * cross(local[:, :, i], local[:, :, j])
    return swept


def _first_of_each(edges: NDArray[np.float64]) -> NDArray[np.intp]:
    """The numbers of the cubics with which a new edge begins: those that do not start where the one
    before ends."""
    gap = norm(edges[:, 1:, 0] - edges[:, :-1, 3])
    return np.append(0, 1 + np.nonzero((gap > MEETING).any(axis=0))[0]).astype(np.intp)


def _chained(
    starts: NDArray[np.float64], ends: NDArray[np.float64]
) -> tuple[NDArray[np.bool_], NDArray[np.float64]]:
    """Which of k edges, given by their ends (B, k, 2), are walked from end to start when all are
    chained, (B, k), and the widest gap (B,) on the way round. Each step goes to the nearest end."""
    bodies, count = starts.shape[:2]
    body = np.arange(bodies)
    turned = np.zeros((bodies, count), dtype=bool)
    left = np.ones((bodies, count), dtype=bool)
    left[:, 0] = False
    at, widest = ends[:, 0], np.zeros(bodies)
    for _ in range(1, count):
        away = np.stack([norm(starts - at[:, None]), norm(ends - at[:, None])], axis=-1)
        away = np.where(left[..., None], away, np.inf).reshape(bodies, -1)
        nearest = np.argmin(away, axis=1)
        edge, from_end = nearest // 2, nearest % 2 == 1
        widest = np.fmax(widest, away[body, nearest])
        turned[body, edge], left[body, edge] = from_end, False
        at = np.where(from_end[:, None], starts[body, edge], ends[body, edge])
    return turned, np.fmax(widest, norm(at - starts[:, 0]))
