"""A curve brought to a length between its ends."""

from __future__ import annotations

import numpy as np
import pytest
from fontTools.misc.bezierTools import calcCubicArcLength
from garment_curves import DOWN, OUTWARD, Floats, bodice
from scipy.integrate import quad

from godet.geometry.arc_length import along, length
from godet.geometry.arcs import arc
from godet.geometry.cubics import curvature, derivative, evaluate
from godet.geometry.ends import end_direction, start_direction
from godet.geometry.extremes import extreme
from godet.geometry.hobby import hobby
from godet.geometry.joining import joined
from godet.geometry.lines import line
from godet.geometry.locating import from_point
from godet.geometry.reshaping import reshaped


def _quad_length(cubic: Floats) -> float:
    def speed(share: float) -> float:
        return float(np.linalg.norm(derivative(cubic, np.asarray(share))))

    return float(quad(speed, 0.0, 1.0, epsabs=1e-11, limit=200)[0])


@pytest.mark.parametrize("share", [0.97, 1.0, 1.01, 1.05])
def test_a_reshaped_armhole_has_its_length_its_ends_and_its_directions(share: float) -> None:
    curve = bodice(20).armhole
    wanted = share * length(curve)
    result = reshaped(curve, wanted)
    assert not any(breach.failed.any() for breach in result.breaches)
    new = result.value
    np.testing.assert_array_equal(new[:, 0, 0], curve[:, 0, 0])
    np.testing.assert_array_equal(new[:, -1, 3], curve[:, -1, 3])
    for end in (start_direction, end_direction):
        np.testing.assert_allclose(end(new).value, end(curve).value, atol=1e-12)
    for body in range(20):
        # scipy.integrate.quad
        measured = sum(_quad_length(cubic) for cubic in new[body])
        assert measured == pytest.approx(wanted[body], rel=0, abs=2e-10)
        # fontTools.misc.bezierTools.calcCubicArcLength
        other = sum(calcCubicArcLength(*map(tuple, c), tolerance=1e-6) for c in new[body])
        assert other == pytest.approx(wanted[body], rel=1e-5)


def test_a_curve_that_has_the_length_is_left_as_it_is() -> None:
    curve = bodice(20).armhole
    np.testing.assert_array_equal(reshaped(curve, length(curve)).value, curve)


def test_the_joints_stay_smooth() -> None:
    curve = bodice(20).armhole
    new = reshaped(curve, 1.05 * length(curve)).value
    arrives, leaves = new[:, 0, 3] - new[:, 0, 2], new[:, 1, 1] - new[:, 1, 0]
    turn = arrives[:, 0] * leaves[:, 1] - arrives[:, 1] * leaves[:, 0]
    np.testing.assert_allclose(turn, 0.0, atol=1e-9)


def test_a_longer_quarter_bulges_and_a_shorter_one_is_flatter() -> None:
    quarter = hobby([100.0 * OUTWARD, 100.0 * DOWN], DOWN, -OUTWARD).value
    bulges = [
        np.linalg.norm(evaluate(reshaped(quarter, np.array([mm])).value[:, 0], np.array([0.5])))
        for mm in (150.0, 157.0, 165.0)
    ]
    # the middle of a quarter of the circle of radius 100 lies on the circle (its length is 157)
    assert bulges[0] < 98.0
    assert bulges[1] == pytest.approx(100.0, abs=0.2)
    assert bulges[2] > 103.0


def test_less_than_the_chord_and_more_than_the_shape_bears_are_refused_with_numbers() -> None:
    quarter = hobby([100.0 * OUTWARD, 100.0 * DOWN], DOWN, -OUTWARD).value
    chord, reach = reshaped(quarter, np.array([141.0, 142.0, 157.0, 195.0, 300.0])).breaches
    assert (chord.code, chord.failed.tolist()) == ("shorter-than-chord", [True, *[False] * 4])
    # Pythagoras: 100, 100
    assert chord.numbers["chord"][0] == pytest.approx(100.0 * np.sqrt(2.0))
    assert (reach.code, reach.failed.tolist()) == ("out-of-reach", [False, True, False, True, True])
    # no convex curve is longer than the way round by the corner of its tangents
    assert 157.0 < reach.numbers["longest"][0] < 200.0
    assert chord.numbers["chord"][0] < reach.numbers["shortest"][0] < 157.0


