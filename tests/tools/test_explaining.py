"""`explain`: the formula, the statements, the value, and what each measure and choice does."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from small_recipes import DRESS, HEADING, compiled, inputs, values

from godet.base.quantities import LengthUnit
from godet.tools.effect_words import sentence
from godet.tools.explaining import Explanation, explain
from godet.tools.telling import as_record, told

SKIRT = f"""{HEADING}measure hip_girth, waist_to_hip
choose ease = 6cm from 0cm to 20cm
choose fit = one of close, loose
let quarter = (hip_girth + ease) / 4
piece front
  point waist = origin
  point hip   = waist down waist_to_hip outward quarter
  edge side   = line waist to hip
end
let tight = hip_girth > 100cm
"""
BODY = {"hip_girth": 1000.0, "height": 1700.0}


def explained(text: str, name: str, **body: float) -> Explanation:
    made = compiled(text)
    assert made.draft is not None
    given = inputs(made.draft, body) if body else None
    explanation, problems = explain(made.draft, name, given, made.texts, "cm")
    assert problems == ()
    assert explanation is not None
    return explanation


def test_the_whole_explanation_of_a_small_recipe():
    assert (
        told(explained(SKIRT, "front.hip", **BODY), "cm")
        == """\
front.hip: a point

formula (lengths in cm)
  across = ease/4 + hip_girth/4
  down = waist_to_hip

statements, the nearest first
  tried.godet:9  point hip = waist down waist_to_hip outward quarter
  tried.godet:6  let quarter = (hip_girth + ease) / 4
  tried.godet:4  choose ease = 6cm from 0cm to 20cm

on body_0
  across 26.5 cm
  down 20.4 cm
  waist_to_hip is estimated: ours

what a little more does
  1 cm more hip_girth moves hip outward 2.5 mm and lengthens the side edge by 1.98 mm
  1 cm more waist_to_hip moves hip down 10 mm and lengthens the side edge by 6.1 mm
  1 cm more ease moves hip outward 2.5 mm and lengthens the side edge by 1.98 mm"""
    )


def test_without_a_body_there_is_a_formula_and_no_value():
    text = told(explained(SKIRT, "quarter"), "cm")
    assert "value = ease/4 + hip_girth/4" in text
    assert "what a little more does" not in text


@pytest.mark.parametrize(
    ("name", "said"),
    [("fit", "  close"), ("tight", "  does not hold"), ("front.side", "  length 33.4 cm")],
)
def test_words_conditions_and_curves_are_told_too(name: str, said: str):
    # the side is the hypotenuse over 26.5 and 20.4 cm
    assert said in told(explained(SKIRT, name, **BODY), "cm").split("\n")


@pytest.mark.parametrize("name", ["front.hem_side", "front.hem_depth", "top.front.side_waist"])
def test_an_effect_is_what_redrafting_with_a_little_more_shows(name: str):
    body = {"bust_girth": 920.0, "waist_girth": 740.0, "hip_girth": 980.0, "waist_to_hip": 200.0}
    own = name.rpartition(".")[2]
    effects = {
        effect.cause: move.by
        for effect in explained(DRESS, name, **body).effects
        for move in effect.moves
        if move.words == own
    }
    draft = compiled(DRESS).draft
    assert draft is not None
    step = 0.01  # mm; central differences of drafts made anew are the outside here
    for measure in body:
        ahead, back = (
            values(draft, name, inputs(draft, {**body, measure: body[measure] + way * step}))[0]
            for way in (1, -1)
        )
        slope = np.atleast_1d((ahead - back) / (2 * step))
        expected = [float(part) * 10.0 for part in slope]
        got = effects.get(measure, (0.0,) * len(expected))
        # what a reader would not see is not told
        assert list(got) == pytest.approx(expected, abs=5e-3)
    assert "hip_girth" in effects or name == "top.front.side_waist"


def sentences(text: str, name: str, units: LengthUnit = "cm", **body: float) -> list[str]:
    made = compiled(text)
    assert made.draft is not None
    given = inputs(made.draft, body)
    explanation, problems = explain(made.draft, name, given, made.texts, units)
    assert explanation is not None, problems
    return [sentence(effect, units) for effect in explanation.effects]


def test_a_level_sinks_and_widens():
    # a trapezium of 20 cm above and 30 cm below, 40 cm down: half way it is 25 cm wide
    text = f"""{HEADING}measure hip_girth
