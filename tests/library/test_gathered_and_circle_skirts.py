"""Skirts drawn round a centre: gathered panels, straight or flared, and parts of a circle.

All figures come from the cubics of their pieces alone.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from drafts import LINEN, body, dense, drafts, length, path, point
from skirt_drafts import HALVES, children, corners, from_the_centre, geometry, girth_of, sewn_waist
from women import bdims_women, en_women

BODIES = [
    *en_women(),
    *bdims_women()[::6],
    *children(),
    body("large", bust_girth=152, waist_girth=136, hip_girth=158, height=168),
]
NO_EASE = {"waist_ease": 0.0}
TURNS = {"full": 360, "three_quarter": 270, "half": 180, "quarter": 90}


def words_of_failing(recipe: str, someone, **choices) -> str:
    (draft,) = drafts(recipe, [someone], LINEN, choices)
    return "; ".join(check["words"] for check in draft["checks"] if not check["ok"])


# --- gathered ------------------------------------------------------------------------------------


@pytest.mark.parametrize("choices", [{}, {"flare": 120.0}, {"fullness": 3.0, "flare": 40.0}])
def test_the_cut_waist_is_as_many_times_the_sewn_waist_as_is_chosen(choices):
    # 1.5 to 3 times, 2 usual (found)
    fullness = choices.get("fullness", 2.0)
    skirts = geometry("gathered_skirt", BODIES, {**NO_EASE, **choices})
    for someone, draft in zip(BODIES, skirts, strict=True):
        for half in HALVES:
            sewn = girth_of(someone, "waist_girth") / 4
            assert sewn_waist(draft, half)[0] == pytest.approx(fullness * sewn, abs=0.02)
        band = length(path(draft, "waistband", "sewn"))
        assert band == pytest.approx(girth_of(someone, "waist_girth"), abs=0.01)


def test_each_half_gathers_to_the_waist_asked_for():
    choices = {"front_waist": 190.0, "back_waist": 175.0, "fullness": 2.5}
    for draft in geometry("gathered_skirt", en_women()[3:6], choices):
        assert sewn_waist(draft, "front")[0] == pytest.approx(2.5 * 190.0, abs=0.02)
        assert sewn_waist(draft, "back")[0] == pytest.approx(2.5 * 175.0, abs=0.02)


def test_without_flare_the_panels_are_rectangles():
    for draft in geometry("gathered_skirt", BODIES):
        for half in HALVES:
            centre, side = (point(draft, half, f"hem_{end}") for end in ("centre", "side"))
            assert side == pytest.approx([point(draft, half, "side_waist")[0], centre[1]], abs=0.05)


def test_flared_panels_gain_the_flare_at_the_side_and_hang_level():
    skirts = geometry("gathered_skirt", BODIES, {"flare": 120.0, "skirt_length": 400.0})
    for draft in skirts:
        for half in HALVES:
            waist, hem = (point(draft, half, name) for name in ("side_waist", "hem_side"))
            # on the side, 12 cm out on 40 cm down
            assert np.hypot(*(hem - waist)) == pytest.approx(400.0, abs=0.01)
            lean = math.atan2(120.0, 400.0)
            assert hem[0] - waist[0] == pytest.approx(400.0 * math.sin(lean), abs=0.01)
            upper = dense(path(draft, half, "waist"))
            for place in dense(path(draft, half, "bottom"), 20):
                assert np.hypot(*(upper - place).T).min() == pytest.approx(400.0, abs=0.3)
            for name, met in corners(draft, half).items():
                assert met == pytest.approx(90.0, abs=0.1), name


def test_a_casing_is_as_long_as_the_panels_are_wide():
    for draft in geometry("gathered_skirt", BODIES, {"finish": "casing"}):
        cut = 2 * sum(sewn_waist(draft, half)[0] for half in HALVES)
        assert length(path(draft, "casing", "sewn")) == pytest.approx(cut, abs=0.05)


def test_a_gathered_skirt_that_can_not_be_worn_or_sewn_is_told_with_its_cure():
    hourglass = body("hourglass", bust_girth=94, waist_girth=60, hip_girth=130, height=160)
    assert "give it more fullness" in words_of_failing("gathered_skirt", hourglass)
    woman = en_women()[4]
    assert "can't be faced" in words_of_failing("gathered_skirt", woman, finish="facing")
    assert "choose opening=zip" in words_of_failing("gathered_skirt", woman, opening="none")
    assert "trodden on" in words_of_failing("gathered_skirt", woman, skirt_length=1050.0)


# --- circles -------------------------------------------------------------------------------------


def radius(draft, half: str) -> float:
    """Of the waist: its centre lies straight above the centre of the piece and beside its side."""
    waist = dense(path(draft, half, "waist"), 50)
    x, y = waist.T
    # a circle through all of it, by least squares
    a = np.c_[2 * x, 2 * y, np.ones_like(x)]
    cx, cy, c = np.linalg.lstsq(a, x**2 + y**2, rcond=None)[0]
    return math.sqrt(c + cx**2 + cy**2)


@pytest.mark.parametrize(
    ("waist_mm", "circle", "radius_mm"),
    [
        # elementary geometry, waist / angle: computed, and held to the 0.08 in of a printed table
        (1100.0, "full", 175.1),
        (1140.0, "full", 181.4),
        (26 * 25.4, "full", 4.14 * 25.4),
        (26 * 25.4, "half", 8.28 * 25.4),
        (26 * 25.4, "quarter", 16.55 * 25.4),
    ],
)
def test_the_waist_lies_as_far_from_the_centre_as_computed(waist_mm, circle, radius_mm):
    someone = body("someone", bust_girth=90, waist_girth=waist_mm / 10, hip_girth=96, height=168)
    (draft,) = geometry("circle_skirt", [someone], {**NO_EASE, "circle": circle})
    for half in HALVES:
        assert radius(draft, half) == pytest.approx(radius_mm, abs=0.08 * 25.4)


@pytest.mark.parametrize("circle", TURNS)
def test_waist_and_hem_are_arcs_a_length_apart(circle):
    choices = {**NO_EASE, "circle": circle, "skirt_length": 420.0}
    for someone, draft in zip(BODIES, geometry("circle_skirt", BODIES, choices), strict=True):
        quarter = girth_of(someone, "waist_girth") / 4
        turn = math.radians(TURNS[circle] / 4)
        for half in HALVES:
            assert sewn_waist(draft, half)[0] == pytest.approx(quarter, abs=0.02)
            hem = length(from_the_centre(draft, half, "bottom"))
            # elementary geometry: an arc is longer by the angle for each length farther out
            assert hem == pytest.approx(quarter + 420.0 * turn, rel=5e-4)
            for name, met in corners(draft, half).items():
                assert met == pytest.approx(90.0, abs=0.1), name


def test_the_hip_lies_on_the_side_as_far_down_as_on_the_body():
    women = [body("w", bust_girth=94, waist_girth=76, hip_girth=102, waist_to_hip=20.5, height=168)]
    (draft,) = geometry("circle_skirt", women)
    for half in HALVES:
        way = point(draft, half, "hip_side") - point(draft, half, "side_waist")
        assert np.hypot(*way) == pytest.approx(205.0, abs=1e-3)


def test_a_gathered_circle_has_a_waist_as_many_times_as_long():
    choices = {**NO_EASE, "fullness": 1.5, "circle": "half"}
    for someone, draft in zip(BODIES, geometry("circle_skirt", BODIES, choices), strict=True):
        sewn = girth_of(someone, "waist_girth") / 4
        assert sewn_waist(draft, "front")[0] == pytest.approx(1.5 * sewn, abs=0.02)


def test_its_facing_is_a_part_of_the_circle_too():
    for draft in geometry("circle_skirt", BODIES, {"finish": "facing", "circle": "half"}):
        for half in HALVES:
            waist = sewn_waist(draft, half)[0]
            assert length(path(draft, f"{half}_waist_facing", "waist")) == pytest.approx(
                waist, abs=0.02
            )


@pytest.mark.parametrize(("circle", "least", "most"), [("full", 6, 13), ("half", 25, 26)])
def test_the_hem_is_the_narrower_the_more_it_flares(circle, least, most):
    # full circle 1/4 to 1/2 in, half circle 1 in (three sources, found)
    (draft,) = drafts("circle_skirt", en_women()[:1], LINEN, {"circle": circle})
    assert least <= float(draft["choices"]["hem_allowance"].removesuffix(" cm")) * 10 <= most


def test_a_circle_that_can_not_be_worn_or_cut_is_told_with_its_cure():
    woman = en_women()[4]
    quarter = {"circle": "quarter", "front_waist": 150.0, "back_waist": 150.0}
    assert "more of a circle" in words_of_failing("circle_skirt", woman, **quarter)
    assert "can't be faced" in words_of_failing(
        "circle_skirt", woman, fullness=2.0, finish="facing"
    )
    assert "does not pass over the hip" in words_of_failing("circle_skirt", woman, finish="casing")
    assert "wider than the cloth" in words_of_failing("circle_skirt", woman, cloth_width=700.0)
