"""Circular arcs, as four cubics of equal sweep.

In: the two ends (B, 2) and a direction (B, 2) along which the arc runs at one of them. Out: a
curve (B, 4, 4, 2), within 0.001 mm of the circle for a radius of 2 m and a sweep of 120 degrees.
Fails with "zero-length" when the ends coincide.

    arc(hem_centre, hem_side, outward).value             # leaves hem_centre square to the centre
    line

With alpha the angle from the chord to the tangents at its ends, the sweep is 2 alpha. Everything
is written with cosines of shares of alpha only, so a straight arc is no special case and has its
derivatives.
"""

from __future__ import annotations

import numpy as np

from godet.geometry.bodies import matched
from godet.geometry.dual import Values, value_of
from godet.geometry.guards import Breach, Guarded
from godet.geometry.points import COINCIDENT, cross, dot, norm

_BACKWARD = -1e-9  # cosine: a half circle keeps the direction it was given in spite of rounding


@np.errstate(all="ignore")
def arc(start: Values, end: Values, direction: Values, at_end: bool = False) -> Guarded:
    """The arc (B, 4, 4, 2) from start to end that runs along `direction` at its start, or at its
    end.

    The direction may have any length and either sense: a direction that points away from the other
    end is turned about, so that no arc sweeps more than a half circle. Fails with "zero-length".
    """
    start, end, direction = matched(start, end, direction)
    chord = end - start
    span = norm(chord)
    forward = dot(direction, chord)
    backward = value_of(forward) < _BACKWARD * value_of(span) * value_of(norm(direction))
    sense = np.where(backward, -1.0, 1.0)
    turn = cross(chord, direction) if at_end else cross(direction, chord)
    alpha = np.arctan2(sense * turn, sense * forward)

    quarter = alpha / 4.0
    cosine_1, cosine_2 = np.cos(quarter), np.cos(2.0 * quarter)
    shares = [  # sin(share alpha) / sin(alpha) for shares 1/4, 1/2, 3/4
        1.0 / (4.0 * cosine_1 * cosine_2),
        1.0 / (2.0 * cosine_2),
        (1.0 + 2.0 * cosine_2) / (4.0 * cosine_1 * cosine_2),
    ]
    inner = [
        start + share[..., None] * _turned(chord, part * quarter - alpha)
        for part, share in enumerate(shares, start=1)
    ]
    knots = [start, *inner, end]
    ways = [_turned(chord, 2.0 * part * quarter - alpha) for part in range(5)]
    cosine_half = np.cos(quarter / 2.0)
    # 4/3 tan(alpha/8) times the radius, with the sine of alpha divided out
    reach = (1.0 / (12.0 * cosine_half * cosine_half * cosine_1 * cosine_2))[..., None]
    cubics = [
        np.stack(
            [
                knots[i],
                knots[i] + reach * ways[i],
                knots[i + 1] - reach * ways[i + 1],
                knots[i + 1],
            ],
            axis=1,
        )
        for i in range(4)
    ]
    breach = Breach("zero-length", value_of(span) <= COINCIDENT, {})
    return Guarded(np.stack(cubics, axis=1), (breach,))


def _turned(offset: Values, angle: Values) -> Values:
    sine, cosine = np.sin(angle), np.cos(angle)
    across, down = offset[..., 0], offset[..., 1]
    return np.stack([across * cosine - down * sine, across * sine + down * cosine], axis=-1)
