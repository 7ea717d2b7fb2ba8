"""The radius of a curve at a point on it."""

from __future__ import annotations

import numpy as np
from garment_curves import DOWN, OUTWARD, bodice

from godet.geometry.arc_length import along, length
from godet.geometry.arcs import arc
from godet.geometry.bends import radius_at
from godet.geometry.cubics import curve_after, evaluate, reversed_curve
from godet.geometry.lines import line
from godet.geometry.locating import from_point, place_on


def test_the_radius_of_an_arc_is_that_of_its_circle() -> None:
    # from the right to the left below: it bends to the right-hand side of the way
    half = arc(100.0 * OUTWARD, -100.0 * OUTWARD, DOWN).value
    points = np.concatenate([100.0 * OUTWARD, 100.0 * DOWN, evaluate(half[:, 2], np.array([0.3]))])
    np.testing.assert_allclose(radius_at(half, points).value, 100.0, rtol=1e-4)
    np.testing.assert_allclose(radius_at(reversed_curve(half), points).value, -100.0, rtol=1e-4)


def test_the_radius_agrees_with_a_circle_through_three_points() -> None:
    neck = bodice(20).neck
    at = 0.4 * length(neck)
    a, b, c = (along(neck, at + by).value for by in (-0.05, 0.0, 0.05))
    sides = [np.linalg.norm(p - q, axis=1) for p, q in ((a, b), (b, c), (c, a))]
    (u, v) = (b - a).T, (c - a).T
    area = (u[0] * v[1] - u[1] * v[0]) / 2.0
    # the circle round a triangle: the product of its sides over four times its area
    expected = sides[0] * sides[1] * sides[2] / (4.0 * area)
    np.testing.assert_allclose(radius_at(neck, b).value, expected, rtol=1e-4)


def test_a_straight_line_has_no_radius_and_a_point_beside_the_curve_none_either() -> None:
    straight = line(np.zeros((1, 2)), np.array([[40.0, 70.0]])).value
    off, none = radius_at(straight, np.array([[20.0, 35.0], [20.0, 36.0]])).breaches
    assert (off.code, off.failed.tolist()) == ("off-edge", [False, True])
    assert (none.code, none.failed.tolist()) == ("no-radius", [True, True])


def test_a_curve_that_comes_to_a_point_has_no_radius_there() -> None:
    cusp = np.array([[[[0.0, 0.0], [100.0, 100.0], [0.0, 100.0], [100.0, 0.0]]]])
    (_, none) = radius_at(cusp, evaluate(cusp[:, 0], np.array([0.5]))).breaches
    assert none.failed.tolist() == [True]


def test_the_start_of_a_part_is_looked_for_behind_what_was_cut_away() -> None:
    armhole = bodice(12).armhole
    cut = along(armhole, 0.9 * length(armhole)).value
    part = from_point(armhole, cut).value
    assert (place_on(part, cut).cubic == 1).all()
    np.testing.assert_allclose(radius_at(part, cut).value, radius_at(armhole, cut).value, rtol=1e-8)
    assert not any(breach.failed.any() for breach in radius_at(part, cut).breaches)
    np.testing.assert_allclose(curve_after(part, place_on(part, cut)), part, atol=1e-12)
