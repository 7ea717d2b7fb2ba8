"""Whole patterns: pieces, seams, checks, reports and finished sizes."""

from __future__ import annotations

import math
from dataclasses import fields
from typing import Any

import numpy as np
import pytest
from hand_drafts import HALF_FRONT, HandDraft, dense, rectangle, straight
from shapely import LineString

from godet.base.places import Place
from godet.base.quantities import LengthUnit
from godet.base.words import Severity
from godet.graph.types import ANGLE, LENGTH, RATIO
from godet.pattern.finish import targets
from godet.pattern.pieces import Cut, Piece, SeamSide
from godet.pattern.short_lengths import short_length


def test_front_and_back_come_first_and_the_rest_by_name() -> None:
    draft = HandDraft()
    for name in ("sleeve", "back", "neckband", "front"):
        draft.piece(name, rectangle(200, 300))
    pieces = draft.finished().pieces
    assert [(p.number, p.name) for p in pieces] == [
        (1, "front"),
        (2, "back"),
        (3, "neckband"),
        (4, "sleeve"),
    ]


def test_a_piece_is_called_what_it_says_or_else_by_its_name() -> None:
    draft = HandDraft()
    draft.piece("back_facing", rectangle(200, 300))
    draft.piece("front", rectangle(200, 300), title="Left front")
    assert [p.title for p in draft.finished().pieces] == ["Left front", "Back facing"]


def test_a_piece_on_the_fold_is_drawn_half() -> None:
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300), fold="centre", cut=(1, "main", False))
    draft.piece("sleeve", rectangle(200, 300), cut=(2, "lining", True))
    draft.piece("band", rectangle(200, 30))
    front, band, sleeve = draft.finished().pieces
    assert (front.drawn, front.cut) == ("half", Cut(1, "main", "centre", False))
    assert (sleeve.drawn, sleeve.cut) == ("whole", Cut(2, "lining", None, True))
    assert band.cut == Cut(1, "main", None, False)


def test_a_piece_whose_condition_does_not_hold_is_left_out_with_its_seams() -> None:
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300), when=True)
    draft.piece("pocket", rectangle(90, 90), when=False, levels={"waist": 40.0})
    draft.seam("pocket", [("pocket", "top", False)], [("front", "top", False)])
    draft.seam("side", [("front", "side", False)], [("front", "centre", False)], after=["pocket"])
    pattern = draft.finished()
    assert [p.name for p in pattern.pieces] == ["front"]
    assert [(s.name, s.order) for s in pattern.seams] == [("side", 1)]
    assert pattern.girths == {}


def test_what_the_order_says_stands_on_the_pattern() -> None:
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300))
    pattern = draft.finished()
    assert pattern.title == "Column dress"
    assert (pattern.body, pattern.date, pattern.units) == ("adult_a", "2027-03-01", "cm")
    assert (pattern.version, pattern.digest, pattern.edition) == ("0.1.0", "5c30", 1)
    assert pattern.estimated == {"waist_to_hip": "ours"}
    assert pattern.measures == {"hip_girth": 1020.0}
    assert pattern.choices == {"fit": "close"}


def test_an_edge_keeps_its_own_direction_its_length_and_its_place() -> None:
    draft = HandDraft()
    draft.piece("front", HALF_FRONT)
    (piece,) = draft.finished().pieces
    for name, edge in piece.edges.items():
        assert np.array_equal(edge.path, HALF_FRONT[name])
        expected = LineString(dense(HALF_FRONT[name])).length  # shapely
        assert edge.length_cut == edge.length_sewn == pytest.approx(expected, abs=2e-3)
        assert edge.place == draft.pieces["front"].edges[name].place


def test_every_node_that_is_asked_for_is_a_target_once() -> None:
    draft = HandDraft()
    draft.piece(
        "front",
        rectangle(200, 300),
        allow={"top": 5.0, "side": None},
        grain=(0.0, 1.0),
        points={"waist": (0, 80)},
        levels={"waist": 80.0},
        notches=[("side", "waist", (200, 80))],
        blends={"side": 3.0},
        when=True,
    )
    draft.seam("side", [("front", "side", False)], [("front", "centre", False)], easing=0.0)
    draft.check("require", True, "", (5.0, ">=", 4.0, LENGTH))
    asked = targets(draft.draft())
    assert sorted(asked) == sorted(draft.values)
    draft.finished()  # `finish` forgets every value that is no target


# --- seams ----------------------------------------------------------------------------------------


def _sewn(**seam: Any) -> HandDraft:
    """A front and a back on the fold, a band as long as both tops, and one seam."""
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300), fold="centre")
    draft.piece("back", rectangle(190, 300), fold="centre")
    draft.piece("band", rectangle(702, 40))
    if seam:
        draft.seam(**seam)
    return draft


