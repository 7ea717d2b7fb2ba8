"""The point of a curve nearest to another."""

from __future__ import annotations

import numpy as np
import pytest
from garment_curves import DOWN, OUTWARD, bodice
from shapely import LineString, Point

from godet.geometry.arcs import arc
from godet.geometry.cubics import evaluate
from godet.geometry.hobby import hobby
from godet.geometry.lines import line
from godet.geometry.nearest import nearest_on


def test_the_nearest_point_agrees_with_a_library_for_planes() -> None:
    curve = bodice(25).armhole
    random = np.random.default_rng(2)
    point = curve.mean(axis=(1, 2)) + random.uniform(-80, 80, (25, 2))
    found = nearest_on(curve, point).value
    for body in range(25):
        samples = evaluate(curve[body, :, None], np.linspace(0, 1, 5001)[None]).reshape(-1, 2)
        # shapely: a chain of 10 000 chords
        chain = LineString(samples)
        nearest = chain.interpolate(chain.project(Point(point[body])))
        np.testing.assert_allclose(found[body], [nearest.x, nearest.y], atol=2e-2)
        away = np.linalg.norm(found[body] - point[body])
        assert away == pytest.approx(chain.distance(Point(point[body])), abs=1e-5)


def test_of_two_hollows_the_nearer_one_is_found_though_the_samples_lie_badly() -> None:
    # two bulges, 0.2 mm apart in height, narrow against the distance of samples
    points = [np.array([[100.0 * n, down]]) for n, down in enumerate((0, 80.0, 0, 80.2, 0))]
    wave = hobby(points).value
    away = np.array([[200.0, 1000.0]])
    found = nearest_on(wave, away).value[0]
    dense = evaluate(wave[0, :, None], np.linspace(0, 1, 20_001)[None]).reshape(-1, 2)
    # dense samples
    best = dense[np.argmin(np.linalg.norm(dense - away, axis=1))]
    np.testing.assert_allclose(found, best, atol=1e-2)


def test_the_way_there_is_square_to_the_curve() -> None:
    straight = line(np.array([[0.0, 0.0]]), np.array([[100.0, 0.0]])).value
    points = np.array([[30.0, 40.0], [-20.0, 5.0], [140.0, -7.0], [100.0, 0.0]])
    # the foot on the level line, or its nearer end
    expected = [[30.0, 0.0], [0.0, 0.0], [100.0, 0.0], [100.0, 0.0]]
    result = nearest_on(straight, points)
    np.testing.assert_allclose(result.value, expected, atol=1e-12)
    assert not result.breaches[0].failed.any()


def test_the_middle_of_a_circle_is_as_near_to_all_of_it() -> None:
    half = arc(-100.0 * OUTWARD, 100.0 * OUTWARD, DOWN).value
    (tie,) = nearest_on(half, np.array([[0.0, 0.0], [10.0, 10.0]])).breaches
    assert (tie.code, tie.failed.tolist()) == ("tie", [True, False])
    assert tie.numbers["difference"][0] <= 1e-6
