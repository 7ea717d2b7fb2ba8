"""Smooth curves through points."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.cubics import evaluate
from godet.geometry.hobby import hobby

OUTWARD, DOWN = np.array([[1.0, 0.0]]), np.array([[0.0, 1.0]])
Floats = NDArray[np.float64]


def _quarter() -> Floats:
    curve: Floats = hobby([OUTWARD, DOWN], DOWN, -OUTWARD).value
    return curve


def test_a_quarter_circle_has_the_well_known_handles() -> None:
    handle = 4.0 / 3.0 * (np.sqrt(2.0) - 1.0)
    # The cubic that meets the quarter circle at its middle has handles of 4/3 (root 2 - 1) (closed
    # form).
    expected = [[1, 0], [1, handle], [handle, 1], [0, 1]]
    np.testing.assert_allclose(_quarter()[0, 0], expected, atol=1e-15)


def test_a_quarter_circle_errs_by_three_hundredths_of_a_percent() -> None:
    radius = np.linalg.norm(evaluate(_quarter()[0], np.linspace(0, 1, 2001)), axis=-1)
    # Published property of that cubic: radial error between 0 and 0.0273 %.
    assert radius.min() >= 1.0 - 1e-15
    assert 2.7e-4 < radius.max() - 1.0 < 2.75e-4


def _points(count: int) -> list[Floats]:
    random = np.random.default_rng(3)
    return [np.array([[80.0 * n, 0.0]]) + random.uniform(-30, 30, (9, 2)) for n in range(count)]


def _like(point: Floats, mirrored: bool = False) -> Floats:
    sine, cosine = np.sin(0.7), np.cos(0.7)
    turned: Floats = point @ np.array([[cosine, sine], [-sine, cosine]])
    return turned * np.array([1.0, -1.0]) if mirrored else turned


def test_turning_moving_and_mirroring_the_points_does_the_same_to_the_curve() -> None:
    points = _points(5)
    leaving = np.tile(DOWN, (9, 1))
    for mirrored in (False, True):
        curve = hobby(points, leaving).value
        moved = [3.0 * _like(p, mirrored) + [40.0, -7.0] for p in points]
        image = hobby(moved, _like(leaving, mirrored)).value
        expected = 3.0 * _like(curve, mirrored) + [40.0, -7.0]
        # A spline of angles and ratios of chords knows no scale, place, turn or side (Hobby 1986).
        np.testing.assert_allclose(image, expected, atol=1e-10)


def test_the_points_in_reverse_give_the_same_curve() -> None:
    points = _points(4)
    way, other = np.tile(DOWN, (9, 1)), np.tile([[0.6, 0.8]], (9, 1))
    forth = hobby(points, way, other).value
    back = hobby(points[::-1], -other, -way).value
    np.testing.assert_allclose(back[:, ::-1, ::-1], forth, atol=1e-11)


def test_the_curve_runs_smoothly_through_every_point() -> None:
    points = _points(5)
    curve = hobby(points).value
    for number, point in enumerate(points[1:-1], start=1):
        np.testing.assert_array_equal(curve[:, number, 0], point)
        arrives = curve[:, number - 1, 3] - curve[:, number - 1, 2]
        leaves = curve[:, number, 1] - curve[:, number, 0]
        turn = arrives[:, 0] * leaves[:, 1] - arrives[:, 1] * leaves[:, 0]
        sizes = np.linalg.norm(arrives, axis=1) * np.linalg.norm(leaves, axis=1)
        np.testing.assert_allclose(turn / sizes, 0.0, atol=1e-13)


def test_two_given_directions_agree_with_the_general_solution() -> None:
    p, q = _points(2)
    way, other = np.tile([[0.6, 0.8]], (9, 1)), np.tile([[0.8, -0.6]], (9, 1))
    short = hobby([p, q], way, other).value
    # The whole curve through a third point is, up to that point, the one with the direction it has
    # there.
    r = q + np.array([[60.0, 20.0]])
    long = hobby([p, q, r], way).value
    there = long[:, 0, 3] - long[:, 0, 2]
    there /= np.linalg.norm(there, axis=1, keepdims=True)
    np.testing.assert_allclose(hobby([p, q], way, there).value[:, 0], long[:, 0], atol=1e-11)
    np.testing.assert_allclose(
        short[:, 0, 1] - p, way * np.linalg.norm(short[:, 0, 1] - p, axis=1)[:, None]
    )


def test_two_points_without_directions_give_a_straight_line() -> None:
    curve = hobby([np.zeros((1, 2)), np.array([[30.0, 60.0]])]).value
    np.testing.assert_allclose(curve[0, 0], [[0, 0], [10, 20], [20, 40], [30, 60]], atol=1e-14)


def test_points_on_a_circle_with_free_ends_stay_near_it() -> None:
    angles = np.radians([0.0, 45.0, 90.0, 135.0])
    points = [np.array([[100.0 * np.cos(a), 100.0 * np.sin(a)]]) for a in angles]
    samples = evaluate(hobby(points).value[0, :, None], np.linspace(0, 1, 101)[None])
    # Curl 1 makes the ends nearly circular (Hobby 1986); a parabola's ends would err by several
    # percent.
    np.testing.assert_allclose(np.linalg.norm(samples, axis=-1), 100.0, atol=0.1)


def test_points_that_coincide_fail_and_are_numbered() -> None:
    p, q = np.zeros((2, 2)), np.array([[10.0, 0.0], [20.0, 0.0]])
    breach, _ = hobby([p, q, np.array([[30.0, 5.0], [20.0, 0.0]])]).breaches
    assert breach.code == "same-point"
    assert breach.failed.tolist() == [False, True]
    assert breach.numbers["number"][1] == 2
