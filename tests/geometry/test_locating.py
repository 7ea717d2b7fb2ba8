"""The closest place on a curve, and its parts before and after a point."""

from __future__ import annotations

import numpy as np
from fontTools.misc.bezierTools import splitCubicAtT
from garment_curves import bodice
from scipy.optimize import minimize_scalar

from godet.geometry.arc_length import along, length
from godet.geometry.cubics import evaluate
from godet.geometry.lines import line
from godet.geometry.locating import from_point, locate, until


def test_the_closest_place_agrees_with_a_minimiser_and_dense_samples() -> None:
    curve = bodice(25).armhole
    random = np.random.default_rng(2)
    point = curve.mean(axis=(1, 2)) + random.uniform(-80, 80, (25, 2))
    parameter, away = locate(curve, point)
    shares = np.linspace(0.0, 1.0, 4001)
    for body in range(25):
        samples = evaluate(curve[body, :, None], shares[None])
        dense = np.linalg.norm(samples - point[body], axis=-1)
        cubic, sample = np.unravel_index(np.argmin(dense), dense.shape)
        around = np.clip([shares[sample] - 5e-4, shares[sample] + 5e-4], 0, 1)
        # scipy.optimize.minimize_scalar around the best of 8002 samples
        best = minimize_scalar(
            lambda t, body=body, cubic=cubic: float(
                np.linalg.norm(evaluate(curve[body, cubic], np.asarray(t)) - point[body])
            ),
            bounds=tuple(around),
            method="bounded",
            options={"xatol": 1e-12},
        )
        assert away[body] <= best.fun + 1e-12
        assert abs(parameter[body] - (cubic + best.x)) < 1e-5


def test_a_point_on_the_curve_is_found_to_the_last_digits() -> None:
    curve = bodice(200).armhole
    point = along(curve, 0.37 * length(curve)).value
    np.testing.assert_allclose(locate(curve, point)[1], 0.0, atol=1e-12)


def test_parts_agree_with_another_split() -> None:
    curve = bodice(30).armhole[:, :1]
    point = along(curve, 0.6 * length(curve)).value
    parameter = locate(curve, point)[0]
    before, after = until(curve, point).value, from_point(curve, point).value
    for body in range(30):
        # fontTools.misc.bezierTools.splitCubicAtT
        left, right = splitCubicAtT(*map(tuple, curve[body, 0]), parameter[body])
        np.testing.assert_allclose(before[body, 0], left, atol=1e-10)
        np.testing.assert_allclose(after[body, 0], right, atol=1e-10)


def test_the_two_parts_make_up_the_whole_length() -> None:
    curve = bodice(60).armhole
    for share in (0.1, 0.45, 0.8):
        point = along(curve, share * length(curve)).value
        parts = length(until(curve, point).value), length(from_point(curve, point).value)
        np.testing.assert_allclose(parts[0], share * length(curve), atol=1e-9)
        np.testing.assert_allclose(parts[0] + parts[1], length(curve), atol=1e-9)


def test_cubics_beyond_the_point_are_degenerate_at_it() -> None:
    curve = bodice(9).armhole
    point = along(curve, 0.2 * length(curve[:, :1])).value
    part = until(curve, point).value
    np.testing.assert_array_equal(part[:, 1], np.repeat(part[:, 0, 3:], 4, axis=1))
    rest = from_point(curve, along(curve, 0.9 * length(curve)).value).value
    np.testing.assert_array_equal(rest[:, 0], np.repeat(rest[:, 1, :1], 4, axis=1))


def test_at_an_end_or_a_joint_the_cubics_keep_their_bits() -> None:
    curve = bodice(40).armhole
    start, joint, end = curve[:, 0, 0], curve[:, 1, 0], curve[:, 1, 3]
    for nudge in (0.0, 4e-10):
        np.testing.assert_array_equal(until(curve, end + nudge).value, curve)
        np.testing.assert_array_equal(from_point(curve, start + nudge).value, curve)
        np.testing.assert_array_equal(until(curve, joint + nudge).value[:, 0], curve[:, 0])
        np.testing.assert_array_equal(from_point(curve, joint + nudge).value[:, 1], curve[:, 1])
        np.testing.assert_array_equal(length(until(curve, start + nudge).value), 0.0)


def test_a_point_off_the_curve_fails_with_its_distance() -> None:
    straight = line(np.zeros((3, 2)), np.array([[100.0, 0.0]])).value
    point = np.array([[50.0, 2.0], [50.0, 0.0009], [103.0, 4.0]])
    for part in (until, from_point):
        (breach,) = part(straight, point).breaches
        assert breach.code == "off-edge"
        assert breach.failed.tolist() == [True, False, True]
        # The distance from (103, 4) to the end (100, 0) is 5.
        np.testing.assert_allclose(breach.numbers["distance"], [2.0, 0.0009, 5.0], atol=1e-12)


def test_degenerate_cubics_are_never_the_closest() -> None:
    straight = line(np.zeros((1, 2)), np.array([[100.0, 0.0]])).value
    padded = np.concatenate([straight[:, :, :1].repeat(4, 2), straight], axis=1)
    assert locate(padded, np.array([[0.0, 3.0]]))[0].tolist() == [1.0]
