"""Smooth curves through points: Hobby's splines.

In: k points (B, 2), at either end a unit direction (B, 2) or nothing, and a tension (B,). Out: a
curve (B, k-1, 4, 2) through the points, with a continuous direction and nearly continuous
curvature. An end without a direction bends like a circular arc (curl 1). A tension above 1 draws
the curve flatter between its points, one below 1 rounder. Fails with "same-point" when two
neighbours coincide, and with "tension-too-low" below 3/4.

    hobby([p, q], leaving=down, arriving=outward).value      # one cubic, (B, 1, 4, 2)

Source: John D. Hobby, "Smooth, easy to compute interpolating splines", Discrete & Computational
Geometry 1 (1986), 123-140. There theta is the angle from a chord to the direction that leaves its
start, phi from the direction that arrives at its end to the chord, and psi the turn from one chord
to the next.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from godet.geometry.bodies import matched, stacked
from godet.geometry.dual import Values, value_of
from godet.geometry.guards import Breach, Guarded
from godet.geometry.points import COINCIDENT, cross, dot, norm, turned_by

_ROOT_2 = float(np.sqrt(2.0))
_ROOT_5 = float(np.sqrt(5.0))
_FASTEST = 4.0  # chords: the limit that keeps a curve that turns right about finite
_PLAIN = np.ones(1)  # the tension of a curve that asks for none
_SLACKEST = 0.75  # Hobby's own lower limit; below it a curve may leave the triangle of its handles


@np.errstate(all="ignore")
def hobby(
    points: Sequence[Values],
    leaving: Values | None = None,
    arriving: Values | None = None,
    tension: Values = _PLAIN,
) -> Guarded:
    """The smooth curve (B, k-1, 4, 2) through k points (B, 2), k at least 2.

    `leaving` and `arriving` are unit directions (B, 2), or None; `tension` (B,) is the same all
    along. Two points without directions give a straight line. Fails with "same-point" {number}:
    the place in the row, counted from 1, of a point that coincides with the next; and with
    "tension-too-low" {tension}.
    """
    ways = [way for way in (leaving, arriving) if way is not None]
    *everything, tension = matched(*points, *ways, tension)
    points = everything[: len(points)]
    chords = [b - a for a, b in pairwise(points)]
    ways_in_order = list(everything[len(points) :])
    start = ways_in_order.pop(0) if leaving is not None else None
    finish = ways_in_order.pop(0) if arriving is not None else None
    if len(chords) == 1:
        turns = _two_point_turns(chords, start, finish)
    else:
        turns = _many_point_turns(chords, start, finish, tension)
    cubics = [
        _cubic(a, b, chord, turn, tension)
        for a, b, chord, turn in zip(points[:-1], points[1:], chords, turns, strict=True)
    ]
    short = np.stack([value_of(norm(chord)) <= COINCIDENT for chord in chords], axis=-1)
    number = np.argmax(short, axis=-1) + 1.0
    drawn = value_of(tension)
    breaches = (
        Breach("same-point", np.asarray(short.any(axis=-1)), {"number": number}),
        Breach("tension-too-low", drawn < _SLACKEST, {"tension": drawn}),
    )
    return Guarded(stacked(cubics, axis=1), breaches)


Turn = tuple[Values, Values, Values, Values]  # sin theta, cos theta, sin phi, cos phi, each (B,)


def _two_point_turns(
    chords: Sequence[Values], leaving: Values | None, arriving: Values | None
) -> list[Turn]:
    chord = chords[0]
    span = norm(chord)
    theta = None if leaving is None else (cross(chord, leaving) / span, dot(chord, leaving) / span)
    phi = None if arriving is None else (cross(arriving, chord) / span, dot(chord, arriving) / span)
    straight = (np.zeros(chord.shape[0]), np.ones(chord.shape[0]))
    # Curl 1 makes the free end turn as the given one does; with both free the line is straight.
    return [(*(theta or phi or straight), *(phi or theta or straight))]


def _many_point_turns(
    chords: Sequence[Values], leaving: Values | None, arriving: Values | None, tension: Values
) -> list[Turn]:
    psi = [_angle(a, b) for a, b in pairwise(chords)]
    theta = _solved(_equations(chords, psi, leaving, arriving, tension))
    phi = [-turn - angle for turn, angle in zip(psi, theta[1:-1], strict=True)] + [-theta[-1]]
    return [
        (np.sin(a), np.cos(a), np.sin(b), np.cos(b)) for a, b in zip(theta[:-1], phi, strict=True)
    ]


def _angle(a: Values, b: Values) -> Values:
    return np.arctan2(cross(a, b), dot(a, b))


Row = tuple[Values, Values, Values, Values]  # before, own, after, right-hand side, each (B,)


def _equations(
    chords: Sequence[Values],
    psi: Sequence[Values],
    leaving: Values | None,
    arriving: Values | None,
    tension: Values,
) -> list[Row]:
    """The equations for theta at every point: equal mock curvature inside, direction or curl at
    the ends."""
    own = 3.0 * tension - 1.0
    nought, one = np.zeros(chords[0].shape[0]), np.ones(chords[0].shape[0])
    if leaving is None:
        rows: list[Row] = [(nought, one, one, -psi[0])]
    else:
        rows = [(nought, one, nought, _angle(chords[0], leaving))]
    inverse = [1.0 / norm(chord) for chord in chords]
    after = [*psi[1:], nought]  # the last point has no turn of its own
    for before, behind, turn, following in zip(inverse[:-1], inverse[1:], psi, after, strict=True):
        side = -own * before * turn - behind * following
        rows.append((before, own * (before + behind), behind, side))
    if arriving is None:
        rows.append((one, one, nought, nought))
    else:
        rows.append((nought, one, nought, _angle(chords[-1], arriving)))
    return rows


def _solved(rows: Sequence[Row]) -> list[Values]:
    """The tridiagonal system, eliminated downwards and solved upwards (Thomas)."""
    ratios: list[Values] = []
    sides: list[Values] = []
    for before, own, after, side in rows:
        pivot = own - before * ratios[-1] if ratios else own
        sides.append((side - before * sides[-1] if sides else side) / pivot)
        ratios.append(after / pivot)
    angles = [sides[-1]]
    for ratio, side in zip(ratios[-2::-1], sides[-2::-1], strict=True):
        angles.insert(0, side - ratio * angles[0])
    return angles


def _cubic(a: Values, b: Values, chord: Values, turn: Turn, tension: Values) -> Values:
    sine_theta, cosine_theta, sine_phi, cosine_phi = turn
    leave = _velocity(sine_theta, cosine_theta, sine_phi, cosine_phi, tension)
    arrive = _velocity(sine_phi, cosine_phi, sine_theta, cosine_theta, tension)
    first = a + turned_by(chord, cosine_theta, sine_theta) * leave[..., None]
    second = b - turned_by(chord, cosine_phi, -sine_phi) * arrive[..., None]
    return stacked([a, first, second, b], axis=1)


def _velocity(
    sine: Values, cosine: Values, other_sine: Values, other_cosine: Values, tension: Values
) -> Values:
    """Hobby's rho over 3 times the tension: the length of a handle for a chord of length 1."""
    bend = (
        (sine - other_sine / 16.0) * (other_sine - sine / 16.0) * (cosine - other_cosine) * _ROOT_2
    )
    slowing = 1.0 + 0.5 * (_ROOT_5 - 1.0) * cosine + 0.5 * (3.0 - _ROOT_5) * other_cosine
    return np.minimum((2.0 + bend) / (3.0 * slowing * tension), _FASTEST)