BAND = [("band", "bottom", False)]
NECK = [("front", "top", True), ("back", "top", True)]


def test_whole_counts_an_edge_as_often_as_it_is_cut() -> None:
    (seam,) = _sewn(name="neck", first=BAND, second=NECK, manner="stretched").finished().seams
    assert seam.sides == (
        (SeamSide("band.bottom", 1),),
        (SeamSide("front.top", 2), SeamSide("back.top", 2)),
    )
    assert seam.lengths_sewn == pytest.approx((702.0, 780.0))
    assert seam.ease == pytest.approx(-78.0)  # the band is stretched on


def test_the_seams_are_numbered_in_the_order_of_sewing_whatever_order_they_stand_in() -> None:
    names = {"armhole": ["shoulder"], "shoulder": [], "side": ["armhole"], "neck": ["shoulder"]}
    for order in (list(names), list(reversed(names))):
        draft = HandDraft()
        draft.piece("front", rectangle(200, 300))
        for name in order:
            sides = [("front", "side", False)], [("front", "centre", False)]
            draft.seam(name, *sides, after=names[name])
        numbers = {s.name: s.order for s in draft.finished().seams}
        assert numbers == {"shoulder": 1, "armhole": 2, "neck": 3, "side": 4}


def test_seams_that_wait_for_each_other_are_told() -> None:
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300))
    for name, after in (("one", "two"), ("two", "one")):
        sides = [("front", "side", False)], [("front", "centre", False)]
        draft.seam(name, *sides, after=[after])
    pattern, (found,) = draft.finish()
    assert pattern is None
    assert found.code == "seams-in-circle"
    assert "`one`, `two`" in found.sentence


@pytest.mark.parametrize(
    ("longer", "manner", "easing", "told"),
    [
        (0.9, None, None, None),
        (1.1, None, None, "1.1 mm"),
        (-1.1, None, None, "1.1 mm"),
        (10.8, "easing", 10.0, None),
        (12.5, "easing", 10.0, "2.5 mm"),
        (7.5, "easing", 10.0, "2.5 mm"),
        (-60.0, "stretched", None, None),
        (0.9, "stretched", None, None),
        (60.0, "gathered", None, None),
        (-0.9, "gathered", None, None),
    ],
)
def test_sides_more_than_a_millimetre_from_what_the_seam_says_are_told(
    longer: float, manner: str | None, easing: float | None, told: str | None
) -> None:
    # 1 mm, or the stated ease: trade practice
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300))
    draft.piece("sleeve", rectangle(200, 300 + longer))
    first, second = [("sleeve", "side", False)], [("front", "side", False)]
    draft.seam("armhole", first, second, manner=manner, easing=easing)
    pattern, problems = draft.finish()
    assert pattern is not None  # a warning stops nothing
    assert pattern.seams[0].ease == pytest.approx(longer)
    assert [p.code for p in problems] == (["seam-lengths-differ"] if told else [])
    for found in problems:
        assert found.severity == Severity.WARNING
        assert told is not None
        assert told in found.sentence
        assert "`armhole`" in found.sentence
        assert "30 cm" in found.sentence


@pytest.mark.parametrize(
    ("longer", "manner", "code"),
    [
        (-1.1, "gathered", "seam-gathers-nothing"),
        (1.1, "stretched", "seam-stretches-nothing"),
    ],
)
def test_a_gathered_side_that_is_shorter_and_a_stretched_one_that_is_longer_are_told(
    longer: float, manner: str, code: str
) -> None:
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300))
    draft.piece("skirt", rectangle(200, 300 + longer))
    draft.seam("waist", [("skirt", "side", False)], [("front", "side", False)], manner=manner)
    pattern, (found,) = draft.finish()
    assert pattern is not None
    assert (found.code, found.severity) == (code, Severity.WARNING)
    assert "1.1 mm" in found.sentence


def test_how_much_is_gathered_or_stretched_to_how_much_is_reported() -> None:
    draft = _sewn(name="waist", first=[("front", "top", True)], second=[("back", "side", False)])
    draft.seam("neck", BAND, NECK, manner="stretched")
    draft.seam("skirt", [("front", "side", False)], [("back", "top", False)], manner="gathered")
    pattern, _ = draft.finish()
    assert pattern is not None
    assert [report.words for report in pattern.reports] == [
        "the seam neck stretches 70.2 cm to 78 cm, by 11.1 %",  # 78 / 70.2 = 1.111
        "the seam skirt gathers 30 cm to 19 cm, 1.58 to 1",  # 30 / 19 = 1.579
    ]


