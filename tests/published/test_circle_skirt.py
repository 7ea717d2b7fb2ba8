"""A circle skirt against radii worked out from the waist.

Source: elementary geometry; a sector of an angle whose inner arc is the waist has the radius waist
/ angle (in radians). Its figures are computed, and rounded to 0.01; cm and inches.
"""

from __future__ import annotations

import math

import pytest
from worked_drafts import CM, INCH, worked

ROUNDED = 0.005
FULL, THREE_QUARTERS, HALF, THIRD, QUARTER = 360, 270, 180, 120, 90


def _radius(waist: float, unit: float, turn: float, **choices: float) -> float:
    skirt = worked(
        "circle_skirt",
        unit,
        choices={"skirt_length": 500 / unit, **choices},
        radians={"turn": math.radians(turn)},
        waist_girth=waist,
    )
    return skirt.number("front.radius")


@pytest.mark.parametrize(
    ("waist", "unit", "turn", "radius"),
    [
        (110, CM, FULL, 17.51),
        (114, CM, FULL, 18.14),
        (26, INCH, FULL, 4.14),
        (26, INCH, HALF, 8.28),
        (26, INCH, THIRD, 12.41),
        (26, INCH, QUARTER, 16.55),
    ],
)
def test_the_waist_lies_as_far_from_the_centre_as_computed(waist, unit, turn, radius):
    # elementary geometry: waist / angle, computed
    assert _radius(waist, unit, turn) == pytest.approx(radius, abs=ROUNDED)


def test_three_quarters_of_a_circle_have_four_thirds_of_the_radius_of_a_full_one():
    # elementary geometry: waist / (3 pi / 2)
    full = _radius(110, CM, FULL)
    assert _radius(110, CM, THREE_QUARTERS) == pytest.approx(4 / 3 * full, abs=1e-6)


def test_what_is_added_to_the_waist_is_added_before_it_is_divided():
    # elementary geometry: (110 + 4) / pi, computed
    assert _radius(110, CM, HALF, waist_ease=4) == pytest.approx(36.29, abs=ROUNDED)


def test_the_hem_lies_everywhere_as_far_from_the_waist():
    skirt = worked("circle_skirt", CM, choices={"skirt_length": 60}, waist_girth=70)
    # arithmetic: an arc of a quarter turn is radius * pi / 2
    hem = (70 / (2 * math.pi) + 60) * math.pi / 2
    assert skirt.along("front.bottom") == pytest.approx(hem, abs=1e-3)
    assert skirt.along("front.side") == pytest.approx(60, abs=1e-9)
