"""Angles where curves meet, and directions along and square to an edge."""

from __future__ import annotations

import numpy as np
import pytest
from garment_curves import Floats

from godet.geometry.angles import angle_between, direction_along, square_direction
from godet.geometry.arcs import arc
from godet.geometry.cubics import reversed_curve
from godet.geometry.lines import line

CORNER = np.array([[10.0, 20.0]])


def _leg(degrees: float) -> Floats:
    way = np.array([[np.cos(np.radians(degrees)), np.sin(np.radians(degrees))]])
    curve: Floats = line(CORNER, CORNER + 70.0 * way).value
    return curve


@pytest.mark.parametrize("degrees", [0.5, 60.0, 90.0, 135.0, 180.0])
def test_the_angle_does_not_depend_on_which_ends_meet(degrees: float) -> None:
    a, b = _leg(15.0), _leg(15.0 + degrees)
    for first in (a, reversed_curve(a)):
        for second in (b, reversed_curve(b)):
            # The angle the legs were drawn at.
            np.testing.assert_allclose(
                np.degrees(angle_between(first, second).value), [degrees], atol=1e-12
            )


def test_curves_without_a_common_end_fail_with_the_gap() -> None:
    breaches = angle_between(_leg(0.0), _leg(90.0) + np.array([-3.0, -4.0])).breaches
    (apart,) = [breach for breach in breaches if breach.failed.any()]
    assert apart.code == "ends-do-not-meet"
    np.testing.assert_allclose(apart.numbers["gap"], 5.0)  # Pythagoras: 3, 4, 5


def test_square_to_a_circle_points_along_its_radius() -> None:
    circle = arc(np.array([[100.0, 0.0]]), np.array([[-100.0, 0.0]]), np.array([[0.0, 1.0]])).value
    radius = np.array([[np.cos(1.1), np.sin(1.1)]])
    point = 100.0 * radius
    for toward, sign in ((np.zeros((1, 2)), -1.0), (3.0 * point, 1.0)):
        result = square_direction(circle, point, toward)
        # The radius of the circle; the cubics err by 1e-5 of it.
        np.testing.assert_allclose(result.value, sign * radius, atol=3e-5)
    along = direction_along(circle, point, np.array([[-100.0, 0.0]])).value
    np.testing.assert_allclose(along, [[-radius[0, 1], radius[0, 0]]], atol=3e-5)


def test_a_direction_that_nothing_decides_fails() -> None:
    edge = line(np.zeros((2, 2)), np.array([[100.0, 0.0]])).value
    point = np.array([[40.0, 0.0]])
    toward = np.array([[90.0, 0.0], [90.0, 5.0]])
    failed = {b.code: b.failed.tolist() for b in square_direction(edge, point, toward).breaches}
    assert failed["no-side"] == [True, False]
    failed = {b.code: b.failed.tolist() for b in direction_along(edge, point, point).breaches}
    assert failed["no-side"] == [True, True]


def test_square_at_an_end_with_a_handle_of_no_length() -> None:
    edge = np.array([[[[0.0, 0.0], [0.0, 0.0], [60.0, 0.0], [90.0, 30.0]]]])
    result = square_direction(edge, np.array([[0.0, 0.0]]), np.array([[5.0, 9.0]]))
    np.testing.assert_allclose(result.value, [[0.0, 1.0]], atol=1e-15)
