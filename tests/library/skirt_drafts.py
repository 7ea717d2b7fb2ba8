"""What tests of skirts ask of a draft: the waist as it is sewn, and how edges meet.

In: what draft.json tells of a body's pieces; `geometry` has as much of it for many bodies, and
finishes no piece, which takes longer than all the rest. Out: lengths in mm and angles in degrees,
worked out by fontTools and numpy from the cubics.

    sewn_waist(draft, "front")   # (up to the dart, behind the dart), one length where there is none
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np
from drafts import (
    LINEN,
    Cubics,
    body,
    degrees_between,
    end_way,
    length,
    path,
    point,
    start_way,
)
from library_bodies import CHILDREN
from library_drafts import linked
from numpy.typing import NDArray

from godet.orders.records import Body
from godet.solve.solver import solve
from godet.tools.drafting import prepared_for

HALVES = ("front", "back")


def geometry(
    recipe: str,
    bodies: list[Body],
    choices: Mapping[str, float | str] | None = None,
    **blocks: str,
) -> list[dict[str, Any]]:
    """Points, edges and darts of each body, laid out as in draft.json; every body must draft."""
    draft = linked(recipe, tuple(blocks.items()))
    inputs = prepared_for(bodies, {"main": LINEN}, choices or {}, draft).inputs
    outcome = solve(draft.graph, draft.finds, list(draft.names.values()), inputs)
    return [
        {"pieces": _pieces({n: outcome.value(node, i) for n, node in draft.names.items()})}
        for i in range(len(bodies))
    ]


def _pieces(values: dict[str, Any]) -> dict[str, Any]:
    pieces: dict[str, Any] = {}
    for name, value in values.items():
        piece, _, own = name.rpartition(".")
        known = pieces.setdefault(piece, {"points": {}, "edges": {}, "darts": {}})
        shape = np.shape(value)
        if shape == (2,):
            known["points"][own] = value
        elif shape[1:] == (4, 2):
            # parts cut away keep their cubics, of no length
            long = np.ptp(value, axis=1).max(axis=1) > 1e-6
            known["edges"][own] = {"path": np.ravel(value[long])}
        elif shape == (
            5,
            2,
        ):  # an end of the mouth, its point on the fold, the other end, tip, pivot
            known["darts"][own] = {"mouth": [value[0], value[2]], "pivot": value[4]}
    return pieces


def dart(draft: dict[str, Any], piece: str) -> tuple[NDArray[np.float64], ...]:
    """Both ends of the mouth, and the point that the dart is sewn to."""
    known = draft["pieces"][piece]["darts"]["waist_dart"]
    return np.array(known["mouth"][0]), np.array(known["mouth"][1]), np.array(known["pivot"])


def dart_width(draft: dict[str, Any], piece: str) -> float:
    first, last, _ = dart(draft, piece)
    return float(np.hypot(*(last - first)))


def dart_angle(draft: dict[str, Any], piece: str) -> float:
    """In radians."""
    first, last, tip = dart(draft, piece)
    return float(np.radians(degrees_between(first - tip, last - tip)))


def from_the_centre(draft: dict[str, Any], piece: str, edge: str) -> Cubics:
    """The waist or hem, whichever way the file has it."""
    cubics = path(draft, piece, edge)
    return cubics if cubics[0, 0, 0] <= cubics[-1, 3, 0] else cubics[::-1, ::-1]


def waist_parts(draft: dict[str, Any], piece: str) -> list[Cubics]:
    """The waist without its dart's mouth."""
    waist = from_the_centre(draft, piece, "waist")
    if not draft["pieces"][piece]["darts"]:
        return [waist]
    first, last, _ = dart(draft, piece)
    before = 1 + int(np.argmin(np.hypot(*(waist[:, 3] - first).T)))
    behind = int(np.argmin(np.hypot(*(waist[:, 0] - last).T)))
    assert np.allclose(waist[before - 1, 3], first, atol=1e-3)
    assert np.allclose(waist[behind, 0], last, atol=1e-3)
    return [waist[:before], waist[behind:]]


def sewn_waist(draft: dict[str, Any], piece: str) -> tuple[float, ...]:
    return tuple(length(part) for part in waist_parts(draft, piece))


def turned(places: NDArray[np.float64], about: NDArray[np.float64], by: float):
    """Places (n, 2) turned about one of them, towards outward where they lie below it."""
    cosine, sine = np.cos(by), np.sin(by)
    return about + (places - about) @ np.array([[cosine, -sine], [sine, cosine]])


def away_from(place: NDArray[np.float64], curve: NDArray[np.float64]) -> float:
    """How far a place lies from a curve of many points."""
    return float(np.hypot(*(curve - place).T).min())


def side_from_the_waist(draft: dict[str, Any], piece: str) -> Cubics:
    side = path(draft, piece, "side")
    waist = point(draft, piece, "side_waist")
    return side if np.allclose(side[0, 0], waist, atol=1e-3) else side[::-1, ::-1]


def corners(draft: dict[str, Any], piece: str) -> dict[str, float]:
    """The inner angles of a panel, by the edges that meet there."""
    waist, hem = (from_the_centre(draft, piece, edge) for edge in ("waist", "bottom"))
    side, down = side_from_the_waist(draft, piece), np.array([0.0, 1.0])
    return {
        "waist at centre": degrees_between(start_way(waist), down),
        "waist at side": degrees_between(-end_way(waist), start_way(side)),
        "hem at centre": degrees_between(start_way(hem), -down),
        "hem at side": degrees_between(-end_way(hem), -end_way(side)),
    }


def girth_of(woman: Body, name: str) -> float:
    return woman.measures[name].value


def children() -> list[Body]:
    return [
        body(label, **{name: value / 10.0 for name, value in measures.items()})
        for label, measures in CHILDREN.items()
    ]
