"""Points, moves and directions."""

from __future__ import annotations

import numpy as np

from godet.geometry import points

P, Q = np.array([[10.0, 20.0], [1.0, 1.0]]), np.array([[40.0, 60.0], [1.0, 1.0]])


def test_moves_and_distances_of_a_three_four_five_triangle() -> None:
    # Pythagoras: 30, 40, 50
    assert points.distance(P, Q).tolist() == [50.0, 0.0]
    np.testing.assert_allclose(points.toward(P, Q, np.array([25.0])).value[0], [25.0, 40.0])
    np.testing.assert_allclose(points.between(P, Q, np.array([0.25]))[0], [17.5, 30.0])


def test_a_share_of_the_whole_way_is_the_other_point_to_the_bit() -> None:
    a, b = np.array([[0.1, 0.2]]), np.array([[0.7, 1e9]])
    np.testing.assert_array_equal(points.between(a, b, np.array([1.0])), b)
    np.testing.assert_array_equal(points.between(a, b, np.array([0.0])), a)


def test_angles_turn_from_outward_towards_down() -> None:
    quarter = points.direction_at(np.array([np.pi / 2]))
    np.testing.assert_allclose(quarter, [[0.0, 1.0]], atol=1e-16)
    np.testing.assert_array_equal(points.turned_quarter(np.array([[1.0, 0.0]])), [[0.0, 1.0]])


def test_no_direction_between_points_that_coincide() -> None:
    for result in (points.direction_between(P, Q), points.toward(P, Q, np.array([3.0]))):
        assert result.breaches[0].code == "same-point"
        assert result.breaches[0].failed.tolist() == [False, True]
