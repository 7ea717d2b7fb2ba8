"""Drafts many bodies in one batch and hands them out as a reader of draft.json sees them.

Lengths, places and directions are worked out here by other libraries (scipy, fontTools), from the
cubics of the file alone, so that the tests never ask Godet about itself.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path as FilePath
from typing import Any

import numpy as np
from fontTools.misc.bezierTools import calcCubicArcLength
from numpy.typing import NDArray
from scipy.optimize import brentq

from godet.base.places import Place
from godet.orders.records import Body, Fabric, Measured
from godet.output.draft_json import draft_json
from godet.tools.compiling import compile_recipe
from godet.tools.drafting import draft_all, prepared_for

Cubics = NDArray[np.float64]  # (n, 4, 2)
_HERE = Place("test", 1, 1, 1, 1)

JERSEY = Fabric("jersey", "knit", 0.4, 0.15, 1500.0, 0.0, 0.0, None, None, "none", "")
LINEN = Fabric("linen", "woven", 0.0, 0.0, 1400.0, 0.0, 0.0, None, None, "none", "")


def body(label: str, **centimetres: float) -> Body:
    """A body from measures in cm."""
    measures = {n: Measured(v * 10.0, str(v), _HERE) for n, v in centimetres.items()}
    return Body(label, "cm", measures, "test")


def drafts(
    recipe: str | FilePath,
    bodies: list[Body],
    fabric: Fabric = JERSEY,
    choices: Mapping[str, float | str] | None = None,
    blocks: Mapping[str, str] | None = None,
) -> list[dict[str, Any]]:
    """draft.json of each body, parsed; every body must draft."""
    compiled = compile_recipe(str(recipe), blocks)
    assert compiled.draft is not None, [p.sentence for p in compiled.problems]
    prepared = prepared_for(bodies, {"main": fabric, "rib": fabric}, choices or {}, compiled.draft)
    patterns, problems = draft_all(prepared)
    assert all(p is not None for p in patterns), [p.sentence for p in problems][:5]
    return [json.loads(draft_json(pattern)) for pattern in patterns if pattern is not None]


def path(draft: dict[str, Any], piece: str, edge: str) -> Cubics:
    """The cubics (n, 4, 2) of an edge."""
    return np.array(draft["pieces"][piece]["edges"][edge]["path"]).reshape(-1, 4, 2)


def point(draft: dict[str, Any], piece: str, name: str) -> NDArray[np.float64]:
    return np.array(draft["pieces"][piece]["points"][name])


def length(cubics: Cubics) -> float:
    """By fontTools, to well below a micrometre."""
    return sum(calcCubicArcLength(*map(tuple, cubic), tolerance=1e-7) for cubic in cubics)


def at(cubic: NDArray[np.float64], t: float) -> NDArray[np.float64]:
    s = 1.0 - t
    weights = np.array([s**3, 3 * s * s * t, 3 * s * t * t, t**3])
    return np.asarray(weights @ cubic)


def dense(cubics: Cubics, each: int = 200) -> NDArray[np.float64]:
    """Points along the curve."""
    return np.concatenate([[at(c, t) for t in np.linspace(0, 1, each)] for c in cubics])


def across_at(cubics: Cubics, down: float) -> float:
    """How far across a curve passes a depth, by scipy's brentq on the cubic that spans it."""
    for cubic in cubics:
        first, last = cubic[0, 1] - down, cubic[3, 1] - down
        if abs(first) < 1e-9:
            return float(cubic[0, 0])
        if abs(last) < 1e-9:
            return float(cubic[3, 0])
        if first * last < 0:
            t = brentq(lambda t, c=cubic: at(c, t)[1] - down, 0.0, 1.0, xtol=1e-14)
            return float(at(cubic, t)[0])
    raise AssertionError(f"the curve does not pass {down}")


def start_way(cubics: Cubics) -> NDArray[np.float64]:
    way = cubics[0, 1] - cubics[0, 0]
    return np.asarray(way / np.hypot(*way))


def end_way(cubics: Cubics) -> NDArray[np.float64]:
    way = cubics[-1, 3] - cubics[-1, 2]
    return np.asarray(way / np.hypot(*way))


def degrees_between(a: NDArray[np.float64], b: NDArray[np.float64]) -> float:
    return float(np.degrees(np.arctan2(abs(a[0] * b[1] - a[1] * b[0]), a @ b)))


def turns(cubics: Cubics, each: int = 400) -> NDArray[np.float64]:
    """The signed curvature along the curve, at points inside the cubics."""
    found = []
    for c in cubics:
        t = np.linspace(0.002, 0.998, each)[:, None]
        s = 1 - t
        first = 3 * (s * s * (c[1] - c[0]) + 2 * s * t * (c[2] - c[1]) + t * t * (c[3] - c[2]))
        second = 6 * (s * (c[2] - 2 * c[1] + c[0]) + t * (c[3] - 2 * c[2] + c[1]))
        cross = first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]
        found.append(cross / np.hypot(first[:, 0], first[:, 1]) ** 3)
    return np.concatenate(found)


def inflections(cubics: Cubics) -> int:
    """How often the curve changes the side it bends to; flatter than 100 m counts as straight."""
    bends = turns(cubics)
    signs = np.sign(bends[np.abs(bends) > 1e-5])
    return int(np.sum(signs[1:] != signs[:-1]))
