"""The outline of a piece: its edges chained by their shared ends into one closed walk.

In: the edges' paths by name, and the edge to begin with. Out: the steps of the walk, clockwise as
printed (across to the right, down downwards), or the `Break` that keeps it from closing: an end
that meets no other, or an edge that the closed walk leaves over.

    chained({"top": top, "side": side, "bottom": bottom, "centre": centre}, "centre")
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from godet.geometry.areas import signed_area
from godet.pattern.paths import closed, turned
from godet.pattern.pieces import OutlineStep, Path, Point

MEETING = 1e-3  # mm: ends no farther apart than this are one


@dataclass(frozen=True, slots=True)
class Break:
    code: Literal["outline-open", "edge-left-over"]
    edge: str
    other: str  # the edge whose end comes nearest
    gap: float  # mm between the two


def chained(edges: Mapping[str, Path], first: str) -> tuple[OutlineStep, ...] | Break:
    """The walk from `first`, each edge turned as needed; no path may be empty."""
    steps = [OutlineStep(first, turned=False)]
    start, at = _start(edges[first]), _end(edges[first])
    unused = {name: path for name, path in edges.items() if name != first}
    while math.dist(at, start) > MEETING:
        gap, step = _nearest(at, unused)
        if gap > MEETING:
            home = math.dist(at, start)
            other = first if home < gap else step.edge
            return Break("outline-open", steps[-1].edge, other, min(gap, home))
        path = unused.pop(step.edge)
        at = _start(path) if step.turned else _end(path)
        steps.append(step)
    if unused:
        return _left_over(edges, min(unused))
    walk = tuple(steps)
    if signed_area(closed(walked(edges, walk))[None])[0] > 0.0:
        return walk
    return tuple(OutlineStep(step.edge, not step.turned) for step in (walk[0], *reversed(walk[1:])))


def walked(edges: Mapping[str, Path], walk: tuple[OutlineStep, ...]) -> tuple[Path, ...]:
    """The path of each step, in the direction of the walk."""
    return tuple(turned(edges[s.edge]) if s.turned else edges[s.edge] for s in walk)


def _left_over(edges: Mapping[str, Path], edge: str) -> Break:
    others = {name: path for name, path in edges.items() if name != edge}
    gap, step = min(
        (_nearest(end, others) for end in (_start(edges[edge]), _end(edges[edge]))),
        key=lambda found: found[0],
    )
    return Break("edge-left-over", edge, step.edge, gap)


def _nearest(at: Point, edges: Mapping[str, Path]) -> tuple[float, OutlineStep]:
    """The edge with an end closest to a point, so turned that it starts there; the first by name
    of equally close ones. Infinitely far when there is no edge."""

    def candidates() -> Iterator[tuple[float, str, bool]]:
        for name, path in edges.items():
            yield math.dist(at, _start(path)), name, False
            yield math.dist(at, _end(path)), name, True

    gap, name, is_turned = min(candidates(), default=(math.inf, "", False))
    return gap, OutlineStep(name, is_turned)


def _start(path: Path) -> Point:
    return float(path[0, 0, 0]), float(path[0, 0, 1])


def _end(path: Path) -> Point:
    return float(path[-1, 3, 0]), float(path[-1, 3, 1])
