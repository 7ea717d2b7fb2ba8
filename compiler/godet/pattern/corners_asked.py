"""The corners of the cutting line of which a recipe says what shape they have.

In: what the piece says, by edge; the steps of its outline with their paths; the solved values. Out:
for each line that says something an `Asked`, a `Missing` where no edge of the line has a corner
there, or a `Twice` where both edges that meet there are asked. Lines of a base whose edge was
replaced are passed over. Nothing fails.

    asked_corners(lines.corners, walk, walked(paths, walk), values)
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from godet.base.places import Place
from godet.pattern.cut_lines import CornerShape
from godet.pattern.moving_out import smooth_parts
from godet.pattern.outline import MEETING
from godet.pattern.pieces import OutlineStep, Path, Point
from godet.pattern.solved import BodyValues
from godet.program.program import CornerLine

_OF_ONE = ("square", "folded")  # shapes in which one edge comes first


@dataclass(frozen=True, slots=True)
class Asked:
    shape: CornerShape
    place: Place


@dataclass(frozen=True, slots=True)
class Missing:
    edge: str
    distance: float  # mm to its nearest corner
    place: Place


@dataclass(frozen=True, slots=True)
class Twice:
    edge: str
    other: str
    place: Place


def asked_corners(
    corners: Mapping[str, tuple[CornerLine, ...]],
    walk: Sequence[OutlineStep],
    paths: Sequence[Path],
    values: BodyValues,
) -> tuple[Asked | Missing | Twice, ...]:
    """What is asked, in the order of the places that say so."""
    found: list[Asked | Missing | Twice] = []
    for line, edges in _by_line(corners, walk):
        at = values.point(line.at)
        distances = {edge: _to_corner(at, paths[edge]) for edge in edges}
        there = [edge for edge in edges if distances[edge] <= MEETING]
        nearest = min(edges, key=lambda edge: distances[edge])
        if not there:
            if not line.inherited:
                found.append(Missing(walk[nearest].edge, distances[nearest], line.place))
            continue
        same = [f for f in found if isinstance(f, Asked) and math.dist(f.shape.at, at) <= MEETING]
        if same:
            other = walk[same[0].shape.edge].edge
            found.append(Twice(walk[there[0]].edge, other, line.place))
        elif len(there) > 1 and line.shape in _OF_ONE:
            found.append(Twice(walk[there[0]].edge, walk[there[1]].edge, line.place))
        else:
            found.append(Asked(CornerShape(there[0], at, line.shape), line.place))
    return tuple(found)


def _by_line(
    corners: Mapping[str, tuple[CornerLine, ...]], walk: Sequence[OutlineStep]
) -> Iterator[tuple[CornerLine, list[int]]]:
    """Each line with the steps of the walk that it is said of."""
    said: dict[CornerLine, list[int]] = {}
    for number, step in enumerate(walk):
        for line in corners.get(step.edge, ()):
            said.setdefault(line, []).append(number)
    yield from sorted(said.items(), key=lambda item: item[0].place)


def _to_corner(at: Point, path: Path) -> float:
    parts = smooth_parts(path)
    ends = [path[0, 0], *(part[-1, 3] for part in parts)]
    return min(math.dist(at, end) for end in ends)