choose down_to = 20cm from 1cm to 39cm
piece front
  point a = origin
  point b = origin outward 20cm
  point c = origin down 40cm
  point d = c outward 30cm
  edge top    = line a to b
  edge side   = line b to d
  edge bottom = line c to d
  edge centre = line a to c
  level hip = across at a down down_to
end
"""
    assert sentences(text, "front.hip", hip_girth=1000.0) == [
        "1 cm more down_to lowers the hip line by 10 mm and widens the front there by 2.5 mm"
    ]
    assert "  wide 25 cm" in told(explained(text, "front.hip", hip_girth=1000.0), "cm")


def test_a_level_that_only_touches_its_piece_is_told_without_a_width():
    text = f"""{HEADING}measure hip_girth
piece front
  point a = origin
  point b = origin outward hip_girth / 10
  edge top  = line a to b
  edge bow  = arc b to a leaving down
  level foot = across at origin down hip_girth / 20
end
"""
    assert sentences(text, "front.foot", hip_girth=1000.0) == [
        "1 cm more hip_girth lowers the foot line by 0.5 mm"
    ]
    assert explained(text, "front.foot", hip_girth=1000.0).width is None


@pytest.mark.parametrize(
    ("line", "said"),
    # by hand: hip 100 cm, chosen 40 % and 30 degrees
    [
        (
            "let a = share * hip_girth",
            [
                "1 cm more hip_girth lengthens a by 4 mm",
                "1 percentage point more share lengthens a by 10 mm",
            ],
        ),
        ("let a = 90deg - lean / 2", ["1 degree more lean closes a by 0.5 degrees"]),
        ("let a = share * share", ["1 percentage point more share makes a more by 0.008"]),
        (
            "let a = hip_girth * hip_girth",
            ["1 cm more hip_girth makes a 200 square cm larger"],
        ),
    ],
)
def test_each_cause_moves_by_one_of_its_own_unit(line: str, said: list[str]):
    text = (
        f"{HEADING}measure hip_girth\nchoose share = 40 % from 0 % to 80 %\n"
        f"choose lean = 30deg from 0deg to 60deg\n{line}\n"
    )
    assert sentences(text, "a", hip_girth=1000.0) == said


def test_a_reader_in_inches_is_told_inches():
    text = f"{HEADING}measure hip_girth\nlet a = hip_girth / 4\n"
    assert sentences(text, "a", "in", hip_girth=1000.0) == [
        "1 in more hip_girth lengthens a by 0.25 in"
    ]
    assert "formula (lengths in inches)" in told(explained(text, "a", hip_girth=1000.0), "in")


def test_a_choice_left_out_follows_what_its_default_is_made_of():
    text = f"{HEADING}measure hip_girth\nchoose wide = hip_girth / 4 from 1cm to 90cm\n"
    text += "choose deep = 2 * wide from 1cm to 90cm\nlet a = wide + deep\n"
    # a is three quarters of the hip while nothing is chosen
    assert sentences(text, "a", hip_girth=1000.0) == [
        "1 cm more hip_girth lengthens a by 7.5 mm",
        "1 cm more deep lengthens a by 10 mm",
        "1 cm more wide lengthens a by 30 mm",
    ]


def test_a_measure_that_only_an_estimate_would_need_is_not_called_estimated():
    body = {"hip_girth": 1000.0, "waist_to_hip": 200.0}
    assert explained(SKIRT, "front.hip", **body).estimated == {}
    assert set(explained(SKIRT, "front.hip", **BODY).estimated) == {"waist_to_hip"}


def test_where_more_and_less_differ_both_are_told():
    text = f"{HEADING}measure hip_girth\nlet a = max(hip_girth, 3 * hip_girth - 200cm)\n"
    assert sentences(text, "a", hip_girth=1000.0) == [
        "1 cm more hip_girth lengthens a by 30 mm",
        "1 cm less hip_girth shortens a by 10 mm",
    ]


def test_an_angle_that_is_straight_closes_whichever_way_it_turns():
    text = f"""{HEADING}measure hip_girth
piece front
  point a = origin
  point b = origin down 50cm
  point c = b down 50cm outward hip_girth - 100cm
  edge upper = line a to b
  edge lower = line b to c
  edge back  = line a to c
