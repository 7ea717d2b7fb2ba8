"""Hollows tighter than their allowance, and corners inside an edge: the cutting line has no loop.

Compared with shapely's buffer of the sewing line, which is the union of discs round it.
"""

from __future__ import annotations

import numpy as np
import pytest
from hand_drafts import (
    Floats,
    HandDraft,
    curved,
    dense,
    one_piece,
    problems_of,
    rectangle,
    straight,
)
from shapely import Point, Polygon, box, unary_union
from shapely.affinity import scale

from godet.pattern.pieces import Pattern, Piece


def _drawn(piece: Piece) -> Polygon:
    parts = [dense(piece.edges[s.edge].path)[:: -1 if s.turned else 1] for s in piece.outline]
    return Polygon(np.concatenate(parts))


def _strays(piece: Piece, by: float) -> float:
    """How far the cutting line and shapely's lie apart, at most."""
    expected = _drawn(piece).buffer(by, join_style="mitre", mitre_limit=2.5, quad_segs=256)
    return float(Polygon(dense(piece.cut_line)).exterior.hausdorff_distance(expected.exterior))


def _with_top(top: Floats) -> dict[str, Floats]:
    edges = rectangle(200, 300)
    assert tuple(top[0, 0]) == (0, 0)
    assert tuple(top[-1, 3]) == (200, 0)
    return edges | {"top": top}


def _finished(edges: dict[str, Floats], **lines: object) -> Pattern:
    draft = HandDraft()
    draft.piece("front", edges, **lines)  # type: ignore[arg-type]
    return draft.finished()


SCOOPED = _with_top(
    np.concatenate(
        [
            straight((0, 0), (70, 0)),
            curved((70, 0), (85, 60), (115, 60), (130, 0)),
            straight((130, 0), (200, 0)),
        ]
    )
)


@pytest.mark.parametrize("by", [8.0, 12.0, 15.0, 20.0])
def test_a_hollow_tighter_than_its_allowance_comes_to_a_point(by: float) -> None:
    piece = one_piece(SCOOPED, allow=dict.fromkeys(SCOOPED, by))
    assert _strays(piece, by) < 0.02


def test_the_point_of_a_tight_hollow_is_reported_with_its_numbers() -> None:
    pattern = _finished(
        SCOOPED, allow=dict.fromkeys(SCOOPED, 15.0), points={"neck_centre": (100, 45)}
    )
    (report,) = pattern.reports
    # the curvature of the cubic at its middle, by hand: y'' / x'^2 = (-6 * 60) / (1.5 * 50)^2 ..
    first, second = np.array([67.5, 0.0]), np.array([0.0, -360.0])
    radius = first[0] ** 3 / abs(first[0] * second[1])
    assert f"a radius of {radius / 10:.1f} cm at neck_centre; 1.5 cm are allowed" in report.words
    away = Point(100, 45).distance(Polygon(dense(pattern.pieces[0].cut_line)).exterior)
    assert away > 15.0
    assert "front.top" in report.words


def test_a_hollow_with_room_is_not_spoken_of() -> None:
    assert _finished(SCOOPED, allow=dict.fromkeys(SCOOPED, 8.0)).reports == ()


def test_a_hollow_tight_at_its_end_is_cut_where_the_neighbour_has_room() -> None:
    # a quarter of a circle of radius 6 mm, its square corner at its first end
    k = 6 * 0.5522847498
    edges = _with_top(
        np.concatenate(
            [
                straight((0, 0), (60, 0)),
                curved((60, 0), (60, k), (66 - k, 6), (66, 6)),
                straight((66, 6), (120, 6)),
                straight((120, 6), (200, 0)),
            ]
        )
    )
    line = one_piece(edges).cut_line
    # by hand: mitred over the corner, then down as far as where the straight rest has room
    corners = [tuple(point) for point in line[:, 0].round(9)]
    assert corners[corners.index((70.0, -10.0)) - len(corners) + 1] == (70.0, -4.0)
    assert Polygon(dense(line)).exterior.distance(_drawn(one_piece(edges))) > 10.0 - 0.02


