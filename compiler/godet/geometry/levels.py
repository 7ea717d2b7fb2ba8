"""Where a curve crosses a level, the horizontal line at one depth.

In: curves (B, n, 4, 2), depths (B,) in mm. Out: every place at which each body's curve is at its
depth, as one flat list. Each cubic is cut where it turns back up or down; a part with an end on
either side holds one crossing, and a turning or an end within 1e-7 mm of the level counts as on it
(so do both ends of an edge along it). Nothing fails; a body may have no place.

    found = at_level(curve, down); found.body, found.across(curve)
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from godet.geometry.bodies import gathered, matched, picked
from godet.geometry.cubics import derivative, evaluate
from godet.geometry.dual import Values, implicit, value_of

ON_LEVEL = 1e-7  # mm
TANGENT = 1e-4  # radians: a curve so nearly level only touches it
_STEPS = 60


@dataclass(frozen=True, slots=True)
class LevelPlaces:
    """M places: the body (M,), the cubic (M,), and the parameter (M,) on the cubic."""

    body: NDArray[np.intp]
    cubic: NDArray[np.intp]
    share: NDArray[np.float64]


@np.errstate(all="ignore")
def at_level(curve: Values, down: Values) -> LevelPlaces:
    """Every place where the curve (B, n, 4, 2) is at its depth (B,)."""
    curve, down = matched(curve, down)
    heights = value_of(curve)[..., 1] - value_of(down)[:, None, None]
    # only a cubic whose control points come to the level can itself come to it
    lowest, highest = _extremes(heights)
    body, cubic = np.nonzero((lowest <= ON_LEVEL) & (highest >= -ON_LEVEL))
    height = np.stack([heights[..., point][body, cubic] for point in range(4)]).T
    knots = knots_of(height)
    at_knots = [height_at(height, knot) for knot in knots]
    rows, shares = [], []
    for knot, value in zip(knots, at_knots, strict=True):
        (row,) = np.nonzero(np.abs(value) <= ON_LEVEL)
        rows.append(row)
        shares.append(knot[row])
    for first, last in zip(range(3), range(1, 4), strict=True):
        before, after = at_knots[first], at_knots[last]
        (row,) = np.nonzero(((before < 0.0) & (after > 0.0)) | ((before > 0.0) & (after < 0.0)))
        rows.append(row)
        shares.append(_crossed(picked(height, row), knots[first][row], knots[last][row]))
    row = np.concatenate(rows)
    return LevelPlaces(body[row], cubic[row], np.concatenate(shares))


def _extremes(height: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The least and the greatest of four heights (..., 4)."""
    pairs = (height[..., :2], height[..., 2:])
    least, greatest = np.minimum(*pairs), np.maximum(*pairs)
    return (
        np.minimum(least[..., 0], least[..., 1]),
        np.maximum(greatest[..., 0], greatest[..., 1]),
    )


@np.errstate(all="ignore")
def across_at_level(curve: Values, down: Values, places: LevelPlaces) -> Values:
    """How far across (M,) the places lie, with their derivatives; a place where the curve runs
    along the level stays where it is on its cubic."""
    curve, down = matched(curve, down)
    cubic = gathered(curve, places.body, places.cubic)
    depth = evaluate(cubic, places.share)[:, 1] - down[places.body]
    way = value_of(derivative(cubic, places.share))
    slope = np.where(_angle(way) < TANGENT, 0.0, way[:, 1])
    return evaluate(cubic, implicit(places.share, depth, slope))[:, 0]


@np.errstate(all="ignore")
def angle_to_level(curve: Values, places: LevelPlaces) -> NDArray[np.float64]:
    """The angle (M,), 0 to a right one, at which the curve crosses the level at the places; nought
    on a cubic of no length."""
    cubic = gathered(value_of(curve), places.body, places.cubic)
    return _angle(derivative(cubic, places.share))


def _angle(way: NDArray[np.float64]) -> NDArray[np.float64]:
    angle: NDArray[np.float64] = np.arctan2(np.abs(way[:, 1]), np.abs(way[:, 0]))
    return angle


def depth_range(curve: Values) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The smallest and largest depth (B,) of the curve."""
    height = value_of(curve)[..., 1]
    depths = np.stack([height_at(height, knot) for knot in knots_of(height)], axis=-1)
    depths = depths.reshape(len(depths), -1)
    return depths.min(axis=1), depths.max(axis=1)


def height_at(height: NDArray[np.float64], share: NDArray[np.float64]) -> NDArray[np.float64]:
    """The height (...) at a parameter (...) of a cubic whose points have these heights (..., 4)."""
    t, u = share, 1.0 - share
    return (
        u * u * u * height[..., 0]
        + 3.0 * (u * u * t) * height[..., 1]
        + 3.0 * (u * t * t) * height[..., 2]
        + t * t * t * height[..., 3]
    )


def knots_of(height: NDArray[np.float64]) -> list[NDArray[np.float64]]:
    """0, the parameters at which a cubic with these heights (..., 4) turns, in order (0 where there
    is none), and 1: four arrays (...)."""
    steps = height[..., 1:] - height[..., :-1]
    a = steps[..., 0] - 2.0 * steps[..., 1] + steps[..., 2]
    b = steps[..., 1] - steps[..., 0]
    c = steps[..., 0]
    root = np.sqrt(b * b - a * c)
    q = -(b + np.where(b < 0.0, -root, root))  # no cancellation
    turnings = [np.where((t > 0.0) & (t < 1.0), t, 0.0) for t in (q / a, c / q)]
    nought = np.zeros_like(c)
    return [nought, np.minimum(*turnings), np.maximum(*turnings), nought + 1.0]


def _crossed(
    height: NDArray[np.float64], low: NDArray[np.float64], high: NDArray[np.float64]
) -> NDArray[np.float64]:
    """The root (M,) of the cubics (M, 4), one between low and high, by Newton's steps inside a
    bracket."""
    at_low, at_high = height_at(height, low), height_at(height, high)
    low, high = np.where(at_low < 0.0, low, high), np.where(at_low < 0.0, high, low)
    below, above = np.minimum(at_low, at_high), np.maximum(at_low, at_high)
    share: NDArray[np.float64] = low + (high - low) * (below / (below - above))
    steps = 3.0 * (height[:, 1:] - height[:, :-1])
    active = np.arange(len(share))
    for _ in range(_STEPS):
        if not len(active):
            break
        t, step = share[active], picked(steps, active)
        u = 1.0 - t
        value = height_at(picked(height, active), t)
        slope = u * u * step[:, 0] + 2.0 * (u * t) * step[:, 1] + t * t * step[:, 2]
        low[active] = np.where(value < 0.0, t, low[active])
        high[active] = np.where(value < 0.0, high[active], t)
        stepped = t - value / slope
        inside = (stepped - low[active]) * (stepped - high[active]) <= 0.0
        stepped = np.where(inside, stepped, 0.5 * (low[active] + high[active]))
        settled = (value == 0.0) | (np.abs(stepped - t) <= 2e-16)
        share[active] = np.where(value == 0.0, t, stepped)
        active = active[~settled]
    return share
