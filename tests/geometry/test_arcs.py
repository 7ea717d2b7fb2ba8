"""Circular arcs."""

from __future__ import annotations

import numpy as np
import pytest

from godet.geometry.arc_length import length
from godet.geometry.arcs import arc
from godet.geometry.cubics import evaluate
from godet.geometry.dual import Dual
from godet.geometry.ends import end_direction, start_direction

SHARES = np.linspace(0.0, 1.0, 201)


@pytest.mark.parametrize(
    ("radius", "degrees"),
    [(2000, 5), (2000, 60), (2000, 120), (2000, 180), (2500, 240), (1000, 270), (200, 340)],
)
def test_an_arc_lies_on_its_circle_whatever_it_sweeps(radius: float, degrees: float) -> None:
    sweep = np.radians(degrees)
    start = np.array([[radius, 0.0]])
    end = radius * np.array([[np.cos(sweep), np.sin(sweep)]])
    curve = arc(start, end, np.array([[0.0, 1.0]])).value
    away = np.linalg.norm(evaluate(curve[0, :, None], SHARES[None]), axis=-1)
    # The circle itself, round the origin; its length is radius times sweep.
    np.testing.assert_allclose(away, radius, rtol=0, atol=1e-3)
    assert length(curve)[0] == pytest.approx(radius * sweep, abs=1e-3 * sweep)


def test_the_direction_may_be_given_at_the_end() -> None:
    start, end = np.array([[0.0, 0.0]]), np.array([[100.0, 60.0]])
    way = np.array([[1.0, 0.0]])
    at_start = arc(start, end, way).value
    np.testing.assert_allclose(start_direction(at_start).value, way, atol=1e-15)
    finish = end_direction(at_start).value
    np.testing.assert_allclose(arc(start, end, finish, at_end=True).value, at_start, atol=1e-12)


def test_a_direction_that_points_back_gives_more_than_half_a_circle() -> None:
    start, end = np.array([[0.0, 0.0]]), np.array([[0.0, 100.0]])
    curve = arc(start, end, np.array([[3.0, -3.0]])).value
    # Three quarters of the circle round (50, 50), whose chord is its radius times root 2.
    samples = evaluate(curve[0, :, None], SHARES[None])
    away = np.linalg.norm(samples - [50.0, 50.0], axis=-1)
    np.testing.assert_allclose(away, 50.0 * np.sqrt(2.0), atol=1e-4)
    assert length(curve)[0] == pytest.approx(1.5 * np.pi * 50.0 * np.sqrt(2.0), abs=1e-3)


def test_a_direction_straight_away_from_the_other_end_fails() -> None:
    start, end = np.zeros((3, 2)), np.array([[100.0, 0.0]])
    ways = np.array([[-1.0, 0.0], [-1.0, 0.001], [-1.0, 0.1]])
    _, breach = arc(start, end, ways).breaches
    assert breach.code == "arc-leads-away"
    assert breach.failed.tolist() == [True, True, False]
    assert breach.numbers["angle"][0] == pytest.approx(np.pi)


def test_a_half_circle_keeps_its_direction_in_spite_of_rounding() -> None:
    start, end = np.zeros((2, 2)), np.array([[100.0, 0.0]])
    nearly_square = np.array([[1e-16, 1.0], [-1e-16, 1.0]])
    curve = arc(start, end, nearly_square).value
    np.testing.assert_allclose(curve[:, 3, 3], [[50.0, 50.0], [50.0, 50.0]], atol=1e-12)


def test_an_arc_along_its_chord_is_straight_and_has_derivatives() -> None:
    start, end = np.array([[0.0, 0.0]]), np.array([[80.0, 0.0]])
    straight = arc(start, end, np.array([[1.0, 0.0]])).value
    expected = np.linspace(0.0, 80.0, 25)
    np.testing.assert_allclose(straight[0, :, :3, 0].ravel(), expected[:24], atol=1e-13)
    np.testing.assert_array_equal(straight[..., 1], 0.0)
    turning = Dual(np.array([[1.0, 0.0]]), np.array([[[0.0, 1.0]]]))
    middle = arc(start, end, turning).value.tangent[0, 0, 3, 3]
    # Height of a flat arc over a chord c with end angle a: c a / 4 (first order).
    np.testing.assert_allclose(middle, [0.0, 20.0], atol=1e-13)


def test_ends_that_coincide_fail() -> None:
    breach, _ = arc(np.zeros((1, 2)), np.zeros((1, 2)), np.array([[1.0, 0.0]])).breaches
    assert (breach.code, breach.failed.tolist()) == ("zero-length", [True])
