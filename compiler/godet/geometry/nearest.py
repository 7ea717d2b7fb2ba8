"""The point of a curve that is nearest to a given one.

In: a curve (B, n, 4, 2) and a point (B, 2). Out: the point on the curve (B, 2). Fails with "tie"
where two places are equally near, as on an arc from its centre.

    nearest_on(side, bust_point).value                   # (B, 2)
"""

from __future__ import annotations

import numpy as np

from godet.geometry.bodies import gathered, matched
from godet.geometry.cubics import evaluate, point_on
from godet.geometry.dual import Values, value_of
from godet.geometry.guards import Breach, Guarded
from godet.geometry.locating import closest_place, feet
from godet.geometry.points import distance, norm

EQUAL = 1e-6  # mm: places that differ by less in what is asked of them serve equally well
ONE_PLACE = 0.5  # mm: places nearer to each other are one


@np.errstate(all="ignore")
def nearest_on(curve: Values, point: Values) -> Guarded:
    """The nearest point (B, 2) of the curve. Fails with "tie" {difference}, by how much another
    place is farther away."""
    curve, point = matched(curve, point)
    found = point_on(curve, closest_place(curve, point))
    return Guarded(found, (_tie(curve, point, found),))


def _tie(curve: Values, point: Values, found: Values) -> Breach:
    plain, chosen = value_of(curve), value_of(found)
    rivals = feet(plain, value_of(point))
    places = evaluate(gathered(plain, rivals.body, rivals.cubic), rivals.share)
    elsewhere = norm(places - chosen[rivals.body]) > ONE_PLACE
    least = np.full(len(chosen), np.inf)
    np.minimum.at(least, rivals.body, np.where(elsewhere, rivals.away, np.inf))
    difference = least - distance(chosen, value_of(point))
    return Breach("tie", difference <= EQUAL, {"difference": difference})
