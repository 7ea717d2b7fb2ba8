"""`explain`: the formula, the statements, the value, and what each measure does."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from small_recipes import DRESS, HEADING, compiled, inputs, values

from godet.tools.explaining import Explanation, explain, told

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

formula (lengths in cm, angles in radians)
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

what more of each measure does
  1 cm more hip_girth: 2.50 mm outward
  1 cm more waist_to_hip: 10.00 mm down"""
    )


def test_without_a_body_there_is_a_formula_and_no_value():
    text = told(explained(SKIRT, "quarter"), "cm")
    assert "value = ease/4 + hip_girth/4" in text
    assert "what more of each measure does" not in text


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
    effects = {effect.measure: effect.moves for effect in explained(DRESS, name, **body).effects}
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
        assert list(got) == pytest.approx(expected, abs=1e-3)
    assert "hip_girth" in effects or name == "top.front.side_waist"


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


def test_a_dart_is_told_by_its_width_angle_and_leg_and_its_edge_as_sewn_and_as_cut():
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
    # a dart 10 cm wide and 12 cm deep: 13 cm legs, an angle of 2 atan(5 / 12)
    dart = told(explained(text, "front.waist_dart", hip_girth=1000.0), "cm")
    assert "width 10 cm\n  angle 45.2 degrees\n  leg 13 cm" in dart
    edge = told(explained(text, "front.waist", hip_girth=1000.0), "cm")
    assert "length as sewn 15 cm\n  length as cut" in edge
    assert "taken up 10 cm" in told(explained(text, "full.waist_dart", hip_girth=1000.0), "cm")
    assert "width 1 cm" in told(explained(text, "front.inner", hip_girth=1000.0), "cm")
    assert "width = " in told(explained(text, "front.waist_dart"), "cm")
