"""What a recipe does not mention is held to the new drawing: pieces, seams and checks of blocks."""

from __future__ import annotations

from small_recipes import (
    HEADING,
    MEASURES,
    TOP,
    WITH_TOP,
    compiled,
    draft,
    faults,
    inputs,
    told,
    values,
)

from godet.solve.solver import solve

TWO = f"{HEADING}  takes a: bodice = plain_top\n  takes b: bodice = plain_top\n"
WITHOUT_A = "".join(f"without a.{piece}\n" for piece in ("front", "back", "sleeve", "pocket"))


def test_of_two_blocks_the_one_that_is_kept_is_cut():
    made = draft(f"{TWO}{WITHOUT_A}")
    given = inputs(made, MEASURES, {"b.bust_ease": 100.0})
    (kept,) = values(made, "front.underarm", given)
    (of_b,) = values(made, "b.front.underarm", given)
    (of_a,) = values(made, "a.front.underarm", given)
    assert list(kept) == list(of_b)
    assert list(kept) != list(of_a)


def test_a_check_of_the_block_measures_what_was_redrawn():
    top = TOP.replace("recipe plain_top", "recipe checked_top")
    top += "\nrequire girth(waist) >= 60cm\n"
    narrow = (
        f"{HEADING}  takes top: bodice = checked_top\n"
        "piece front, back from top.front, top.back\n"
        "  point side_waist = centre_waist outward 12cm\n"
        "  edge side = line underarm to side_waist\n"
        "  edge bottom = line centre_waist to side_waist\n"
        "end\n"
    )
    made = draft(narrow, beside={"checked_top.godet": top})
    check = made.checks[-1]
    assert check.measured is not None
    wanted = [check.condition, check.measured]
    outcome = solve(made.graph, made.finds, wanted, inputs(made, MEASURES))
    # 12 cm wide, drawn as halves of front and back
    assert outcome.value(check.measured, 0) == 480.0
    assert not outcome.value(check.condition, 0)


def test_a_check_stays_though_a_piece_with_the_same_origin_is_left_out():
    top = TOP.replace("recipe plain_top", "recipe checked_top")
    top += "\nrequire girth(waist) >= 60cm\n"
    left_out = "".join(f"without top.{piece}\n" for piece in ("sleeve", "pocket"))
    bare = f"{HEADING}  takes top: bodice = checked_top\n{left_out}"
    made = draft(bare, beside={"checked_top.godet": top})
    assert len(made.checks) == len(draft(top).checks) == 2


def test_a_seam_is_sewn_after_one_of_the_block():
    hem = "seam hem: top.front.bottom to top.back.bottom after side\n"
    made = draft(f"{WITH_TOP}{hem}")
    assert next(seam for seam in made.seams if seam.name == "hem").after == ("side",)
    refused = compiled(f"{WITH_TOP}{hem.replace('after side', 'after sides')}")
    assert [problem.code for problem in refused.problems] == ["no-such-seam"]


def test_a_piece_redrafted_under_another_name_keeps_its_seams():
    made = draft(f"{WITH_TOP}piece chest from top.front\nend\n")
    side = next(seam for seam in made.seams if seam.name == "side")
    assert {edge[0] for edge in (*side.first, *side.second)} == {"chest", "back"}


def test_seams_of_one_name_from_two_blocks_are_told_apart():
    renamed = "".join(
        f"piece {p}_a from a.{p}\nend\n" for p in ("front", "back", "sleeve", "pocket")
    )
    made = draft(f"{TWO}{renamed}")
    names = [seam.name for seam in made.seams]
    assert len(names) == len(set(names))
    assert {"a.side", "b.side"} <= set(names)


def test_after_a_seam_that_two_blocks_have_says_of_which():
    renamed = "".join(
        f"piece {p}_a from a.{p}\nend\n" for p in ("front", "back", "sleeve", "pocket")
    )
    sewn = "seam round: front_a.bottom to back_a.bottom after {}\n"
    unclear = compiled(f"{TWO}{renamed}{sewn.format('side')}")
    assert [found.code for found in faults(unclear.problems)] == ["no-such-seam"]
    made = draft(f"{TWO}{renamed}{sewn.format('a.side, b.side')}")
    assert {s.name: s.after for s in made.seams}["round"] == ("a.side", "b.side")


def test_what_a_piece_says_once_is_not_said_twice():
    twice = f"{HEADING}piece a\n  cut 1 of main\n  cut 2 of main\nend\n"
    assert told(compiled(twice).problems) == [("given-twice", 5)]


def test_an_edge_by_another_name_is_no_edge_of_the_piece():
    text = (
        f"{HEADING}piece a\n  point p = origin down 10cm\n  edge left = line origin to p\n"
        "  let e = left\n  fold e\nend\n"
    )
    assert told(compiled(text).problems) == [("wrong-type", 7)]
