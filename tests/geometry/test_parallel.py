"""Parallel curves."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from garment_curves import Floats, bodice
from scipy.interpolate import BPoly
from shapely import LineString, Point

from godet.geometry.arc_length import along, length
from godet.geometry.arcs import arc
from godet.geometry.cubics import evaluate
from godet.geometry.hobby import hobby
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


def _way(degrees: Floats) -> Floats:
    angle = np.radians(degrees)
    return np.stack([np.cos(angle), np.sin(angle)], axis=-1)


def _garment_curves(bodies: int) -> dict[str, Floats]:
    """Necks, armholes, caps, sides, hems and crotches, from shallow to hardly wearable."""
    random = np.random.default_rng(3)

    def some(low: float, high: float) -> Floats:
        return random.uniform(low, high, bodies)

    def point(across: Floats | float, down: Floats | float) -> Floats:
        return np.stack(np.broadcast_arrays(across, down, np.zeros(bodies))[:2], axis=-1)

    root, left = point(0.0, 0.0), point(-some(120, 260), some(70, 200))
    right = left * (-1.0, 1.0)
    return {
        "neck": hobby(
            [point(0.0, some(15, 160)), point(some(55, 110), 0.0)],
            _way(some(-10, 10)),
            _way(some(-110, -60)),
        ).value,
        "armhole": hobby(
            [root, point(some(20, 70), some(120, 240))], _way(some(80, 120)), _way(some(-10, 10))
        ).value,
        "cap": hobby(
            [left, point(some(-20, 20), 0.0), right], _way(some(-30, 10)), _way(some(-10, 30))
        ).value,
        "side": hobby(
            [root, point(some(-60, 10), some(120, 220)), point(some(-40, 60), some(350, 500))],
            _way(some(70, 110)),
            _way(some(70, 110)),
        ).value,
        "hem": hobby(
            [point(some(150, 400), 0.0), point(0.0, some(150, 400))],
            _way(some(80, 100)),
            _way(some(170, 190)),
        ).value,
        "crotch": hobby(
            [root, point(some(40, 120), some(150, 300))], _way(some(85, 95)), _way(some(-20, 20))
        ).value,
    }


def _true_parallel(cubics: Floats, by: float) -> Floats:
    """The ends of dense true normals; scipy knows the points and the ways of the curve."""
    share = np.linspace(0.0, 1.0, 801)
    curves = [BPoly(cubic[:, None], [0.0, 1.0]) for cubic in cubics]
    own = np.concatenate([curve(share) for curve in curves])
    ways = np.concatenate([curve.derivative()(share) for curve in curves])
    true: Floats = own + by * ways[:, ::-1] * (-1.0, 1.0) / np.hypot(*ways.T)[:, None]
    return true


@pytest.mark.parametrize("name", ["neck", "armhole", "cap", "side", "hem", "crotch"])
@pytest.mark.parametrize(("least", "most"), [(5.0, 15.0), (15.0, 40.0), (40.0, 80.0)])
def test_parallels_of_random_garment_curves_lie_on_the_true_normals(
    name: str, least: float, most: float
) -> None:
    bodies = 15
    curve = _garment_curves(bodies)[name]
    random = np.random.default_rng(5)
    by = random.uniform(least, most, bodies) * random.choice([-1.0, 1.0], bodies)
    found = parallel(curve, by)
    sound = np.nonzero(~np.any([breach.failed for breach in found.breaches], axis=0))[0]
    assert len(sound) > 4
    for body in sound:
        true = _true_parallel(curve[body], by[body])
        # shapely: distances both ways, between the found curve and the ends of dense true normals
        moved = _samples(found.value, body, 101)
        astray = shapely.distance(LineString(true), shapely.points(moved)).max()
        missed = shapely.distance(LineString(moved), shapely.points(true[::4])).max()
        assert max(astray, missed) < 0.02


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
    np.testing.assert_allclose(moved[0, :, 3, 0], np.linspace(0.0, 90.0, 9)[1:], atol=1e-12)


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
    end = np.repeat(moved[:, 7:8, 3:], 4, axis=2)
    np.testing.assert_allclose(moved[:, 8:], np.repeat(end, 8, axis=1), atol=1e-9)
