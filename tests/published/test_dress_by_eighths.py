"""A one-piece dress by eighths of the chest: proportional drafting as taught in Indian dressmaking
schools (a teaching page, 2010s; found, an excerpt; common practice). The rules are the page's, the
body is invented. Inches."""

from __future__ import annotations

import pytest
from worked_drafts import INCH, Worked, worked

EXACT = 1e-9
BODY = {
    "bust_girth": 36, "hip_girth": 40, "shoulder_width": 14, "back_waist_length": 15,
    "waist_to_hip": 7, "waist_to_knee": 23,
}  # fmt: skip
ACROSS, DOWN = 0, 1


@pytest.fixture(scope="module")
def dress() -> Worked:
    return worked("dress_by_eighths", INCH, **BODY)


@pytest.mark.parametrize("piece", ["front", "back"])
@pytest.mark.parametrize(
    ("point", "way", "inches"),
    [
        ("underarm", DOWN, 7.0),  # scye depth: chest/8 + 2 1/2
        ("underarm", ACROSS, 10.5),  # half width: chest/4 + 1 1/2
        ("shoulder_point", ACROSS, 7.25),  # shoulder/2 + 1/4
        ("shoulder_point", DOWN, 1.0),  # shoulder drop
        ("side_neck", ACROSS, 3.25),  # chest/12 + 1/4
        ("centre_waist", DOWN, 15.5),  # waist length + 1/2
        ("side_waist", ACROSS, 9.75),  # 3/4 in at the waist
        ("hip_side", ACROSS, 11.5),  # seat/4 + 1 1/2
    ],
)
def test_a_point_lies_where_the_page_works_it_out(dress, piece, point, way, inches):
    # proportional drafting, a teaching page
    assert dress.point(f"{piece}.{point}")[way] == pytest.approx(inches, abs=EXACT)


def test_the_neck_is_as_deep_as_the_page_works_it_out(dress):
    # proportional drafting, a teaching page: front chest/8, back 1 to 1 1/2
    assert dress.point("front.centre_neck")[DOWN] == pytest.approx(4.5, abs=EXACT)
    assert 1 <= dress.point("back.centre_neck")[DOWN] <= 1.5


@pytest.mark.parametrize("piece", ["front", "back"])
def test_the_armhole_is_hollowed_as_the_page_says(dress, piece):
    # proportional drafting, a teaching page: in by 3/4 to 1
    shoulder, turn = (dress.point(f"{piece}.{name}") for name in ("shoulder_point", "armhole_turn"))
    assert 0.75 <= shoulder[ACROSS] - turn[ACROSS] <= 1


def test_front_and_back_meet_at_shoulder_and_side(dress):
    # common practice, no source: seams that are sewn together are equally long
    for edge in ("shoulder", "side"):
        lengths = [dress.along(f"{piece}.{edge}") for piece in ("front", "back")]
        assert lengths[0] == pytest.approx(lengths[1], abs=EXACT)
