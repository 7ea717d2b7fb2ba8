"""The point of a curve that lies farthest one way: lowest, highest, innermost or outermost.

In: a curve (B, n, 4, 2). Out: the point (B, 2), from the turnings of each cubic in closed form.
Fails with "tie" where two places of the curve reach equally far.

    extreme(armhole, "innermost").value                  # (B, 2)
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from godet.geometry.cubics import Place, cubic_at, derivative, evaluate, second_derivative
from godet.geometry.dual import Dual, Values, implicit, value_of
from godet.geometry.guards import Breach, Guarded
from godet.geometry.levels import height_at, knots_of
from godet.geometry.nearest import EQUAL, ONE_PLACE
from godet.geometry.points import norm

Way = Literal["lowest", "highest", "innermost", "outermost"]

# the coordinate that counts, and the sign with which the point has most of it
_GREATEST: dict[str, tuple[int, float]] = {
    "lowest": (1, 1.0),
    "highest": (1, -1.0),
    "innermost": (0, -1.0),
    "outermost": (0, 1.0),
}


@np.errstate(all="ignore")
def extreme(curve: Values, way: Way) -> Guarded:
    """The point (B, 2) of the curve that lies farthest that way. Fails with "tie" {difference}."""
    axis, sign = _GREATEST[way]
    plain = value_of(curve)
    height = sign * plain[..., axis]
    shares = np.stack(knots_of(height), axis=-1)
    reached = height_at(height[..., None, :], shares)
    bodies = shares.shape[0]
    chosen = np.argmax(reached.reshape(bodies, -1), axis=1)
    body = np.arange(bodies)
    place = Place(chosen // 4, shares.reshape(bodies, -1)[body, chosen])
    point = _followed(curve, place, axis)
    most = reached.reshape(bodies, -1)[body, chosen]
    places = evaluate(plain[:, :, None], shares)
    elsewhere = norm(places - value_of(point)[:, None, None]) > ONE_PLACE
    rival = np.where(elsewhere, reached, -np.inf).reshape(bodies, -1).max(axis=1)
    difference = most - rival
    return Guarded(point, (Breach("tie", difference <= EQUAL, {"difference": difference}),))


def _followed(curve: Values, place: Place, axis: int) -> Values:
    """The point at a place which, where it is a turning, stays one; an end stays the end."""
    cubic = cubic_at(curve, place)
    share: Values = value_of(place.share)
    if isinstance(cubic, Dual):
        slope = second_derivative(value_of(cubic), share)[..., axis]
        inside = (share > 0.0) & (share < 1.0)
        residual = derivative(cubic, share)[..., axis]
        share = implicit(share, residual, np.where(inside, slope, 0.0))
    return evaluate(cubic, share)
