"""Carrie Crane Ingalls, Text-Book on Domestic Art (c. 1910s; date believed): "Gored skirt" (found,
whole page) and "Sleeve draft" (found, nearly the whole page). Inches."""

from __future__ import annotations

import pytest
from worked_drafts import INCH, Worked, worked

EXACT = 1e-9
HIP = 40  # invented; the page's model row has no hip girth


@pytest.fixture(scope="module")
def gores() -> Worked:
    # the page prints no waist: 24 is the sum of its model row, doubled
    return worked("ingalls_nine_gores", INCH, waist_girth=24, hip_girth=HIP, waist_to_hip=6)


@pytest.mark.parametrize(
    ("name", "inches"),
    [
        ("front_waist", 1.5),
        ("side_waist", 8 / 3),
        ("back_waist", 2.5),
        ("front_hip", 2.25),
        ("back_hip", 5.0),
    ],
)
def test_the_gores_share_waist_and_hip_as_the_page_prints_it(gores, name, inches):
    # Ingalls, "Gored skirt", model row: 1 1/2, 2 2/3, 2 2/3, 2 2/3, 2 1/2; front hip 2 1/4
    assert gores.number(name) == pytest.approx(inches, abs=EXACT)


@pytest.mark.parametrize(
    ("piece", "halves", "waist", "hip"),
    [
        ("front", 1, 1.5, 2.25),
        ("side", 2, 8 / 3, (HIP / 2 - 7.25) / 3),
        ("back", 2, 2.5, 5.0),
    ],
)
def test_each_gore_is_drawn_as_wide_as_its_share(gores, piece, halves, waist, hip):
    # Ingalls, "Gored skirt"; what is left of the hip is shared by the three gores at the side
    across = [gores.point(f"{piece}.{name}")[0] for name in ("waist_side", "hip_side")]
    assert across == pytest.approx([waist / halves, hip / halves], abs=EXACT)


def test_the_five_gores_of_a_half_make_up_half_the_waist(gores):
    # Ingalls, "Gored skirt": the sum of the model row
    row = ["front_waist", *["side_waist"] * 3, "back_waist"]
    assert sum(gores.number(name) for name in row) == pytest.approx(12, abs=EXACT)


ARMSEYE, ELBOW, WRIST = 16, 11, 7  # invented, as are the lengths
SHOULDER_TO_ELBOW, ELBOW_TO_HAND, INSIDE_TO_ELBOW = 13.5, 9.5, 8


@pytest.fixture(scope="module")
def sleeve() -> Worked:
    return worked(
        "ingalls_sleeve",
        INCH,
        choices={"inside_to_elbow": INSIDE_TO_ELBOW},
        armscye_girth=ARMSEYE,
        upper_arm_length=SHOULDER_TO_ELBOW,
        arm_length=SHOULDER_TO_ELBOW + ELBOW_TO_HAND,
        elbow_girth=ELBOW,
        wrist_girth=WRIST,
    )


@pytest.mark.parametrize(
    ("start", "end", "inches"),
    [
        ("head", "shoulder", 1),  # dot 1
        ("shoulder", "elbow", SHOULDER_TO_ELBOW),  # dot 2
        ("elbow", "hand", ELBOW_TO_HAND),  # dot 3
        ("elbow", "inside", INSIDE_TO_ELBOW),  # dot 4
        ("inside", "underarm", ARMSEYE / 2 + 0.5),  # dot 5
        ("elbow", "seam_elbow", ELBOW / 2 + 0.5),  # dot 6
        ("hand", "seam_hand", WRIST / 2 + 0.5),  # dot 7
        ("shoulder", "cap_turn", ARMSEYE / 3),  # dot 8
    ],
)
def test_the_dots_of_the_sleeve_lie_as_far_apart_as_the_page_says(sleeve, start, end, inches):
    # Ingalls, "Sleeve draft"
    assert sleeve.way(f"sleeve.{start}", f"sleeve.{end}") == pytest.approx(inches, abs=EXACT)


def test_the_cap_is_as_high_as_the_lengths_of_the_arm_leave_it(sleeve):
    # arithmetic on Ingalls's steps: shoulder to elbow - inside seam to elbow + 1
    height = sleeve.point("sleeve.underarm")[1] - sleeve.point("sleeve.head")[1]
    assert height == pytest.approx(SHOULDER_TO_ELBOW - INSIDE_TO_ELBOW + 1, abs=EXACT)


def test_the_cap_is_long_enough_to_be_gathered_into_the_armhole(sleeve):
    # common practice, no source: it is eased or gathered in, never stretched
    assert 2 * sleeve.along("sleeve.cap") > ARMSEYE
