"""Derivatives of unknowns that need each other, against differences of solved bodies.

The outside is numerical differentiation: central differences with two steps, extrapolated by
Richardson (1911); and closed forms, differentiated by hand.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from small_recipes import HEADING, draft, inputs, solved

from godet.geometry.dual import Dual, tangent_of
from godet.program.linking import Draft

BODY = {"hip_girth": 981.0, "waist_girth": 743.0}
HIP = f"{HEADING}measure hip_girth, waist_girth\n"
CASES = {
    "linear": HIP
    + "find x from 1cm to 60cm so that 2 * x + 2 * y = hip_girth\n"
    + "find y from 1cm to 60cm so that x - y = (hip_girth - waist_girth) / 4\nlet a = x / 2 + y\n",
    "linear, alone": HIP
    + "find x from 1cm to 1m so that x * waist_girth = hip_girth * hip_girth / 3\n"
    + "let a = x\n",
    "not linear": HIP
    + "find x from 1cm to 90cm so that x * y = hip_girth * 20cm\n"
    + "find y from 1cm to 90cm so that y - x = waist_girth / 4\nlet a = x / 2 + y\n",
    "in pieces": HIP
    + "piece front\n  point a = origin\n  point b = a outward wide down 20cm\n"
    + "  edge low = curve a to b leaving outward arriving down\n  edge slant = line b to a\n"
    + "  find wide from 5cm to 60cm so that length(low) + length(back.low) = hip_girth / 2\nend\n"
    + "piece back\n  point a = origin\n  point b = a outward wide down 15cm\n"
    + "  edge low = curve a to b leaving outward arriving down\n  edge slant = line b to a\n"
    + "  find wide from 5cm to 60cm so that length(low) = length(front.slant) + waist_girth / 60\n"
    + "end\nlet a = front.wide + 2 * back.wide\n",
}


def slopes(made: Draft, names: Sequence[str]) -> np.ndarray:
    given = inputs(made, BODY)
    seeded = {
        name: Dual(np.array([value]), np.eye(len(BODY))[:, [seed]])
        for seed, (name, value) in enumerate(BODY.items())
    }
    outcome = solved(made, names, replace(given, measures={**given.measures, **seeded}))
    assert outcome.failures == ()
    return np.array([tangent_of(outcome.values[made.names[n]], len(BODY))[:, 0] for n in names])


@pytest.mark.parametrize("case", CASES)
def test_what_is_found_together_moves_as_its_slope_says(case: str):
    made = draft(CASES[case])

    def at(name: str, by: float) -> float:
        outcome = solved(made, ["a"], inputs(made, {**BODY, name: BODY[name] + by}))
        assert outcome.failures == ()
        return float(outcome.value(made.names["a"], 0))

    (exact,) = slopes(made, ["a"])
    for seed, name in enumerate(BODY):
        coarse, fine = ((at(name, h) - at(name, -h)) / (2 * h) for h in (0.5, 0.25))
        assert exact[seed] == pytest.approx((4 * fine - coarse) / 3, abs=1e-8)
        assert abs(exact[seed]) > 1e-3


def test_the_slopes_of_an_oblong_are_those_of_its_formula():
    made = draft(CASES["not linear"].replace("let a = x / 2 + y", "let a = x"))
    # x = sqrt((waist / 8)^2 + 200 hip) - waist / 8
    root = np.sqrt((BODY["waist_girth"] / 8) ** 2 + 200 * BODY["hip_girth"])
    expected = [100 / root, BODY["waist_girth"] / 64 / root - 1 / 8]
    np.testing.assert_allclose(slopes(made, ["a"])[0], expected, atol=1e-12)


@pytest.mark.parametrize("case", CASES)
def test_what_is_found_together_has_the_same_bits_with_and_without_slopes(case: str):
    made = draft(CASES[case])
    given = inputs(made, BODY)
    seeded = {**given.measures, "hip_girth": Dual(np.array([981.0]), np.array([[1.0]]))}
    plain, dual = solved(made, ["a"], given), solved(made, ["a"], replace(given, measures=seeded))
    assert plain.value(made.names["a"], 0) == dual.value(made.names["a"], 0)
