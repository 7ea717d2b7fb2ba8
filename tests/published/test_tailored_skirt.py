"""A straight skirt block with darts, and the A-line made from its front. Source of the figures:
W. Aldrich, Metric Pattern Cutting, the tailored skirt block: its steps as far as the thirds of the
back waist are found in an excerpt; the lengths of the darts and the front are from memory.
Centimetres.
"""

from __future__ import annotations

import numpy as np
import pytest
from worked_drafts import CM, Worked, worked

FIRST, LAST, PIVOT = 0, 2, 4  # rows of a dart
SLANT = 0.05  # the waist rises 1.25 cm to the side, and is that much longer than level


@pytest.fixture(scope="module")
def skirt() -> Worked:
    return worked("tailored_skirt", CM, waist_girth=68, hip_girth=94, waist_to_hip=20.6)


@pytest.mark.parametrize(
    ("name", "centimetres"),
    [("half_width", 48.5), ("back_hip", 25.0), ("front_hip", 23.5), ("hip_width", 97.0)],
)
def test_the_hip_measures_what_the_block_says(skirt, name, centimetres):
    assert skirt.number(name) == pytest.approx(centimetres, abs=1e-9)


@pytest.mark.parametrize(
    ("piece", "flat", "sewn"), [("back", 21.25, 17.25), ("front", 19.25, 17.25)]
)
def test_the_waist_is_flat_and_sewn_what_the_block_says(skirt, piece, flat, sewn):
    assert skirt.point(f"{piece}.side_waist")[0] == pytest.approx(flat, abs=1e-9)
    assert skirt.number(f"{piece}_sewn") == pytest.approx(sewn, abs=SLANT)


def test_the_finished_waist_is_what_the_block_says(skirt):
    # 1 cm more than the body's; four times the slant
    assert skirt.number("finished_waist") == pytest.approx(69.0, abs=4 * SLANT)


def test_the_a_line_opens_at_the_hem_as_the_trade_reckons(skirt):
    dart = skirt.edge("front.waist_dart")
    width = np.hypot(*(dart[LAST] - dart[FIRST]))
    leg = np.hypot(*(dart[FIRST] - dart[PIVOT]))
    to_hem = np.hypot(*(skirt.point("front.hem_below") - dart[PIVOT]))
    # trade rule, found: width x (point to hem) / (point to waist); 2 cm x 50 / 10 and a little more
    opening = width * to_hem / leg
    assert opening == pytest.approx(10.0, abs=1.0)
    # faired over the opening, the hem is longer by that, less a hair
    assert skirt.along("a_line.bottom") == pytest.approx(23.5 + opening, abs=0.1)


def test_the_side_of_the_a_line_is_as_long_as_that_of_the_block(skirt):
    assert skirt.along("a_line.side") == pytest.approx(skirt.along("front.side"), abs=1e-7)
    assert skirt.along("a_line.waist") == pytest.approx(skirt.number("front_sewn"), abs=1e-6)
