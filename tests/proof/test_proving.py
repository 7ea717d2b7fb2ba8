"""Proofs of requirements and seams: what is true is proved where algebra can, and nothing else is.

What is true and what is not is worked out by hand, from the ranges written in each recipe; the
plausible ranges of the small library are told where they count.
"""

from __future__ import annotations

import pytest
from small_recipes import DRESS, HEADING, draft

from godet.proof.proving import STEPS, matching, prove_check, prove_seam
from godet.proof.verdicts import NotProved, Proved

CHOICES = f"""{HEADING}measure hip_girth, waist_girth
choose a = 5cm from 2cm to 8cm
choose b = 5cm from 0cm to a
choose c = 5cm from a to 2 * a
choose share = 50 % from 0 % to 100 %
choose fit = one of close, loose
choose any = 5cm
"""

TRUE = [
    "a >= 2cm",
    "a > 1.9cm",
    "b <= a",
    "c >= b",
    "2 * a - b >= a",
    "c - a <= a",
    "a * a >= 4cm * 1cm",
    "a * c >= a * b",
    "share * a <= a",
    "share * a + (1 - share) * c >= a",
    "share * a + (1 - share) * c <= 2 * a",
    "(a - 5cm) ^ 2 >= 0cm * 1cm or a > 0cm",
    "max(a, b) >= a",
    "max(a, any) >= any",
    "min(a, any, c) <= any",
    "max(a, c) + min(a, c) >= a + c",
    "max(a, any) + min(a, any) <= a + any",
    "max(a, 3cm) >= 3cm",
    "abs(any) >= any",
    "abs(any) >= -any",
    "abs(a - 20cm) >= 12cm",
    "a / c <= 1",
    "c / a >= 1",
    "1cm / (1cm + a) < 1",
    "hip_girth / (1 + share) <= hip_girth",
    "hip_girth / (1 + fabric.stretch_across) <= hip_girth",
    "sqrt(a * a) >= a",
    "sqrt(a * a + 2 * a * c + c * c) >= a + c",
    "sqrt(a * c) >= 0cm",
    "sin(share * 90deg) >= 0",
    "sin(share * 60deg) ^ 2 + cos(share * 60deg) ^ 2 >= 1",
    "tan(10deg + share * 20deg) >= 0",
    "(if fit is close then a else c) >= a",
    "(if fit is close then a else c) <= 2 * a",
    "(if any > a then any else a) >= a",
    "(if any > a and any > c then any else c) >= c",
    "a >= 2cm and b <= 8cm",
    "any >= a or any < 20cm",
    "not a < 2cm",
    "not (a < 2cm and any > 0cm)",
    "fit is close or fit is loose",
    "fabric.structure is knit or fabric.structure is woven",
    "distance(front.upper, front.lower) >= 2cm",
    "distance(front.upper, front.lower) <= 8cm",
    "length(front.upright) <= length(front.corner)",
    "length(front.corner) >= a + c",
    "length(front.bow) >= 0cm",
    "length(front.bow) + a >= length(front.bow)",
    "x <= 3cm",
]
FALSE = [
    "a > 2cm",
    "a >= 2.1cm",
    "b < a",
    "b >= 0.1cm",
    "c > a",
    "a * a > 4cm * 1cm",
    "share * a + (1 - share) * c > a",
    "any >= 0cm",
    "any <= 100cm",
    "max(a, b) > a",
    "max(a, any) + min(a, any) > a + any",
    "abs(any) > any",
    "a / c < 1",
    "hip_girth / (1 + share) < hip_girth",
    "sqrt(a * a) > a",
    "sin(share * 90deg) > 0",
    "cos(share * 200deg) >= 0",
    "(if fit is close then a else c) > a",
    "any >= a or any < 1cm",
    "not a > 2cm",
    "fit is close",
    "fabric.structure is knit",
    "distance(front.upper, front.lower) > 2cm",
    "length(front.bow) > 10cm",
    "length(front.bow) >= length(front.other_bow)",
    "x < 3cm",
    "hip_girth >= waist_girth",
]
PIECE = """find x from 1cm to 3cm so that x ^ 3 = a * b * 1mm
piece front
  point upper     = origin
  point lower   = origin down a
  point beside = lower outward c
  edge upright   = line upper to lower
  edge corner    = line upper to lower, then line to beside
  edge bow       = curve upper to beside leaving down
  edge other_bow = curve upper to beside leaving outward
end
"""


