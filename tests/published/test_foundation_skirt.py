"""A circular foundation skirt. Source: "Women: Design, Construction", "To draft skirt", fig. 51
(found, the whole page; believed to be L. I. Baldt, Clothing for Women, 1916). Inches.

The rules are the book's; the body is the one of its five-gore example.
"""

from __future__ import annotations

import pytest
from worked_drafts import INCH, Worked, worked

EXACT = 1e-9


@pytest.fixture(scope="module")
def skirt() -> Worked:
    choices = {"hem_width": 81, "front_length": 38, "over_hip": 39, "hip_depth": 7}
    return worked("foundation_skirt", INCH, choices=choices, hip_girth=40)


@pytest.mark.parametrize(
    ("start", "end", "inches"),
    [
        ("corner", "back_waist", 14.9375),  # AB = hip/2 - (hem/2)/8
        ("corner", "front_waist", 4.05),  # AC = (hem/2)/10
        ("front_waist", "side_below", 7.46875),  # CD = AB/2
        ("side_below", "side_waist", 1),  # DE = over hip - front
        ("side_waist", "side_hip", 6.5),  # EF = hip depth - 1/2
        ("front_waist", "front_hip", 6),  # CG = hip depth - (over hip - front)
        ("back_waist", "back_square", 7),  # BH = hip depth
        ("front_waist", "front_hem", 38),  # the front length
    ],
)
def test_the_skirt_measures_what_the_page_works_out(skirt, start, end, inches):
    # "To draft skirt", fig. 51 (believed Baldt 1916)
    assert skirt.way(f"skirt.{start}", f"skirt.{end}") == pytest.approx(inches, abs=EXACT)


def test_the_hem_is_half_of_the_wanted_width(skirt):
    # "To draft skirt", fig. 51 (believed Baldt 1916): JM
    assert skirt.along("skirt.bottom") == pytest.approx(40.5, abs=1e-6)


def test_the_hip_line_is_half_of_the_hip(skirt):
    # "To draft skirt", fig. 51 (believed Baldt 1916): G-F-I; the line is carried straight
    # on past I
    beyond = skirt.edge("skirt.hip_line")[-1, 3] - skirt.point("skirt.back_hip")
    past = float((beyond**2).sum() ** 0.5)
    assert skirt.along("skirt.hip_line") - past == pytest.approx(20, abs=1e-6)


def test_the_hip_line_is_laid_out_square_to_the_waist_at_the_side(skirt):
    # "To draft skirt", fig. 51 (believed Baldt 1916): EF at right angles to the waist line;
    # a smooth curve through C, E and B leans there as the straight line C-B, within two degrees
    joint = skirt.edge("skirt.waist")[0]
    lean = joint[3] - joint[2]
    side = skirt.point("skirt.side_hip") - skirt.point("skirt.side_waist")
    cosine = (lean @ side) / ((lean @ lean) * (side @ side)) ** 0.5
    assert cosine == pytest.approx(0, abs=0.035)
