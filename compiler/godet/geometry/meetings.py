"""Every place at which two curves cross.

In: two curves (B, n, 4, 2) and (B, m, 4, 2). Out: the places as padded lists, in order along the
first curve. Nothing fails; a body may have no place. Curves that only touch, or that end on each
other within 1e-7 mm, meet.

    found = crossings(a, b); found.valid.sum(axis=1)     # how many for each body

Each cubic is cut in sixteen; two pieces whose control boxes overlap are candidates (a curve lies
inside its box, so no crossing is passed over), and each candidate is polished from both ends of
the first piece by Newton's steps in both parameters. What does not settle on a common point is
dropped, and what settles twice is kept once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import matched
from godet.geometry.cubics import derivative, evaluate, lost_in_rounding
from godet.geometry.dual import Values, value_of
from godet.geometry.points import cross, dot, norm

SAME_CROSSING = 1e-7  # mm
_PIECES = 16
_MARGIN = 1e-6  # mm, round each box
_COMMON = 1e-9  # mm, between the two curves at a settled place
_STEPS = 60
_PAIRS_AT_ONCE = 4_000_000

Floats = NDArray[np.float64]
Numbers = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Crossings:
    """Up to K places for each body; `valid` (B, K) says which are filled, from the first on."""

    cubic_a: Numbers  # (B, K)
    share_a: Floats  # (B, K), 0 to 1 on that cubic
    cubic_b: Numbers
    share_b: Floats
    point: Floats  # (B, K, 2)
    valid: NDArray[np.bool_]

    @property
    def parameter_a(self) -> Floats:
        """The parameters (B, K) on the whole first curve."""
        return self.cubic_a + self.share_a

    @property
    def parameter_b(self) -> Floats:
        """The parameters (B, K) on the whole second curve."""
        return self.cubic_b + self.share_b


class _Places(NamedTuple):
    body: Numbers
    cubic_a: Numbers
    share_a: Floats
    cubic_b: Numbers
    share_b: Floats
    point: Floats


@np.errstate(all="ignore")
def crossings(a: Values, b: Values) -> Crossings:
    """The places where the curves meet, in order along the first; their values only, without
    tangents."""
    first, second = (value_of(curve) for curve in matched(a, b))
    at_once = max(1, _PAIRS_AT_ONCE // (_PIECES * _PIECES * first.shape[1] * second.shape[1]))
    found = [
        _found(first[start : start + at_once], second[start : start + at_once], start)
        for start in range(0, len(first), at_once)
    ]
    places = _Places(*(np.concatenate(column) for column in zip(*found, strict=True)))
    return _padded(_without_repeats(places), len(first))


def _found(a: Floats, b: Floats, first_body: int) -> _Places:
    low_a, high_a = _piece_boxes(a)
    low_b, high_b = _piece_boxes(b)
    overlap = np.ones((len(a), low_a.shape[1], low_b.shape[1]), dtype=bool)
    for axis in (0, 1):
        overlap &= low_a[:, :, None, axis] <= high_b[:, None, :, axis]
        overlap &= low_b[:, None, :, axis] <= high_a[:, :, None, axis]
    body, piece_a, piece_b = np.nonzero(overlap)
    cubic_a, cubic_b = piece_a // _PIECES, piece_b // _PIECES
    places = []
    for end in (0.0, 1.0):
        share_a = (piece_a % _PIECES + end) / _PIECES
        share_b = _facing(a[body, cubic_a], share_a, b[body, cubic_b], piece_b % _PIECES)
        settled = _settled(a[body, cubic_a], share_a, b[body, cubic_b], share_b)
        places.append(_accepted(a, b, body, cubic_a, cubic_b, *settled, first_body))
    return _Places(*(np.concatenate(column) for column in zip(*places, strict=True)))


def _piece_boxes(curve: Floats) -> tuple[Floats, Floats]:
    """The control boxes (B, 16 n, 2) of the sixteenths of each cubic, smallest and largest
    corner."""
    shares = np.arange(_PIECES + 1) / _PIECES
    knots = evaluate(curve[:, :, None], shares)
    handles = derivative(curve[:, :, None], shares) / (3.0 * _PIECES)
    starts, ends = knots[:, :, :-1], knots[:, :, 1:]
    leaving, arriving = starts + handles[:, :, :-1], ends - handles[:, :, 1:]
    low = np.minimum(np.minimum(starts, ends), np.minimum(leaving, arriving))
    high = np.maximum(np.maximum(starts, ends), np.maximum(leaving, arriving))
    shape = (len(curve), -1, 2)
    return low.reshape(shape) - _MARGIN, high.reshape(shape) + _MARGIN


def _facing(cubic_a: Floats, share_a: Floats, cubic_b: Floats, piece_b: Numbers) -> Floats:
    """The parameter on the second piece's chord that is closest to the first curve's point."""
    start = evaluate(cubic_b, piece_b / _PIECES)
    chord = evaluate(cubic_b, (piece_b + 1) / _PIECES) - start
    square = dot(chord, chord)
    part = dot(evaluate(cubic_a, share_a) - start, chord) / np.where(square > 0.0, square, 1.0)
    facing: Floats = (piece_b + np.clip(part, 0.0, 1.0)) / _PIECES
    return facing


def _settled(
    cubic_a: Floats, share_a: Floats, cubic_b: Floats, share_b: Floats
) -> tuple[Floats, Floats]:
    """Newton's steps in both parameters, each at most one piece long; each row stops on its own."""
    share_a, share_b = share_a.copy(), share_b.copy()
    start_a, start_b = share_a.copy(), share_b.copy()
    active = np.arange(len(share_a))
    longest = 1.0 / _PIECES
    for _ in range(_STEPS):
        if not len(active):
            break
        a, b, s, t = cubic_a[active], cubic_b[active], share_a[active], share_b[active]
        gap = evaluate(b, t) - evaluate(a, s)
        way_a, way_b = derivative(a, s), derivative(b, t)
        turn = cross(way_a, way_b)
        step_a = np.clip(np.where(turn == 0.0, 0.0, cross(gap, way_b) / turn), -longest, longest)
        step_b = np.clip(np.where(turn == 0.0, 0.0, cross(gap, way_a) / turn), -longest, longest)
        share_a[active], share_b[active] = s + step_a, t + step_b
        still = lost_in_rounding(step_a, way_a) & lost_in_rounding(step_b, way_b)
        # A row that has left the neighbourhood of its pieces belongs to another candidate.
        lost = (np.abs(s - start_a[active]) > 3.0 * longest) | (
            np.abs(t - start_b[active]) > 3.0 * longest
        )
        active = active[~(still | lost)]
    return share_a, share_b


