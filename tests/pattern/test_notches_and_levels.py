"""Notches, levels, marks and the grain line of a finished piece."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hand_drafts import (
    HALF_FRONT,
    HandDraft,
    Points,
    curved,
    dense,
    one_piece,
    problems_of,
    rectangle,
    straight,
)
from shapely import LineString, Point, Polygon

from godet.base.words import Severity
from godet.pattern.pieces import Mark, Piece


def _polygon(piece: Piece) -> Polygon:
    parts = [dense(piece.edges[s.edge].path)[:: -1 if s.turned else 1] for s in piece.outline]
    return Polygon(np.concatenate(parts))


@pytest.mark.parametrize("turned", [False, True])
def test_a_notch_stands_square_to_its_edge_and_points_out_of_the_piece(turned: bool) -> None:
    path = HALF_FRONT["armhole"]
    at = tuple(dense(path)[150])
    drawn = path[::-1, ::-1] if turned else path
    piece = one_piece(HALF_FRONT | {"armhole": drawn}, notches=[("armhole", "front_notch", at)])
    (notch,) = piece.notches
    assert notch.at == pytest.approx(at, abs=1e-12)
    outline = _polygon(piece)
    out, inward = (Point(np.add(at, np.multiply(notch.outward, by))) for by in (5.0, -5.0))
    assert outline.contains(inward)
    assert not outline.contains(out)
    # square: shapely finds the notched point nearest on the edge
    assert LineString(dense(path)).distance(out) == pytest.approx(5.0, abs=1e-3)
    assert math.hypot(*notch.outward) == pytest.approx(1.0, abs=1e-12)


def test_its_distance_is_walked_from_the_edges_first_end() -> None:
    path = HALF_FRONT["armhole"]
    points = dense(path)
    (notch,) = one_piece(
        HALF_FRONT, notches=[("armhole", "front_notch", tuple(points[150]))]
    ).notches
    assert notch.along == pytest.approx(LineString(points[:151]).length, abs=1e-3)  # shapely


def test_notches_stand_in_the_order_of_the_outline() -> None:
    wanted = [("side", "hip", (200, 200)), ("top", "middle", (90, 0)), ("side", "waist", (200, 80))]
    piece = one_piece(rectangle(200, 300), fold="centre", notches=wanted)
    assert [n.name for n in piece.notches] == ["middle", "waist", "hip"]


@pytest.mark.parametrize(
    ("piece", "point", "count"),
    [
        ("front", "front_notch", 1),
        ("front", "waist", 1),
        ("back", "waist", 2),
        ("back_yoke", "waist", 2),
        ("sleeve", "front_notch", 1),
        ("sleeve", "back_notch", 2),
    ],
)
def test_one_notch_marks_the_front_and_two_the_back(piece: str, point: str, count: int) -> None:
    # common practice, no source
    edges = rectangle(200, 300)
    (notch,) = one_piece(edges, piece, notches=[("side", point, (200, 80))]).notches
    assert notch.count == count


def test_notches_that_are_sewn_onto_each_other_look_alike() -> None:
    draft = HandDraft()
    for name in ("front", "back"):
        draft.piece(name, rectangle(200, 300), notches=[("side", "waist", (200, 80))])
    draft.seam("side", [("front", "side", False)], [("back", "side", False)])
    front, back = draft.finished().pieces
    assert front.notches[0].count == back.notches[0].count == 1


def test_a_notch_on_the_fold_is_a_single_one() -> None:
    edges = rectangle(200, 300)
    piece = one_piece(edges, "back", fold="centre", notches=[("top", "centre_back", (0, 0))])
    assert piece.notches[0].count == 1
    assert piece.notches[0].outward == pytest.approx((0.0, -1.0), abs=1e-12)


def test_a_notch_of_the_base_goes_with_the_part_of_the_edge_that_was_replaced() -> None:
    inherited = [("side", "waist", (200, 80)), ("side", "old_hem", (214, 300))]
    piece = one_piece(rectangle(200, 300), inherited=inherited)
    assert [notch.name for notch in piece.notches] == ["waist"]


def test_a_hundredth_of_a_millimetre_from_the_edge_is_still_on_it() -> None:
    inherited = [("side", "near", (200.009, 80)), ("side", "far", (200.011, 90))]
    piece = one_piece(rectangle(200, 300), inherited=inherited)
    assert [notch.name for notch in piece.notches] == ["near"]


def test_a_notch_given_again_takes_the_place_of_the_bases() -> None:
    piece = one_piece(
        rectangle(200, 300),
        inherited=[("side", "waist", (200, 80))],
        notches=[("side", "waist", (200, 95))],
    )
    assert [notch.at for notch in piece.notches] == [(200.0, 95.0)]


def test_a_notch_of_the_pieces_own_that_misses_its_edge_is_told() -> None:
    (found,) = problems_of(rectangle(200, 300), notches=[("side", "waist", (203, 80))])
    assert (found.code, found.severity) == ("notch-off-edge", Severity.WARNING)
    assert "3 mm" in found.sentence
    assert "`side`" in found.sentence


# --- levels ---------------------------------------------------------------------------------------


def test_a_level_reaches_from_the_innermost_to_the_outermost_place() -> None:
    piece = one_piece(HALF_FRONT, fold="centre", levels={"waist": 410.0, "bust": 210.0})
    assert list(piece.levels) == ["bust", "waist"]  # from the top
    for level in piece.levels.values():
        # shapely, on chords of the outline
        across = _polygon(piece).exterior & LineString([(-9, level.at), (500, level.at)])
        left, _, right, _ = across.bounds
        assert (level.left, level.right) == pytest.approx((left, right), abs=2e-3)
        assert level.width == pytest.approx(right - left, abs=2e-3)


def test_a_level_that_the_piece_does_not_reach_is_told_with_the_depths() -> None:
    (found,) = problems_of(rectangle(200, 300), levels={"hip": 420.0})
    assert found.code == "level-misses"
    for words in ("42 cm", "0 cm", "30 cm"):
        assert words in found.sentence


# --- marks and grain ------------------------------------------------------------------------------


def test_marks_stand_at_their_points_each_once() -> None:
    piece = one_piece(
        rectangle(200, 300),
        points={"waist": (0, 80), "bust_point": (90, 120)},
        marks=["bust_point", "bust_point"],
    )
    assert piece.marks == (Mark("bust_point", (90.0, 120.0)),)
    assert piece.points == {"bust_point": (90.0, 120.0), "waist": (0.0, 80.0)}


@pytest.mark.parametrize("grain", [None, (1.0, 0.0), (0.28, 0.96)])
def test_the_grain_line_is_six_tenths_of_the_length_along_it_and_inside(
    grain: Points | None,
) -> None:
    piece = one_piece(HALF_FRONT, grain=grain)
    start, end = np.array(piece.grain)
    way = np.array(grain or (0.0, 1.0))
    along = np.array(_polygon(piece).exterior.coords) @ way
    reach = float(np.ptp(along))
    assert end - start == pytest.approx(0.6 * reach * way, abs=1e-6)
    assert _polygon(piece).contains(LineString([start, end]))  # shapely


def test_on_a_crooked_piece_the_grain_line_is_as_long_as_it_has_room() -> None:
    steps = 8
    down = [(40.0 * i, 30.0 * i) for i in range(steps)]
    edges = {
        "upper": straight(*(p for x, y in down for p in ((x, y), (x + 40, y)))),
        "last": straight((40.0 * steps, 30.0 * (steps - 1)), (40.0 * steps, 30.0 * steps)),
        "lower": straight(*(p for x, y in reversed(down) for p in ((x + 40, y + 30), (x, y + 30)))),
        "first": straight((0, 30), (0, 0)),
    }
    piece = one_piece(edges, allow=dict.fromkeys(edges, 1.0))
    start, end = piece.grain
    assert _polygon(piece).contains(LineString([start, end]))  # shapely
    assert end[1] - start[1] == pytest.approx(27.0, abs=1e-9)  # nine tenths of one step


def test_the_grain_line_keeps_out_of_a_hollow() -> None:
    # like a neck cut deep into the middle of a piece that is drawn whole
    edges = {
        "neck": curved((40, 0), (40, 400), (160, 400), (160, 0)),
        "right_top": straight((160, 0), (200, 0)),
        "right": straight((200, 0), (200, 400)),
        "bottom": straight((200, 400), (0, 400)),
        "left": straight((0, 400), (0, 0)),
        "left_top": straight((0, 0), (40, 0)),
    }
    piece = one_piece(edges)
    start, end = piece.grain
    assert end[1] - start[1] == pytest.approx(240.0, abs=1e-6)
    assert _polygon(piece).contains(LineString([start, end]))  # shapely
