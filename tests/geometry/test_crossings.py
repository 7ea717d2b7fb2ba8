"""Crossings of two curves, and the choice among them."""

from __future__ import annotations

import numpy as np
import pytest
from fontTools.misc.bezierTools import curveCurveIntersections, curveLineIntersections
from garment_curves import Floats, bodice
from shapely import LineString

from godet.geometry.arc_length import along, length
from godet.geometry.arcs import arc
from godet.geometry.crossings import crossing
from godet.geometry.cubics import evaluate
from godet.geometry.dual import Dual
from godet.geometry.hobby import hobby
from godet.geometry.joining import joined
from godet.geometry.lines import line
from godet.geometry.locating import from_point
from godet.geometry.meetings import crossings


def _wave() -> Floats:
    """A curve that swings across the level 0 five times, through whole hundreds of the way
    across."""
    points = [np.array([[100.0 * n, 60.0 * (-1) ** n]]) for n in range(6)]
    curve: Floats = hobby(points).value
    return curve


def _level(down: float = 0.0) -> Floats:
    straight: Floats = line(np.array([[-50.0, down]]), np.array([[700.0, down]])).value
    return straight


def _dense(curve: Floats) -> LineString:
    return LineString(evaluate(curve[0, :, None], np.linspace(0, 1, 2001)[None]).reshape(-1, 2))


def test_crossings_agree_with_a_library_for_planes_and_one_for_letters() -> None:
    wave = _wave()
    for down in (0.0, 21.3, -44.0):
        found = crossings(wave, _level(down))
        points = found.point[0, found.valid[0]]
        # shapely, chains of 10 000 chords
        dense = _dense(wave).intersection(_dense(_level(down)))
        expected = np.array(sorted((p.x, p.y) for p in dense.geoms))
        np.testing.assert_allclose(points[np.argsort(points[:, 0])], expected, atol=1e-3)
        # fontTools.misc.bezierTools.curveLineIntersections
        letters = [
            hit.pt
            for cubic in wave[0]
            for hit in curveLineIntersections(list(map(tuple, cubic)), [(-50, down), (700, down)])
        ]
        np.testing.assert_allclose(points, letters, atol=1e-4)
        on_wave = evaluate(wave[0, found.cubic_a[0]], found.share_a[0])
        np.testing.assert_allclose(on_wave[:, 1], down, rtol=0, atol=1e-12)


def test_two_curves_agree_with_a_library_for_letters() -> None:
    a, b = (
        _wave(),
        hobby([np.array([[0.0, 30.0]]), np.array([[500.0, -40.0]])], np.array([[0.6, -0.8]])).value,
    )
    found = crossings(a, b)
    points = found.point[0, found.valid[0]]
    letters: list[tuple[float, float]] = []
    for cubic in a[0]:
        # fontTools.misc.bezierTools.curveCurveIntersections
        hits = curveCurveIntersections(list(map(tuple, cubic)), list(map(tuple, b[0, 0])))
        letters += [hit.pt for hit in hits]
    np.testing.assert_allclose(points, sorted(letters), atol=1e-2)
    on_b = evaluate(b[0, found.cubic_b[0]], found.share_b[0])
    np.testing.assert_allclose(on_b, points, atol=1e-11)


@pytest.mark.parametrize("selector", ["innermost", "outermost", "first", "nearest"])
def test_the_text_chooses_among_several_crossings(selector: str) -> None:
    wave, level = _wave(), _level()
    hits = [
        hit.pt[0]
        for cubic in wave[0]
        for hit in curveLineIntersections(list(map(tuple, cubic)), [(-50, 0), (700, 0)])
    ]  # fontTools.misc.bezierTools.curveLineIntersections
    expected = {
        "innermost": min(hits),
        "outermost": max(hits),
        "first": hits[0],
        "nearest": sorted(hits)[2],
    }[selector]
    point = crossing(wave, level, selector, np.array([[252.0, 9.0]])).value  # type: ignore[arg-type]
    np.testing.assert_allclose(point, [[expected, 0.0]], atol=1e-5)


