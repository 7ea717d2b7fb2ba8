"""How sharply a curve bends at a place on it.

In: a curve (B, n, 4, 2) and a point (B, 2) on it. Out: the radius (B,) in mm of the circle that
fits the curve there, positive where the centre lies to the right-hand side of the way the curve
is travelled, as seen on the page (as a positive distance of a parallel). At a joint the part
before it counts. Fails with "off-edge", and with "no-radius" where the curve is straight or stands
still.

    radius_at(neck, centre_neck).value                   # (B,)
"""

from __future__ import annotations

import numpy as np

from godet.geometry.bodies import matched
from godet.geometry.cubics import Place, cubic_at, curvature, derivative
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import DEGENERATE
from godet.geometry.guards import Breach, Guarded
from godet.geometry.locating import off_edge, place_on
from godet.geometry.points import norm

_STRAIGHT = 1e-6  # 1/mm: a radius of 1 km


@np.errstate(all="ignore")
def radius_at(curve: Values, point: Values) -> Guarded:
    """The signed radius (B,) in mm at a point. Fails with "off-edge" {distance} and
    "no-radius"."""
    curve, point = matched(curve, point)
    place = place_on(curve, point)
    bend = curvature(cubic_at(curve, place), place.share)
    without = stands_still(curve, place) | (np.abs(value_of(bend)) < _STRAIGHT)
    breaches = (off_edge(curve, point, place), Breach("no-radius", without, {}))
    return Guarded(1.0 / bend, breaches)


def stands_still(curve: Values, place: Place) -> Values:
    """For which bodies (B,) the curve has no velocity at the place, and so no curvature: where a
    handle has no length, or at a cusp."""
    velocity = derivative(value_of(cubic_at(curve, place)), value_of(place.share))
    return norm(velocity) <= DEGENERATE
