"""Corners of the cutting line: square, mitred, rounded, folded back, as a recipe asks for them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hand_drafts import Floats, curved, dense, one_piece, problems_of, rectangle, straight
from scipy.interpolate import BPoly
from shapely import LineString, Point, Polygon, box

from godet.pattern.pieces import Piece

# the upper right corner is open, the lower right one sharp
LEANING = {
    "top": straight((0, 0), (200, 0)),
    "side": straight((200, 0), (260, 300)),
    "bottom": straight((0, 300), (260, 300)),
    "centre": straight((0, 0), (0, 300)),
}
UPPER, LOWER = (200, 0), (260, 300)


def _outer(piece: Piece) -> Polygon:
    return Polygon(dense(piece.cut_line))


def _is_on(piece: Piece, *points: tuple[float, float]) -> bool:
    cut = _outer(piece).exterior
    return all(cut.distance(Point(point)) < 1e-6 for point in points)


def test_a_rounded_corner_is_as_far_from_the_corner_as_its_allowances() -> None:
    corners = [("top, side", "rounded", UPPER), ("bottom", "rounded", LOWER)]
    piece = one_piece(LEANING, corners=corners)
    # shapely: round joins at these two, mitred ones at the others
    drawn = Polygon([(0, 0), (200, 0), (260, 300), (0, 300)])
    right = box(100, -50, 400, 400)
    expected = drawn.buffer(10.0, quad_segs=256) & right
    assert (_outer(piece) & right).exterior.hausdorff_distance(expected.exterior) < 0.02
    assert _is_on(piece, (-10, -10), (-10, 310))


def test_a_round_between_two_allowances_keeps_both() -> None:
    corners = [("side", "rounded", UPPER)]
    piece = one_piece(rectangle(200, 300), allow={"top": 6.0, "side": 20.0}, corners=corners)
    # by hand: a quarter of a circle of the smaller allowance, inside the mitre
    assert _is_on(piece, (200 + 20, 0), (200 + 14, -6), (214 + 6 / math.sqrt(2), -6 / math.sqrt(2)))
    assert _outer(piece).contains(box(0, -5.99, 200, 299).union(box(0, 0, 219.99, 299)))


def test_a_square_end_stands_where_the_seam_line_comes_to_the_other_cut() -> None:
    piece = one_piece(
        LEANING,
        allow={"side": 15.0},
        corners=[("side", "square", LOWER), ("side", "square", UPPER)],
    )
    way = np.array([60.0, 300.0]) / math.hypot(60, 300)
    out = np.array([way[1], -way[0]])
    # common practice, no source: the seam line is carried on to the other allowance's edge, and the
    # end is square to it there
    for corner, down in ((LOWER, 310.0), (UPPER, -10.0)):
        foot = np.array(corner) + (down - corner[1]) / way[1] * way
        assert _is_on(piece, tuple(foot), tuple(foot + 15.0 * out))
        between = LineString([foot + 0.01 * out, foot + 14.99 * out])
        assert between.hausdorff_distance(
            between.intersection(_outer(piece).exterior.buffer(1e-6))
        ) == pytest.approx(0.0, abs=1e-3)


def test_two_pieces_sewn_at_a_square_end_lie_edge_on_edge() -> None:
    # the same seam line, met by edges of other slants: sewn, the ends of the allowances agree
    ends = []
    for slant in (20.0, -35.0):
        edges = {
            "top": straight((0, slant), (200, 0)),
            "side": straight((200, 0), (200, 300)),
            "bottom": straight((0, 300), (200, 300)),
            "centre": straight((0, slant), (0, 300)),
        }
        outer = _outer(one_piece(edges, corners=[("side", "square", UPPER)]))
        strip = outer & box(200 + 1e-9, -100, 210, 100)
        ends.append((strip.bounds[1], strip.area))
        # square: the strip is a rectangle (shapely)
        assert strip.area == pytest.approx(strip.envelope.area, abs=1e-5)
    turned = math.hypot(200, 20) / 200 * 10, math.hypot(200, 35) / 200 * 10
    assert [-top for top, _ in ends] == pytest.approx(turned, abs=1e-6)


def test_a_hem_may_be_mitred_where_the_recipe_says_so() -> None:
    piece = one_piece(LEANING, allow={"bottom": 40.0}, corners=[("bottom", "mitred", LOWER)])
    # the side's cutting line carried on straight, by hand
    across = 260 + 10 / math.cos(math.atan2(60, 300)) + 40 * 60 / 300
    assert _is_on(piece, (across, 340))


def test_an_allowance_may_be_folded_back_where_it_would_not_be() -> None:
    plain = one_piece(LEANING)
    piece = one_piece(LEANING, corners=[("bottom", "folded", LOWER)])
    cut = _outer(piece)
    folded = Polygon(np.array(cut.exterior.coords) * (1.0, -1.0) + (0.0, 600.0))
    at_corner = box(200, 290, 400, 300 - 1e-9)
    # shapely: turned up, the allowance lies on the piece
    assert (folded & at_corner).symmetric_difference(cut & at_corner).area < 1e-3
    assert (_outer(plain) & at_corner).symmetric_difference(cut & at_corner).area < 1e-3
    assert cut.symmetric_difference(_outer(plain)).area > 1.0


def test_a_shape_holds_at_a_corner_inside_an_edge() -> None:
    edges = rectangle(200, 300) | {"side": straight((200, 0), (240, 100), (200, 300))}
    piece = one_piece(edges, corners=[("side", "rounded", (240, 100))])
    assert _is_on(piece, (200, -10))
    assert Point(240, 100).distance(_outer(piece).exterior) == pytest.approx(10.0, abs=1e-3)
    nearby = [p for p in dense(piece.cut_line) if p[0] > 225 and 90 < p[1] < 110]
    assert max(math.dist(p, (240, 100)) for p in nearby if abs(p[1] - 100) < 1) < 10.01


# --- curved hems ----------------------------------------------------------------------------------


def _nearest(curve: BPoly, point: Floats) -> Floats:
    """The foot of a point on a curve, from many samples and three steps of Newton's (scipy)."""
    share = np.linspace(0, 1, 4001)
    best = float(share[np.argmin(np.hypot(*(curve(share) - point).T))])
    first, second = curve.derivative(), curve.derivative(2)
    for _ in range(3):
        off = curve(best) - point
        slope = first(best) @ first(best) + off @ second(best)
        best = min(max(best - float(off @ first(best) / slope), 0.0), 1.0)
    foot: Floats = curve(best)
    return foot


