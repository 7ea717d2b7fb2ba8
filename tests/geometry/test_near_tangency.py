"""Where a derivative would grow beyond all bounds, there is a breach with numbers, or the value is
known to stand still; nothing turns into no number in silence.

What is expected is worked out by hand from circles and straight lines.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from godet.geometry import angles, arcs, crossings, hobby, lines, scalars, widths
from godet.geometry.dual import Dual, tangent_of, value_of
from godet.geometry.guards import Guarded

RADIUS = 150.0


def at(across: float, down: float) -> np.ndarray:
    return np.array([[across, down]])


def bow() -> np.ndarray:
    """Half a circle that hangs below the level of the origin, lowest at 0 across."""
    return arcs.arc(at(RADIUS, 0), at(-RADIUS, 0), at(0, 1)).value


def failing(result: Any) -> dict[str, dict[str, float]]:
    """The breaches of the one body, with their numbers."""
    return {
        breach.code: {name: float(value[0]) for name, value in breach.numbers.items()}
        for breach in result.breaches
        if breach.failed[0]
    }


@pytest.mark.parametrize("above", [0.0, 1e-9])
def test_a_level_that_touches_a_bow_is_told_with_its_angle(above: float):
    down = Dual(np.array([RADIUS - above]), np.array([[1.0]]))
    width = widths.width_at(bow(), down)
    # at a depth of r - h a circle is steep by about root(2 h / r)
    assert failing(width) == {
        "level-touches": {"angle": pytest.approx(np.sqrt(2 * above / RADIUS), abs=1e-5)}
    }
    assert np.isfinite(tangent_of(width.value, 1)).all()


def test_a_level_a_little_farther_in_is_as_wide_as_the_circle_and_widens_as_fast():
    above = 0.5
    width = widths.width_at(bow(), Dual(np.array([RADIUS - above]), np.array([[1.0]])))
    assert failing(width) == {}
    half = np.sqrt(RADIUS**2 - (RADIUS - above) ** 2)
    # four cubics of an eighth of a circle each are off by some 3e-6 of the radius
    np.testing.assert_allclose(value_of(width.value), 2 * half, rtol=1e-3)
    np.testing.assert_allclose(
        tangent_of(width.value, 1)[0], -2 * (RADIUS - above) / half, rtol=1e-3
    )


def test_an_edge_that_comes_in_level_where_another_goes_down_steeply_is_no_touching():
    armhole = hobby.hobby([at(200, 40), at(240, 230)], at(0, 1), at(1, 0)).value
    side = lines.line(at(240, 230), at(230, 420)).value
    centre = lines.line(at(0, 0), at(0, 430)).value
    width = widths.width_at(np.concatenate([armhole, side, centre], axis=1), np.array([230.0]))
    assert failing(width) == {}
    np.testing.assert_allclose(width.value, [240.0])


@pytest.mark.parametrize("below", [0.0, -1e-7])
def test_lines_that_only_touch_are_told_with_their_angle(below: float):
    level = lines.line(at(-300, RADIUS + below), at(300, RADIUS + below)).value
    result = crossings.crossing(bow(), level, "innermost")
    found = failing(result)
    assert "tangent-crossing" in found
    # across where the circle is at the level: root(2 h r), and an angle of that over r
    assert found["tangent-crossing"]["angle"] == pytest.approx(
        np.sqrt(2 * abs(below) / RADIUS), abs=2e-5
    )


def test_a_point_beside_an_edge_has_no_way_square_to_it():
    # from the centre of a circle all its places are as near, so none would be sure
    result = angles.square_direction(bow(), at(0, 0), at(0, 500))
    assert failing(result)["off-edge"]["distance"] == pytest.approx(RADIUS, rel=1e-4)


@pytest.mark.parametrize("angle", [np.pi / 2, -np.pi / 2, np.pi / 2 + 1e-12])
def test_a_right_angle_has_no_tangent(angle: float):
    assert set(failing(scalars.tangent(np.array([angle])))) == {"no-tangent"}
    assert failing(scalars.tangent(np.array([np.pi / 2 - 1e-6]))) == {}


def test_what_rounding_leaves_of_a_difference_is_as_good_as_nothing():
    left_over = np.array([0.3 - 0.1 - 0.2])
    assert left_over[0] != 0.0
    assert set(failing(scalars.quotient(np.array([6.0]), left_over))) == {"divided-by-zero"}
    assert failing(scalars.quotient(np.array([6.0]), np.array([1e-9]))) == {}


@np.errstate(divide="ignore")
def test_the_side_of_a_minimum_that_does_not_count_may_be_as_steep_as_it_likes():
    root = np.sqrt(Dual(np.array([0.0]), np.array([[1.0]])))
    other = Dual(np.array([-1.0]), np.array([[3.0]]))
    assert tangent_of(np.minimum(root, other), 1).tolist() == [[3.0]]
    assert tangent_of(np.maximum(other, Dual(np.array([2.0]), np.array([[5.0]]))), 1) == [[5.0]]


@np.errstate(divide="ignore")
def test_the_root_of_what_stands_still_at_nought_stands_still():
    assert tangent_of(np.sqrt(Dual(np.array([0.0]), np.zeros((1, 1)))), 1).tolist() == [[0.0]]


@np.errstate(divide="ignore")
@pytest.mark.parametrize("turn", [0.0, 1e-9, 1e-3])
def test_a_curve_that_turns_right_about_at_both_ends_keeps_finite_slopes(turn: float):
    back = np.array([[-np.cos(turn), np.sin(turn)]])
    moving = Dual(at(100.0, 0.0), np.array([[[1.0, 0.0]], [[0.0, 1.0]]]))
    result = hobby.hobby([at(0.0, 0.0), moving], back, back)
    assert isinstance(result, Guarded)
    assert np.isfinite(tangent_of(result.value, 2)).all()
