"""The point of a curve that lies farthest one way."""

from __future__ import annotations

import numpy as np
import pytest
from fontTools.misc.bezierTools import calcCubicBounds
from garment_curves import DOWN, OUTWARD, bodice

from godet.geometry.arcs import arc
from godet.geometry.cubics import evaluate
from godet.geometry.extremes import Way, extreme
from godet.geometry.hobby import hobby
from godet.geometry.lines import line

WAYS: dict[Way, tuple[int, int]] = {  # by the place in a box (across, down, across, down), the axis
    "innermost": (0, 0), "highest": (1, 1), "outermost": (2, 0), "lowest": (3, 1),
}  # fmt: skip


@pytest.mark.parametrize("way", WAYS)
def test_the_farthest_point_lies_on_the_box_that_a_library_draws(way: Way) -> None:
    place, axis = WAYS[way]
    random = np.random.default_rng(4)
    curve = hobby([random.uniform(0, 300, (40, 2)) for _ in range(4)]).value
    found = extreme(curve, way).value
    for body in range(40):
        # fontTools.misc.bezierTools.calcCubicBounds
        boxes = np.array([calcCubicBounds(*map(tuple, cubic)) for cubic in curve[body]])
        expected = boxes[:, place].min() if place < 2 else boxes[:, place].max()
        assert found[body, axis] == pytest.approx(expected, abs=1e-9)
        samples = evaluate(curve[body, :, None], np.linspace(0, 1, 2001)[None])
        # dense samples: it is a point of the curve
        away = np.linalg.norm(samples - found[body], axis=-1).min()
        assert away < 0.5


def test_the_end_of_a_slanting_line_is_its_lowest_point() -> None:
    slanting = line(np.zeros((1, 2)), np.array([[40.0, 70.0]])).value
    result = extreme(slanting, "lowest")
    np.testing.assert_array_equal(result.value, [[40.0, 70.0]])
    assert not result.breaches[0].failed.any()


def test_the_lowest_point_of_a_half_circle_is_below_its_middle() -> None:
    half = arc(-100.0 * OUTWARD, 100.0 * OUTWARD, DOWN).value
    # the circle of radius 100 round the origin
    np.testing.assert_allclose(extreme(half, "lowest").value, [[0.0, 100.0]], atol=1e-9)


def test_two_places_that_reach_equally_far_are_a_tie() -> None:
    level = line(np.zeros((1, 2)), np.array([[40.0, 0.0]])).value
    half = arc(-100.0 * OUTWARD, 100.0 * OUTWARD, DOWN).value
    for curve, way in ((level, "lowest"), (half, "highest")):
        (tie,) = extreme(curve, way).breaches  # type: ignore[arg-type]
        assert (tie.code, tie.failed.tolist()) == ("tie", [True])
        assert tie.numbers["difference"][0] == pytest.approx(0.0, abs=1e-9)


def test_a_joint_that_is_the_lowest_place_is_one_place() -> None:
    armhole = bodice(30).armhole
    assert not extreme(armhole, "lowest").breaches[0].failed.any()
    hanging = hobby([np.zeros((1, 2)), np.array([[50.0, 40.0]]), np.array([[100.0, 0.0]])]).value
    result = extreme(hanging, "lowest")
    assert not result.breaches[0].failed.any()
    np.testing.assert_allclose(result.value, [[50.0, 40.0]], atol=1e-9)
