"""Lengths of curves, and places at a length along them."""

from __future__ import annotations

import numpy as np
import pytest
from fontTools.misc.bezierTools import calcCubicArcLength
from garment_curves import Floats, bodice
from scipy.integrate import quad

from godet.geometry.arc_length import along, cubic_lengths, length, place_at_length
from godet.geometry.cubics import reversed_curve
from godet.geometry.lines import line


def _quad_length(cubic: Floats, end: float = 1.0) -> float:
    p = np.polynomial.Polynomial
    powers = np.array([[1, 0, 0, 0], [-3, 3, 0, 0], [3, -6, 3, 0], [-1, 3, -3, 1]]) @ cubic
    across, down = p(powers[:, 0]).deriv(), p(powers[:, 1]).deriv()

    def speed(share: float) -> float:
        return float(np.hypot(across(share), down(share)))

    return float(quad(speed, 0.0, end, epsabs=2e-11, epsrel=1e-14, limit=500)[0])


def test_lengths_agree_with_quadrature() -> None:
    parts = bodice(10)
    for curve in (parts.neck, parts.armhole, parts.bottom):
        lengths = cubic_lengths(curve)
        for body in range(10):
            # scipy.integrate.quad; fontTools.misc.bezierTools.calcCubicArcLength
            expected = [_quad_length(cubic) for cubic in curve[body]]
            np.testing.assert_allclose(lengths[body], expected, rtol=0, atol=1e-10)
            other = [
                calcCubicArcLength(*map(tuple, cubic), tolerance=1e-6) for cubic in curve[body]
            ]
            np.testing.assert_allclose(lengths[body], other, rtol=1e-5)


HARD = {
    "a hairpin": [[0, 0], [300, 1], [300, -1], [0, 1]],
    "a cusp": [[0, 0], [100, 100], [0, 100], [100, 0]],
    "a loop": [[0, 0], [200, 100], [-100, 100], [100, 0]],
    "no handle at the start": [[0, 0], [0, 0], [50, 80], [100, 0]],
    "no handle at either end": [[0, 0], [0, 0], [100, 0], [100, 0]],
    "almost straight": [[0, 0], [700, 1e-7], [1400, 0], [2000, 0]],
}


@pytest.mark.parametrize("name", HARD)
def test_hard_cubics_are_measured_to_a_ten_thousand_millionth(name: str) -> None:
    cubic = np.array(HARD[name], dtype=float)
    # scipy.integrate.quad, each half on its own: the sharp places lie in the middle
    expected = _quad_length(cubic, 0.5) + _quad_length(cubic[::-1], 0.5)
    assert length(cubic[None, None])[0] == pytest.approx(expected, rel=0, abs=1e-10)


def test_a_line_that_turns_back_counts_twice() -> None:
    cubic = np.array([[[[0.0, 0.0], [100.0, 0.0], [100.0, 0.0], [0.0, 0.0]]]])
    # There and back: across is 300 t (1 - t), 75 mm at the turning.
    assert length(cubic)[0] == pytest.approx(150.0, abs=1e-10)


def test_a_degenerate_cubic_has_no_length() -> None:
    assert length(np.full((1, 2, 4, 2), 7.0))[0] == 0.0


def test_a_point_along_lies_at_its_length() -> None:
    curve = bodice(20).armhole
    whole = length(curve)
    for share in (1e-9, 0.01, 0.3, 0.5, 0.77, 1 - 1e-9):
        place = place_at_length(curve, cubic_lengths(curve), share * whole)
        for body in range(20):
            cubic = place.cubic[body]
            # scipy.integrate.quad up to the parameter
            measured = sum(_quad_length(c) for c in curve[body, :cubic])
            measured += _quad_length(curve[body, cubic], place.share[body])
            assert measured == pytest.approx(share * whole[body], rel=0, abs=3e-10)


def test_a_point_along_passes_over_degenerate_cubics() -> None:
    straight = line(np.array([[0.0, 0.0]]), np.array([[30.0, 40.0]])).value
    start, end = straight[:, :, :1], straight[:, :, 3:]
    padded = np.concatenate([start.repeat(4, 2), straight, end.repeat(4, 2)], axis=1)
    for distance, expected in ((0.0, [0, 0]), (25.0, [15, 20]), (50.0, [30, 40])):
        # Pythagoras: 30, 40, 50
        np.testing.assert_allclose(
            along(padded, np.array([distance])).value, [expected], atol=1e-12
        )


def test_the_ends_are_reached_exactly() -> None:
    curve = bodice(50).armhole
    np.testing.assert_array_equal(along(curve, np.zeros(50)).value, curve[:, 0, 0])
    np.testing.assert_allclose(along(curve, length(curve)).value, curve[:, -1, 3], atol=1e-12)


def test_both_ends_give_the_same_place() -> None:
    curve = bodice(50).armhole
    whole = length(curve)
    forth = along(curve, 0.3 * whole).value
    back = along(reversed_curve(curve), whole - 0.3 * whole).value
    np.testing.assert_allclose(forth, back, rtol=0, atol=1e-10)


def test_a_distance_past_the_end_fails_with_both_lengths() -> None:
    straight = line(np.zeros((4, 2)), np.array([[30.0, 40.0]])).value
    result = along(straight, np.array([-0.1, 50.1, 50.0, 20.0]))
    (breach,) = result.breaches
    assert breach.code == "past-the-end"
    assert breach.failed.tolist() == [True, True, False, False]
    assert breach.numbers["distance"].tolist() == [-0.1, 50.1, 50.0, 20.0]
    np.testing.assert_allclose(breach.numbers["length"], 50.0, atol=1e-12)