def test_highest_and_lowest_go_by_depth() -> None:
    upright = line(np.array([[100.0, -90.0]]), np.array([[100.0, 90.0]])).value
    zigzag = np.concatenate(
        [
            line(np.array([[0.0, down]]), np.array([[200.0, down + 10.0]])).value
            for down in (30.0, -50.0, 10.0)
        ],
        axis=1,
    )
    # Halfway along each line: 5 mm below its start.
    np.testing.assert_allclose(
        crossing(upright, zigzag, "lowest").value, [[100.0, 35.0]], atol=1e-12
    )
    np.testing.assert_allclose(
        crossing(upright, zigzag, "highest").value, [[100.0, -45.0]], atol=1e-12
    )


def _codes(result: object) -> dict[str, object]:
    return {b.code: b for b in result.breaches if b.failed.any()}  # type: ignore[attr-defined]


def test_several_crossings_where_only_one_is_allowed_fail() -> None:
    breach = _codes(crossing(_wave(), _level(), "only"))["many-crossings"]
    assert breach.numbers["count"][0] == 5  # type: ignore[attr-defined]


def test_curves_that_do_not_cross_fail_with_their_closest_approach() -> None:
    circle = arc(np.array([[100.0, 0.0]]), np.array([[-100.0, 0.0]]), np.array([[0.0, 1.0]])).value
    far = line(np.array([[-300.0, 130.0]]), np.array([[300.0, 130.0]])).value
    breach = _codes(crossing(circle, far, "only"))["no-crossing"]
    # The lowest point of the circle of radius 100 is 30 above the line at 130.
    assert breach.numbers["closest"][0] == pytest.approx(30.0, abs=1e-3)  # type: ignore[attr-defined]


def test_equally_good_crossings_fail_as_a_tie() -> None:
    assert "tie" in _codes(crossing(_wave(), _level(), "lowest"))
    assert "tie" not in _codes(crossing(_wave(), _level(), "innermost"))


def test_curves_that_touch_fail_with_their_angle() -> None:
    circle = hobby(
        [np.array([[100.0, 0.0]]), np.array([[0.0, 100.0]]), np.array([[-100.0, 0.0]])],
        np.array([[0.0, 1.0]]),
        np.array([[0.0, -1.0]]),
    ).value
    touching = line(np.array([[-90.0, 100.0]]), np.array([[110.0, 100.0]])).value
    assert "tangent-crossing" in _codes(crossing(circle, touching, "first"))
    assert "tangent-crossing" not in _codes(crossing(_wave(), _level(), "first"))


def test_a_curve_that_ends_on_the_other_meets_it_once() -> None:
    parts = bodice(60)
    for a, b in (
        (parts.armhole, parts.side),
        (parts.bottom, parts.side),
        (parts.neck, parts.centre),
    ):
        result = crossing(a, b, "only")
        assert not _codes(result)
        shared = a[:, -1, 3] if a is not parts.neck else a[:, 0, 0]
        np.testing.assert_allclose(result.value, shared, atol=1e-9)


def test_a_crossing_at_a_joint_counts_once() -> None:
    joint = _wave()[:, 2, 0]
    through = line(joint - [[30.0, 80.0]], joint + np.array([[30.0, 80.0]])).value
    np.testing.assert_allclose(
        crossing(_wave(), through, "nearest", joint).value, joint, atol=1e-10
    )
    near = np.linalg.norm(crossings(_wave(), through).point[0] - joint, axis=1) < 1e-6
    assert near.sum() == 1


def test_two_crossings_close_to_a_touch_are_both_found() -> None:
    circle = hobby(
        [np.array([[100.0, 0.0]]), np.array([[0.0, 100.0]]), np.array([[-100.0, 0.0]])],
        np.array([[0.0, 1.0]]),
        np.array([[0.0, -1.0]]),
    ).value
    for below_top in (1e-2, 1e-4, 1e-6):
        near = line(
            np.array([[-90.0, 100.0 - below_top]]), np.array([[110.0, 100.0 - below_top]])
        ).value
        assert crossings(circle, near).valid.sum() == 2


