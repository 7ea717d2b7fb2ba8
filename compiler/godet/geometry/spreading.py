"""Slash and spread: how the part beyond a cut lies once the cut is opened.

In: the run of the outline beyond the cut (B, n, 4, 2), walked from one end of the cut to the other;
how wide the cut is opened at either end (B,) in mm. Out: the angle (B,) by which the part turns,
and where the last end of the cut comes to lie (B, 2). The cut's two sides become the legs of a
symmetrical figure: what is opened at its ends is measured straight across, and with nothing at one
end it turns about that end as about a hinge; a negative width laps the sides. Fails with
"spread-too-wide" {spread, cut} and "same-point".

    spread_angle(run, 4 cm, 0 cm).value
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.areas import signed_area
from godet.geometry.bodies import matched, strung
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import end_point, start_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.lines import line
from godet.geometry.points import COINCIDENT, norm, turned_quarter, unit


@np.errstate(all="ignore")
def spread_angle(run: Values, at_first: Values, at_last: Values) -> Guarded:
    """The angle (B,) in radians by which the part beyond the cut turns."""
    run, at_first, at_last = matched(run, at_first, at_last)
    cut = end_point(run) - start_point(run)
    size = norm(cut)
    share = (at_first - at_last) / (2.0 * size)
    wide, long = value_of(np.absolute(at_first - at_last)), value_of(size)
    breaches = (
        Breach("same-point", long <= COINCIDENT, {}),
        Breach("spread-too-wide", wide >= 2.0 * long, {"spread": wide, "cut": long}),
    )
    return Guarded(-_side(run) * 2.0 * np.arcsin(share), breaches)


@np.errstate(all="ignore")
def spread_to(run: Values, at_last: Values, angle: Values) -> Values:
    """Where (B, 2) the last end of the cut comes to lie."""
    run, at_last, angle = matched(run, at_last, angle)
    last = end_point(run)
    way = unit(last - start_point(run))
    half = angle / 2.0
    cosine, sine = np.cos(half)[:, None], np.sin(half)[:, None]
    axis = cosine * way + sine * turned_quarter(way)
    return last + (_side(run) * at_last)[:, None] * turned_quarter(axis)


def same_side(run: Values, other: Values) -> NDArray[np.bool_]:
    """Whether (B,) two runs, each closed straight, go round in the same sense: laid with their ends
    together they lie on the same side of the line between these."""
    run, other = matched(run, other)
    return np.asarray(_side(run) == _side(other))


def _side(run: Values) -> Values:
    """1 (B,) where the part lies to the right of the cut, walked as the run is; -1 to its left."""
    closing = line(end_point(run), start_point(run)).value
    turns = value_of(signed_area(strung([run, closing], axis=1)))
    return np.where(turns > 0.0, -1.0, 1.0)
