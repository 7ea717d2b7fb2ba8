"""Circular arcs, as eight cubics of equal sweep.

In: the two ends (B, 2) and a direction (B, 2) along which the arc runs at one of them. Out: a
curve (B, 8, 4, 2), within 0.001 mm of the circle: of any radius up to 2.5 m for a sweep of up to
two thirds of a circle, and up to 0.2 m beyond. Fails with "zero-length" when the ends coincide,
and with "arc-leads-away" when the direction leads straight away from the other end.

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
from godet.geometry.points import COINCIDENT, cross, dot, norm, turned_by

_CUBICS = 8
_AWAY = np.radians(1.0)  # a direction nearer than this to straight away leads to no circle


@np.errstate(all="ignore")
def arc(start: Values, end: Values, direction: Values, at_end: bool = False) -> Guarded:
    """The arc (B, 8, 4, 2) from start to end that runs along `direction` (B, 2), of any length, at
    its start, or at its end.

    A direction that points away from the other end gives an arc of more than half a circle. Fails
    with "zero-length" and "arc-leads-away" {angle}, the angle from the chord.
    """
    start, end, direction = matched(start, end, direction)
    chord = end - start
    span = norm(chord)
    whole = span * norm(direction)
    turn = cross(chord, direction) if at_end else cross(direction, chord)
    cosine, sine = dot(direction, chord) / whole, turn / whole
    # of alpha, of its half, quarter, eighth and sixteenth
    cosine_2, sine_2 = _halved(cosine, sine)
    cosine_4, sine_4 = _halved(cosine_2, sine_2)
    cosine_8, sine_8 = _halved(cosine_4, sine_4)
    cosine_16, _ = _halved(cosine_8, sine_8)
    # sin(alpha) / sin(alpha / 8)
    stretch = 8.0 * cosine_8 * cosine_4 * cosine_2
    turned = _turned_by_eighths(chord, cosine_8, sine_8)
    knots: list[Values] = [start]
    grown, before = 1.0, 0.0  # sin(number alpha / 8) / sin(alpha / 8)
    for number in range(1, _CUBICS):
        knots.append(start + (grown / stretch)[..., None] * turned[number - _CUBICS])
        grown, before = 2.0 * cosine_8 * grown - before, grown
    knots.append(end)
    # 4/3 tan(alpha/16) times the radius, with the sine of alpha divided out
    reach = (1.0 / (3.0 * cosine_16 * cosine_16 * stretch))[..., None]
    handles = [reach * turned[number] for number in range(-_CUBICS, _CUBICS + 1, 2)]
    cubics = [
        stacked([a, a + leaving, b - arriving, b], axis=1)
        for a, b, leaving, arriving in zip(
            knots[:-1], knots[1:], handles[:-1], handles[1:], strict=True
        )
    ]
    angle = np.arctan2(np.abs(value_of(sine)), value_of(cosine))
    breaches = (
        Breach("zero-length", value_of(span) <= COINCIDENT, {}),
        Breach("arc-leads-away", angle > np.pi - _AWAY, {"angle": angle}),
    )
    return Guarded(stacked(cubics, axis=1), breaches)


def _halved(cosine: Values, sine: Values) -> tuple[Values, Values]:
    """Cosine and sine of half the angle, from those of an angle of less than two right ones."""
    half = np.sqrt(0.5 + 0.5 * cosine)
    return half, sine / (2.0 * half)


def _turned_by_eighths(chord: Values, cosine: Values, sine: Values) -> dict[int, Values]:
    """The chord turned by each multiple of alpha / 8, from -8 to 8."""
    turned = {0: chord}
    for number in range(1, _CUBICS + 1):
        turned[number] = turned_by(turned[number - 1], cosine, sine)
        turned[-number] = turned_by(turned[1 - number], cosine, -sine)
    return turned
