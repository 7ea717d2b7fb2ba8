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

from godet.geometry.bodies import matched, stacked
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
    whole = span * norm(direction)
    backward = value_of(forward) < _BACKWARD * value_of(whole)
    scale = np.where(backward, -1.0, 1.0) / whole
    turn = cross(chord, direction) if at_end else cross(direction, chord)
    # cosine and sine of alpha, of its half, its quarter and its eighth; alpha is at most a right
    # angle, so that each cosine is well away from nought
    cosine, sine = scale * forward, scale * turn
    cosine_2, sine_2 = _halved(cosine, sine)
    cosine_1, sine_1 = _halved(cosine_2, sine_2)
    cosine_half, _ = _halved(cosine_1, sine_1)
    cosine_3, sine_3 = cosine_2 * cosine_1 - sine_2 * sine_1, sine_2 * cosine_1 + cosine_2 * sine_1

    shares = [  # sin(share alpha) / sin(alpha) for shares 1/4, 1/2, 3/4
        1.0 / (4.0 * cosine_1 * cosine_2),
        1.0 / (2.0 * cosine_2),
        (1.0 + 2.0 * cosine_2) / (4.0 * cosine_1 * cosine_2),
    ]
    middle_way = _turned(chord, cosine_2, -sine_2)
    inner_ways = [
        _turned(chord, cosine_3, -sine_3), middle_way, _turned(chord, cosine_1, -sine_1)
    ]  # fmt: skip
    inner = [start + share[..., None] * way for share, way in zip(shares, inner_ways, strict=True)]
    knots = [start, *inner, end]
    # 4/3 tan(alpha/8) times the radius, with the sine of alpha divided out
    reach = (1.0 / (12.0 * cosine_half * cosine_half * cosine_1 * cosine_2))[..., None]
    handles = [
        reach * way
        for way in (
            _turned(chord, cosine, -sine),
            middle_way,
            chord,
            _turned(chord, cosine_2, sine_2),
            _turned(chord, cosine, sine),
        )
    ]
    cubics = [
        stacked(
            [knots[i], knots[i] + handles[i], knots[i + 1] - handles[i + 1], knots[i + 1]], axis=1
        )
        for i in range(4)
    ]
    breach = Breach("zero-length", value_of(span) <= COINCIDENT, {})
    return Guarded(stacked(cubics, axis=1), (breach,))


def _halved(cosine: Values, sine: Values) -> tuple[Values, Values]:
    """Cosine and sine of half the angle, from those of an angle of at most a right one."""
    half = np.sqrt(0.5 + 0.5 * cosine)
    return half, sine / (2.0 * half)


def _turned(offset: Values, cosine: Values, sine: Values) -> Values:
    across, down = offset[..., 0], offset[..., 1]
    return stacked([across * cosine - down * sine, across * sine + down * cosine], axis=1)