end
let bend = angle(front.upper, front.lower)
"""
    # a slope of 1 to 50 is 1.15 degrees
    assert sentences(text, "bend", hip_girth=1000.0) == [
        "1 cm more hip_girth closes bend by 1.15 degrees",
        "1 cm less hip_girth closes bend by 1.15 degrees",
    ]


def test_what_moves_abruptly_is_told_for_a_first_little_step():
    # the root of 0.1 mm by 1 m is 1 cm, while its slope at nought is without bounds
    text = f"{HEADING}measure hip_girth\nlet a = sqrt((hip_girth - 100cm) * 100cm)\n"
    assert sentences(text, "a", hip_girth=1000.0) == [
        "0.01 cm more hip_girth lengthens a by 10 mm; how it goes on from there can't be told"
    ]


def test_a_curve_is_told_by_what_it_is_drawn_from():
    explanation = explained(DRESS, "front.bottom")
    assert explanation.drawn == (
        "an arc of a circle from front.hem_centre to front.hem_side, square to front.centre",
    )
    assert explanation.formula == ()
    assert explained(SKIRT, "front.side").formula == (
        "sqrt(waist_to_hip**2 + (ease/4 + hip_girth/4)**2)",
    )


def test_angles_are_told_in_degrees():
    text = f"{HEADING}measure shoulder_slope\nlet a = 100deg - shoulder_slope\n"
    assert explained(text, "a").formula == ("100*deg - shoulder_slope",)
    record = as_record(explained(text, "a", shoulder_slope=np.radians(20.0)), "cm")
    assert record["value"] == {"value": pytest.approx(80.0)}
    (effect,) = record["effects"]
    assert effect["sentence"] == "1 degree more shoulder_slope closes a by 1 degree"
    assert effect["moves"][0]["by"] == [pytest.approx(-1.0)]


def test_the_statements_behind_an_unknown_are_those_of_its_equation():
    lines = [line.text for line in explained(DRESS, "front.hem_depth").statements]
    assert lines[0].startswith("find hem_depth")
    assert any(line.startswith("edge bottom") for line in lines)
    assert any(line.startswith("edge side = base.side") for line in lines)


def test_a_branch_that_cannot_be_worked_out_is_no_hindrance_where_it_is_not_taken():
    text = (
        f"{HEADING}measure hip_girth\nchoose fit = one of close, loose\n"
        "let a = if fit is close then 2cm else if hip_girth / 0cm > 1 then 3cm else 4cm\n"
    )
    assert explained(text, "a", hip_girth=1000.0).value == (20.0,)


def test_a_misspelt_name_is_told_the_nearest():
    made = compiled(SKIRT)
    assert made.draft is not None
    explanation, (problem,) = explain(made.draft, "front.hpi", None, made.texts, "cm")
    assert explanation is None
    assert problem.code == "unknown-name"
    assert "`front.hip`" in problem.sentence


def test_a_failing_body_is_told_its_failure():
    made = compiled(SKIRT)
    assert made.draft is not None
    given = inputs(made.draft, {"height": 1700.0})
    explanation, problems = explain(made.draft, "front.hip", given, made.texts, "cm")
    assert explanation is None
    assert [p.code for p in problems] == ["missing-measure"]


def test_every_name_of_a_dress_can_be_explained_and_no_folder_is_named():
    made = compiled(DRESS)
    assert made.draft is not None
    folders = {str(Path(file).parent) for file in made.texts}
    body = {"bust_girth": 920.0, "waist_girth": 740.0, "hip_girth": 980.0, "height": 1700.0}
    given = inputs(made.draft, body)
    for name in made.draft.names:
        explanation, problems = explain(made.draft, name, given, made.texts, "in")
        assert explanation is not None, problems
        text = told(explanation, "in")
        assert text.startswith(f"{name}: ")
        assert not any(folder in text for folder in folders)


def test_a_dart_is_told_by_its_width_and_its_edge_as_sewn():
    text = f"""{HEADING}measure hip_girth
piece front
  point a = origin
  point b = origin outward hip_girth / 4
  point c = origin down 40cm
  point tip = origin down 12cm outward 10cm
  edge waist = line a to b
  edge side = line b to c
  edge centre = line a to c
  dart waist_dart = on waist at along waist from a by 10cm by 10cm to tip
  dart inner = at tip down 9cm by 1cm from tip down 2cm to tip down 14cm
end
piece full from front
  convert waist_dart into gathers over 14cm
end
"""
    said = {
        name: told(explained(text, name, hip_girth=1000.0), "cm")
        for name in ("front.waist_dart", "front.inner", "full.waist_dart", "front.waist")
    }
    assert "wide 10 cm" in said["front.waist_dart"]
    assert "wide 1 cm" in said["front.inner"]
    assert "value 10 cm" in said["full.waist_dart"]
    assert "length 15 cm" in said["front.waist"]  # 25 cm drawn, as sewn
