"""What tests of skirts ask of a draft: the waist as it is sewn, and how edges meet.

In: draft.json of a body, parsed. Out: lengths in mm and angles in degrees, worked out by fontTools
and numpy from the cubics of the file.

    sewn_waist(draft, "front")   # (up to the dart, behind the dart), one length where there is none
"""

from __future__ import annotations

from typing import Any

import numpy as np
from drafts import Cubics, degrees_between, end_way, length, path, point, start_way
from numpy.typing import NDArray

from godet.orders.records import Body

HALVES = ("front", "back")


def from_the_centre(draft: dict[str, Any], piece: str, edge: str) -> Cubics:
    """The waist or hem, whichever way the file has it."""
    cubics = path(draft, piece, edge)
    return cubics if cubics[0, 0, 0] <= cubics[-1, 3, 0] else cubics[::-1, ::-1]


def waist_parts(draft: dict[str, Any], piece: str) -> list[Cubics]:
    """The waist without its dart's mouth."""
    waist = from_the_centre(draft, piece, "waist")
    darts = draft["pieces"][piece]["darts"]
    if not darts:
        return [waist]
    first, last = (np.array(end) for end in darts["waist_dart"]["mouth"])
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


def chosen(draft: dict[str, Any], name: str) -> float:
    """A length that was chosen, which the file tells in cm to a tenth or better."""
    return float(draft["choices"][name].removesuffix(" cm")) * 10.0


def children() -> list[Body]:
    from drafts import body
    from library_bodies import CHILDREN

    return [
        body(label, **{name: value / 10.0 for name, value in measures.items()})
        for label, measures in CHILDREN.items()
    ]
