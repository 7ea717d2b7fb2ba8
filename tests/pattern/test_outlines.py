"""Edges chained to an outline."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hand_drafts import (
    HALF_FRONT,
    Floats,
    curved,
    dense,
    one_piece,
    problems_of,
    rectangle,
    straight,
)
from shapely import LinearRing, Polygon

from godet.base.words import Severity
from godet.pattern.crossing_itself import crossing_itself
from godet.pattern.pieces import Piece


def _walked(piece: Piece) -> Floats:
    parts = []
    for step in piece.outline:
        points = dense(piece.edges[step.edge].path)
        parts.append(points[::-1] if step.turned else points)
    return np.concatenate(parts)


@pytest.mark.parametrize("edges", [rectangle(200, 300), HALF_FRONT], ids=["panel", "front"])
@pytest.mark.parametrize("turned", [False, True])
def test_the_walk_is_closed_and_clockwise_as_printed_however_edges_are_drawn(
    edges: dict[str, Floats], turned: bool
) -> None:
    drawn = {n: p[::-1, ::-1] if turned else p for n, p in edges.items()}
    piece = one_piece(drawn)
    assert sorted(step.edge for step in piece.outline) == sorted(edges)
    # shapely, down counted upward: clockwise on the page is counter-clockwise to it
    assert LinearRing(_walked(piece)).is_ccw


def test_the_order_in_which_edges_are_written_changes_nothing() -> None:
    edges = rectangle(200, 300)
    written = [
        one_piece({name: edges[name] for name in order}, fold="centre").outline
        for order in itertools.permutations(edges)
    ]
    assert all(outline == written[0] for outline in written)


def test_the_walk_begins_on_the_fold() -> None:
    piece = one_piece(rectangle(200, 300), fold="side")
    assert [step.edge for step in piece.outline] == ["side", "bottom", "centre", "top"]
    # across the top, down the side: only bottom and centre run against their own direction
    assert [step.edge for step in piece.outline if step.turned] == ["bottom", "centre"]


def test_without_a_fold_the_walk_begins_with_the_first_name() -> None:
    assert one_piece(rectangle(200, 300)).outline[0].edge == "bottom"


def test_ends_a_thousandth_of_a_millimetre_apart_meet() -> None:
    edges = rectangle(200, 300) | {"side": straight((200.0009, 0), (200, 300))}
    assert len(one_piece(edges).outline) == 4


def test_an_end_that_meets_no_other_is_told_with_both_edges_and_the_gap() -> None:
    edges = rectangle(200, 300) | {"side": straight((203, 0), (200, 300))}
    (found,) = problems_of(edges, fold="centre")
    assert (found.code, found.severity) == ("outline-open", Severity.ERROR)
    for word in ("panel", "`top`", "`side`", "3 mm", "adult_a"):
        assert word in found.sentence


def test_an_edge_that_the_closed_walk_does_not_need_is_told() -> None:
    edges = rectangle(200, 300) | {"dart": straight((50, 4), (50, 100))}
    (found,) = problems_of(edges)
    assert found.code == "edge-left-over"
    assert "`dart`" in found.sentence


def test_the_nearest_edge_to_one_left_over_is_named_with_its_distance() -> None:
    edges = rectangle(200, 300) | {"flap": straight((0, 304), (0, 320))}
    (found,) = problems_of(edges)
    assert found.code == "edge-left-over"
    assert "`flap`" in found.sentence
    assert "`bottom`" in found.sentence
    assert "4 mm" in found.sentence


def test_in_inches_a_hair_of_a_gap_is_still_a_number() -> None:
    edges = rectangle(200, 300) | {"side": straight((200.254, 0), (200, 300))}
    (found,) = problems_of(edges, units="in", fold="centre")
    assert "0.01 in" in found.sentence


def test_cubics_of_no_length_are_dropped() -> None:
    side = np.concatenate([straight((200, 0), (200, 300)), np.full((2, 4, 2), (200.0, 300.0))])
    piece = one_piece(rectangle(200, 300) | {"side": side})
    assert piece.edges["side"].path.shape == (1, 4, 2)
    assert piece.edges["side"].length_cut == pytest.approx(300.0, abs=1e-9)


def test_an_edge_of_no_length_is_told() -> None:
    edges = rectangle(200, 300) | {"vent": np.full((1, 4, 2), 50.0)}
    (found,) = problems_of(edges)
    assert found.code == "zero-length"


def test_a_piece_without_edges_is_told() -> None:
    (found,) = problems_of({})
    assert found.code == "piece-without-edges"


def test_an_outline_that_crosses_itself_is_told_with_its_edges() -> None:
    hourglass = {
        "top": straight((0, 0), (100, 0)),
        "first": straight((100, 0), (-20, 200)),
        "bottom": straight((-20, 200), (120, 200)),
        "second": straight((120, 200), (0, 0)),
    }
    (found,) = problems_of(hourglass)
    assert found.code == "outline-crosses"
    assert "`first`" in found.sentence
    assert "`second`" in found.sentence


def test_two_edges_and_even_one_make_an_outline() -> None:
    leaf = {
        "upper": curved((0, 0), (60, -60), (140, -60), (200, 0)),
        "lower": curved((0, 0), (60, 60), (140, 60), (200, 0)),
    }
    piece = one_piece(leaf)
    assert piece.area_drawn == pytest.approx(Polygon(_walked(piece)).area, rel=1e-4)  # shapely
    drop = one_piece({"rim": curved((0, 0), (150, -100), (150, 100), (0, 0))})
    assert [step.edge for step in drop.outline] == ["rim"]
    assert Polygon(dense(drop.cut_line)).contains(Polygon(_walked(drop)))


def test_whether_a_closed_line_crosses_itself_agrees_with_shapely() -> None:
    generator = np.random.default_rng(7)
    verdicts = []
    for _ in range(200):
        points = generator.uniform(0.0, 1.0, (5, 2))
        crosses = not LinearRing(points).is_simple
        assert (crossing_itself(points) is not None) == crosses
        verdicts.append(crosses)
    assert any(verdicts)
    assert not all(verdicts)


def test_a_straight_edge_with_a_part_of_hardly_any_length_does_not_cross_itself():
    # as a parallel of two lines in one direction had it
    line = [
        [152.61022390440556, 239.74174298938235],
        [160.89534461770307, 239.08069722415374],
        [160.89534461770273, 239.08069722415377],
        [162.08595660226874, 238.9814683601354],
    ]
    assert crossing_itself(np.array([*line, [160.0, 300.0]])) is None
