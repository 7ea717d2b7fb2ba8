"""What the forms that draw and measure curves mean, in texts."""

from __future__ import annotations

import math

import numpy as np
import pytest
from small_recipes import HEADING, compiled, draft, faults, inputs, solved, value

from godet.graph.types import AREA

# a flap that is a quarter of a disc, 10 cm in radius: its rounding bends to the right-hand side
QUARTER = f"""{HEADING}
piece flap
  point middle = origin
  point right  = origin outward 10cm
  point below  = origin down 10cm
  edge rounding = arc right to below leaving down
  edge upper    = line middle to right
  edge inner    = line middle to below
  {{}}
end
"""


def of_flap(line: str, name: str = "a") -> float:
    return float(value(QUARTER.format(line), f"flap.{name}"))


def point_of_flap(line: str) -> list[float]:
    point = value(QUARTER.format(f"point p = {line}"), "flap.p")
    return [float(point[0]), float(point[1])]


def length_of_flap(line: str) -> float:
    """The length of a curve `c` drawn in the flap, in mm."""
    text = QUARTER.format(line) + "let a = length(flap.c)\n"
    return float(value(text, "a"))


HALF_WAY = 100.0 * math.sqrt(0.5)


@pytest.mark.parametrize(
    ("written", "expected"),
    # the circle of radius 100 mm round the origin
    [
        ("nearest on rounding to (origin outward 30cm down 30cm)", (HALF_WAY, HALF_WAY)),
        ("nearest on upper to below outward 4cm", (40.0, 0.0)),
        # moves bind last: the point found is moved
        ("nearest on rounding to right up 5cm down 1cm", (100.0, -40.0)),
        ("lowest of rounding", (0.0, 100.0)),
        ("outermost of rounding", (100.0, 0.0)),
        ("highest of inner", (0.0, 0.0)),
        ("innermost of upper", (0.0, 0.0)),
        ("innermost of upper outward 1cm", (10.0, 0.0)),
    ],
)
def test_a_place_of_a_curve(written: str, expected: tuple[float, float]):
    assert point_of_flap(written) == pytest.approx(expected, abs=1e-2)


def test_the_radius_has_a_sign_that_a_reversed_curve_turns_round():
    text = QUARTER.format("curve c = rounding reversed")
    ahead = value(f"{text}let a = radius(flap.rounding, flap.right)\n", "a")
    back = value(f"{text}let a = radius(flap.c, flap.right)\n", "a")
    assert ahead == pytest.approx(100.0, rel=1e-4)
    assert back == pytest.approx(-ahead)


def test_the_area_of_a_piece_and_of_curves_that_close():
    text = QUARTER.format("curve slant = line right to below")
    # a quarter of a disc; the triangle in it
    disc, triangle = math.pi * 100.0**2 / 4.0, 100.0 * 100.0 / 2.0
    of_piece = f"{text}let a = area(flap)\n"
    assert value(of_piece, "a") == pytest.approx(disc, rel=1e-6)
    of_curves = f"{text}let a = area(flap.slant, flap.inner, flap.upper)\n"
    assert value(of_curves, "a") == pytest.approx(triangle)
    made = draft(of_piece)
    assert made.graph[made.names["a"]].type == AREA


def test_the_area_of_a_piece_of_a_block_and_of_one_laid_over_it():
    text = f"{HEADING}  takes top: bodice = plain_top\n" + (
        "piece front from top.front\n  point hem = lowest of base.centre\n"
        "  edge centre = base.centre, then line to hem down 10cm\n"
        "  edge bottom = line hem down 10cm to outermost of base.bottom\nend\n"
        "let a = area(front) - area(top.front)\n"
        "let b = length(top.front.bottom) * 5cm\n"
    )
    added, half_a_rectangle = value(text, "a"), value(text, "b")
    assert added == pytest.approx(half_a_rectangle, rel=1e-9)


def test_curves_that_do_not_close_have_no_area():
    made = draft(QUARTER.format("") + "let a = area(flap.upper, flap.inner)\n")
    (failure,) = solved(made, ["a"], inputs(made, {})).failures
    assert failure.code == "ends-do-not-meet"


