"""The derivatives that the numbers carry are those of the functions.

Checked against central differences with two steps and Richardson's extrapolation, which know
nothing of the rules: only values of the same functions enter.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from every_function import EVERY_FUNCTION, plain
from garment_curves import Floats, bodice

from godet.geometry.arc_length import along, length
from godet.geometry.dual import Dual, implicit, tangent_of, value_of
from godet.geometry.lines import line
from godet.geometry.locating import from_point, locate, until

CHECKED = 40  # bodies


def _extrapolated(function: Any, inputs: list[Floats], ways: list[Floats], step: float) -> Floats:
    def difference(by: float) -> Floats:
        ahead = plain(function(*(i + by * w for i, w in zip(inputs, ways, strict=True))))
        behind = plain(function(*(i - by * w for i, w in zip(inputs, ways, strict=True))))
        slope: Floats = (ahead - behind) / (2.0 * by)
        return slope

    return (4.0 * difference(step / 2.0) - difference(step)) / 3.0


@pytest.mark.parametrize("name", EVERY_FUNCTION)
def test_every_function_carries_its_derivative(name: str) -> None:
    function, every_input = EVERY_FUNCTION[name]
    inputs = [item[:CHECKED] for item in every_input]
    random = np.random.default_rng(11)
    seeds = [random.normal(size=(2, *item.shape)) for item in inputs]
    carried = plain(function(*(Dual(i, s) for i, s in zip(inputs, seeds, strict=True))))
    for layer in range(2):
        ways = [seed[layer] for seed in seeds]
        # Central differences, Richardson's extrapolation.
        expected = _extrapolated(function, inputs, ways, 1e-3)
        np.testing.assert_allclose(carried.tangent[layer], expected, rtol=2e-6, atol=2e-6)


RULES: dict[str, Any] = {
    "add": lambda a, b: a + b,
    "subtract": lambda a, b: a - b,
    "multiply": lambda a, b: a * b,
    "divide": lambda a, b: a / b,
    "negative": lambda a, b: -a,
    "power": lambda a, b: a**2.5 + b**2,
    "square root": lambda a, b: np.sqrt(a),
    "exponential": lambda a, b: np.exp(a),
    "logarithm": lambda a, b: np.log(b),
    "sine": lambda a, b: np.sin(a),
    "cosine": lambda a, b: np.cos(a),
    "tangent": lambda a, b: np.tan(a / 2.0),
    "arc sine": lambda a, b: np.arcsin(a / 3.0),
    "arc cosine": lambda a, b: np.arccos(a / 3.0),
    "arc tangent": lambda a, b: np.arctan(a),
    "arc tangent of two": lambda a, b: np.arctan2(a, -b),
    "absolute": lambda a, b: np.absolute(-a),
    "sign": lambda a, b: np.sign(a) * b,
    "hypot": lambda a, b: np.hypot(a, b),
    "smaller": lambda a, b: np.minimum(a, b),
    "larger": lambda a, b: np.maximum(a, b),
    "choice": lambda a, b: np.where(a > b, a * a, b),
    "sum": lambda a, b: np.sum(np.stack([a, b, a * b], axis=-1), axis=-1),
    "running sum": lambda a, b: np.cumsum(np.stack([a, b], axis=-1), axis=-1),
    "plain beside": lambda a, b: np.concatenate([a[:, None], np.ones((len(b), 2))], axis=1),
    "more axes": lambda a, b: a[:, None] * np.ones((1, 3)) + np.expand_dims(b, -1),
    "picking": lambda a, b: np.take_along_axis(
        np.stack([a, b], axis=1), np.ones((len(a), 1), dtype=int), axis=1
    ),
    "other shape": lambda a, b: (a * b).reshape(-1, 2),
}


@pytest.mark.parametrize("name", RULES)
def test_every_rule_of_dual_numbers(name: str) -> None:
    random = np.random.default_rng(5)
    inputs = [random.uniform(0.5, 2.5, 6), random.uniform(0.5, 2.5, 6)]
    seeds = [random.normal(size=(3, 6)), random.normal(size=(3, 6))]
    carried = RULES[name](*(Dual(i, s) for i, s in zip(inputs, seeds, strict=True)))
    np.testing.assert_array_equal(value_of(carried), RULES[name](*inputs))
    for layer in range(3):
        # Central differences, Richardson's extrapolation.
        expected = _extrapolated(RULES[name], inputs, [s[layer] for s in seeds], 1e-3)
        np.testing.assert_allclose(tangent_of(carried, 3)[layer], expected, rtol=1e-9, atol=1e-9)


def test_a_solved_root_follows_its_equation() -> None:
    a = Dual(np.array([2.0, 9.0]), np.array([[1.0, 1.0]]))
    root = np.sqrt(np.array([2.0, 9.0]))
    carried = implicit(root, root * root - a, 2.0 * root)
    assert carried.value is root
    # d sqrt(a) / da = 1 / (2 sqrt(a))
    np.testing.assert_allclose(carried.tangent, [0.5 / np.sqrt([2.0, 9.0])], rtol=1e-15)


def test_a_function_without_a_rule_is_refused() -> None:
    with pytest.raises(TypeError):
        np.sinh(Dual(np.array([1.0]), np.array([[1.0]])))


def test_an_exponent_that_varies_is_refused() -> None:
    with pytest.raises(TypeError, match="constant"):
        2.0 ** Dual(np.array([1.0]), np.array([[1.0]]))


def test_a_cut_at_a_joint_moves_with_the_joint() -> None:
    curve = bodice(4).armhole
    seeds = np.random.default_rng(8).normal(size=(2, *curve.shape))
    seeds[:, :, 1, 0] = seeds[:, :, 0, 3]
    moving = Dual(curve, seeds)
    before = until(moving, moving[:, 1, 0]).value
    after = from_point(moving, moving[:, 1, 0]).value
    np.testing.assert_array_equal(before.value[:, 0], curve[:, 0])
    # The joint stays the joint, so either part is a whole cubic, and moves as that does.
    np.testing.assert_allclose(before.tangent[:, :, 0], seeds[:, :, 0], atol=1e-13)
    np.testing.assert_allclose(after.tangent[:, :, 1], seeds[:, :, 1], atol=1e-13)


def test_a_cut_that_comes_to_a_joint_still_moves_along_the_curve() -> None:
    curve = bodice(4).armhole
    at = Dual(length(curve[:, :1]), np.ones((1, 4)))
    part = until(curve, along(curve, at).value).value
    # A part longer by 1 mm for each mm of its length.
    np.testing.assert_allclose(length(part).tangent, 1.0, atol=1e-9)


def test_the_foot_of_a_point_beyond_an_end_stands_still() -> None:
    straight = line(np.zeros((1, 2)), np.array([[100.0, 0.0]])).value
    beyond = Dual(np.array([[130.0, 40.0]]), np.array([[[1.0, 0.0]], [[0.0, 1.0]]]))
    parameter, away = locate(straight, beyond)
    assert tangent_of(parameter, 2).tolist() == [[0.0], [0.0]]
    # Distance from (100, 0): 50, along (30, 40).
    np.testing.assert_allclose(away.tangent, [[0.6], [0.8]], atol=1e-14)
