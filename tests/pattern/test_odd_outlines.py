"""Cutting lines of outlines as they hardly ever come: one edge, handles of no length, tips."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hand_drafts import Floats, curved, dense, one_piece, problems_of, rectangle, straight
from shapely import LineString, Polygon, box

from godet.pattern.pieces import Piece


def _outer(piece: Piece) -> Polygon:
    return Polygon(dense(piece.cut_line))


def _circle(radius: float) -> Floats:
    k = 0.5522847498 * radius  # the usual circle of four cubics, within 0.03 %
    quarter = np.array([(radius, 0.0), (radius, k), (k, radius), (0.0, radius)])
    turn = np.array([[0.0, 1.0], [-1.0, 0.0]])
    return np.stack([quarter @ np.linalg.matrix_power(turn, n) for n in range(4)])


def test_one_round_edge_is_an_outline_by_itself() -> None:
    piece = one_piece({"round": _circle(50.0)}, allow={"round": 12.0})
    assert piece.area_cut == pytest.approx(math.pi * 62.0**2, rel=1e-3)


def test_handles_of_no_length_do_no_harm() -> None:
    side = curved((200, 0), (200, 0), (240, 200), (200, 300))
    other = curved((0, 0), (30, 100), (0, 300), (0, 300))
    piece = one_piece(rectangle(200, 300) | {"side": side, "centre": other})
    drawn = Polygon(np.concatenate([dense(side), dense(other)[::-1]]))
    expected = drawn.buffer(10.0, join_style="mitre", mitre_limit=2.5)  # shapely
    assert _outer(piece).exterior.hausdorff_distance(expected.exterior) < 0.05


def test_an_allowance_may_be_larger_than_the_piece() -> None:
    edges = rectangle(20, 30)
    piece = one_piece(edges, allow=dict.fromkeys(edges, 500.0))
    assert _outer(piece).symmetric_difference(box(-500, -500, 520, 530)).area < 1e-3


def test_an_allowance_may_be_next_to_nothing() -> None:
    edges = rectangle(200, 300) | {"side": curved((200, 0), (230, 100), (180, 200), (200, 300))}
    piece = one_piece(edges, allow=dict.fromkeys(edges, 1e-4))
    assert piece.area_cut == pytest.approx(piece.area_drawn, abs=0.2)


@pytest.mark.parametrize("apart", [0.0, 0.3, -0.3])
def test_a_tip_between_edges_that_turn_back_is_squared_off(apart: float) -> None:
    # a leaf whose edges come to its tip from almost the same side
    edges = {
        "upper": curved((0, 0), (40, -40), (100, apart), (160, 0)),
        "lower": curved((160, 0), (100, -apart), (40, 40), (0, 0)),
    }
    piece = one_piece(edges, allow=dict.fromkeys(edges, 8.0))
    outline = LineString(np.concatenate([dense(edges["upper"]), dense(edges["lower"])]))
    line = dense(piece.cut_line)
    away = min(outline.distance(point) for point in map(_point, line[::20]))
    assert away > 8.0 - 0.02
    assert line[:, 0].max() == pytest.approx(160.0 + 2.5 * 8.0, abs=1e-6)


def _point(at: Floats) -> LineString:
    return LineString([at, at])


def test_edges_without_an_allowance_are_their_own_cutting_line() -> None:
    edges = rectangle(200, 300) | {"top": straight((0, 0), (90, 5), (92, -5), (94, 5), (200, 0))}
    piece = one_piece(edges, allow=dict.fromkeys(edges))
    assert piece.area_cut == piece.area_drawn


def test_a_hollow_round_tighter_than_its_allowance_all_along_is_told() -> None:
    # three quarters of a circle let into the top: its mouth is narrower than its allowances
    parts = []
    for first, last in pairwise(np.radians([225.0, 135.0, 45.0, -45.0])):
        k = 4 / 3 * math.tan((last - first) / 4)
        start, end = ((math.cos(a), math.sin(a)) for a in (first, last))
        leaving, arriving = (-start[1], start[0]), (-end[1], end[0])
        handles = np.add(start, np.multiply(k, leaving)), np.subtract(end, np.multiply(k, arriving))
        parts.append([start, *handles, end])
    hollow = 20.0 * np.array(parts) + (100.0, 20.0 * math.sqrt(0.5))
    top = [straight((0, 0), hollow[0, 0]), hollow, straight(hollow[-1, 3], (200, 0))]
    edges = rectangle(200, 300) | {"top": np.concatenate(top)}
    # with room it is cut; without, its mouth is closed by its own allowances
    assert _outer(one_piece(edges, allow=dict.fromkeys(edges, 4.0))).is_valid
    (found,) = problems_of(edges, allow=dict.fromkeys(edges, 25.0))
    assert found.code in ("radius-too-small", "allowance-crosses")