def _accepted(
    a: Floats,
    b: Floats,
    body: Numbers,
    cubic_a: Numbers,
    cubic_b: Numbers,
    share_a: Floats,
    share_b: Floats,
    first_body: int,
) -> _Places:
    on_a, on_b = a[body, cubic_a], b[body, cubic_b]
    kept_a, kept_b = np.clip(share_a, 0.0, 1.0), np.clip(share_b, 0.0, 1.0)
    point = evaluate(on_a, kept_a)
    common = norm(evaluate(on_a, share_a) - evaluate(on_b, share_b)) <= _COMMON
    inside = (norm(evaluate(on_a, share_a) - point) <= SAME_CROSSING) & (
        norm(evaluate(on_b, share_b) - evaluate(on_b, kept_b)) <= SAME_CROSSING
    )
    keep = common & inside
    return _picked(_Places(body + first_body, cubic_a, kept_a, cubic_b, kept_b, point), keep)


def _without_repeats(places: _Places) -> _Places:
    """In order along the first curve, each place once."""
    order = np.lexsort(
        (
            places.cubic_b + places.share_b,
            places.share_a,
            places.cubic_a,
            places.body,
        )
    )
    places = _picked(places, order)
    if not len(order):
        return places
    apart = norm(places.point[1:] - places.point[:-1]) > SAME_CROSSING
    new = np.concatenate([[True], apart | (places.body[1:] != places.body[:-1])])
    return _picked(places, new)


def _picked(places: _Places, which: NDArray[Any]) -> _Places:
    columns: list[Any] = [column[which] for column in places]
    return _Places(*columns)


def _padded(places: _Places, bodies: int) -> Crossings:
    counts = np.bincount(places.body, minlength=bodies)
    starts = np.cumsum(counts) - counts
    column = np.arange(len(places.body)) - starts[places.body]
    width = max(1, int(counts.max(initial=0)))

    def spread(values: NDArray[Any]) -> NDArray[Any]:
        table = np.zeros((bodies, width, *values.shape[1:]), dtype=values.dtype)
        table[places.body, column] = values
        return table

    filled = np.arange(width) < counts[:, None]
    return Crossings(
        spread(places.cubic_a),
        spread(places.share_a),
        spread(places.cubic_b),
        spread(places.share_b),
        spread(places.point),
        filled,
    )