@pytest.mark.parametrize("manner", ["stretched", "gathered"])
def test_of_sides_that_are_equal_nothing_is_reported_to_be_gathered_or_stretched(
    manner: str,
) -> None:
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300))
    draft.piece("back", rectangle(200, 300 + 1e-12))
    draft.seam("sides", [("back", "side", False)], [("front", "side", False)], manner=manner)
    assert draft.finished().reports == ()


# --- sizes, checks, reports -----------------------------------------------------------------------


def test_a_girth_is_the_whole_width_of_every_piece_that_has_the_level() -> None:
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300), fold="centre", levels={"waist": 80, "hip": 200})
    draft.piece("back", rectangle(190, 300), fold="centre", levels={"waist": 80})
    draft.piece("side_panel", rectangle(60, 300), cut=(2, "main", True), levels={"waist": 80})
    girths = draft.finished().girths
    assert girths == pytest.approx({"waist": 2 * 200 + 2 * 190 + 2 * 60, "hip": 400})


def test_length_is_down_the_centre_back_and_the_hem_goes_all_round() -> None:
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300), fold="centre")
    draft.piece("back", rectangle(190, 320), fold="centre")
    assert draft.finished().finished == pytest.approx({"length": 320.0, "hem_sweep": 780.0})


def test_what_has_no_meaning_for_the_pieces_is_not_told() -> None:
    draft = HandDraft()
    draft.piece("bag", rectangle(200, 300))
    assert draft.finished().finished == {}
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300), fold="centre")
    draft.piece("back", {**rectangle(200, 300), "bottom": straight((0, 300), (200, 300))})
    edges = dict(rectangle(200, 300))
    edges["hem"] = edges.pop("bottom")
    draft.piece("back", edges)
    assert "hem_sweep" not in draft.finished().finished


def test_checks_are_told_in_the_readers_unit_and_numbered_by_place() -> None:
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300))
    draft.check("require", True, "wide enough", (984.0, ">=", 920.0, LENGTH))
    draft.check("advise", False, "not too steep", (math.radians(33.25), "<=", 0.5, ANGLE))
    draft.check("require", False, "long enough", (200.0, ">", 205.0, LENGTH))
    draft.check("advise", True, "a knit")
    draft.check("advise", True, "not too full", (1.5, "<", 2.0, RATIO))
    draft.checks.reverse()
    checks = draft.finished().checks
    assert [(c.name, c.ok, c.measured, c.wanted) for c in checks] == [
        ("require 1", True, "98.4 cm", "at least 92 cm"),
        ("advise 1", False, "33.2 degrees", "at most 28.6 degrees"),
        ("require 2", False, "20 cm", "more than 20.5 cm"),
        ("advise 2", True, "", ""),
        ("advise 3", True, "1.5", "less than 2"),
    ]
    pattern, _ = draft.finish("in")
    assert pattern is not None
    assert pattern.checks[0].measured == "38 3/4 in"


def test_a_blocks_checks_come_after_the_recipes_own() -> None:
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300))
    draft.check("require", True, "block", place=Place("/library/a_block.godet", 1, 1, 1, 9))
    draft.check("require", True, "own")
    assert [c.words for c in draft.finished().checks] == ["own", "block"]


def test_a_blend_is_reported_with_the_width_it_gives_or_takes_and_its_stray() -> None:
    draft = HandDraft()
    blends = {"side": 4.0, "top": -12.0, "centre": 0.04}
    draft.piece("front", rectangle(200, 300), blends=blends)
    assert [report.words for report in draft.finished().reports] == [
        "rounding the corner at side_waist on front.side gives 4 mm of width there, and "
        "passes 3 mm from the corner",
        "rounding the corner at side_waist on front.top takes 1.2 cm of width there, and "
        "passes 3 mm from the corner",
    ]


@pytest.mark.parametrize(
    ("mm", "units", "words"),
    [
        (4.0, "cm", "4 mm"),
        (0.02, "cm", "0.02 mm"),
        (25.0, "cm", "2.5 cm"),
        (3.2, "in", "1/8 in"),
        (0.3, "in", "0.01 in"),
    ],
)
def test_short_lengths_never_round_to_nothing(mm: float, units: LengthUnit, words: str) -> None:
    assert short_length(mm, units) == words


def test_the_same_draft_gives_the_same_pattern_to_the_bit() -> None:
    def made() -> Piece:
        draft = HandDraft()
        draft.piece("front", HALF_FRONT, fold="centre", allow={"bottom": 30.0})
        return draft.finished().pieces[0]

    one, other = made(), made()
    assert np.array_equal(one.cut_line, other.cut_line)
    assert {f.name for f in fields(one)} == {f.name for f in fields(other)}
    assert (one.grain, one.area_cut) == (other.grain, other.area_cut)
