"""Failures in a dressmaker's words, in the unit she uses, and once for all bodies they befall."""

from __future__ import annotations

import numpy as np
import pytest
from small_recipes import HEADING, draft, inputs, solved

from godet.base.problems import Problem
from godet.base.quantities import LengthUnit
from godet.solve.solver import solve
from godet.tools.failing import failure_problems

FLAP = (
    f"{HEADING}measure hip_girth\npiece flap\n  point a = origin\n"
    "  point b = a down hip_girth / 10\n  point c = b outward 9cm\n"
    "  edge back = line a to b\n  edge low = line b to c\n  edge slant = line c to a\n{}\nend\n"
)


def problems(
    text: str, name: str, hips: list[float], units: LengthUnit = "cm", **choices: object
) -> tuple[Problem, ...]:
    made = draft(text)
    outcome = solved(made, [name], inputs(made, {"hip_girth": hips}, choices))
    return failure_problems(outcome, made, units)


@pytest.mark.parametrize(
    ("line", "name", "code", "told"),
    # hip 100 cm, so the flap's back is 10 cm long and its low edge 9 cm
    [
        ("point d = along back from a by 12cm", "flap.d", "past-the-end", ("12 cm", "10 cm")),
        ("point d = along back from c by 2cm", "flap.d", "not-an-end", ("9 cm",)),
        ("edge e = back until c", "flap.e", "off-edge", ("9 cm",)),
        ("edge e = line a to b, then line to c, blended at b over 30cm", "flap.e",
         "blend-too-long", ("15 cm", "10 cm", "9 cm")),
        ("edge e = line a to a", "flap.e", "zero-length", ()),
        ("let d = width(flap, deep)\n  level deep = across at c down 2cm", "flap.d",
         "level-misses", ("12 cm", "10 cm")),
        ("point d = a toward a by 2cm", "flap.d", "same-point", ()),
        ("edge e = back extended by -2cm", "flap.e", "not-positive", ("-2 cm",)),
        ("let d = 5cm / (hip_girth - 100cm)", "flap.d", "divided-by-zero", ("5 cm",)),
        # 20 cm squared less 25 cm squared
        ("let d = sqrt(hip_girth * hip_girth / 25 - 25cm ^ 2)", "flap.d", "root-of-negative",
         ("-225 square cm",)),
    ],
)  # fmt: skip
def test_a_failure_is_told_with_its_numbers(line: str, name: str, code: str, told: tuple[str, ...]):
    (problem,) = problems(FLAP.format(f"  {line}"), name, [1000.0])
    assert problem.code == code
    assert "body_0" in problem.sentence
    for words in told:
        assert words in problem.sentence, problem.sentence
    assert problem.place is not None


def test_numbers_are_told_in_inches_to_whom_works_in_inches():
    text = FLAP.format("  point d = along back from a by 12cm")
    (problem,) = problems(text, "flap.d", [1000.0], "in")
    # 12 cm and 10 cm to the nearest sixteenth of an inch
    assert "4 3/4 in" in problem.sentence
    assert "3 15/16 in" in problem.sentence


def test_what_fails_in_a_module_is_told_where_the_recipe_asks_for_it():
    text = (
        f"{HEADING}use usable_stretch from ease\nmeasure hip_girth\n"
        "let wide = hip_girth * (1 + usable_stretch(fabric))\nlet again = wide / 2\n"
    )
    made = draft(text)
    outcome = solved(made, ["again"], inputs(made, {"hip_girth": [980.0]}, cloths={}))
    (problem,) = failure_problems(outcome, made, "cm")
    assert problem.code == "cloth-missing"
    assert problem.place is not None
    assert (problem.place.file, problem.place.line) == (made.file, 5)
    (note,) = problem.notes
    assert note.place is not None
    assert note.place.file.endswith("ease.godet")


def test_a_measure_that_is_missing_is_told_where_the_recipe_names_it():
    made = draft(f"{HEADING}measure waist_girth,\n  hip_girth\nlet a = waist_girth + hip_girth\n")
    outcome = solved(made, ["a"], inputs(made, {"waist_girth": [740.0]}))
    (problem,) = failure_problems(outcome, made, "cm")
    assert problem.place is not None
    assert (problem.place.file, problem.place.line) == (made.file, 4)


def test_a_cloth_that_is_not_named_is_told_once_whatever_is_asked_of_it():
    text = f"{HEADING}let a = 10cm * fabric.stretch_across + 10cm * fabric.stretch_along\n"
    made = draft(text)
    outcome = solved(made, ["a"], inputs(made, {}, cloths={}))
    assert [p.code for p in failure_problems(outcome, made, "cm")] == ["cloth-missing"]


