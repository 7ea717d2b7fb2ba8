"""Cutting lines of random small pieces: at the allowance from the sewing line, all round.

Distances by shapely, on dense points of both lines.
"""

from __future__ import annotations

import math

import numpy as np
import shapely
from hand_drafts import Floats, HandDraft, dense
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from godet.base.problems import has_errors
from godet.pattern.pieces import Piece

WITHIN = 0.02  # mm
MITRE = 2.5  # of the allowance: so far may a corner reach


@st.composite
def outlines(draw: st.DrawFn) -> dict[str, Floats]:
    """Edges round a middle, each from one corner to the next, straight or bulging either way."""
    count = draw(st.integers(3, 6))
    radii = [draw(st.floats(40.0, 160.0)) for _ in range(count)]
    angles = [math.tau * (k + draw(st.floats(0.0, 0.6))) / count for k in range(count)]
    corners = np.array(
        [(r * math.cos(a), r * math.sin(a)) for r, a in zip(radii, angles, strict=True)]
    )
    edges = {}
    for number in range(count):
        start, end = corners[number], corners[(number + 1) % count]
        along = (end - start) / 3.0
        aside = np.array([along[1], -along[0]])
        bulges = (0.0, 0.0)
        if draw(st.booleans()):
            bulges = draw(st.floats(-1.5, 1.5)), draw(st.floats(-1.5, 1.5))
        handles = [start + along + bulges[0] * aside, end - along + bulges[1] * aside]
        edges[f"edge_{number}"] = np.array([[start, *handles, end]])
    return edges


def _finished(edges: dict[str, Floats], allow: dict[str, float]) -> Piece:
    """The piece; where there is no room for its allowances, another one is tried."""
    draft = HandDraft()
    draft.piece("panel", edges, allow=allow)
    names = tuple(edges)
    for name in names:  # sewn: so none is a hem
        draft.seam(name, [("panel", name, False)], [("panel", name, False)])
    pattern, problems = draft.finish()
    codes = {problem.code for problem in problems}
    assert codes <= {"outline-crosses", "allowance-crosses", "radius-too-small", "corner-over-seam"}
    assume(pattern is not None and not has_errors(problems))
    assert pattern is not None
    return pattern.pieces[0]


@settings(max_examples=40, deadline=None)
@given(outlines(), st.floats(1.0, 30.0))
def test_one_allowance_all_round_is_kept_and_passed_at_corners_only(
    edges: dict[str, Floats], by: float
) -> None:
    piece = _finished(edges, dict.fromkeys(edges, by))
    corners = shapely.points([path[0, 0] for path in edges.values()])
    sewing = LineString(np.concatenate([dense(path, 600) for path in edges.values()]))
    points = shapely.points(dense(piece.cut_line, 60))
    away = shapely.distance(sewing, points)
    assert away.min() >= by - WITHIN
    farther = points[away > by + WITHIN]
    to_corners = shapely.distance(farther[:, None], corners[None]).min(axis=1)
    assert (to_corners <= MITRE * by * math.sqrt(2.0) + WITHIN).all()
    # and it goes round the piece (shapely)
    assert Polygon(dense(piece.cut_line, 60)).contains(sewing)


@settings(max_examples=30, deadline=None)
@given(outlines(), st.data())
def test_each_edge_keeps_its_own_allowance_away_from_its_corners(
    edges: dict[str, Floats], data: st.DataObject
) -> None:
    allow = {name: data.draw(st.sampled_from([0.0, 3.0, 6.0, 12.0])) for name in edges}
    piece = _finished(edges, allow)
    points = shapely.points(dense(piece.cut_line, 60))
    lines = [LineString(dense(path, 600)) for path in edges.values()]
    away = np.array([shapely.distance(line, points) for line in lines])
    along = np.array([shapely.line_locate_point(line, points) for line in lines])
    reach = MITRE * max(allow.values())  # of a corner
    for number, name in enumerate(edges):
        inside = (along[number] > reach) & (along[number] < lines[number].length - reach)
        nearest = away[number] <= away.min(axis=0)
        assert (away[number][inside & nearest] >= allow[name] - WITHIN).all()
