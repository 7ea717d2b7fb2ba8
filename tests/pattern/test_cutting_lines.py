"""The cutting line: edges moved out by their allowances, and the corners between them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hand_drafts import (
    HALF_FRONT,
    Floats,
    HandDraft,
    curved,
    dense,
    one_piece,
    problems_of,
    rectangle,
    straight,
)
from shapely import LineString, Point, Polygon, box, unary_union
from shapely.affinity import scale

from godet.base.words import Severity
from godet.pattern.allowances import DEFAULT_ALLOWANCE
from godet.pattern.pieces import Piece


def _outer(piece: Piece) -> Polygon:
    return Polygon(dense(piece.cut_line))


def _drawn(piece: Piece) -> Polygon:
    parts = [dense(piece.edges[s.edge].path)[:: -1 if s.turned else 1] for s in piece.outline]
    return Polygon(np.concatenate(parts))


def _same(one: Polygon, other: Polygon, within: float) -> bool:
    """Whether the two outlines lie within a distance of each other all along (shapely)."""
    return bool(one.exterior.hausdorff_distance(other.exterior) <= within)


def test_the_cutting_line_is_closed_without_a_gap() -> None:
    for edges in (rectangle(200, 300), HALF_FRONT):
        line = one_piece(edges, allow={"bottom": 30.0}).cut_line
        assert np.array_equal(line[:, 0], np.roll(line[:, 3], 1, axis=0))


def test_a_rectangle_with_one_allowance_is_a_larger_rectangle() -> None:
    piece = one_piece(rectangle(200, 300), allow=dict.fromkeys(rectangle(1, 1), 12.0))
    assert _same(_outer(piece), box(-12, -12, 212, 312), 1e-9)
    assert piece.area_drawn == pytest.approx(200 * 300, abs=1e-6)
    assert piece.area_cut == pytest.approx(224 * 324, abs=1e-6)
    assert len(piece.cut_line) <= 12  # straight lines stay lines


def test_each_edge_has_its_own_allowance_and_none_where_the_recipe_says_so() -> None:
    allow = {"top": 5.0, "side": 20.0, "bottom": None}
    piece = one_piece(rectangle(200, 300), allow=allow)
    # the left edge, of which nothing is said, gets the default
    assert _same(_outer(piece), box(-DEFAULT_ALLOWANCE, -5, 220, 300), 1e-9)
    assert [piece.edges[n].allowance for n in ("top", "side", "bottom", "centre")] == [
        5.0,
        20.0,
        0.0,
        DEFAULT_ALLOWANCE,
    ]


def test_what_no_line_is_said_of_gets_one_centimetre() -> None:
    assert DEFAULT_ALLOWANCE == 10.0  # common practice, no source


def test_curved_edges_move_out_as_shapely_moves_them() -> None:
    piece = one_piece(HALF_FRONT)
    expected = _drawn(piece).buffer(10.0, join_style="mitre", mitre_limit=2.5)
    assert _same(_outer(piece), expected, 0.05)


def test_on_the_fold_the_cutting_line_is_the_fold() -> None:
    piece = one_piece(HALF_FRONT, fold="centre")
    outer = _outer(piece)
    left, top, _, bottom = outer.bounds
    assert left == pytest.approx(0.0, abs=1e-9)
    # the neck is square to the fold, so its allowance goes straight up from there
    assert LineString([(0, 80), (0, 615)]).hausdorff_distance(
        outer.exterior.intersection(box(-1, top - 1, 1e-6, bottom + 1))
    ) == pytest.approx(0.0, abs=0.01)
    assert piece.edges["centre"].on_fold
    assert piece.edges["centre"].allowance == 0.0
    assert _same(outer, _outward_of_the_fold(piece), 0.05)


def _outward_of_the_fold(piece: Piece) -> Polygon:
    """What shapely allows round the unfolded piece, as far as it lies on the drawn half."""
    half = _drawn(piece)
    whole = unary_union([half, scale(half, -1.0, 1.0, origin=(0, 0))])
    return whole.buffer(10.0, join_style="mitre", mitre_limit=2.5) & box(0, -500, 500, 900)


@pytest.mark.parametrize("rise", [4.0, 30.0, 60.0, -30.0])
def test_a_pointed_neck_on_the_fold_never_gives_an_allowance_beyond_it(rise: float) -> None:
    edges = {
        "neck": straight((0, 100), (80, 100 - rise)),
        "side": straight((80, 100 - rise), (80, 400)),
        "bottom": straight((0, 400), (80, 400)),
        "centre": straight((0, 100), (0, 400)),
    }
    piece = one_piece(edges, fold="centre")
    outer = _outer(piece)
    assert outer.bounds[0] == pytest.approx(0.0, abs=1e-9)
    assert _same(outer, _outward_of_the_fold(piece), 0.01)


def test_a_hollow_corner_is_trimmed_where_the_moved_edges_cross() -> None:
    steps = {
        "top": straight((0, 0), (100, 0)),
        "riser": straight((100, 0), (100, 80)),
        "tread": straight((100, 80), (220, 80)),
        "side": straight((220, 80), (220, 300)),
        "bottom": straight((0, 300), (220, 300)),
        "centre": straight((0, 0), (0, 300)),
    }
    piece = one_piece(steps, allow={"riser": 15.0, "tread": 8.0})
    assert Point(115, 72).distance(_outer(piece).exterior) == pytest.approx(0.0, abs=1e-9)
    assert not _outer(piece).contains(Point(115.01, 71.99))


def test_a_corner_inside_one_edge_is_mitred_like_one_between_two() -> None:
    edges = rectangle(200, 300) | {"side": straight((200, 0), (240, 100), (200, 300))}
    piece = one_piece(edges)
    expected = _drawn(piece).buffer(10.0, join_style="mitre", mitre_limit=2.5)  # shapely
    assert _same(_outer(piece), expected, 1e-6)


def test_a_sharp_corner_is_squared_off_at_two_and_a_half_allowances() -> None:
    wedge = {
        "upper": straight((0, 0), (300, 40)),
        "lower": straight((300, 40), (0, 80)),
        "centre": straight((0, 0), (0, 80)),
    }
    outer = _outer(one_piece(wedge))
    # the mitre would reach 10 / sin(7.6 degrees) = 7.5 cm
    assert outer.bounds[2] == pytest.approx(300 + 25, abs=1e-9)
    # everywhere at least the allowance, also round the tip (shapely)
    assert Polygon([(0, 0), (300, 40), (0, 80)]).buffer(9.99).difference(outer).area < 1e-6


def test_where_an_edge_goes_on_straight_with_more_allowance_the_line_steps_over() -> None:
    edges = rectangle(200, 300)
    del edges["side"]
    edges |= {
        "side": straight((200, 0), (200, 120)),
        "zip": straight((200, 120), (200, 300)),
    }
    draft = HandDraft()
    draft.piece("panel", edges, allow={"zip": 25.0})
    draft.seam("zip", [("panel", "zip", False)], [("panel", "zip", False)])
    outer = _outer(draft.finished().pieces[0])
    expected = box(-10, -10, 210, 310).union(box(200, 120, 225, 310))
    assert _same(outer, expected, 1e-9)


# --- hems -----------------------------------------------------------------------------------------


def _hemmed(lean: float, deep: float = 30.0, side_by: float | None = 10.0) -> Piece:
    """A skirt panel whose sides lean outward by this at the hem, or inward."""
    edges = {
        "top": straight((0, 0), (200, 0)),
        "side": curved((200, 0), (200 + lean / 4, 120), (200 + lean, 200), (200 + lean, 300)),
        "ruled": straight((200 + lean, 300), (200 + 1.3 * lean, 400)),
        "bottom": straight((0, 400), (200 + 1.3 * lean, 400)),
        "centre": straight((0, 0), (0, 400)),
    }
    return one_piece(edges, fold="centre", allow={"bottom": deep, "ruled": side_by})


@pytest.mark.parametrize("lean", [-60.0, -20.0, 0.0, 25.0, 90.0])
@pytest.mark.parametrize("side_by", [10.0, 4.0, None])
def test_a_hem_turned_up_lies_flat_on_the_pieces_own_cut_edge(
    lean: float, side_by: float | None
) -> None:
    piece = _hemmed(lean, side_by=side_by)
    cut = dense(piece.cut_line)
    below = cut[(cut[:, 1] > 400.0 + 1e-6) & (cut[:, 1] < 430.0 - 1e-6) & (cut[:, 0] > 1.0)]
    assert len(below) > 50
    up = below * (1.0, -1.0) + (0.0, 800.0)  # mirrored across the hem line, 400 down
    edge = LineString(cut[(cut[:, 1] <= 400.0 + 1e-6) & (cut[:, 0] > 100.0)])
    # shapely: distances to the cut edge above the hem line, which runs down the side
    assert max(edge.distance(Point(p)) for p in up) < 1e-3
    assert piece.cut_line[..., 1].max() == pytest.approx(430.0, abs=1e-9)


def test_the_hem_is_mirrored_at_whichever_end_it_has() -> None:
    edges = {
        "waist": straight((0, 0), (200, 0)),
        "left": straight((0, 0), (-50, 300)),
        "right": straight((200, 0), (230, 300)),
        "bottom": straight((-50, 300), (230, 300)),
    }
    piece = one_piece(edges, allow={"bottom": 40.0})
    cut = _outer(piece)
    folded = Polygon(np.array(cut.exterior.coords) * (1.0, -1.0) + (0.0, 600.0))
    hem = folded.intersection(box(-200, 260, 400, 300 - 1e-9))  # what lies on the piece
    strip = cut.intersection(box(-200, 260, 400, 300 - 1e-9))  # what it lies on
    assert hem.symmetric_difference(strip).area < 1e-3  # shapely


def test_an_edge_that_a_seam_joins_is_no_hem_however_deep() -> None:
    edges = {
        "waist": straight((0, 0), (200, 0)),
        "left": straight((0, 0), (-50, 300)),
        "right": straight((200, 0), (250, 300)),
        "lower": straight((-50, 300), (250, 300)),
    }
    draft = HandDraft()
    draft.piece("panel", edges, allow={"lower": 40.0})
    draft.seam("flounce", [("panel", "lower", False)], [("panel", "lower", False)])
    pattern, _ = draft.finish()  # its sides make a corner over the seam, as they do here
    assert pattern is not None
    piece = pattern.pieces[0]
    # carried on straight: the side's own line, 10 mm out, down to 40 mm below
    corner = np.array([250 + 10 / math.cos(math.atan2(50, 300)) + 40 * 50 / 300, 340.0])
    assert min(np.hypot(*(dense(piece.cut_line) - corner).T)) == pytest.approx(0.0, abs=1e-6)


def test_edges_of_one_allowance_have_no_hem_among_them() -> None:
    piece = one_piece(rectangle(200, 300), allow={"bottom": 10.0})
    assert _same(_outer(piece), box(-10, -10, 210, 310), 1e-9)


def test_a_hem_deeper_than_its_neighbour_is_long_has_a_plain_corner() -> None:
    piece = one_piece(
        {
            "top": straight((20, 0), (180, 0)),
            "left": straight((20, 0), (0, 20)),
            "right": straight((180, 0), (200, 20)),
            "bottom": straight((0, 20), (200, 20)),
        },
        allow={"bottom": 60.0, "left": 2.0, "right": 2.0, "top": 2.0},
    )
    assert _outer(piece).is_valid
    assert piece.cut_line[..., 1].max() == pytest.approx(80.0, abs=1e-9)


def test_a_hem_that_goes_on_almost_straight_into_its_neighbour_steps_down_to_it() -> None:
    edges = {
        "top": straight((0, 0), (400, 0)),
        "side": straight((400, 0), (400, 280)),
        "tail": straight((400, 280), (200, 300)),
        "bottom": straight((200, 300), (0, 300)),
        "centre": straight((0, 300), (0, 0)),
    }
    outer = _outer(one_piece(edges, allow={"bottom": 30.0}))
    beyond = outer & box(201, 311, 500, 400)  # the step is square to the neighbour
    assert beyond.is_empty  # shapely
    assert outer.exterior.distance(Point(200, 330)) == pytest.approx(0.0, abs=1e-6)


# --- what can't be cut ----------------------------------------------------------------------------


def test_a_round_slit_narrower_than_its_allowances_is_told_with_its_radius() -> None:
    # a slit 1.2 cm wide and 8 cm deep, its end the usual two quarters of a circle
    k = 6 * 0.5522847498
    edges = {
        "top": straight((0, 0), (60, 0)),
        "slit": np.concatenate(
            [
                straight((60, 0), (60, 80)),
                curved((60, 80), (60, 80 + k), (66 - k, 86), (66, 86)),
                curved((66, 86), (66 + k, 86), (72, 80 + k), (72, 80)),
                straight((72, 80), (72, 0)),
            ]
        ),
        "rest": straight((72, 0), (150, 0)),
        "side": straight((150, 0), (150, 200)),
        "bottom": straight((0, 200), (150, 200)),
        "centre": straight((0, 0), (0, 200)),
    }
    (found,) = problems_of(edges)
    assert found.code == "radius-too-small"
    assert "1 cm" in found.sentence
    assert "0.6 cm" in found.sentence


def test_an_allowance_with_no_room_is_told() -> None:
    slot = {
        "top": straight((0, 0), (90, 0)),
        "first": straight((90, 0), (90, 100)),
        "floor": straight((90, 100), (102, 100)),
        "last": straight((102, 100), (102, 0)),
        "rest": straight((102, 0), (200, 0)),
        "side": straight((200, 0), (200, 200)),
        "bottom": straight((0, 200), (200, 200)),
        "centre": straight((0, 0), (0, 200)),
    }
    (found,) = problems_of(slot)
    assert (found.code, found.severity) == ("allowance-crosses", Severity.ERROR)
    assert "panel" in found.sentence
    # cut to a point: here the sides of the cutting line run past each other and overlap
    slit = {**slot, "first": straight((90, 0), (96, 90)), "last": straight((96, 90), (102, 0))}
    del slit["floor"]
    (found,) = problems_of(slit, allow={"first": 20.0, "last": 20.0, "top": 20.0, "rest": 20.0})
    assert found.code == "allowance-crosses"
    # with allowances that fit, the same slot is cut
    piece = one_piece(slot, allow={"first": 5.0, "last": 5.0, "floor": 5.0})
    assert _outer(piece).is_valid


def test_an_allowance_below_nothing_is_told() -> None:
    (found,) = problems_of(rectangle(200, 300), allow={"side": -5.0})
    assert found.code == "allowance-negative"
    assert "-5 mm" in found.sentence


@pytest.mark.parametrize(
    ("centre", "stray"),
    [
        (curved((0, 0), (0, 100), (0.5, 200), (0, 300)), "0.5 mm"),
        (straight((0, 0), (8, 300)), "8 mm"),
    ],
)
def test_a_fold_that_is_not_straight_down_is_told_with_how_far_it_strays(
    centre: Floats, stray: str
) -> None:
    edges = rectangle(200, 300) | {
        "centre": centre,
        "bottom": straight(tuple(centre[-1, 3]), (200, 300)),
    }
    (found,) = problems_of(edges, fold="centre")
    assert (found.code, found.severity) == ("fold-not-straight", Severity.ERROR)
    assert "`centre`" in found.sentence
    assert stray in found.sentence


def test_a_fold_may_run_along_the_grain() -> None:
    piece = one_piece(rectangle(200, 300), fold="top", grain=(1.0, 0.0))
    assert piece.cut.fold == "top"
    assert piece.cut_line[..., 1].min() == pytest.approx(0.0, abs=1e-12)
    codes = [p.code for p in problems_of(rectangle(200, 300), fold="top")]
    assert codes == ["fold-not-straight"]
