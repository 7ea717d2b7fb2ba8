"""What texts that are right mean: types, members, functions, conditions."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_recipes import (
    DRESS,
    HEADING,
    MEASURES,
    SMALL_LIBRARY,
    TOP,
    WITH_TOP,
    compiled,
    draft,
    faults,
    inputs,
    value,
    values,
)

from godet.graph.types import AREA, LENGTH, RATIO

BUST_POINT_TOP = TOP.replace("recipe plain_top", "recipe pointed_top").replace(
    "  level bust  =", "  point bust_point = underarm inward 5cm\n  level bust  ="
)
BESIDE = {"pointed_top.godet": BUST_POINT_TOP}


def type_of(written: str) -> str:
    made = draft(f"{HEADING}measure hip_girth, waist_girth\nlet a = {written}\n")
    return str(made.graph[made.names["a"]].type)


@pytest.mark.parametrize(
    ("written", "type"),
    [
        ("sqrt(hip_girth * waist_girth)", str(LENGTH)),
        ("hip_girth * waist_girth", str(AREA)),
        ("(hip_girth * waist_girth) ^ 1/2", str(LENGTH)),
        ("hip_girth / waist_girth", str(RATIO)),
        ("hip_girth ^ 3 / waist_girth", str(AREA)),
        ("1 / hip_girth", "one over a length"),
        ("sqrt(hip_girth)", "length^1/2"),
        ("12 % * hip_girth", str(LENGTH)),
        ("slope(hip_girth, waist_girth)", "an angle"),
        ("20deg * hip_girth", "length^1 x angle^1"),
        ("hip_girth > waist_girth", "a condition"),
        ("fabric.structure", "one of knit, woven"),
    ],
)
def test_a_formula_is_of_the_type_that_its_dimensions_give(written: str, type: str):
    assert type_of(written) == type


def test_an_angle_is_no_ratio():
    made = compiled(f"{HEADING}let a = sin(1/2)\n")
    assert [p.code for p in made.problems] == ["bare-number"]
    made = compiled(f"{HEADING}let a = 20deg + 1/2\n")
    assert [p.code for p in made.problems] == ["bare-number"]


@pytest.mark.parametrize(
    ("written", "mm"),
    # an inch is 25.4 mm exactly (international agreement of 1959)
    [
        ("14 3/8 in", 365.125),
        ("1/3 * 1 yd", 304.8),
        ("hip_girth / 4 + 2cm", 265.0),
        ("12 % * hip_girth", 117.6),
        ("min(hip_girth, waist_girth, 1m)", 740.0),
        ("max(0cm, waist_girth - hip_girth)", 0.0),
        ("abs(waist_girth - hip_girth)", 240.0),
        ("sqrt(hip_girth ^ 2 + waist_girth ^ 2)", math.hypot(980.0, 740.0)),
        ("hip_girth * sin(30deg)", 490.0),
        ("-2cm - -3cm", 10.0),
        ("10cm - 2cm - 3cm", 50.0),
        ("12cm / 2 / 3", 20.0),
        ("if hip_girth > waist_girth and not hip_girth > 1m then 1cm else 2cm", 10.0),
        ("if hip_girth < waist_girth or hip_girth >= 1m then 1cm else 2cm", 20.0),
    ],
)
def test_a_formula_has_the_value_a_person_works_out(written: str, mm: float):
    text = f"{HEADING}measure hip_girth, waist_girth\nlet a = {written}\n"
    # hip 980 mm, waist 740 mm; worked out by hand
    assert value(text, "a") == pytest.approx(mm, abs=1e-12)


def test_functions_take_arguments_by_place_by_name_and_by_default():
    text = f"{HEADING}define f(a: length, b: length = 2cm, c: ratio = 3) = c * a - b\n"
    calls = {"f(1cm)": 10, "f(1cm, 1cm)": 20, "f(1cm, c: 5)": 30, "f(b: 0cm, a: 1cm)": 30}
    for written, mm in calls.items():
        assert value(f"{text}let d = {written}\n", "d") == mm


def test_a_function_of_words_takes_a_word_or_a_choice():
    text = f"{HEADING}use ease_at_hip from ease\nchoose fit = one of close, loose\n"
    assert value(f"{text}let a = ease_at_hip(loose)\n", "a") == 60.0
    assert value(f"{text}let a = ease_at_hip(fit, more: 1cm)\n", "a") == 30.0


def test_use_before_it_is_given_is_legal():
    assert value(f"{HEADING}let a = b + c\nlet b = c / 2\nlet c = 4cm\n", "a") == 60.0


BEHIND_HAS = (
    "  takes top: bodice = plain_top\n"
    "piece front from top.front\n"
    "  point middle = if {asked} has bust_point then {read} else underarm\n"
    "end\n"
)


@pytest.mark.parametrize(
    ("asked", "read"),
    [("top.front", "top.front.bust_point"), ("base", "base.bust_point"), ("base", "bust_point")],
)
def test_an_optional_point_is_there_behind_the_question_for_it(asked: str, read: str):
    text = HEADING + BEHIND_HAS.format(asked=asked, read=read)
    given = {**MEASURES, "bust_girth": 920.0}
    for block, across in {"plain_top": 240.0, "pointed_top": 190.0}.items():
        made = draft(text, {"top": block}, BESIDE)
        (point,) = values(made, "front.middle", inputs(made, given))
        assert list(point) == [across, 220.0]


def test_the_question_for_a_member_of_one_block_says_nothing_of_another():
    text = (
        f"{HEADING}takes top: bodice = plain_top\ntakes low: bodice = plain_top\n"
        "let a = if top.front has bust_point "
        "then distance(low.front.bust_point, low.front.underarm) else 1cm\n"
    )
    assert [p.code for p in compiled(text).problems] == ["member-not-sure"]


def test_an_optional_member_is_sure_where_the_block_is_asked_for_it():
    text = f"{HEADING}takes top: bodice with bust_point = pointed_top\n"
    text += "let a = distance(top.front.bust_point, top.front.underarm)\n"
    made = draft(text, beside=BESIDE)
    assert values(made, "a", inputs(made, MEASURES)) == [50.0]
    refused = compiled(text, {"top": "plain_top"}, BESIDE)
    assert [p.code for p in faults(refused.problems)] == ["wrong-kind"]
    assert "it has no point front.bust_point" in faults(refused.problems)[0].sentence


def test_a_forbidden_member_is_out_of_reach_and_refuses_its_block():
    text = f"{HEADING}takes top: bodice without bust_point = plain_top\n"
    made = compiled(f"{text}let a = distance(top.front.bust_point, top.front.underarm)\n")
    assert [p.code for p in made.problems] == ["no-such-member"]
    refused = compiled(text, {"top": "pointed_top"}, BESIDE)
    assert [p.code for p in faults(refused.problems)] == ["wrong-kind"]
    assert "it must not have front.bust_point" in faults(refused.problems)[0].sentence


@pytest.mark.parametrize(("block", "holds"), [("plain_top", False), ("pointed_top", True)])
def test_a_question_for_a_member_is_a_condition_like_any_other(block: str, holds: bool):
    text = f"{WITH_TOP}let a = top.front has bust_point and 2cm > 1cm\n"
    text += "let b = if not top.front has bust_point then 1cm else 2cm\n"
    made = draft(text, {"top": block}, BESIDE)
    given = inputs(made, MEASURES)
    assert values(made, "a", given) == [holds]
    assert values(made, "b", given) == [20.0 if holds else 10.0]


def test_a_piece_drafted_from_one_the_block_need_not_have_is_refused_by_name():
    text = f'{WITH_TOP}piece pocket from top.pocket\n  title "Pocket"\nend\n'
    assert "pocket" in draft(text).pieces
    bare = TOP[: TOP.index("piece pocket")] + TOP[TOP.index("seam shoulder") :]
    bare = "\n".join(line for line in bare.split("\n") if not line.startswith("seam pocket"))
    refused = compiled(text, {"top": "bare_top"}, {"bare_top.godet": bare})
    assert [p.code for p in faults(refused.problems)] == ["wrong-kind"]
    assert "it has no piece pocket" in faults(refused.problems)[0].sentence


# --- order ----------------------------------------------------------------------------------------


def blocks_of(text: str) -> tuple[list[str], list[str], list[list[str]]]:
    """The heading, the statements at the top (a piece is one), and the lines of each piece."""
    heading, statements, pieces = [], [], []
    lines = iter(text.split("\n"))
    for line in lines:
        if not line.strip():
            continue
        while line.rstrip().endswith(","):
            line += "\n" + next(lines)
        if line.startswith(("edition", "recipe", "  takes", "  makes", '  "A top')):
            heading.append(line)
        elif line.startswith("piece"):
            inner = []
            for within in lines:
                while within.rstrip().endswith(","):
                    within += "\n" + next(lines)
                if within == "end":
                    break
                if within.strip():
                    inner.append(within)
            pieces.append(inner)
            statements.append(f"{line}\n{{{len(pieces) - 1}}}\nend")
        elif line.startswith('  "'):
            statements[-1] += f"\n{line}"
        else:
            statements.append(line)
    return heading, statements, pieces


@settings(max_examples=25, deadline=None)
@given(st.data(), st.sampled_from(["plain_dress", "plain_top"]))
def test_order_never_matters(data: st.DataObject, recipe: str):
    text = (SMALL_LIBRARY / f"{recipe}.godet").read_text(encoding="utf-8")
    heading, statements, pieces = blocks_of(text)
    shuffled = [data.draw(st.permutations(lines)) for lines in pieces]
    order = data.draw(st.permutations(statements))
    inner = ["\n".join(lines) for lines in shuffled]
    parts = [part.format(*inner) if part.startswith("piece") else part for part in order]
    again = "\n".join([*heading, *parts]) + "\n"
    assert draft(again).digest == draft(text).digest


@pytest.mark.parametrize(
    ("text", "again"),
    [
        (DRESS, DRESS.replace("inward 2cm", "inward 20mm")),
        (f"{HEADING}let a = 2.54cm\nmeasure hip_girth\nrequire hip_girth > a\n",
         f"{HEADING}let a = 1 in\nmeasure hip_girth\nrequire hip_girth > a\n"),
        (DRESS, "# a comment\n" + DRESS.replace("  notch", "\n\n    notch")),
        (DRESS, DRESS.replace("hip_width", "wide")),
        (DRESS, DRESS.replace("(hip_girth + ease_at_hip(fit)) / 4",
                              "((hip_girth + ease_at_hip(fit)))/4")),
    ],
)  # fmt: skip
def test_what_only_looks_different_means_the_same(text: str, again: str):
    assert again != text
    assert draft(again).digest == draft(text).digest


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("inward 2cm", "inward 2.1cm"),
        ("from 20cm to 130cm so", "from 30cm to 130cm so"),
        ("from 20cm to 130cm so that angle(bottom, side) = 90deg",
         "from 20cm to 130cm so that angle(bottom, side) = 90deg, lowest"),
        ("allow 3cm on bottom", "allow 2cm on bottom"),
        ("allow 3cm on bottom", "allow none on bottom"),
        ("notch side at hip_side", "notch side at hem_side"),
        ("notch side at hip_side", "mark hip_side"),
        ("over 6cm", "over 5cm"),
        ("hip_girth / (1", "hip_girth / (2"),
        ("from 30cm to 120cm", "from 40cm to 120cm"),
    ],
)  # fmt: skip
def test_what_means_something_else_has_another_digest(old: str, new: str):
    assert DRESS.count(old) == 1
    assert draft(DRESS.replace(old, new)).digest != draft(DRESS).digest


def test_a_mirrored_pair_is_not_two_alike():
    both = [TOP, TOP.replace("cut 2 of main, mirrored", "cut 2 of main")]
    assert draft(both[0]).digest != draft(both[1]).digest