def verdict(condition: str, steps: int = STEPS) -> Proved | NotProved:
    made = draft(f"{CHOICES}{PIECE}require {condition}\n")
    return prove_check(made, made.checks[-1], steps)


@pytest.mark.parametrize("condition", TRUE)
def test_what_is_true_for_every_body_and_choice_is_proved(condition: str):
    assert verdict(condition) == Proved()


@pytest.mark.parametrize("condition", FALSE)
def test_what_is_not_true_of_some_body_or_choice_is_never_proved(condition: str):
    assert verdict(condition) == NotProved("open")


@pytest.mark.parametrize(("condition", "steps"), [("max(a, b) >= a", 5), ("b <= a", 1)])
def test_the_end_of_the_steps_is_no_error_and_no_verdict(condition: str, steps: int):
    assert verdict(condition, steps) == NotProved("steps")
    assert verdict(condition) == Proved()


def test_what_would_grow_beyond_all_bounds_comes_to_the_end_of_its_steps():
    powers = [f"((a + {n} * b + c + any + x) / 1cm) ^ 8" for n in (1, 2)]
    assert verdict(f"{' * '.join(powers)} >= 0") == NotProved("steps")


def test_the_same_question_takes_the_same_steps():
    for steps in range(1, 60):
        assert verdict("max(a, c) + min(a, c) >= a + c", steps) == verdict(
            "max(a, c) + min(a, c) >= a + c", steps
        )


def test_an_estimated_measure_is_any_number_in_its_range_and_not_its_estimate():
    # the small library estimates waist_to_hip from the height, between 8 and 35 cm
    text = f"{HEADING}measure waist_to_hip, height\n"
    for condition, proved in (
        ("waist_to_hip >= 8cm", True),
        ("waist_to_hip <= 35cm", True),
        ("waist_to_hip <= 12.1 % * height", False),
    ):
        made = draft(f"{text}require {condition}\n")
        assert (prove_check(made, made.checks[-1]) == Proved()) is proved, condition


def test_the_sides_of_a_dress_are_proved_to_match():
    made = draft(DRESS)
    verdicts = {seam.name: prove_seam(made, seam) for seam in made.seams if matching(seam)}
    assert verdicts["side"] == Proved()


def test_sides_that_only_happen_to_be_as_long_are_not_proved_to_match():
    text = f"""{HEADING}measure hip_girth
choose skirt = 60cm from 30cm to 90cm
piece front
  point upper   = origin
  point lower = origin down skirt
  edge side  = line upper to lower
end
piece back
  point upper   = origin
  point lower = origin down 60cm
  edge side  = line upper to lower
end
seam side: front.side to back.side
"""
    made = draft(text)
    assert prove_seam(made, made.seams[0]) == NotProved("open")
    made = draft(text.replace("origin down 60cm", "origin up skirt"))
    assert prove_seam(made, made.seams[0]) == Proved()


def test_an_edge_whose_length_is_found_matches_by_its_equation():
    text = f"""{HEADING}measure hip_girth
choose ease = 5mm from 0mm to 2cm
piece front
  point upper   = origin
  point lower = origin down 20cm outward 4cm
  edge bow   = curve upper to lower leaving down
end
piece sleeve
  point left  = origin
  point right = origin outward span
  edge cap    = line left to right
  find span from 10cm to 90cm so that length(cap) = length(front.bow) + ease
end
seam armhole: sleeve.cap to front.bow easing ease
"""
    made = draft(text)
    assert prove_seam(made, made.seams[0]) == Proved()
    made = draft(text.replace("easing ease", "easing 2 * ease"))
    assert prove_seam(made, made.seams[0]) == NotProved("open")
