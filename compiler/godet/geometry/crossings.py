"""The one crossing of two curves that a recipe asks for.

In: two curves (B, n, 4, 2) and (B, m, 4, 2), a selector, and for `nearest` a point (B, 2). Out:
the crossing (B, 2). Fails with "no-crossing", "many-crossings" (for `only`), "tie",
"tangent-crossing" where they only touch, and "overlap" where they run along each other.

    crossing(centre, hem, "lowest").value                # (B, 2)
"""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray

from godet.geometry.angles import direction_on
from godet.geometry.bodies import finite, matched
from godet.geometry.cubics import Place, cubic_at, derivative, evaluate, point_on
from godet.geometry.dual import Values, implicit, value_of
from godet.geometry.guards import Breach, Guarded
from godet.geometry.locating import closest_place
from godet.geometry.meetings import Crossings, crossings
from godet.geometry.overlaps import overlap
from godet.geometry.points import cross, distance, dot, norm

Selector = Literal["nearest", "lowest", "highest", "innermost", "outermost", "first", "only"]

_TIE = 1e-6  # mm
_TANGENT = 1e-4  # radians
_TURNS = 20


@np.errstate(all="ignore")
def crossing(a: Values, b: Values, selector: Selector, reference: Values | None = None) -> Guarded:
    """The crossing (B, 2) of two curves.

    `nearest` takes the one closest to `reference` (B, 2); `lowest` and `highest` go by depth,
    `innermost` and `outermost` by across, `first` is the first along `a`, `only` allows no other.
    Fails with "no-crossing" {closest}, "many-crossings" {count}, "tie" {difference},
    "tangent-crossing" {angle}, "overlap" {length}.
    """
    if reference is None:
        a, b = matched(a, b)
    else:
        a, b, reference = matched(a, b, reference)
    found = crossings(a, b)
    key = np.where(found.valid, _key(found, selector, reference), np.inf)
    chosen = np.argmin(key, axis=1)
    body = np.arange(len(chosen))
    on_a = Place(found.cubic_a[body, chosen], found.share_a[body, chosen])
    on_b = Place(found.cubic_b[body, chosen], found.share_b[body, chosen])
    # a place where a handle has no length still has a direction
    way_a, way_b = (direction_on(value_of(c), p).value for c, p in ((a, on_a), (b, on_b)))
    speed = derivative(value_of(cubic_at(a, on_a)), on_a.share)
    # Seen along b, the first curve's point has to stay on the second: one equation for its
    # parameter.
    residual = cross(point_on(a, on_a) - point_on(b, on_b), way_b)
    share = implicit(on_a.share, residual, cross(speed, way_b))
    exists = found.valid[:, 0]
    known = exists if reference is None else exists & finite(reference)
    point = np.where(known[:, None], evaluate(cubic_at(a, on_a), share), np.nan)
    angle = np.arctan2(np.abs(cross(way_a, way_b)), np.abs(dot(way_a, way_b)))
    touches = exists & (angle < _TANGENT)
    breaches = [
        _no_crossing(value_of(a), value_of(b), ~exists & finite(a, b)),
        _overlap(value_of(a), value_of(b), found),
        Breach("tangent-crossing", touches, {"angle": angle}),
    ]
    if selector == "only":
        count = found.valid.sum(axis=1)
        breaches.append(Breach("many-crossings", count > 1, {"count": count.astype(np.float64)}))
    elif selector != "first":
        breaches.append(_tie(key))
    return Guarded(point, tuple(breaches))


def crossing_by(a: Values, b: Values, *reference: Values, selector: Selector) -> Guarded:
    """`crossing`, as a graph calls it: the reference last, where there is one."""
    return crossing(a, b, selector, *reference)


def _key(found: Crossings, selector: Selector, reference: Values | None) -> NDArray[np.float64]:
    """What the chosen crossing has least of, (B, K)."""
    across, down = found.point[..., 0], found.point[..., 1]
    match selector:
        case "nearest":
            if reference is None:
                raise TypeError("the nearest crossing needs a reference point")
            away: NDArray[np.float64] = norm(found.point - value_of(reference)[:, None])
            return away
        case "lowest":
            return -down
        case "highest":
            return down
        case "innermost":
            return across
        case "outermost":
            return -across
        case "first" | "only":
            return found.parameter_a


def _tie(key: NDArray[np.float64]) -> Breach:
    if key.shape[1] == 1:
        return Breach("tie", np.zeros(len(key), dtype=bool), {"difference": np.zeros(len(key))})
    least = np.sort(key, axis=1)
    difference = np.where(np.isfinite(least[:, 1]), least[:, 1] - least[:, 0], np.inf)
    return Breach("tie", difference <= _TIE, {"difference": difference})


def _overlap(a: NDArray[np.float64], b: NDArray[np.float64], found: Crossings) -> Breach:
    """The bodies whose curves run along each other, with the length (B,) for which they do; such
    curves touch at one of the places found."""
    body = np.arange(len(a))[:, None]
    way_a = derivative(a[body, found.cubic_a], found.share_a)
    way_b = derivative(b[body, found.cubic_b], found.share_b)
    touching = np.abs(cross(way_a, way_b)) <= _TANGENT * np.abs(dot(way_a, way_b))
    suspected = (found.valid & touching).any(axis=1)
    length = np.zeros(len(suspected))
    if suspected.any():
        length[suspected] = overlap(a[suspected], b[suspected])
    return Breach("overlap", length > 0.0, {"length": length})


def _no_crossing(
    a: NDArray[np.float64], b: NDArray[np.float64], failed: NDArray[np.bool_]
) -> Breach:
    """The failing bodies, with how near (B,) their curves come to each other."""
    closest = np.zeros(len(failed))
    if failed.any():
        closest[failed] = _closest_approach(a[failed], b[failed])
    return Breach("no-crossing", failed, {"closest": closest})


def _closest_approach(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.float64]:
    """From the nearest pair of samples, by turns to the closest place on the other curve."""
    shares = np.linspace(0.0, 1.0, 9)
    samples = evaluate(a[:, :, None], shares[None, None]).reshape(len(a), -1, 2)
    others = evaluate(b[:, :, None], shares[None, None]).reshape(len(b), -1, 2)
    away = norm(samples[:, :, None] - others[:, None]).min(axis=2)
    on_a = samples[np.arange(len(a)), np.argmin(away, axis=1)]
    for _ in range(_TURNS):
        on_b = point_on(b, closest_place(b, on_a))
        on_a = point_on(a, closest_place(a, on_b))
    near: NDArray[np.float64] = distance(on_a, on_b)
    return near
