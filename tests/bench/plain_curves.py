"""Curves for the plain dress: cubics of complex numbers, as one would write them by hand in NumPy.

In: points (B,) as across + down * i in mm, cubics (4, B) of their control points, parameters (B,)
in 0 to 1. Out: the same. Nothing is checked and nothing comes from Godet.

    length(hobby(p, q, leave=1j, arrive=None))           # (B,) mm
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[Any]

_RULE = np.array(np.polynomial.legendre.leggauss(24)).T  # 1e-10 mm on every curve of the dress


def line(a: Array, b: Array) -> Array:
    return np.array(np.broadcast_arrays(a, a + (b - a) / 3, b - (b - a) / 3, b))


def hobby(a: Array, b: Array, leave: Any, arrive: Any) -> Array:
    """Hobby's curve between two points; an end without a direction turns as the other one."""
    chord = b - a
    start = leave / chord if leave is not None else chord / arrive
    end = chord / arrive if arrive is not None else start
    start, end = start / abs(start), end / abs(end)
    first, last = start * chord * reach(start, end), chord / end * reach(end, start)
    return np.array(np.broadcast_arrays(a, a + first, b - last, b))


def reach(own: Array, other: Array) -> Array:
    bend = (own.imag - other.imag / 16) * (other.imag - own.imag / 16) * (own.real - other.real)
    slowing = 1 + (np.sqrt(5) - 1) / 2 * own.real + (3 - np.sqrt(5)) / 2 * other.real
    return np.asarray(np.minimum((2 + np.sqrt(2) * bend) / (3 * slowing), 4))


def at(c: Array, t: Array) -> Array:
    u = 1 - t
    p, q, r, s = c
    return np.asarray(u * u * u * p + 3 * u * u * t * q + 3 * u * t * t * r + t * t * t * s)


def velocity(c: Array) -> Callable[[Any], Array]:
    p, q, r = 3 * np.diff(c, axis=0)
    square, double = p - 2 * q + r, 2 * (q - p)
    return lambda t: (square * t + double) * t + p


def length(c: Array, end: Any = 1.0) -> Array:
    """The arc length of a cubic (4, B) from its start to a parameter."""
    way, half = velocity(c), end / 2
    return np.asarray(sum(w * abs(way(half + half * node)) for node, w in _RULE) * half)


def newton(f: Callable[[Array], tuple[Array, Array]], t: Array) -> Array:
    for _ in range(30):
        value, slope = f(t)
        t = t - value / slope
        if np.max(abs(value)) < 1e-10:
            break
    return t


def at_length(c: Array, distance: Any) -> Array:
    way, guess = velocity(c), distance / length(c)
    return newton(lambda t: (length(c, t) - distance, abs(way(t))), guess)


def across_at(c: Array, depth: Array) -> Array:
    way, middle = velocity(c), np.full(depth.shape, 0.5)
    return at(c, newton(lambda t: (at(c, t).imag - depth, way(t).imag), middle)).real


def secant(f: Callable[[Array], Array], a: Array, b: Array) -> Array:
    at_a, at_b = f(a), f(b)
    for _ in range(30):
        flat = at_a == at_b
        step = np.where(flat, 0, at_b * (b - a) / np.where(flat, 1, at_b - at_a))
        a, at_a, b = b, at_b, b - step
        if np.max(abs(step)) < 1e-10:
            break
        at_b = f(b)
    return b


def part(c: Array, t: Array) -> Array:
    """The cubic from its start to a parameter."""
    once = c[:-1] + t * np.diff(c, axis=0)
    twice = once[:-1] + t * np.diff(once, axis=0)
    return np.array([c[0], once[0], twice[0], twice[0] + t * (twice[1] - twice[0])])
