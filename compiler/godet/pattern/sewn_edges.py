"""An edge walked as it is sewn: darts closed, gathers drawn up.

In: the path of an edge, and what is taken up on it, as the solver gives both. Out: how far along it
a point lies, and the point so far along it, in mm from its first end. Nothing fails: a point in the
mouth of a dart lies at no distance.

    SewnEdge(path, (dart,)).distance_to((240.0, 410.0))  # None in the dart's mouth
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from godet.geometry.guards import Guarded
from godet.geometry.locating import locate
from godet.geometry.sewn import along_as_sewn, length_as_sewn, reached_as_sewn
from godet.graph.node import Graph
from godet.pattern.pieces import Path, Point
from godet.pattern.solved import BodyValues
from godet.program.program import EdgeLine

Rows = NDArray[np.float64]  # (rows, 2): the points of a dart or of gathers


@dataclass(frozen=True)
class SewnEdge:
    path: Path
    taken_up: tuple[Rows, ...] = ()

    @cached_property
    def length(self) -> float:
        """Its length as sewn."""
        found = length_as_sewn(self.path[None], *self._taken)
        return float((found.value if isinstance(found, Guarded) else found)[0])

    def distance_to(self, point: Point) -> float | None:
        """How far along the edge the point on it lies; None in the mouth of a dart."""
        found = reached_as_sewn(self.path[None], np.array([point]), *self._taken)
        in_mouth = any(bool(breach.failed[0]) for breach in found.breaches)
        return None if in_mouth else float(found.value[0])

    def away(self, point: Point) -> float:
        """How far from the edge a point lies."""
        return float(locate(self.path[None], np.array([point]))[1][0])

    def point_at(self, distance: float) -> Point:
        """The point so far along the edge; at a dart the nearer end of its mouth."""
        reach = np.array([min(max(distance, 0.0), self.length)])
        found = along_as_sewn(self.path[None], self.path[None, 0, 0], reach, *self._taken)
        across, down = found.value[0]
        return float(across), float(down)

    @property
    def _taken(self) -> tuple[NDArray[np.float64], ...]:
        return tuple(rows[None] for rows in self.taken_up)


def sewn_edge(line: EdgeLine, path: Path, graph: Graph, values: BodyValues) -> SewnEdge:
    """The edge of a linked draft."""
    return SewnEdge(path, tuple(values.rows(node) for node in taken_up(line, graph)))


def taken_up(line: EdgeLine, graph: Graph) -> tuple[int, ...]:
    """The nodes of what is taken up on a linked edge."""
    return graph[line.sewn].inputs[1:] if line.sewn is not None else ()
