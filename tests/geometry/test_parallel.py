"""Parallel curves."""

from __future__ import annotations

import numpy as np
import pytest
from garment_curves import Floats, bodice
from shapely import LineString, Point

from godet.geometry.arc_length import along, length
from godet.geometry.arcs import arc
from godet.geometry.cubics import evaluate
from godet.geometry.lines import line
from godet.geometry.locating import until
from godet.geometry.parallel import parallel


def _samples(curve: Floats, body: int, count: int) -> Floats:
    samples: Floats = evaluate(curve[body, :, None], np.linspace(0, 1, count)[None])
    return samples.reshape(-1, 2)


@pytest.mark.parametrize("by", [10.0, -10.0, 25.0, -20.0])
def test_every_point_lies_at_the_distance(by: float) -> None:
    parts = bodice(6)
    for curve in (parts.neck, parts.armhole, parts.bottom):
        moved = parallel(curve, np.array([by])).value
        for body in range(6):
            # shapely: distance to a chain of thousands of chords
            chain = LineString(_samples(curve, body, 2001))
            away = [chain.distance(Point(p)) for p in _samples(moved, body, 21)]
            np.testing.assert_allclose(away, abs(by), atol=0.02)


def test_the_side_agrees_with_a_library_for_planes() -> None:
    curve = bodice(1).bottom
    moved = _samples(parallel(curve, np.array([10.0])).value, 0, 21)
    # shapely.offset_curve: positive is to the left with down upward, so to the right as the page
    # is read
    chain = LineString(_samples(curve, 0, 501)).offset_curve(10.0)
    np.testing.assert_allclose([chain.distance(Point(p)) for p in moved], 0.0, atol=0.02)


def test_a_positive_distance_lies_below_a_line_that_runs_outward() -> None:
    straight = line(np.array([[0.0, 0.0]]), np.array([[90.0, 0.0]])).value
    moved = parallel(straight, np.array([7.0])).value
    np.testing.assert_allclose(moved[..., 1], 7.0, atol=1e-14)
    np.testing.assert_allclose(np.sort(moved[0, :, 3, 0]), [22.5, 45.0, 67.5, 90.0], atol=1e-12)


def test_a_parallel_circle_has_the_other_radius() -> None:
    circle = arc(np.array([[100.0, 0.0]]), np.array([[-100.0, 0.0]]), np.array([[0.0, 1.0]])).value
    # Travelled from outward through down: the centre lies to the right.
    for by, radius in ((30.0, 70.0), (-30.0, 130.0)):
        moved = _samples(parallel(circle, np.array([by])).value, 0, 51)
        np.testing.assert_allclose(np.linalg.norm(moved, axis=1), radius, atol=1e-3)


def test_a_hollow_tighter_than_the_distance_fails_with_its_radius() -> None:
    circle = arc(np.array([[100.0, 0.0]]), np.array([[-100.0, 0.0]]), np.array([[0.0, 1.0]])).value
    breaches = {b.code: b for b in parallel(circle, np.array([101.0, 99.0, -101.0])).breaches}
    breach = breaches["radius-too-small"]
    assert breach.failed.tolist() == [True, False, False]
    # The cubics' own curvature swings about the circle's by a few thousandths.
    assert breach.numbers["radius"][0] == pytest.approx(100.0, rel=0.005)
    assert breach.numbers["distance"][0] == 101.0


def test_degenerate_cubics_stay_degenerate_at_the_moved_end() -> None:
    curve = bodice(5).armhole
    cut = until(curve, along(curve, 0.2 * length(curve)).value).value
    moved = parallel(cut, np.array([10.0])).value
    end = np.repeat(moved[:, 3:4, 3:], 4, axis=2)
    np.testing.assert_allclose(moved[:, 4:], np.repeat(end, 4, axis=1), atol=1e-9)
