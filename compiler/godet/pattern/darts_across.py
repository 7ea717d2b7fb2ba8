"""Darts of a piece that lie across each other, so that they can't all be sewn.

In: a piece's lines, its graph and its solved values. Out: the names of the first two whose cloth
overlaps, or None. Darts that only touch, as two that end in one point, do not; one that its edge
was drawn anew without is none of the piece's. Nothing fails.

    darts_across(front, graph, values)   # None
"""

from __future__ import annotations

from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.darts import FIRST, LAST, POINT
from godet.geometry.points import cross
from godet.graph.node import Graph
from godet.graph.taken_up import take_ups
from godet.pattern.crossing_itself import lies_inside
from godet.pattern.pieces import Point
from godet.pattern.solved import BodyValues
from godet.program.program import DartLine, PieceLines

Corners = NDArray[np.float64]  # (n, 2), of the cloth a dart takes up


def darts_across(lines: PieceLines, graph: Graph, values: BodyValues) -> tuple[str, str] | None:
    """The first pair of darts, by name, that share cloth."""
    shapes = {
        name: _corners(values.rows(line.node), line)
        for name, line in sorted(lines.darts.items())
        if _is_sewn(line, lines, graph)
    }
    for first, second in combinations(shapes, 2):
        if _overlap(shapes[first], shapes[second]):
            return first, second
    return None


def _is_sewn(line: DartLine, lines: PieceLines, graph: Graph) -> bool:
    """Whether a dart is sewn to a point, and is on its edge as that is drawn now."""
    if line.manner == "double":
        return True
    edge = lines.edges.get(line.edge or "")
    return line.manner == "dart" and edge is not None and line.node in take_ups(graph, edge.curve)


def _corners(rows: Corners, line: DartLine) -> Corners:
    return rows if line.manner == "double" else rows[[FIRST, POINT, LAST]]


def _overlap(one: Corners, other: Corners) -> bool:
    if _sides_cross(one, other):
        return True
    return lies_inside(one, _middle(other)) or lies_inside(other, _middle(one))


def _middle(corners: Corners) -> Point:
    across, down = corners.mean(axis=0)
    return float(across), float(down)


def _sides_cross(one: Corners, other: Corners) -> bool:
    """Whether a side of the one and a side of the other each have the ends of the other on either
    side."""
    parted = []
    for corners, ends in ((one, other), (other, one)):
        ways = np.roll(corners, -1, axis=0) - corners
        # [i, j]: on which side of side i the corner j lies
        there = np.sign(cross(ways[:, None], ends[None] - corners[:, None]))
        parted.append(there * np.roll(there, -1, axis=1) < 0.0)
    return bool((parted[0] & parted[1].T).any())