@pytest.mark.parametrize("sag", [60.0, 15.0, -12.0])
@pytest.mark.parametrize("lean", [-60.0, 0.0])
def test_a_curved_hem_turned_up_along_its_curve_lies_on_the_piece(sag: float, lean: float) -> None:
    hem = np.array([(0.0, 300 + sag), (60, 300 + sag), (120, 300 + sag / 2), (160, 300)])
    edges = {
        "top": straight((0, 0), (160 + lean, 0)),
        "side": straight((160 + lean, 0), (160, 300)),
        "bottom": hem[None],
        "centre": straight((0, 0), (0, 300 + sag)),
    }
    piece = one_piece(edges, fold="centre", allow={"bottom": 30.0, "side": None})
    cut, curve = dense(piece.cut_line), BPoly(hem[:, None], [0.0, 1.0])
    side = LineString([(160 + lean, 0), (160, 300)])
    line = LineString(dense(hem[None]))
    beyond = [p for p in cut if p[0] > 80 and p[1] > 290 and 0.01 < Point(p).distance(line) < 29.9]
    beyond = [p for p in beyond if side.distance(Point(p)) > 0.01]
    inside = [p for p in beyond if np.hypot(*(_nearest(curve, p) - (160, 300))) > 0.001]
    images = [2 * _nearest(curve, p) - p for p in inside]
    assert all(side.distance(Point(p)) < 0.02 for p in images)
    if lean < 0 and sag < 60:
        assert len(inside) > 20


# --- what can't be said ---------------------------------------------------------------------------


def test_a_shape_asked_where_the_edge_has_no_corner_is_told() -> None:
    (found,) = problems_of(rectangle(200, 300), corners=[("top", "rounded", (200, 40))])
    assert found.code == "corner-missing"
    assert "`top`" in found.sentence
    assert "4 cm" in found.sentence


def test_a_line_for_several_edges_needs_the_corner_on_one_of_them_only() -> None:
    piece = one_piece(rectangle(200, 300), corners=[("top, bottom, centre", "rounded", UPPER)])
    assert not _is_on(piece, (210, -10))


@pytest.mark.parametrize(
    "corners",
    [
        [("top", "square", UPPER), ("side", "rounded", UPPER)],
        [("top, side", "square", UPPER)],
        [("top, side", "folded", UPPER)],
    ],
)
def test_a_corner_of_which_both_edges_speak_is_told(corners: list[tuple[str, str, Floats]]) -> None:
    (found,) = problems_of(rectangle(200, 300), corners=corners)
    assert found.code == "corner-twice"
    assert "`top`" in found.sentence
    assert "`side`" in found.sentence


STEPPED = {
    "top": straight((0, 0), (100, 0)),
    "riser": straight((100, 0), (100, 80)),
    "tread": straight((100, 80), (220, 80)),
    "side": straight((220, 80), (220, 300)),
    "bottom": straight((0, 300), (220, 300)),
    "centre": straight((0, 0), (0, 300)),
}


@pytest.mark.parametrize("shape", ["square", "rounded"])
def test_a_hollow_corner_is_neither_square_nor_round_and_is_drawn_as_usual(shape: str) -> None:
    (found,) = problems_of(STEPPED, corners=[("tread", shape, (100, 80))])
    assert found.code == "corner-not-drawn"
    assert shape in found.sentence


@pytest.mark.parametrize("shape", ["square", "rounded", "folded", "mitred"])
def test_a_corner_on_the_fold_has_no_shape(shape: str) -> None:
    found = problems_of(rectangle(200, 300), fold="centre", corners=[("top", shape, (0, 0))])
    assert [problem.code for problem in found] == ["corner-not-drawn"]


def test_a_smooth_joint_has_no_shape() -> None:
    edges = rectangle(200, 300)
    del edges["side"]
    edges |= {
        "above": curved((200, 0), (200, 50), (220, 70), (220, 120)),
        "below": curved((220, 120), (220, 200), (200, 250), (200, 300)),
    }
    (found,) = problems_of(edges, corners=[("above", "square", (220, 120))])
    assert found.code == "corner-not-drawn"