def test_a_line_that_drafts_two_pieces_fails_once():
    text = FLAP.replace("piece flap", "piece flap, tab").replace(
        "b outward 9cm", "b outward wide\n  find wide from 1cm to 9cm so that wide = 8cm"
    )
    made = draft(text.format("  point d = along low from b by 12cm"))
    outcome = solved(made, ["flap.d", "tab.d"], inputs(made, {"hip_girth": [1000.0]}))
    assert len(outcome.failures) == 2
    assert [p.code for p in failure_problems(outcome, made, "cm")] == ["past-the-end"]


def test_a_blend_that_takes_too_much_is_told_once():
    text = FLAP.format("  edge e = line a to b, then line to c, blended at b over 30cm")
    made = draft(text)
    blend = made.pieces["flap"].edges["e"].blends[0]
    wanted = [made.names["flap.e"], blend.gives]
    outcome = solve(made.graph, made.finds, wanted, inputs(made, {"hip_girth": [1000.0]}))
    assert [p.code for p in failure_problems(outcome, made, "cm")] == ["blend-too-long"]


def test_one_failure_of_many_bodies_is_one_problem_with_the_list():
    text = FLAP.format("  point d = along back from a by 9.5cm")
    (problem,) = problems(text, "flap.d", [1000.0, 900.0, 940.0])
    assert "body_1, body_2" in problem.sentence
    assert "body_0" not in problem.sentence
    # the numbers are those of the worst of them: 90 cm of hip, 9 cm of back
    assert "9 cm long" in problem.sentence


def test_a_long_list_of_bodies_is_cut_short():
    text = FLAP.format("  point d = along back from a by 30cm")
    (problem,) = problems(text, "flap.d", [1000.0] * 20)
    assert "body_8, body_9 and 10 more" in problem.sentence


def test_a_missing_measure_says_how_to_take_it():
    text = FLAP.format("")
    (problem,) = problems(text, "flap.c", [np.nan])
    assert problem.code == "missing-measure"
    assert "hip_girth" in problem.sentence
    assert "lay the tape round, feet together" in problem.sentence


def test_a_choice_out_of_range_is_told_by_its_name():
    text = f"{HEADING}measure hip_girth\nchoose hem = 3cm from 1cm to 9cm\nlet a = hem\n"
    (problem,) = problems(text, "a", [1000.0], hem=120.0)
    assert "`hem` comes to 12 cm, outside its range of 1 cm to 9 cm" in problem.sentence


def test_an_unknown_without_an_answer_is_told_in_its_own_dimension_and_its_sides_in_theirs():
    text = (
        f"{HEADING}measure hip_girth\nlet a = turn\n"
        "find turn from 10deg to 20deg so that hip_girth * sin(turn) = hip_girth\n"
    )
    (problem,) = problems(text, "a", [1000.0])
    assert problem.code == "no-answer-in-range"
    # 100 cm - 100 cm * sin 20 degrees = 65.8 cm
    for words in ("`turn`", "10 degrees to 20 degrees", "65.8 cm", "at 20 degrees"):
        assert words in problem.sentence, problem.sentence


TOGETHER = (
    f"{HEADING}measure hip_girth\nlet a = x + y\nfind x from 1cm to 60cm so that {{}}\n"
    "find y from 1cm to 60cm so that {}\n"
)


def test_equations_that_contradict_each_other_are_told_with_both_places():
    text = TOGETHER.format("x + y = hip_girth", "x + y = hip_girth + 1 in")
    (problem,) = problems(text, "a", [1000.0], "in")
    assert "the equations of `x` and `y` contradict each other" in problem.sentence
    assert "are 1 in apart" in problem.sentence
    (note,) = problem.notes
    assert "`x`" in note.words
    assert problem.place is not None
    assert note.place is not None
    assert [problem.place.line, note.place.line] == [6, 5]


def test_an_answer_outside_its_range_is_told_with_its_value():
    (problem,) = problems(TOGETHER.format("x + y = 80cm", "x - y = 60cm"), "a", [1000.0])
    assert "`x` to be 70 cm, outside its range of 1 cm to 60 cm" in problem.sentence


def test_unknowns_not_found_are_never_called_impossible():
    text = TOGETHER.format("x * x + y * y = 1cm * 1cm", "x + x * y / 1m = y")
    (problem,) = problems(text, "a", [1000.0])
    assert "no `x` and `y` were found" in problem.sentence
    assert "impossible" not in problem.sentence
    # both at their lower ends of 1 cm, one square centimetre too much and a tenth of a mm
    (note,) = problem.notes
    told = problem.sentence + note.words
    assert "1 square cm apart" in told
    assert "0.01 cm apart" in told


def test_two_statements_that_fail_are_two_problems():
    made = draft(
        FLAP.format("  point d = along back from a by 30cm\n  point e = along low from b by 30cm")
    )
    outcome = solved(made, ["flap.d", "flap.e"], inputs(made, {"hip_girth": 1000.0}))
    told = failure_problems(outcome, made, "cm")
    assert [p.code for p in told] == ["past-the-end", "past-the-end"]
    assert len({p.place for p in told}) == 2
