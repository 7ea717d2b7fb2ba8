"""Garments finished to be cut, for the smallest, a middle and the largest woman and three odd ones.

Each cell under one set of its choices. Outlines are looked at by shapely, from the cubics.
"""

from __future__ import annotations

import json
from typing import Any

import numpy as np
import pytest
from cells import DRAFTED, Cell
from drafts import JERSEY, LINEN, dense
from shapely import LinearRing, Polygon
from trials import choosings, draft_of
from wearers import six

from godet.output.draft_json import draft_json
from godet.tools.drafting import draft_all, prepared_for

_FABRICS = {"jersey": JERSEY, "linen": LINEN}


@pytest.mark.parametrize("number", range(len(DRAFTED)), ids=lambda n: DRAFTED[n].name)
def test_every_piece_can_be_cut_out(number: int):
    cell = DRAFTED[number]
    for made in finished(cell, number):
        assert made["pieces"]
        for name, piece in made["pieces"].items():
            drawn, edge = outline(piece), outline_of(piece["cut_line"])
            where = f"{cell.name}, {made['body']}, {name}"
            assert LinearRing(drawn).is_simple, where
            assert LinearRing(edge).is_simple, where
            # what is sewn lies within what is cut
            assert Polygon(edge).buffer(0.01).covers(Polygon(drawn)), where


def finished(cell: Cell, number: int) -> list[dict[str, Any]]:
    """draft.json of each of the six; every one must be finished, or refused by a requirement."""
    sets = choosings(cell)
    chosen = sets[number % len(sets)]
    main = _FABRICS[chosen.cloth]
    draft = draft_of(cell)
    cloths = {piece.cut.cloth for piece in draft.pieces.values() if piece.cut is not None}
    women = six(cell)
    prepared = prepared_for(women, dict.fromkeys({"main", *cloths}, main), chosen.words, draft)
    patterns, problems = draft_all(prepared)
    assert all(pattern is not None for pattern in patterns), [p.sentence for p in problems][:3]
    return [json.loads(draft_json(pattern)) for pattern in patterns if pattern is not None]


def outline(piece: dict[str, Any]) -> np.ndarray[Any, np.dtype[np.float64]]:
    """The edges one behind the other, as points."""
    parts: list[Any] = []
    for name in piece["outline"]:
        points = dense(np.array(piece["edges"][name]["path"]).reshape(-1, 4, 2), 60)
        if parts:
            ends = np.hypot(*(parts[-1][-1] - points[0])), np.hypot(*(parts[-1][-1] - points[-1]))
            points = points if ends[0] <= ends[1] else points[::-1]
        elif len(piece["outline"]) > 1:
            following = dense(
                np.array(piece["edges"][piece["outline"][1]]["path"]).reshape(-1, 4, 2), 2
            )
            near = [
                min(np.hypot(*(end - p)) for p in following[[0, -1]]) for end in points[[0, -1]]
            ]
            points = points if near[1] <= near[0] else points[::-1]
        parts.append(points)
    return _apart(np.concatenate(parts))


def outline_of(path: Any) -> np.ndarray[Any, np.dtype[np.float64]]:
    return _apart(dense(np.array(path).reshape(-1, 4, 2), 60))


def _apart(points: np.ndarray[Any, np.dtype[np.float64]]) -> np.ndarray[Any, np.dtype[np.float64]]:
    """Without the points that lie on the one before."""
    far = np.hypot(*(points - np.roll(points, 1, axis=0)).T) > 1e-4
    return np.asarray(points[far])
