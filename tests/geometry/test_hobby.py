"""Smooth curves through points."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray

from godet.geometry.arc_length import length
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


def test_four_points_of_a_circle_give_it_within_three_hundredths_of_a_percent() -> None:
    ways = [(OUTWARD, DOWN), (DOWN, -OUTWARD), (-OUTWARD, -DOWN), (-DOWN, OUTWARD)]
    closed = np.concatenate([hobby([p, way], way, -p).value for p, way in ways], axis=1)
    handles = np.linalg.norm(closed[0, :, 1] - closed[0, :, 0], axis=-1)
    # 4/3 (root 2 - 1) (closed form)
    np.testing.assert_allclose(handles, 4.0 / 3.0 * (np.sqrt(2.0) - 1.0), atol=1e-15)
    radius = np.linalg.norm(evaluate(closed[0, :, None], np.linspace(0, 1, 401)[None]), axis=-1)
    # Published property of that cubic: radial error between 0 and 0.0273 %.
    assert radius.max() - 1.0 == pytest.approx(2.73e-4, rel=0.01)


def test_a_tension_of_one_is_the_plain_curve() -> None:
    points, way = _points(5), np.tile(DOWN, (9, 1))
    plain = hobby(points, way).value
    np.testing.assert_array_equal(hobby(points, way, tension=np.ones(1)).value, plain)


@pytest.mark.parametrize("tension", [0.75, 4.0 / 3.0, 3.0])
def test_tension_divides_the_handles_of_a_curve_with_given_directions(tension: float) -> None:
    p, q = _points(2)
    way, other = np.tile([[0.6, 0.8]], (9, 1)), np.tile([[0.8, -0.6]], (9, 1))
    plain = hobby([p, q], way, other).value
    drawn = hobby([p, q], way, other, np.array([tension])).value
    # The handles are rho / (3 tension) and sigma / (3 tension) chords long (Hobby 1986).
    for here, there in ((0, 1), (3, 2)):
        expected = (plain[:, 0, there] - plain[:, 0, here]) / tension
        np.testing.assert_allclose(drawn[:, 0, there] - drawn[:, 0, here], expected, atol=1e-12)


def test_inside_points_have_one_mock_curvature_whatever_the_tension() -> None:
    points, tension = _points(4), 1.7
    curve = hobby(points, tension=np.array([tension])).value
    chords = [b - a for a, b in pairwise(points)]
    leaves, arrives = curve[:, :, 1] - curve[:, :, 0], curve[:, :, 3] - curve[:, :, 2]

    def angle(a: Floats, b: Floats) -> Floats:
        turned: Floats = np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], (a * b).sum(axis=1))
        return turned

    theta = [angle(chord, leaves[:, n]) for n, chord in enumerate(chords)]
    phi = [angle(arrives[:, n], chord) for n, chord in enumerate(chords)]
    span = [np.linalg.norm(chord, axis=1) for chord in chords]
    for n in range(len(chords) - 1):
        # Mock curvature: tension^2 (2 theta .. ) of either side, to first order (Hobby 1986, eq. 9:
        # with one tension t, ((3 t - 1) phi - theta) / chord before is as much behind).
        before = ((3.0 * tension - 1.0) * phi[n] - theta[n]) / span[n]
        behind = ((3.0 * tension - 1.0) * theta[n + 1] - phi[n + 1]) / span[n + 1]
        np.testing.assert_allclose(before, behind, atol=1e-12)


def test_a_tight_curve_nears_its_chords() -> None:
    points = _points(4)
    lengths = [length(hobby(points, tension=np.array([t])).value) for t in (0.75, 1.0, 2.0, 50.0)]
    chords = sum(np.linalg.norm(b - a, axis=1) for a, b in pairwise(points))
    assert (np.diff(lengths, axis=0) < 0.0).all()
    np.testing.assert_allclose(lengths[-1], chords, rtol=1e-3)


def test_tension_knows_no_scale_turn_or_sense() -> None:
    points, tension = _points(4), np.array([1.4])
    curve = hobby(points, tension=tension).value
    image = hobby([3.0 * _like(p, True) + [40.0, -7.0] for p in points], tension=tension).value
    # Hobby 1986
    np.testing.assert_allclose(image, 3.0 * _like(curve, True) + [40.0, -7.0], atol=1e-10)
    back = hobby(points[::-1], tension=tension).value
    np.testing.assert_allclose(back[:, ::-1, ::-1], curve, atol=1e-11)


def test_a_tension_below_three_quarters_fails() -> None:
    _, breach = hobby(_points(3), tension=np.linspace(0.7, 1.5, 9)).breaches
    assert breach.code == "tension-too-low"
    assert breach.failed.tolist() == [True, *[False] * 8]
    assert breach.numbers["tension"][0] == pytest.approx(0.7)