def test_a_curve_is_reshaped_to_a_length():
    assert length_of_flap("curve c = rounding reshaped to 16cm") == pytest.approx(160.0, abs=1e-9)
    shorter = "curve c = rounding from lowest of rounding reversed reshaped to 0cm"
    assert faults(compiled(QUARTER.format(shorter)).problems) == []
    longer = "curve c = rounding reshaped to 16cm extended by 2cm"
    assert length_of_flap(longer) == pytest.approx(180.0, abs=1e-9)


def test_a_part_is_cut_then_reversed_then_reshaped_then_extended():
    made = draft(
        QUARTER.format(
            "point half = along rounding from right by 50 %\n"
            "  curve c = rounding until half reversed reshaped to 8cm extended by 1cm\n"
            "  curve rest = c reversed"
        )
    )
    outcome = solved(made, ["flap.c", "flap.rest", "flap.half"], inputs(made, {}))
    assert not outcome.failures
    curve, rest, half = (
        np.asarray(outcome.value(made.names[f"flap.{name}"], 0)) for name in ("c", "rest", "half")
    )
    np.testing.assert_allclose(curve[0, 0], half, atol=1e-9)
    # straight up from the right-hand end of the quarter
    np.testing.assert_allclose(curve[-1, 3], [100.0, -10.0], atol=1e-6)
    np.testing.assert_array_equal(rest[::-1, ::-1], curve)


def test_a_reversed_part_goes_on_from_a_chain():
    line = "curve c = line middle to below, then rounding reversed"
    assert length_of_flap(line) == pytest.approx(100.0 + math.pi * 50.0, rel=1e-6)


def test_tension_draws_a_curve_flatter():
    through = "curve c = curve right through below outward 5cm to below{}"
    plain, tight = (length_of_flap(through.format(t)) for t in ("", " tension 3/2"))
    assert length_of_flap(through.format(" tension 100 %")) == plain
    assert tight < plain
    on = "curve c = line middle to right, then curve to below leaving down arriving inward{}"
    assert length_of_flap(on.format(" tension 2")) < length_of_flap(on.format(""))


def test_a_fair_blend_is_another_curve_than_a_plain_one():
    corner = "curve c = line below to middle, then line to right, blended at middle over 8cm{}"
    plain, fair = (length_of_flap(corner.format(word)) for word in ("", " fair"))
    # either is shorter than the corner and longer than the straight way across it
    assert 200.0 - 80.0 + 40.0 * math.sqrt(2.0) < fair < 200.0
    assert abs(plain - fair) > 0.1


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("point p = nearest on middle to below", "wrong-type"),
        ("point p = nearest on upper to 3cm", "wrong-type"),
        ("point p = lowest of middle", "wrong-type"),
        ("curve c = rounding reshaped to 3", "bare-number"),
        ("curve c = rounding reshaped to middle", "wrong-type"),
        ("curve c = curve right to below leaving down tension 2cm", "wrong-type"),
        ("let a = radius(middle, rounding)", "wrong-type"),
        ("let a = area()", "wrong-count"),
        ("let a = area(middle)", "wrong-type"),
        ("let a = area(upper, 3cm)", "wrong-type"),
    ],
)
def test_a_wrong_type_is_told_once(line: str, code: str):
    assert [p.code for p in faults(compiled(QUARTER.format(line)).problems)] == [code]


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("point p = nearest on rounding to middle", "tie"),
        ("point p = lowest of upper", "tie"),
        ("curve c = rounding reshaped to 14cm", "shorter-than-chord"),
        ("curve c = rounding reshaped to 30cm", "out-of-reach"),
        ("curve c = curve right to below leaving down tension 0.7", "tension-too-low"),
        ("curve c = arc right to below leaving at -45deg", "arc-leads-away"),
        ("let a = radius(upper, middle)", "no-radius"),
        ("let a = radius(upper, below)", "off-edge"),
        ("point p = crossing of upper with line_on", "overlap"),
    ],
)
def test_what_can_not_be_drawn_is_told_in_its_own_words(line: str, code: str):
    made = draft(
        QUARTER.format(f"curve line_on = line middle outward 5cm to right outward 5cm\n  {line}")
    )
    name = line.split()[1]
    (failure,) = solved(made, [f"flap.{name}"], inputs(made, {})).failures
    assert failure.code == code
