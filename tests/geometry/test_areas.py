"""Areas, and curves as chains of straight lines."""

from __future__ import annotations

import numpy as np
import pytest
from fontTools.pens.areaPen import AreaPen
from garment_curves import bodice
from shapely import LineString, Point, Polygon

from godet.geometry.areas import area, enclosed, signed_area
from godet.geometry.cubics import evaluate, reversed_curve
from godet.geometry.flattening import flattened


def test_the_area_agrees_with_two_libraries() -> None:
    outline = bodice(10).outline
    areas = area(outline)
    for body in range(10):
        # fontTools.pens.areaPen, exact for cubics
        pen = AreaPen()
        pen.moveTo(tuple(outline[body, 0, 0]))
        for cubic in outline[body]:
            pen.curveTo(*map(tuple, cubic[1:]))
        pen.closePath()
        assert areas[body] == pytest.approx(abs(pen.value), rel=1e-12)
        # shapely, a ring of chords
        ring = evaluate(outline[body, :, None], np.linspace(0, 1, 2001)[None]).reshape(-1, 2)
        assert areas[body] == pytest.approx(Polygon(ring).area, rel=1e-6)


def test_edges_in_any_order_and_sense_enclose_the_same_area() -> None:
    parts = bodice(10)
    edges = [parts.side, parts.neck[:, ::-1, ::-1], parts.bottom, parts.armhole]
    edges += [parts.centre, parts.shoulder[:, ::-1, ::-1]]
    result = enclosed(np.concatenate(edges, axis=1))
    assert not result.breaches[0].failed.any()
    for body in range(10):
        outline = parts.outline[body, :, None]
        ring = evaluate(outline, np.linspace(0, 1, 2001)[None]).reshape(-1, 2)
        # shapely, a ring of chords
        assert result.value[body] == pytest.approx(Polygon(ring).area, rel=1e-6)


def test_edges_that_do_not_close_are_refused_with_the_gap() -> None:
    parts = bodice(3)
    side = parts.side.copy()
    side[1] += [3.0, 4.0]
    edges = [parts.neck, parts.shoulder, parts.armhole, side, parts.bottom, parts.centre]
    (breach,) = enclosed(np.concatenate(edges, axis=1)).breaches
    assert (breach.code, breach.failed.tolist()) == ("ends-do-not-meet", [False, True, False])
    assert breach.numbers["gap"][1] == pytest.approx(5.0)  # Pythagoras: 3, 4, 5
    (left_over,) = enclosed(np.concatenate([*edges[:3], parts.side, *edges[4:5]], axis=1)).breaches
    assert left_over.failed.all()


def test_the_sign_tells_which_way_round_the_chain_runs() -> None:
    outline = bodice(4).outline
    # Neck, shoulder, armhole, side: clockwise on the page.
    assert (signed_area(outline) > 0.0).all()
    np.testing.assert_allclose(signed_area(reversed_curve(outline)), -signed_area(outline))


def test_a_far_origin_costs_no_digits() -> None:
    outline = bodice(4).outline
    np.testing.assert_allclose(area(outline + 1e6), area(outline), rtol=1e-9)


@pytest.mark.parametrize("tolerance", [1.0, 0.05, 0.001])
def test_a_chain_of_lines_lies_within_its_tolerance(tolerance: float) -> None:
    path = bodice(1).outline[0]
    chain = flattened(path, tolerance)
    np.testing.assert_array_equal(chain[[0, -1]], [path[0, 0], path[-1, 3]])
    samples = evaluate(path[:, None], np.linspace(0, 1, 201)[None]).reshape(-1, 2)
    # shapely: distance of points on the path from the chain
    away = [LineString(chain).distance(Point(point)) for point in samples]
    assert max(away) <= tolerance + 1e-9
    assert len(chain) < 100 + 200 / np.sqrt(tolerance)


def test_degenerate_cubics_add_no_points() -> None:
    path = np.concatenate([np.full((1, 4, 2), 5.0), [[[5, 5], [6, 5], [7, 5], [8, 5]]]])
    assert flattened(path, 0.1).tolist() == [[5.0, 5.0], [8.0, 5.0]]
