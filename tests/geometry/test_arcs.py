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


@pytest.mark.parametrize("degrees", [5, 60, 120, 180])
def test_an_arc_of_two_metres_lies_on_its_circle(degrees: float) -> None:
    sweep = np.radians(degrees)
    start = np.array([[2000.0, 0.0]])
    end = 2000.0 * np.array([[np.cos(sweep), np.sin(sweep)]])
    curve = arc(start, end, np.array([[0.0, 1.0]])).value
    radius = np.linalg.norm(evaluate(curve[0, :, None], SHARES[None]), axis=-1)
    # The circle itself: radius 2 m round the origin; its length is radius times sweep.
    within = 1e-3 if degrees <= 120 else 1e-2
    np.testing.assert_allclose(radius, 2000.0, rtol=0, atol=within)
    assert length(curve)[0] == pytest.approx(2000.0 * sweep, abs=10 * within)


def test_the_direction_may_be_given_at_the_end() -> None:
    start, end = np.array([[0.0, 0.0]]), np.array([[100.0, 60.0]])
    way = np.array([[1.0, 0.0]])
    at_start = arc(start, end, way).value
    np.testing.assert_allclose(start_direction(at_start).value, way, atol=1e-15)
    finish = end_direction(at_start).value
    np.testing.assert_allclose(arc(start, end, finish, at_end=True).value, at_start, atol=1e-12)


def test_a_direction_that_points_back_is_turned_about() -> None:
    start, end = np.array([[0.0, 0.0]]), np.array([[100.0, 60.0]])
    forward = arc(start, end, np.array([[3.0, 0.0]])).value
    np.testing.assert_allclose(arc(start, end, np.array([[-1.0, 0.0]])).value, forward, atol=1e-13)


def test_a_half_circle_keeps_its_direction_in_spite_of_rounding() -> None:
    start, end = np.zeros((2, 2)), np.array([[100.0, 0.0]])
    nearly_square = np.array([[1e-16, 1.0], [-1e-16, 1.0]])
    curve = arc(start, end, nearly_square).value
    assert (curve[:, 1, 3, 1] > 49.99).all()


def test_an_arc_along_its_chord_is_straight_and_has_derivatives() -> None:
    start, end = np.array([[0.0, 0.0]]), np.array([[80.0, 0.0]])
    straight = arc(start, end, np.array([[1.0, 0.0]])).value
    expected = np.linspace(0.0, 80.0, 13)
    np.testing.assert_allclose(straight[0, :, :3, 0].ravel(), expected[:12], atol=1e-13)
    np.testing.assert_array_equal(straight[..., 1], 0.0)
    turning = Dual(np.array([[1.0, 0.0]]), np.array([[[0.0, 1.0]]]))
    middle = arc(start, end, turning).value.tangent[0, 0, 1, 3]
    # Height of a flat arc over a chord c with end angle a: c a / 4 (first order).
    np.testing.assert_allclose(middle, [0.0, 20.0], atol=1e-13)


def test_ends_that_coincide_fail() -> None:
    (breach,) = arc(np.zeros((1, 2)), np.zeros((1, 2)), np.array([[1.0, 0.0]])).breaches
    assert (breach.code, breach.failed.tolist()) == ("zero-length", [True])
