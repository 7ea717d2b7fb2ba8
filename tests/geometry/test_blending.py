"""Corners made smooth."""

from __future__ import annotations

import numpy as np
import pytest
from garment_curves import Floats

from godet.geometry.arc_length import length
from godet.geometry.arcs import arc
from godet.geometry.blending import blend, blend_gives, blend_strays
from godet.geometry.cubics import curvature, evaluate
from godet.geometry.lines import line

CORNER = np.array([[200.0, 400.0]])


def _sides(before: Floats, after: Floats) -> tuple[Floats, Floats]:
    return line(CORNER + before, CORNER).value, line(CORNER, CORNER + after).value


def test_a_blend_cuts_half_its_length_off_each_side() -> None:
    above, below = _sides(np.array([[0.0, -150.0]]), np.array([[60.0, 80.0]]))
    blended = blend(above, below, np.array([50.0])).value
    assert blended.shape == (1, 3, 4, 2)
    np.testing.assert_allclose(length(blended[:, :1]), 125.0, atol=1e-10)
    np.testing.assert_allclose(length(blended[:, 2:]), 75.0, atol=1e-10)
    # Half of 50 along (0, -1) and along (3, 4) / 5.
    np.testing.assert_allclose(blended[0, 1, 0], [200.0, 375.0], atol=1e-10)
    np.testing.assert_allclose(blended[0, 1, 3], [215.0, 420.0], atol=1e-10)
    for joint in (0, 1):
        arrives, leaves = (
            blended[0, joint, 3] - blended[0, joint, 2],
            blended[0, joint + 1, 1] - blended[0, joint + 1, 0],
        )
        cosine = arrives @ leaves / np.linalg.norm(arrives) / np.linalg.norm(leaves)
        assert cosine == pytest.approx(1.0, abs=1e-12)


def test_a_side_that_turns_outward_below_gains_width_at_the_corner() -> None:
    outward = _sides(np.array([[0.0, -150.0]]), np.array([[60.0, 80.0]]))
    inward = _sides(np.array([[0.0, -150.0]]), np.array([[-60.0, 80.0]]))
    over = np.array([50.0])
    gives = blend_gives(*outward, over).value
    assert gives[0] > 0.0
    # The same corner in the mirror takes what it gave.
    np.testing.assert_allclose(blend_gives(*inward, over).value, -gives, atol=1e-10)
    # Dense samples: across at the depth of the corner.
    bridge = evaluate(blend(*outward, over).value[:, 1], np.linspace(0, 1, 200_001))
    at_depth = bridge[np.argmin(np.abs(bridge[:, 1] - 400.0)), 0]
    assert gives[0] == pytest.approx(at_depth - 200.0, abs=1e-3)


def test_how_far_a_blend_strays_agrees_with_dense_samples() -> None:
    sides = _sides(np.array([[0.0, -150.0]]), np.array([[60.0, 80.0]]))
    bridge = evaluate(blend(*sides, np.array([50.0])).value[:, 1], np.linspace(0, 1, 200_001))
    dense = np.linalg.norm(bridge - CORNER, axis=1).min()
    assert blend_strays(*sides, np.array([50.0])).value[0] == pytest.approx(dense, abs=1e-8)


def test_a_blend_as_long_as_a_side_fails() -> None:
    sides = _sides(np.array([[0.0, -50.0]]), np.array([[60.0, 80.0]]))
    result = blend(*sides, np.array([100.0, 99.9, 0.0, -3.0, 300.0]))
    breaches = {breach.code: breach for breach in result.breaches}
    assert breaches["blend-too-long"].failed.tolist() == [True, False, False, False, True]
    assert breaches["not-positive"].failed.tolist() == [False, False, True, True, False]
    numbers = {name: values[0] for name, values in breaches["blend-too-long"].numbers.items()}
    assert numbers == pytest.approx({"half": 50.0, "before": 50.0, "after": 100.0})


