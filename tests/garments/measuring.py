"""Lengths, ways and depths of many drafts at once, from their cubics by numpy alone.

In: curves (rows, n, 4, 2) in mm and darts (rows, 5, 2): an end of the mouth, its point on the fold,
the other end, tip, pivot. Out: arrays with the rows first. Nothing fails; a row without a draft
gives NaN.

    sewn(side, [bust_dart])    # (rows,), without the dart's mouth
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.polynomial.legendre import leggauss
from numpy.typing import NDArray

Floats = NDArray[np.float64]
_PLACES, _WEIGHTS = leggauss(16)
_ON = 0.01  # mm: a point that lies on a curve's joint


def each_length(curve: Floats) -> Floats:
    """The length (rows, n) of every cubic, by Gauss's rule."""
    legs = np.diff(curve, axis=2)
    total = np.zeros(curve.shape[:2])
    for place, weight in zip((_PLACES + 1) / 2, _WEIGHTS / 2, strict=True):
        s = 1 - place
        speed = 3 * (s * s * legs[:, :, 0] + 2 * s * place * legs[:, :, 1]
                     + place * place * legs[:, :, 2])  # fmt: skip
        total += weight * np.hypot(speed[..., 0], speed[..., 1])
    return total


def cut(curve: Floats) -> Floats:
    return np.asarray(each_length(curve).sum(axis=1))


def sewn(curve: Floats, darts: Sequence[Floats] = ()) -> Floats:
    """The length (rows,) without the mouths of the darts that lie on the curve."""
    total = cut(curve)
    for dart in darts:
        first, last = mouth_along(curve, dart)
        total = total - np.where(np.isfinite(first), np.abs(last - first), 0.0)
    return np.asarray(total)


def mouth_along(curve: Floats, dart: Floats) -> tuple[Floats, Floats]:
    """How far along the curve both ends of a mouth lie, as cut; NaN where they don't lie on it."""
    ends = np.concatenate([curve[:, :1, 0], curve[:, :, 3]], axis=1)  # (rows, n + 1, 2)
    along = np.concatenate([np.zeros((len(curve), 1)), np.cumsum(each_length(curve), axis=1)], 1)
    found = []
    for place in (dart[:, 0], dart[:, 2]):
        away = np.linalg.norm(ends - place[:, None], axis=2)
        near = np.argmin(np.where(np.isnan(away), np.inf, away), axis=1)
        at = np.take_along_axis(along, near[:, None], 1)[:, 0]
        found.append(np.where(np.nanmin(away, axis=1, initial=np.inf) < _ON, at, np.nan))
    missing = np.isnan(found[0]) | np.isnan(found[1])
    return tuple(np.where(missing, np.nan, at) for at in found)


def dense(curve: Floats, each: int = 40) -> Floats:
    """Points (rows, n * each, 2) along the curve."""
    t = np.linspace(0.0, 1.0, each)[:, None]
    s = 1 - t
    weights = np.concatenate([s**3, 3 * s * s * t, 3 * s * t * t, t**3], axis=1)
    return np.einsum("ek,rnkc->rnec", weights, curve).reshape(len(curve), -1, 2)


def part_length(curve: Floats, place: Floats, to_end: Floats) -> Floats:
    """How long the curve is between two points on it, from points as dense as 2 mm."""
    points = dense(curve, 200)
    along = np.concatenate(
        [np.zeros((len(points), 1)), np.cumsum(np.hypot(*np.diff(points, axis=1).T).T, axis=1)], 1
    )
    ends = []
    for end in (place, to_end):
        near = np.argmin(np.nan_to_num(np.linalg.norm(points - end[:, None], axis=2), nan=1e9), 1)
        ends.append(np.take_along_axis(along, near[:, None], 1)[:, 0])
    return np.asarray(np.abs(ends[1] - ends[0]))


def middle(curve: Floats) -> Floats:
    """The point (rows, 2) at half the way along."""
    points = dense(curve, 200)
    along = np.cumsum(np.hypot(*np.diff(points, axis=1).T).T, axis=1)
    half = np.argmax(along >= along[:, -1:] / 2, axis=1)
    return np.asarray(np.take_along_axis(points, half[:, None, None] + 1, 1)[:, 0])


def across_at(curve: Floats, down: Floats) -> Floats:
    """How far out (rows,) the curve is at a depth, of its points the nearest."""
    points = dense(curve, 200)
    near = np.argmin(np.nan_to_num(np.abs(points[:, :, 1] - down[:, None]), nan=1e9), axis=1)
    return np.asarray(np.take_along_axis(points[:, :, 0], near[:, None], 1)[:, 0])


def away(curve: Floats, place: Floats) -> Floats:
    """How far (rows,) a place is from a curve."""
    return np.asarray(np.linalg.norm(dense(curve, 300) - place[:, None], axis=2).min(axis=1))


def way_from(curve: Floats, place: Floats) -> Floats:
    """The unit direction (rows, 2) in which a curve leaves the one of its ends that lies there."""
    size = np.ptp(curve, axis=2).max(axis=2)  # cubics cut away have none
    drawn = np.nan_to_num(size) > 1e-6
    rows = np.arange(len(curve))
    first, last = np.argmax(drawn, axis=1), size.shape[1] - 1 - np.argmax(drawn[:, ::-1], axis=1)
    start, end = curve[rows, first], curve[rows, last][:, ::-1]
    from_start = np.linalg.norm(start[:, 0] - place, axis=1)
    from_end = np.linalg.norm(end[:, 0] - place, axis=1)
    ways = []
    for leg in (start, end):
        way = leg[:, 1] - leg[:, 0]
        way = np.where(np.hypot(*way.T)[:, None] > 1e-6, way, leg[:, 3] - leg[:, 0])
        ways.append(way / np.hypot(*way.T)[:, None])
    way = np.where((from_start <= from_end)[:, None], *ways)
    return np.where((np.minimum(from_start, from_end) < 0.1)[:, None], way, np.nan)


def degrees_between(one: Floats, other: Floats) -> Floats:
    return np.asarray(np.degrees(np.arccos(np.clip((one * other).sum(axis=1), -1.0, 1.0))))


def turned_back(place: Floats, about: Floats, by: Floats) -> Floats:
    """Places (rows, 2) turned about others, from outward towards down."""
    x, y = (place - about).T
    cosine, sine = np.cos(by), np.sin(by)
    return about + np.stack([x * cosine - y * sine, x * sine + y * cosine], axis=1)
