"""The column dress on the knit tee, written out by hand in NumPy: what Godet is measured against.

In: arrays of bust, waist, hip and height (B,) in mm. Out: a dict of arrays. Points are complex,
across + down * i: "front.underarm" (B,); edges are control points: "edge front.side" (n, 4, B);
"length ..", "girth .." and "check .." are (B,). A close fit with a short sleeve, the default
choices, and a jersey that stretches 40 % across. Nothing here comes from Godet but the formulas of
its recipes.

    plain_dress(np.array([940.0]), np.array([760.0]), np.array([1020.0]), np.array([1680.0]))
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[Any]

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(32)  # 1e-10 mm on all curves of the dress
_SHARES, _WEIGHTS = 0.5 + 0.5 * _NODES, 0.5 * _WEIGHTS
DEGREE = np.pi / 180.0


def line(a: Array, b: Array) -> Array:
    return np.array([a, a + (b - a) / 3.0, b - (b - a) / 3.0, b])


def hobby(a: Array, b: Array, leave: Array | None, arrive: Array | None) -> Array:
    """Hobby's curve between two points; an end without a direction turns as the other one."""
    chord = b - a
    start = leave / chord if leave is not None else chord / arrive
    end = chord / arrive if arrive is not None else start
    start, end = start / abs(start), end / abs(end)
    return np.array([a, a + start * chord * reach(start, end), b - chord / end * reach(end, start), b])


def reach(own: Array, other: Array) -> Array:
    bend = (own.imag - other.imag / 16) * (other.imag - own.imag / 16) * (own.real - other.real)
    slowing = 1 + (np.sqrt(5) - 1) / 2 * own.real + (3 - np.sqrt(5)) / 2 * other.real
    return np.minimum((2 + np.sqrt(2) * bend) / (3 * slowing), 4.0)


def through(a: Array, b: Array, c: Array, leave: Array, arrive: Array) -> Array:
    """Hobby's spline through three points, (2, 4, B)."""
    first, last = b - a, c - b
    turn, theta, phi = np.angle(last / first), np.angle(leave / first), np.angle(last / arrive)
    p, q = 1 / abs(first), 1 / abs(last)
    middle = (-2 * p * turn - p * theta + q * phi) / (2 * (p + q))
    way = last * np.exp(1j * middle)
    return np.array([hobby(a, b, leave, way), hobby(b, c, way, arrive)])


def arc(a: Array, b: Array, leave: Array) -> Array:
    """The arc of a circle as four cubics of equal sweep, (4, 4, B)."""
    alpha = np.angle((b - a) / leave)
    knots = [a + (b - a) * ratio(alpha, i / 4) * np.exp(1j * alpha * (i / 4 - 1)) for i in range(5)]
    knots[0], knots[4] = a + 0 * b, b
    handle = 2 / 3 * abs(b - a) * ratio(alpha, 1 / 4) / (1 + np.cos(alpha / 4))
    ways = [leave / abs(leave) * np.exp(1j * alpha * i / 2) * handle for i in range(5)]
    return np.array([
        [knots[i], knots[i] + ways[i], knots[i + 1] - ways[i + 1], knots[i + 1]] for i in range(4)
    ])  # fmt: skip


def ratio(alpha: Array, share: float) -> Array:
    return np.where(alpha == 0, share, np.sin(share * alpha) / np.sin(np.where(alpha, alpha, 1)))


def at(c: Array, t: Array) -> Array:
    u = 1 - t
    return u * u * u * c[0] + 3 * u * u * t * c[1] + 3 * u * t * t * c[2] + t * t * t * c[3]


def speed(c: Array, t: Array) -> Array:
    u, (p, q, r) = 1 - t, 3 * np.diff(c, axis=0)
    return np.abs(u * u * p + 2 * u * t * q + t * t * r)


def length(c: Array, end: Array | float = 1.0) -> Array:
    """The arc length of a cubic (4, B) from its start to a parameter."""
    total = 0.0
    for share, weight in zip(_SHARES, _WEIGHTS, strict=True):
        total = total + weight * speed(c, share * end)
    return total * end


def share_at_length(c: Array, distance: Array, total: Array) -> Array:
    t = distance / total
    for _ in range(20):
        step = (length(c, t) - distance) / speed(c, t)
        t = t - step
        if np.max(np.abs(step)) < 1e-13:
            break
    return t


def share_at_depth(c: Array, depth: Array) -> Array:
    t = np.full(depth.shape, 0.5)
    for _ in range(50):
        u, (p, q, r) = 1 - t, 3 * np.diff(c.imag, axis=0)
        step = (at(c.imag, t) - depth) / (u * u * p + 2 * u * t * q + t * t * r)
        t = t - step
        if np.max(np.abs(step)) < 1e-15:
            break
    return t


def part(c: Array, t: Array) -> Array:
    """The cubic from its start to a parameter."""
    once = c[:-1] + t * np.diff(c, axis=0)
    twice = once[:-1] + t * np.diff(once, axis=0)
    return np.array([c[0], once[0], twice[0], twice[0] + t * (twice[1] - twice[0])])


def secant(f: Callable[[Array], Array], x0: Array, x1: Array) -> Array:
    f0, f1 = f(x0), f(x1)
    for _ in range(50):
        moving = f1 != f0
        step = np.where(moving, f1 * (x1 - x0) / np.where(moving, f1 - f0, 1), 0.0)
        x0, f0, x1 = x1, f1, x1 - step
        if np.max(np.abs(step)) < 1e-10:
            break
        f1 = f(x1)
    return x1
