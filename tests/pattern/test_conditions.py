"""Folds and seams whose conditions hold for a body, and those whose conditions fail."""

from __future__ import annotations

import numpy as np
import pytest
from hand_drafts import HandDraft, rectangle
from shapely import Polygon

from godet.pattern.pieces import Cut, Piece

ALLOWED = {"top": 10.0, "side": 10.0, "bottom": 10.0, "centre": 15.0}


def back(*, folded: bool | None, cut: tuple[int, str, bool] | None = (1, "main", False)) -> Piece:
    draft = HandDraft()
    edges = rectangle(200, 300)
    draft.piece("back", edges, fold="centre", folded=folded, cut=cut, allow=ALLOWED)
    (piece,) = draft.finished().pieces
    return piece


def test_where_its_condition_fails_a_fold_is_an_edge_of_a_piece_cut_in_a_mirrored_pair() -> None:
    piece = back(folded=False)
    assert (piece.drawn, piece.cut) == ("whole", Cut(2, "main", None, True))
    assert not any(edge.on_fold for edge in piece.edges.values())
    # 10 mm all round, 15 mm beyond the centre
    assert Polygon(np.array(piece.cut_line)[:, 0]).bounds == pytest.approx((-15, -10, 210, 310))
    assert piece.area_drawn == pytest.approx(200 * 300)


def test_where_its_condition_holds_a_fold_is_what_it_is_without_one() -> None:
    with_condition, without = back(folded=True), back(folded=None)
    assert (with_condition.drawn, with_condition.cut) == ("half", Cut(1, "main", "centre", False))
    assert with_condition.edges["centre"].on_fold
    assert with_condition.edges["centre"].allowance == 0.0
    assert np.array_equal(with_condition.cut_line, without.cut_line)


@pytest.mark.parametrize(
    ("cut", "becomes"),
    [
        (None, Cut(2, "main", None, True)),
        ((2, "lining", False), Cut(4, "lining", None, True)),
        ((2, "lining", True), Cut(4, "lining", None, True)),
    ],
)
def test_without_its_fold_a_piece_is_cut_twice_as_often_as_it_says(
    cut: tuple[int, str, bool] | None, becomes: Cut
) -> None:
    assert back(folded=False, cut=cut).cut == becomes


def two_halves(*, folded: bool) -> HandDraft:
    """A back, open at the centre or not, sewn to a band that goes all round the top."""
    draft = HandDraft()
    ends = {"centre_back": (0.0, 0.0), "back_side": (200.0, 0.0)}
    draft.piece("back", rectangle(200, 300), fold="centre", folded=folded, points=ends)
    band = {"start": (0.0, 0.0), "back_half": (100.0, 0.0)}
    draft.piece("band", rectangle(400, 30), points=band)
    return draft


def test_either_way_an_edge_is_sewn_whole_as_often_as_its_half_is_cut() -> None:
    for folded in (True, False):
        draft = two_halves(folded=folded)
        draft.seam("top", [("back", "top", True)], [("band", "top", False)])
        pattern = draft.finished()
        (seam,) = pattern.seams
        assert seam.sides[0][0].times == 2
        assert seam.lengths_sewn == pytest.approx((400.0, 400.0))


def test_a_seam_whose_condition_fails_is_not_sewn_and_not_compared() -> None:
    draft = two_halves(folded=True)
    # the sides are of different lengths, of which nothing is said
    draft.seam("centre", [("back", "centre", False)], [("band", "side", False)], when=False)
    pattern, problems = draft.finish()
    assert pattern is not None
    assert (pattern.seams, problems) == ((), ())


def test_seams_keep_their_order_where_one_between_them_is_not_sewn() -> None:
    for sewn in (True, False):
        draft = two_halves(folded=not sewn)
        top, centre = [("back", "top", True)], [("back", "centre", False)]
        # by their names alone they would be sewn the other way round
        draft.seam("a_last", top, [("band", "top", False)], after=["centre"])
        draft.seam("centre", centre, centre, after=["z_first"], when=sewn)
        side = [("back", "side", False)]
        draft.seam("z_first", side, side)
        names = [seam.name for seam in draft.finished().seams]
        assert names == (["z_first", "centre", "a_last"] if sewn else ["z_first", "a_last"])


def test_a_match_lies_as_far_along_the_band_whether_the_centre_is_a_fold_or_a_seam() -> None:
    found = []
    for folded in (True, False):
        draft = two_halves(folded=folded)
        centre = [("back", "centre", False)]
        draft.seam("centre", centre, centre, when=not folded)
        draft.seam(
            "top",
            [("back", "top", True)],
            [("band", "top", False)],
            after=["centre"],
            matches=[("band", "back_half")],
            begun=(("back", "back_side"), ("band", "start")),
        )
        pattern = draft.finished()
        notches = [n for n in pattern.pieces[0].notches if n.edge == "top"]
        # 100 mm from the side: half-way along the half
        assert [n.along for n in notches] == [pytest.approx(100.0)]
        found.append([(n.name, n.at, n.count) for n in notches])
    assert found[0] == found[1]


def test_an_edge_is_sewn_to_itself_only_while_it_lies_on_no_fold() -> None:
    for folded in (True, False):
        draft = two_halves(folded=folded)
        centre = [("back", "centre", False)]
        draft.seam("centre", centre, centre)
        assert [seam.name for seam in draft.finished().seams] == ([] if folded else ["centre"])