@pytest.mark.parametrize("by", [10.0, 15.0, 22.0])
def test_a_neck_tight_at_the_fold_is_pointed_there(by: float) -> None:
    edges = {
        "neck": curved((0, 100), (22, 100), (30, 80), (34, 0)),
        "shoulder": straight((34, 0), (140, 30)),
        "side": straight((140, 30), (140, 300)),
        "bottom": straight((0, 300), (140, 300)),
        "centre": straight((0, 100), (0, 300)),
    }
    piece = one_piece(edges, fold="centre", allow={"neck": by, "shoulder": by, "side": by})
    half = _drawn(piece)
    whole = unary_union([half, scale(half, -1.0, 1.0, origin=(0, 0))])
    expected = whole.buffer(by, join_style="mitre", mitre_limit=2.5, quad_segs=256)
    inside = box(0, -100, 130, 280)
    outer = Polygon(dense(piece.cut_line)) & inside
    assert outer.exterior.hausdorff_distance((expected & inside).exterior) < 0.02


def test_a_neck_round_to_the_fold_with_no_room_at_all_is_told() -> None:
    k = 20 * 0.5522847498
    edges = {
        "neck": np.concatenate(
            [curved((0, 100), (k, 100), (20, 80 + k), (20, 80)), straight((20, 80), (20, 0))]
        ),
        "shoulder": straight((20, 0), (140, 30)),
        "side": straight((140, 30), (140, 300)),
        "bottom": straight((0, 300), (140, 300)),
        "centre": straight((0, 100), (0, 300)),
    }
    (found,) = problems_of(edges, fold="centre", allow={"neck": 25.0})
    assert found.code == "radius-too-small"
    assert one_piece(edges, fold="centre", allow={"neck": 15.0}).area_cut > 0.0


# --- corners inside an edge, such as the mouth of a dart makes ------------------------------------


@pytest.mark.parametrize(("half", "high"), [(15.0, 10.0), (8.0, 9.0), (3.0, 2.5), (0.5, 0.2)])
@pytest.mark.parametrize("by", [6.0, 10.0, 15.0])
def test_the_mouth_of_a_dart_has_a_clean_cutting_line(half: float, high: float, by: float) -> None:
    # a mouth folded to one side: two straight lines, hollow at the legs, full at the fold
    edges = _with_top(
        straight((0, 0), (90 - half, 4), (92, 4 - high), (90 + half, 6), (200, 0)),
    )
    piece = one_piece(edges, allow=dict.fromkeys(edges, by))
    assert _strays(piece, by) < 0.02


def test_two_mouths_and_a_notch_in_one_edge_have_a_clean_cutting_line() -> None:
    top = straight(
        (0, 0), (40, 2), (46, -6), (52, 2), (90, 3), (100, 25), (110, 3), (150, 2), (156, -6),
        (162, 2), (200, 0),
    )  # fmt: skip
    edges = _with_top(top)
    assert _strays(one_piece(edges), 10.0) < 0.02


def test_the_allowances_beside_a_mouth_may_differ_from_its_own() -> None:
    edges = _with_top(straight((0, 0), (12, 2), (18, -8), (24, 2), (200, 0)))
    piece = one_piece(edges, allow={"top": 20.0, "centre": 5.0, "side": 20.0})
    outer = Polygon(dense(piece.cut_line))
    assert outer.is_valid
    top = piece.edges["top"].path
    # shapely: nowhere nearer to the top than its allowance, above it
    ends = dense(top)[:, 0]
    for point in dense(piece.cut_line):
        above = ends.min() < point[0] < ends.max() and point[1] < -8
        if above:
            assert Point(point).distance(_line(top)) > 20.0 - 0.02


def _line(path: Floats) -> Polygon:
    points = dense(path)
    return Polygon(np.concatenate([points, points[::-1]]))
