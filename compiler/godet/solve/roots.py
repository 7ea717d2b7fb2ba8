"""Finds one unknown in a range, for all bodies at once.

In: a function of trial values, and for each body a range. Out: the root, or why there is none.
The range is cut into `SAMPLES` equal steps; a change of sign between two neighbours holds a root,
unless the sides jump there. No root: no answer, with the closest approach. More than one: the
selector says which, or it is ambiguous. Each is closed in by Chandrupatla's method (Advances in
Engineering Software 28, 1997) to the last bits of the number; a body that has converged is frozen,
so its bits do not depend on the others.

    roots(lambda x, lanes: x * x - 2.0, np.array([0.0]), np.array([2.0]), None, None).root
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from godet.solve.trials import Bodies, Floats

# trial values and the bodies they are for -> how far the two sides of the equation are apart
Residual: TypeAlias = Callable[[Floats, Bodies], Floats]

SAMPLES = 16
_STEPS = 80
_LANES = 8_192  # trial values computed at once, so that their numbers stay in the cache
_BESIDE = 1e-6  # of the range: how far on either side of a root it is tried how flat it is
# of what an equation says elsewhere: so near to saying nothing it settles nothing surely
DOUBTFUL = 1e-7
CLOSE_ENOUGH = 1e-6  # mm or radians: a "root" farther off than this is a jump


@dataclass(frozen=True, slots=True)
class Roots:
    root: Floats
    count: NDArray[np.intp]  # of roots in the range
    least: Floats  # the lowest and the highest of them; NaN where there is none
    most: Floats
    closest: Floats  # the smallest distance between the two sides among the samples
    closest_at: Floats
    tie: NDArray[np.bool_]  # two roots equally near to the reference
    flat: NDArray[np.bool_]  # the sides hardly change at the root, though they do elsewhere


def roots(
    residual: Residual,
    lowest: Floats,
    highest: Floats,
    selector: str | None,
    reference: Floats | None,
) -> Roots:
    """The root for each body (B,), NaN where there is none."""
    bodies = len(lowest)
    grid = lowest + (highest - lowest) * np.linspace(0.0, 1.0, SAMPLES + 1)[:, None]
    sides = _sampled(residual, grid)
    with np.errstate(invalid="ignore"):
        changes = (sides[:-1] * sides[1:] < 0.0) | (sides[:-1] == 0.0)
        changes[-1] |= sides[-1] == 0.0
        distance = np.where(np.isnan(sides), np.inf, np.abs(sides))
    nearest = np.argmin(distance, axis=0)
    each = np.arange(bodies)
    rank = np.cumsum(changes, axis=0)  # the first change of sign is 1, the second 2, ..
    found = [
        _root(residual, grid, sides, changes & (rank == number), each)
        for number in range(1, max(1, int(rank[-1].max())) + 1)
    ]
    every = np.stack(found)  # (changes, B), NaN where the sides jump and never meet
    root, tie = _chosen(every, selector, reference)
    count = np.sum(~np.isnan(every), axis=0).astype(np.intp)
    least, _ = _chosen(every, "lowest", None)
    most, _ = _chosen(every, "highest", None)
    flat = _flat(residual, grid, sides, root)
    return Roots(root, count, least, most, distance[nearest, each], grid[nearest, each], tie, flat)


def _flat(residual: Residual, grid: Floats, sides: Floats, root: Floats) -> NDArray[np.bool_]:
    """The bodies (B,) where values near the root do as well as far as can be told: the sides change
    less than a `DOUBTFUL` share of what they change in the steepest step of the grid."""
    flat = np.zeros(len(root), dtype=bool)
    lanes = np.nonzero(~np.isnan(root))[0]
    if not len(lanes):
        return flat
    lowest, highest, at = grid[0, lanes], grid[-1, lanes], root[lanes]
    little = _BESIDE * (highest - lowest)
    before, behind = np.maximum(at - little, lowest), np.minimum(at + little, highest)
    change = np.abs(residual(behind, lanes) - residual(before, lanes)) / (behind - before)
    with np.errstate(invalid="ignore"):
        steps = np.abs(np.diff(sides[:, lanes], axis=0)) / np.diff(grid[:, lanes], axis=0)
    flat[lanes] = change <= DOUBTFUL * np.nan_to_num(steps).max(axis=0)
    return flat


def _root(
    residual: Residual, grid: Floats, sides: Floats, change: NDArray[np.bool_], each: Bodies
) -> Floats:
    """The root (B,) in each body's one marked step of the grid; NaN where none is marked, and
    where the sides change sign without meeting."""
    has, at = np.asarray(change.any(axis=0)), np.argmax(change, axis=0)
    # the bracket, and the sample beside it, with which the first step need not be a halving
    first = at == 0
    corners = (at + first, at + ~first, np.where(first, 2, at - 1))
    root, miss = _closed_in(
        residual,
        tuple(grid[corner, each] for corner in corners),
        tuple(sides[corner, each] for corner in corners),
        has,
    )
    return np.where(has & (miss <= CLOSE_ENOUGH), root, np.nan)


def _chosen(
    every: Floats, selector: str | None, reference: Floats | None
) -> tuple[Floats, NDArray[np.bool_]]:
    """The root that the selector means (the first without one), and whether two are as near."""
    there = ~np.isnan(every)
    number = np.argmax(there, axis=0)
    tie = np.zeros(every.shape[1], dtype=bool)
    if selector == "highest":
        number = len(every) - 1 - np.argmax(there[::-1], axis=0)
    elif selector == "nearest" and reference is not None:
        away = np.where(there, np.abs(every - reference), np.inf)
        number = np.argmin(away, axis=0)
        least = away.min(axis=0)
        tie = np.sum(there & (away <= least + CLOSE_ENOUGH), axis=0) > 1
    return np.asarray(every[number, np.arange(every.shape[1])]), tie


def _sampled(residual: Residual, grid: Floats) -> Floats:
    """The residual at every sample (samples, bodies), a few rows of the grid at a time."""
    rows, bodies = grid.shape
    together = max(1, _LANES // bodies)
    parts = []
    for start in range(0, rows, together):
        part = grid[start : start + together]
        lanes = np.tile(np.arange(bodies), len(part))
        parts.append(residual(part.reshape(-1), lanes).reshape(part.shape))
    return np.concatenate(parts)


def _closed_in(
    residual: Residual,
    trials: tuple[Floats, ...],
    sides: tuple[Floats, ...],
    has: NDArray[np.bool_],
) -> tuple[Floats, Floats]:
    """The root between the first and the second trial value, the third lying beyond the first;
    and how far the sides are apart there."""
    at_first, at_second = np.abs(sides[0]), np.abs(sides[1])
    best = np.where(at_first <= at_second, trials[0], trials[1])
    miss = np.minimum(at_first, at_second)
    lanes = np.nonzero(has)[0]
    a, b, c = (values[lanes] for values in trials)
    fa, fb, fc = (values[lanes] for values in sides)
    share = np.clip(_next_share(a, b, c, fa, fb, fc), 1e-6, 1.0 - 1e-6)
    for _ in range(_STEPS):
        if not len(lanes):
            break
        x = a + share * (b - a)
        fx = residual(x, lanes)
        same = np.sign(fx) == np.sign(fa)
        c, fc = np.where(same, a, b), np.where(same, fa, fb)
        b, fb = np.where(same, b, a), np.where(same, fb, fa)
        a, fa = x, fx
        smaller = np.abs(fa) < np.abs(fb)
        xm, fm = np.where(smaller, a, b), np.where(smaller, fa, fb)
        better = np.abs(fm) <= miss[lanes]
        best[lanes] = np.where(better, xm, best[lanes])
        miss[lanes] = np.where(better, np.abs(fm), miss[lanes])
        width = np.abs(b - a)
        tight = 2.0 * np.spacing(np.abs(xm)) + 1e-13
        done = (fm == 0.0) | (width <= 2.0 * tight) | np.isnan(fx)
        share = np.clip(_next_share(a, b, c, fa, fb, fc), tight / width, 1.0 - tight / width)
        keep = ~done
        lanes, share = lanes[keep], share[keep]
        a, b, c, fa, fb, fc = (each[keep] for each in (a, b, c, fa, fb, fc))
    return best, miss


@np.errstate(all="ignore")
def _next_share(a: Floats, b: Floats, c: Floats, fa: Floats, fb: Floats, fc: Floats) -> Floats:
    """Inverse quadratic interpolation where it is safe, halving elsewhere."""
    xi = (a - b) / (c - b)
    phi = (fa - fb) / (fc - fb)
    safe = (phi**2 < xi) & ((1.0 - phi) ** 2 < 1.0 - xi)
    quadratic = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (
        fc - fb
    )
    share = np.where(safe, quadratic, 0.5)
    return np.where(np.isfinite(share), share, 0.5)
