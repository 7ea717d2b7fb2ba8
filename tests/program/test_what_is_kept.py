"""Drafting on from a block: what the recipe doesn't mention comes through, untouched."""

from __future__ import annotations

import pytest
from small_recipes import HEADING, MEASURES, TOP, WITH_TOP, compiled, draft, inputs, values

FLARED = (
    f"{WITH_TOP}  makes bodice\n"
    "piece front from top.front\n"
    "  point side_waist = base.side_waist outward 3cm\n"
    "  edge side = line underarm to side_waist\n"
    "  edge bottom = line centre_waist to side_waist\n"
    "end\n"
)


def test_a_piece_keeps_all_that_is_not_given_again():
    made = draft(FLARED)
    # the same nodes in one graph: nothing was drawn anew
    base = {name: made.names[f"top.front.{name}"] for name in made.pieces["front"].edges}
    front = made.pieces["front"]
    kept = {name for name, edge in front.edges.items() if edge.curve == base[name]}
    assert kept == {"centre", "neck", "shoulder", "armhole"}
    for point in ("centre_neck", "side_neck", "underarm", "centre_waist"):
        assert front.points[point] == made.names[f"top.front.{point}"]
    for level in ("bust", "waist"):
        assert front.levels[level] == made.names[f"top.front.{level}"]
    block = draft(TOP).pieces["front"]
    assert set(front.allowances) == set(block.allowances) == {*base} - {"centre"}
    assert front.fold is not None
    assert front.fold.edge == "centre"
    assert front.cut is not None
    assert (front.cut.count, front.cut.cloth) == (1, "main")
    assert front.grain is not None
    assert [notch.edge for notch in front.notches] == ["side"]


def test_pieces_that_are_not_redrafted_come_through_with_their_seams():
    made = draft(FLARED)
    block = draft(TOP)
    assert set(made.pieces) == set(block.pieces)
    assert [seam.name for seam in made.seams] == ["shoulder", "side", "pocket"]
    assert [check.words for check in made.checks] == ["no top is as narrow as that"]
    assert set(made.choices) == {"top.length", "top.bust_ease"}


def test_a_block_that_is_only_taken_is_the_block():
    made = draft(f"{WITH_TOP}  makes bodice\n")
    given = inputs(made, MEASURES)
    block = draft(TOP)
    for name in ("front.hem_side", "sleeve.hem_outer", "pocket.outer"):
        (here,) = values(made, name, given)
        (there,) = values(block, name, inputs(block, MEASURES))
        assert list(here) == list(there)


def test_a_piece_is_left_out_by_name_and_its_seams_with_it():
    made = draft(f"{WITH_TOP}  without top.pocket\n")
    assert set(made.pieces) == {"front", "back", "sleeve"}
    assert [seam.name for seam in made.seams] == ["shoulder", "side"]


@pytest.mark.parametrize("line", ["without tip.pocket", "without top.pokcet"])
def test_leaving_out_what_is_not_there_is_a_mistake(line: str):
    made = compiled(f"{WITH_TOP}  {line}\n")
    assert [p.code for p in made.problems] in (["no-such-block"], ["no-such-member"])


def test_a_kind_is_not_kept_by_a_piece_that_is_left_out():
    made = compiled(f"{WITH_TOP}  makes bodice\n  without top.front\n")
    assert [p.code for p in made.problems] == ["kind-not-kept"]
    assert "piece front" in made.problems[0].sentence


def test_a_kind_is_not_kept_by_a_block_of_another_one():
    made = compiled(f"{WITH_TOP}  makes dress\n")
    assert [p.code for p in made.problems] == ["kind-not-kept"]
    assert "point front.hip_side" in made.problems[0].sentence
    assert "level back.hip" in made.problems[0].sentence


def test_base_is_the_old_one():
    made = draft(FLARED)
    given = inputs(made, MEASURES)
    (new,) = values(made, "front.side_waist", given)
    (old,) = values(made, "top.front.side_waist", given)
    # 3 cm outward of the old one, as the recipe says
    assert list(new - old) == [30.0, 0.0]


def test_a_piece_of_the_recipes_own_takes_the_place_of_the_blocks():
    text = f"{WITH_TOP}piece pocket\n  point a = origin\n  point b = a down 9cm\n"
    made = draft(f"{text}  edge inside = line a to b\nend\n")
    assert set(made.pieces["pocket"].edges) == {"inside"}
    assert list(made.pieces).count("pocket") == 1


def test_a_block_of_the_wrong_kind_is_refused_with_all_its_reasons():
    half = TOP[: TOP.index("piece sleeve")].replace("piece front, back", "piece front")
    half = half.replace("  level waist = across at side_waist\n", "").replace(
        "  makes bodice\n", ""
    )
    text = f"{HEADING}takes top: bodice = half_top\n"
    made = compiled(text, beside={"half_top.godet": half})
    assert [(p.code, p.place and p.place.line) for p in made.problems] == [("wrong-kind", 3)]
    for reason in ("makes no kind", "no level front.waist", "no piece back"):
        assert reason in made.problems[0].sentence


def test_blocks_that_take_each_other_are_named_all_round():
    first = f"{HEADING}takes top: bodice = other\n"
    second = "edition 1\nrecipe other\n  takes top: bodice = tried\n"
    made = compiled(first, beside={"other.godet": second})
    assert [p.code for p in made.problems] == ["blocks-in-circle"]
    assert "tried takes other takes tried" in made.problems[0].sentence


def test_a_block_in_a_block_is_reached_by_both_names():
    dress_on_top = f"{HEADING}takes low: dress = plain_dress\n"
    made = draft(dress_on_top)
    assert set(made.choices) == {
        "low.fit",
        "low.skirt_length",
        "low.top.length",
        "low.top.bust_ease",
    }
    (wide,) = values(made, "front.hip_side", inputs(made, MEASURES))
    (loose,) = values(made, "front.hip_side", inputs(made, MEASURES, {"low.fit": "loose"}))
    # ease at the hip: 2 cm close, 6 cm loose, a quarter of it on each half piece
    assert loose[0] - wide[0] == 10.0


def test_girth_counts_pieces_that_come_through():
    made = draft(f"{WITH_TOP}let round = girth(bust)\n")
    # front and back are each a quarter of bust and ease, on the fold: 92 + 4 cm all round
    assert values(made, "round", inputs(made, MEASURES)) == [pytest.approx(960.0, abs=1e-9)]


def test_an_edge_counted_whole_may_shape_the_piece_it_belongs_to():
    made = draft(
        f"{HEADING}piece flap\n  point a = origin\n  point b = a down 9cm\n"
        "  point c = a outward length(whole(long))\n  edge long = line a to b\n"
        "  edge wide = line a to c\n  fold long\nend\n"
    )
    (c,) = values(made, "flap.c", inputs(made, {}))
    assert list(c) == pytest.approx([180.0, 0.0], abs=1e-9)


def test_two_blocks_that_bring_the_same_piece_must_say_which():
    text = f"{WITH_TOP}  takes low: bodice = plain_top\n"
    made = compiled(text)
    (problem,) = made.problems
    assert problem.code == "pieces-share-name"
    assert "front, back, sleeve and pocket" in problem.sentence
    spared = "".join(f"  without low.{piece}\n" for piece in ("front", "back", "sleeve", "pocket"))
    assert compiled(text + spared).problems == ()