def test_what_the_reach_names_can_be_had() -> None:
    curve = bodice(20).armhole
    _, reach = reshaped(curve, np.full(20, 5000.0)).breaches
    for end in ("shortest", "longest"):
        result = reshaped(curve, reach.numbers[end])
        assert not any(breach.failed.any() for breach in result.breaches)
        np.testing.assert_allclose(length(result.value), reach.numbers[end], atol=1e-6)


def test_no_bend_turns_over_while_a_curve_grows() -> None:
    quarter = hobby([100.0 * OUTWARD, 100.0 * DOWN], DOWN, -OUTWARD).value
    _, reach = reshaped(quarter, np.array([500.0])).breaches
    cubic = reshaped(quarter, reach.numbers["longest"]).value[:, 0]
    way = derivative(np.repeat(cubic, 101, axis=0), np.linspace(0.01, 0.99, 101))
    turns = way[:-1, 0] * way[1:, 1] - way[:-1, 1] * way[1:, 0]
    assert (turns > -1e-6).all()


def test_a_straight_part_stays_straight() -> None:
    flat = line(np.zeros((1, 2)), 40.0 * OUTWARD).value
    rising = hobby([40.0 * OUTWARD, np.array([[90.0, -50.0]])], OUTWARD, -DOWN).value
    neck = joined(flat, rising).value
    new = reshaped(neck, length(neck) + 3.0).value
    assert length(new)[0] == pytest.approx(length(neck)[0] + 3.0, abs=1e-9)
    np.testing.assert_array_equal(new[:, 0], neck[:, 0])
    arrives = new[0, 1, 1] - new[0, 1, 0]
    assert (arrives[0] > 0.0, arrives[1]) == (True, pytest.approx(0.0, abs=1e-12))


def test_straight_lines_alone_can_only_keep_their_length() -> None:
    corner = joined(
        line(np.zeros((1, 2)), 30.0 * OUTWARD).value,
        line(30.0 * OUTWARD, np.array([[30.0, 40.0]])).value,
    ).value
    _, reach = reshaped(corner, np.array([70.0, 72.0])).breaches
    assert reach.failed.tolist() == [False, True]
    assert (reach.numbers["shortest"][1], reach.numbers["longest"][1]) == pytest.approx((70, 70))


def test_an_arc_of_many_cubics_grows_evenly() -> None:
    quarter = arc(100.0 * OUTWARD, 100.0 * DOWN, DOWN).value
    for mm in (150.0, 157.0, 165.0, 175.0):
        result = reshaped(quarter, np.array([mm]))
        assert not any(breach.failed.any() for breach in result.breaches)
        new = result.value[0]
        bends = curvature(new[:, None], np.linspace(0.0, 1.0, 21)[None])
        # it bends to one side, without jumps at its joints, and alike from both ends
        assert (bends > 0.0).all()
        np.testing.assert_allclose(bends[1:, 0], bends[:-1, -1], rtol=4e-2)
        np.testing.assert_allclose(bends, bends[::-1, ::-1], rtol=1e-6)


def test_a_cap_rises_when_it_has_to_be_longer() -> None:
    foot, crown = np.zeros((1, 2)), np.array([[180.0, -140.0]])
    cap = hobby([foot, crown, 360.0 * OUTWARD], OUTWARD, OUTWARD).value
    for share in (0.97, 1.04):
        result = reshaped(cap, share * length(cap))
        assert not any(breach.failed.any() for breach in result.breaches)
        rise = -extreme(result.value, "highest").value[0, 1]
        assert (rise > 140.0) == (share > 1.0)
        left, right = result.value[0, 0], result.value[0, 1, ::-1]
        # the same on both sides
        np.testing.assert_allclose(left[:, 0], 360.0 - right[:, 0], atol=1e-9)
        np.testing.assert_allclose(left[:, 1], right[:, 1], atol=1e-9)


def test_a_part_that_was_cut_is_reshaped_as_if_drawn_so() -> None:
    armhole = bodice(9).armhole
    part = from_point(armhole, along(armhole, 0.7 * length(armhole)).value).value
    own = part[:, 1:]  # nothing is left of the first cubic
    wanted = 1.01 * length(own)
    np.testing.assert_allclose(reshaped(part, wanted).value[:, 1:], reshaped(own, wanted).value)
