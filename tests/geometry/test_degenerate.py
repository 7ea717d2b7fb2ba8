"""Whatever falls together, runs back on itself or has no length: each operation gives numbers, or
says with a breach that it has none."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from garment_curves import Floats
from hypothesis import given, settings
from hypothesis import strategies as st

from godet.geometry import (
    angles,
    arc_length,
    arcs,
    areas,
    bends,
    blending,
    crossings,
    ends,
    extremes,
    joining,
    lines,
    locating,
    nearest,
    parallel,
    reshaping,
    widths,
)
from godet.geometry.guards import Guarded
from godet.geometry.hobby import hobby
from godet.geometry.points import direction_at

# places that fall together, nearly fall together, stand in one line or square to each other
PLACES = st.sampled_from([0.0, 1e-12, 1e-7, 1e-4, 10.0, 50.0, 100.0])
POINTS = st.tuples(PLACES, PLACES).map(lambda point: np.array([point]))
CUBICS = st.tuples(POINTS, POINTS, POINTS, POINTS).map(lambda points: np.stack(points, axis=1))


def _chain(cubics: list[Floats]) -> Floats:
    """The cubics end to start, (1, n, 4, 2)."""
    placed: list[Floats] = []
    for cubic in cubics:
        by = placed[-1][:, 3:] - cubic[:, :1] if placed else 0.0
        placed.append(cubic + by)
        if len(placed) > 1:
            placed[-1][:, 0] = placed[-2][:, 3]
    return np.stack(placed, axis=1)


CURVES = st.lists(CUBICS, min_size=1, max_size=3).map(_chain)
WAYS = st.sampled_from([0.0, 0.5, 1.0, 1.5]).map(
    lambda turn: direction_at(np.array([turn * np.pi]))
)
MM = st.sampled_from([-5.0, 0.0, 1e-12, 1e-6, 5.0, 100.0, 1e4]).map(lambda mm: np.array([mm]))

OPERATIONS: dict[str, tuple[Callable[..., Any], tuple[st.SearchStrategy[Any], ...]]] = {
    "line": (lines.line, (POINTS, POINTS)),
    "spline": (lambda p, q, r: hobby([p, q, r]), (POINTS, POINTS, POINTS)),
    "spline given": (
        lambda p, q, w, v, t: hobby([p, q], w, v, 0.7 + np.abs(t)),
        (POINTS, POINTS, WAYS, WAYS, MM),
    ),
    "arc": (arcs.arc, (POINTS, POINTS, WAYS)),
    "length": (arc_length.length, (CURVES,)),
    "along": (arc_length.along, (CURVES, MM)),
    "start_direction": (ends.start_direction, (CURVES,)),
    "extended": (joining.extended, (CURVES, MM)),
    "joined": (joining.joined, (CURVES, CURVES)),
    "until": (locating.until, (CURVES, POINTS)),
    "from_point": (locating.from_point, (CURVES, POINTS)),
    "nearest_on": (nearest.nearest_on, (CURVES, POINTS)),
    "lowest": (lambda curve: extremes.extreme(curve, "lowest"), (CURVES,)),
    "radius_at": (bends.radius_at, (CURVES, POINTS)),
    "radius at the start": (lambda c: bends.radius_at(c, c[:, 0, 0]), (CURVES,)),
    "reshaped": (reshaping.reshaped, (CURVES, MM)),
    "enclosed": (areas.enclosed, (CURVES,)),
    "parallel": (parallel.parallel, (CURVES, MM)),
    "crossing": (lambda a, b: crossings.crossing(a, b, "only"), (CURVES, CURVES)),
    "crossing with itself": (lambda a: crossings.crossing(a, a, "lowest"), (CURVES,)),
    "angle_between": (angles.angle_between, (CURVES, CURVES)),
    "square_direction": (angles.square_direction, (CURVES, POINTS, POINTS)),
    "width_at": (widths.width_at, (CURVES, MM)),
    "blend": (lambda a, b, d: blending.blend(*_meeting(a, b), d), (CURVES, CURVES, MM)),
    "fair blend": (
        lambda a, b, d: blending.blend(*_meeting(a, b), d, fair=True),
        (CURVES, CURVES, MM),
    ),
    "blend_gives": (lambda a, b, d: blending.blend_gives(*_meeting(a, b), d), (CURVES, CURVES, MM)),
    "blend_strays": (
        lambda a, b, d: blending.blend_strays(*_meeting(a, b), d),
        (CURVES, CURVES, MM),
    ),
}


def _meeting(a: Floats, b: Floats) -> tuple[Floats, Floats]:
    return a, b - b[:, :1, :1] + a[:, -1:, 3:]


@pytest.mark.parametrize("name", OPERATIONS)
@settings(max_examples=40, deadline=None, derandomize=True)
@given(data=st.data())
def test_what_has_no_answer_is_told(name: str, data: st.DataObject) -> None:
    function, strategies = OPERATIONS[name]
    result = function(*(data.draw(strategy) for strategy in strategies))
    if not isinstance(result, Guarded):
        assert np.isfinite(result).all()
        return
    failed = [breach for breach in result.breaches if breach.failed.any()]
    assert failed or np.isfinite(result.value).all()
    for breach in failed:
        for number in breach.numbers.values():
            assert not np.isnan(number).any(), breach.code


@settings(max_examples=40, deadline=None, derandomize=True)
@given(curve=CURVES, share=st.sampled_from([0.0, 0.1, 0.5, 0.9, 1.0]))
def test_cutting_and_joining_again_gives_the_curve_back(curve: Floats, share: float) -> None:
    at = arc_length.along(curve, share * arc_length.length(curve)).value
    before, after = locating.until(curve, at), locating.from_point(curve, at)
    whole = joining.joined(before.value, after.value)
    assert not any(b.failed.any() for result in (before, after, whole) for b in result.breaches)
    place = locating.place_on(curve, at)
    lengths = arc_length.length(whole.value), arc_length.length(curve)
    np.testing.assert_allclose(*lengths, atol=1e-9)
    for step in (0.1, 0.5, 0.8):
        mm = step * lengths[1]
        # the same length along both is the same point
        points = arc_length.along(whole.value, mm).value, arc_length.along(curve, mm).value
        np.testing.assert_allclose(*points, atol=1e-9, err_msg=str(place))
