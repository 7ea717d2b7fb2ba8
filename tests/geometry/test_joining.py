"""Curves put end to end, and the ends of curves."""

from __future__ import annotations

import numpy as np
from garment_curves import bodice

from godet.geometry import ends
from godet.geometry.arc_length import along, length
from godet.geometry.cubics import reversed_curve
from godet.geometry.joining import extended, joined
from godet.geometry.lines import line
from godet.geometry.locating import from_point, until


def test_joined_curves_keep_every_control_point() -> None:
    parts = bodice(8)
    result = joined(parts.neck, parts.shoulder, parts.armhole)
    expected = np.concatenate([parts.neck, parts.shoulder, parts.armhole], axis=1)
    np.testing.assert_array_equal(result.value, expected)
    assert not result.breaches[0].failed.any()


def test_a_joint_takes_the_later_curves_start() -> None:
    first = line(np.zeros((1, 2)), np.array([[100.0, 0.0]])).value
    later = line(np.array([[100.0, 4e-7]]), np.array([[200.0, 50.0]])).value
    result = joined(first, later)
    assert result.value[0, 0, 3].tolist() == [100.0, 4e-7]
    np.testing.assert_array_equal(result.value[:, 1], later[:, 0])


def test_ends_apart_fail_with_the_widest_gap() -> None:
    a = line(np.zeros((2, 2)), np.array([[100.0, 0.0]])).value
    b = line(np.array([[103.0, 4.0], [100.0, 0.0]]), np.array([[200.0, 50.0]])).value
    c = line(np.array([[200.0, 51.0], [200.0, 50.0]]), np.array([[300.0, 50.0]])).value
    (breach,) = joined(a, b, c).breaches
    assert breach.code == "ends-do-not-meet"
    assert breach.failed.tolist() == [True, False]
    assert breach.numbers["gap"].tolist() == [5.0, 0.0]  # Pythagoras: 3, 4, 5


def test_an_extension_runs_straight_on() -> None:
    parts = bodice(8)
    longer = extended(parts.armhole, np.full(8, 30.0)).value
    np.testing.assert_array_equal(longer[:, :2], parts.armhole)
    np.testing.assert_allclose(length(longer[:, 2:]), 30.0, atol=1e-12)
    np.testing.assert_allclose(
        longer[:, 2, 1] - longer[:, 2, 0], np.tile([[10.0, 0.0]], (8, 1)), atol=1e-12
    )


def test_an_extension_by_nothing_fails() -> None:
    straight = line(np.zeros((2, 2)), np.array([[100.0, 0.0]])).value
    breaches = {b.code: b for b in extended(straight, np.array([0.0, 5.0])).breaches}
    assert breaches["not-positive"].failed.tolist() == [True, False]


def test_directions_at_the_ends_pass_over_degenerate_cubics() -> None:
    curve = bodice(30).armhole
    point = along(curve, 0.2 * length(curve)).value
    before, after = until(curve, point).value, from_point(curve, point).value
    # The tangent is one and the same on both sides of a cut in a smooth curve.
    np.testing.assert_allclose(
        ends.end_direction(before).value, ends.start_direction(after).value, atol=1e-10
    )


def test_a_handle_without_length_leaves_the_direction_to_the_next_control_point() -> None:
    curve = np.array([[[[0.0, 0.0], [0.0, 0.0], [30.0, 40.0], [90.0, 0.0]]]])
    np.testing.assert_allclose(ends.start_direction(curve).value, [[0.6, 0.8]])


def test_a_curve_without_length_has_no_direction() -> None:
    curve = np.full((1, 2, 4, 2), 3.0)
    for direction in (ends.start_direction, ends.end_direction):
        assert direction(curve).breaches[0].code == "zero-length"
        assert direction(curve).breaches[0].failed.tolist() == [True]


def test_a_curve_turned_to_start_at_the_centre_or_the_top() -> None:
    curve = bodice(3).bottom
    mixed = np.concatenate([curve[:2], reversed_curve(curve[2:])])
    np.testing.assert_array_equal(ends.from_the(mixed, "centre"), curve)
    side = bodice(3).side
    np.testing.assert_array_equal(ends.from_the(reversed_curve(side), "top"), side)
