"""I. Rosenfeld, The Practical Designer for Women's, Misses', Juniors' & Children's Cloaks & Suits,
Shirt Waist Suits and Dresses (New York 1911), lesson 73, p. 139 (found, the whole lesson), and
lesson 109, p. 207 (found, the back whole, the front partly cut). Inches.

Of lesson 73 the lengths are compared: how points D and I lie on the paper needs its plate.
"""

from __future__ import annotations

import numpy as np
import pytest
from worked_drafts import INCH, Worked, worked

EXACT = 1e-9


@pytest.fixture(scope="module")
def skirt() -> Worked:
    return worked(
        "rosenfeld_circle_skirt",
        INCH,
        choices={"front_length": 41, "side_length": 43, "back_length": 45, "hip_depth": 6},
        waist_girth=25,
    )


@pytest.mark.parametrize(
    ("start", "end", "inches"),
    [
        ("corner", "back_above", 12.5),  # A-C
        ("back_above", "back_waist", 6),  # C-D
        ("back_waist", "front_waist", 12.5),  # D-I
        ("front_waist", "half_way", 6.25),  # I-H
        ("half_way", "side_waist", 1.5),  # H-J
        ("front_waist", "front_hem", 41),  # I-B
        ("side_waist", "side_hem", 43),  # J-K
        ("back_waist", "back_hem", 45),  # D-L
        ("front_waist", "front_hip", 6),  # I-G
        ("back_waist", "back_hip", 6),  # D-X
    ],
)
def test_the_circle_skirt_measures_what_the_lesson_says(skirt, start, end, inches):
    # Rosenfeld 1911, lesson 73
    assert skirt.way(f"skirt.{start}", f"skirt.{end}") == pytest.approx(inches, abs=EXACT)


def test_the_waist_of_the_circle_skirt_is_as_long_as_its_arc(skirt):
    # computed from Rosenfeld's chord 12 1/2 and hollow 1 1/2, were the curve part of a circle
    assert skirt.along("skirt.waist") == pytest.approx(12.975, abs=0.0005)


def test_the_waist_of_the_circle_skirt_passes_the_point_at_the_side(skirt):
    # Rosenfeld 1911, lesson 73: waist curve I-J-D
    joints = skirt.edge("skirt.waist")[:, 3]
    away = np.hypot(*(joints - skirt.point("skirt.side_waist")).T)
    assert away.min() == pytest.approx(0, abs=EXACT)


def _coat(breast: float, **choices: float) -> Worked:
    return worked("box_coat_grade", INCH, choices=choices, bust_girth=breast)


def _grown(point: str, **choices: float) -> tuple[float, float]:
    """How much farther outward and how much lower a point lies in size 38 than in 36."""
    small, large = _coat(36, **choices), _coat(38, **choices)
    return tuple(large.point(point) - small.point(point))


@pytest.mark.parametrize(
    ("point", "outward", "down"),
    [
        ("back.centre_neck", -0.125, 0),  # A-N: 1/8
        ("back.centre_hem", -0.125, 0.5),  # D-M: 1/8; C-H: 1/2 to 1
        ("back.shoulder_point", 0.125, -0.125),  # E-L: 1/8 in height and width
        ("back.underarm", 0.375, 0),  # F-K: 3/8
        ("back.hem_side", 0.375, 0.5),  # G-J: 3/8; J-I: 1/2 to 1
    ],
)
def test_the_back_grows_from_36_to_38_as_the_lesson_grades_it(point, outward, down):
    # Rosenfeld 1911, lesson 109
    assert _grown(point) == pytest.approx((outward, down), abs=EXACT)


def test_front_neck_and_shoulder_rise_from_36_to_38_as_the_lesson_grades_them():
    # Rosenfeld 1911, lesson 109: 1/8 in height
    assert _grown("front.side_neck") == pytest.approx((0, -0.125), abs=EXACT)
    assert _grown("front.shoulder_point")[1] == pytest.approx(-0.125, abs=EXACT)


@pytest.mark.parametrize("longer", [0.5, 1])
def test_the_coat_grows_as_much_longer_as_is_chosen(longer):
    # Rosenfeld 1911, lesson 109: 1/2 to 1
    assert _grown("back.hem_side", length_step=longer)[1] == pytest.approx(longer, abs=EXACT)


def test_each_quarter_of_the_coat_grows_by_a_quarter_of_the_breast_step():
    # arithmetic on Rosenfeld's figures: 1/8 + 3/8 = 2 / 4
    for piece in ("front", "back"):
        wider = _grown(f"{piece}.underarm")[0] - _grown(f"{piece}.centre_neck")[0]
        assert wider == pytest.approx(2 / 4, abs=EXACT)
