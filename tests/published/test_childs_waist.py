"""A child's waist. Source: "Hand Sewing Lessons", "Drafting children's garments" (c. 1900-1910,
date believed; found, an excerpt). Inches."""

from __future__ import annotations

import math

import numpy as np
import pytest
from worked_drafts import INCH, Worked, worked

EXACT = 1e-9


def _waist(drawing: str) -> Worked:
    return worked(
        "childs_waist",
        INCH,
        choices={"drawing": drawing},
        bust_girth=28,
        waist_girth=26,
        underarm_length=7,
        front_waist_length=13,
        shoulder_length=6,
    )


@pytest.fixture(scope="module")
def waist() -> Worked:
    return _waist("full")


@pytest.mark.parametrize(
    ("name", "inches"),
    [("front_bust", 15), ("back_bust", 13), ("front_waist", 16), ("back_waist", 10)],
)
def test_front_and_back_share_bust_and_waist_as_the_lesson_splits_them(waist, name, inches):
    # "Hand Sewing Lessons": the bust of 28 into 15 and 13, the waist of 26 into 16 and 10
    assert waist.number(name) == pytest.approx(inches, abs=EXACT)


@pytest.mark.parametrize(
    ("start", "end", "inches"),
    [
        ("corner", "centre_neck", 2.5),  # A-B
        ("corner", "side_neck", 1.5),  # A-C
        ("corner", "neck_hollow", 2),  # A-D
        ("side_neck", "shoulder_point", 6),  # C-E
    ],
)
def test_neck_and_shoulder_measure_what_the_lesson_says(waist, start, end, inches):
    # "Hand Sewing Lessons"
    assert waist.way(f"front.{start}", f"front.{end}") == pytest.approx(inches, abs=EXACT)


def test_the_shoulder_slopes_by_a_twenty_fourth_of_a_circle(waist):
    # "Hand Sewing Lessons": 15 degrees; the drop of E and how far out it lies are computed
    out, drop = waist.point("front.shoulder_point") - waist.point("front.side_neck")
    assert math.degrees(math.atan2(drop, out)) == pytest.approx(15, abs=EXACT)
    assert (drop, out) == pytest.approx((1.553, 5.796), abs=0.0005)


def test_the_neck_passes_the_point_on_the_diagonal(waist):
    # "Hand Sewing Lessons": neck C-D-B
    joints = waist.edge("front.neck")[:, 3]
    away = np.hypot(*(joints - waist.point("front.neck_hollow")).T)
    assert away.min() == pytest.approx(0, abs=EXACT)


def test_a_drawing_of_a_quarter_is_a_quarter_as_large_everywhere(waist):
    # "Hand Sewing Lessons" has it drafted at a quarter of its size
    quarter = _waist("quarter")
    for edge in ("centre", "neck", "shoulder", "armhole", "side", "bottom"):
        drawn, whole = quarter.edge(f"front.{edge}"), waist.edge(f"front.{edge}")
        np.testing.assert_allclose(drawn, whole / 4, atol=EXACT)
