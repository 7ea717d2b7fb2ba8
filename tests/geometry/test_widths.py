"""The width of an outline at a level."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from garment_curves import Floats, bodice
from shapely import LineString, Polygon

from godet.geometry.cubics import evaluate
from godet.geometry.dual import Dual
from godet.geometry.lines import line
from godet.geometry.widths import reach_at, width_at


def _polygon(*corners: tuple[float, float]) -> Floats:
    ring = [np.array([corner], dtype=float) for corner in (*corners, corners[0])]
    pairs = pairwise(ring)
    return np.concatenate([line(a, b).value for a, b in pairs], axis=1)


def test_the_width_agrees_with_a_library_for_planes() -> None:
    outline = bodice(20).outline
    for down in (60.0, 150.0, 233.3, 400.0):
        reach = reach_at(outline, np.array([down])).value
        for body in range(20):
            ring = evaluate(outline[body, :, None], np.linspace(0, 1, 1001)[None]).reshape(-1, 2)
            # shapely, a ring of 10 000 chords
            inner, _, outer, _ = (
                LineString([(-500, down), (900, down)]).intersection(Polygon(ring)).bounds
            )
            np.testing.assert_allclose(reach[body], [inner, outer], atol=1e-3)


def test_the_order_and_the_sense_of_the_edges_do_not_matter() -> None:
    outline = bodice(20).outline
    shuffled = outline[:, [4, 0, 7, 2, 11, 1, 9, 3, 13, 8, 12, 6, 10, 5]].copy()
    shuffled[:, 3:6] = shuffled[:, 3:6, ::-1]
    a, b = (width_at(o, np.array([200.0])).value for o in (outline, shuffled))
    np.testing.assert_allclose(a, b, rtol=0, atol=1e-12)


def test_a_level_through_corners_along_edges_and_past_a_roundoff() -> None:
    box = _polygon((0, 0), (90, 0), (120, 50), (100, 200), (0, 200))
    # The corners themselves; a rounding of the level must not lose an edge that ends on it.
    for down, width in ((0.0, 90.0), (50.0, 120.0), (200.0, 100.0), (125.0, 110.0)):
        for rounding in (0.0, 3e-14, -3e-14):
            result = width_at(box, np.array([down + rounding]))
            assert result.value[0] == pytest.approx(width, abs=1e-7)
            assert not result.breaches[0].failed.any()


def test_a_level_that_only_touches_a_turning_has_no_width() -> None:
    dome = np.array([[[[0.0, 0.0], [0.0, -80.0], [120.0, -80.0], [120.0, 0.0]]]])
    # The turning of this cubic is at its middle: 3/4 of 80 above its ends.
    result = reach_at(dome, np.array([-60.0]))
    np.testing.assert_allclose(result.value, [[60.0, 60.0]], atol=1e-5)
    assert not result.breaches[0].failed.any()


def test_gaps_between_the_edges_do_not_matter() -> None:
    open_piece = np.concatenate(
        [
            line(np.array([[0.0, 0.0]]), np.array([[0.0, 200.0]])).value,
            line(np.array([[90.0, 0.0]]), np.array([[110.0, 200.0]])).value,
        ],
        axis=1,
    )
    assert width_at(open_piece, np.array([100.0])).value[0] == pytest.approx(100.0, abs=1e-12)


def test_a_level_that_misses_fails_with_the_outlines_own_depths() -> None:
    outline = np.repeat(_polygon((0, 10), (90, 10), (100, 200), (0, 200)), 3, axis=0)
    breach, touching = width_at(outline, np.array([9.0, 100.0, 201.0])).breaches
    assert not touching.failed.any()
    assert breach.code == "level-misses"
    assert breach.failed.tolist() == [True, False, True]
    assert breach.numbers["highest"].tolist() == [10.0] * 3
    assert breach.numbers["lowest"].tolist() == [200.0] * 3


def test_every_body_missing_its_level_still_fails() -> None:
    box = _polygon((0, 0), (90, 0), (100, 200), (0, 200))
    assert width_at(box, np.array([900.0])).breaches[0].failed.tolist() == [True]


def test_a_lower_level_on_a_sloping_side_is_wider_by_the_slope() -> None:
    trapeze = _polygon((0, 0), (90, 0), (110, 200), (0, 200))
    level = Dual(np.array([70.0]), np.array([[1.0]]))
    # 20 mm in 200 mm.
    np.testing.assert_allclose(width_at(trapeze, level).value.tangent, [[0.1]], atol=1e-14)