def test_curves_that_do_not_meet_fail() -> None:
    above, below = _sides(np.array([[0.0, -150.0]]), np.array([[60.0, 80.0]]))
    breaches = blend(above, below + np.array([3.0, 4.0]), np.array([50.0])).breaches
    (apart,) = [breach for breach in breaches if breach.code == "ends-do-not-meet"]
    assert apart.numbers["gap"][0] == pytest.approx(5.0)  # Pythagoras: 3, 4, 5


def test_a_tip_that_is_rounded_off_gives_and_takes_no_width() -> None:
    sides = _sides(np.array([[-80.0, -150.0]]), np.array([[80.0, -150.0]]))
    result = blend_gives(*sides, np.array([50.0]))
    assert result.value.tolist() == [0.0]
    assert not any(breach.failed.any() for breach in result.breaches)


def _bend(curve: Floats, cubic: int, share: float) -> float:
    return float(curvature(curve[:, cubic], np.array([share]))[0])


def test_a_fair_blend_takes_up_the_bend_of_both_sides() -> None:
    # an arc of radius 100 that bends to the right, and one of radius 250 to the left
    above = arc(CORNER - 100.0, CORNER, np.array([[1.0, 0.0]])).value
    below = arc(CORNER, CORNER + np.array([[-60.0, 200.0]]), np.array([[-1.0, 0.2]])).value
    fair = blend(above, below, np.array([60.0]), fair=True)
    assert not any(breach.failed.any() for breach in fair.breaches)
    assert fair.value.shape == (1, 8 + 3 + 8, 4, 2)
    curve = fair.value[:, length(fair.value[0, :, None]) > 0.0]  # what was cut away left out
    for joint in range(curve.shape[1] - 1):
        np.testing.assert_array_equal(curve[0, joint, 3], curve[0, joint + 1, 0])
        at = _bend(curve, joint, 1.0), _bend(curve, joint + 1, 0.0)
        assert at[0] == pytest.approx(at[1], abs=1e-10)
    # the circles' own curvature, to the exactness of their cubics
    assert _bend(fair.value, 8, 0.0) == pytest.approx(1.0 / 100.0, rel=1e-3)
    # the plain one jumps
    plain = blend(above, below, np.array([60.0])).value
    assert abs(_bend(plain, 8, 0.0) - 0.01) > 1e-3


def test_a_fair_blend_has_one_curvature_all_along() -> None:
    sides = _sides(np.array([[0.0, -150.0]]), np.array([[60.0, 80.0]]))
    fair = blend(*sides, np.array([50.0]), fair=True).value
    assert fair.shape == (1, 5, 4, 2)
    for joint in range(4):
        np.testing.assert_array_equal(fair[0, joint, 3], fair[0, joint + 1, 0])
        at = _bend(fair, joint, 1.0), _bend(fair, joint + 1, 0.0)
        assert at[0] == pytest.approx(at[1], abs=1e-12)
    # both sides are straight
    assert _bend(fair, 1, 0.0) == pytest.approx(0.0, abs=1e-12)
    assert _bend(fair, 3, 1.0) == pytest.approx(0.0, abs=1e-12)
    # it bends to one side only
    bends = curvature(fair[0, 1:4, None], np.linspace(0.001, 0.999, 50)[None])
    assert (bends < 0.0).all() or (bends > 0.0).all()


def test_how_far_a_fair_blend_strays_agrees_with_dense_samples() -> None:
    sides = _sides(np.array([[0.0, -150.0]]), np.array([[60.0, 80.0]]))
    over = np.array([50.0])
    bridge = blend(*sides, over, fair=True).value[0, 1:4, None]
    dense = np.linalg.norm(evaluate(bridge, np.linspace(0, 1, 20_001)[None]) - CORNER, axis=-1)
    strays = blend_strays(*sides, over, fair=True).value[0]
    assert strays == pytest.approx(dense.min(), abs=1e-6)
    gives = blend_gives(*sides, over, fair=True).value[0]
    assert 0.0 < gives < 10.0