def test_cut_curves_cross_only_where_something_is_left() -> None:
    wave = _wave()
    cut = np.concatenate([wave[:, :2], np.repeat(wave[:, 1:2, 3:], 4, axis=2)], axis=1)
    assert crossings(cut, _level()).valid.sum() == 2


def test_the_derivative_of_two_lines_that_cross_square() -> None:
    upright = line(np.array([[100.0, -90.0]]), np.array([[100.0, 90.0]])).value
    seeds = np.zeros((2, *upright.shape))
    seeds[0, ..., 0] = 1.0  # outward
    seeds[1, ..., 1] = 1.0  # down its own line: the crossing stays
    moved = crossing(Dual(upright, seeds), _level(), "only").value
    np.testing.assert_allclose(moved.tangent[:, 0], [[1.0, 0.0], [0.0, 0.0]], atol=1e-12)


def test_curves_that_run_along_each_other_are_told_from_those_that_touch() -> None:
    level = _level()
    part = line(np.array([[100.0, 0.0]]), np.array([[160.0, 0.0]])).value
    for selector in ("only", "nearest", "lowest", "first"):
        found = _codes(crossing(level, part, selector, np.zeros((1, 2))))  # type: ignore[arg-type]
        assert found["overlap"].numbers["length"][0] == pytest.approx(60.0)  # type: ignore[attr-defined]
    beside = line(np.array([[100.0, 1e-3]]), np.array([[160.0, 0.0]])).value
    assert "overlap" not in _codes(crossing(level, beside, "first"))


def test_a_part_of_a_curve_overlaps_the_whole_for_its_own_length() -> None:
    parts = bodice(12)
    cut = from_point(parts.armhole, along(parts.armhole, 0.6 * length(parts.armhole)).value).value
    going_on = joined(cut, parts.side).value
    for a, b in ((parts.armhole, going_on), (going_on, parts.armhole[:, ::-1, ::-1])):
        breach = _codes(crossing(a, b, "only"))["overlap"]
        assert breach.failed.all()  # type: ignore[attr-defined]
        np.testing.assert_allclose(breach.numbers["length"], length(cut), atol=1e-6)  # type: ignore[attr-defined]


def test_a_side_that_meets_another_curve_twice_does_not_run_along_it() -> None:
    assert "overlap" not in _codes(crossing(_wave(), _level(), "only"))


def test_a_crossing_at_an_end_without_a_handle_is_no_touch() -> None:
    bare = np.array([[[[100.0, 0.0], [100.0, 0.0], [140.0, 60.0], [150.0, 90.0]]]])
    assert not _codes(crossing(bare, _level(), "only"))


@pytest.mark.parametrize("selector", ["lowest", "highest", "innermost", "outermost", "nearest"])
def test_each_selector_takes_what_dense_samples_would(selector: str) -> None:
    a = hobby([np.array([[80.0 * n, 50.0 * (-1) ** n]]) for n in range(5)]).value
    b = line(np.array([[-10.0, -31.0]]), np.array([[350.0, 37.0]])).value
    reference = np.array([[150.0, 20.0]])
    # shapely, chains of chords
    points = [np.array([p.x, p.y]) for p in _dense(a).intersection(_dense(b)).geoms]
    key = {
        "lowest": lambda p: -p[1],
        "highest": lambda p: p[1],
        "innermost": lambda p: p[0],
        "outermost": lambda p: -p[0],
        "nearest": lambda p: float(np.linalg.norm(p - reference[0])),
    }[selector]
    found = crossing(a, b, selector, reference).value  # type: ignore[arg-type]
    np.testing.assert_allclose(found[0], min(points, key=key), atol=1e-3)
