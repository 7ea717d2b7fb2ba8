"""The darts of a finished piece, and what else is taken up on its edges.

In: the lines of a piece's darts, its solved values, and the paths of its edges. Out: `Dart`s by
name, and the notches at their mouths. A dart of the base whose edge was drawn anew without it is
left out. Nothing fails.

    finished_darts(front, values, paths)["bust_dart"].tips
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from godet.geometry.angles import direction_on
from godet.geometry.darts import CAP, FIRST, LAST, PIVOT, POINT
from godet.geometry.darts import angle as angle_of
from godet.geometry.darts import width as width_of
from godet.geometry.locating import closest_place, locate
from godet.geometry.points import turned_quarter, unit
from godet.pattern.paths import length, part
from godet.pattern.pieces import Dart, Notch, Path, Point
from godet.pattern.sewn_edges import Rows, SewnEdge
from godet.pattern.solved import BodyValues
from godet.program.program import DartLine, PieceLines

_ON_EDGE = 1e-6  # mm


def finished_darts(
    lines: PieceLines, values: BodyValues, paths: Mapping[str, Path]
) -> dict[str, Dart]:
    """The darts that are in the piece, by name."""
    found = {}
    for name, line in sorted(lines.darts.items()):
        dart = _dart(name, line, values.rows(line.node), paths)
        if dart is None:
            continue
        sewn_for = values.number(line.sewn_for) if line.sewn_for is not None else None
        found[name] = replace(dart, sewn_for=sewn_for)
    return found


def _dart(name: str, line: DartLine, rows: Rows, paths: Mapping[str, Path]) -> Dart | None:
    if line.manner == "double":
        one, upper, other, lower = (_point(row) for row in rows)
        return Dart(
            name, line.manner, None, one, other, None, (upper, lower), None, _width(rows), None
        )
    evenly = line.manner in ("gathers", "ease")
    first, last = (rows[0], rows[1]) if evenly else (rows[FIRST], rows[LAST])
    edge = next((n for n, path in sorted(paths.items()) if _lies_on(path, first, last)), None)
    if edge is None:
        return None
    if evenly:
        whole = part(paths[edge], *sorted((_at(paths[edge], first), _at(paths[edge], last))))
        straight = np.hypot(*(rows[1] - rows[0]))
        taken = length(whole) * float(np.hypot(*(rows[2] - rows[0])) / straight)
        return Dart(
            name, line.manner, edge, _point(first), _point(last), None, (), None, taken, None
        )
    return Dart(
        name,
        line.manner,
        edge,
        _point(first),
        _point(last),
        _point(rows[CAP]),
        (_point(rows[POINT]),),
        _point(rows[PIVOT]),
        _width(rows),
        float(angle_of(rows[None])[0]),
    )


def dart_notches(dart: Dart, edge: SewnEdge) -> Iterator[Notch]:
    """A notch at either end of a mouth, and of a stretch that is gathered, on its edge."""
    assert dart.edge is not None
    for name, end in (("first", dart.first), ("last", dart.last)):
        along = edge.distance_to(end)
        assert along is not None  # the ends of its mouth are on the edge as sewn
        outward = _outward(dart, end, edge.path)
        yield Notch(dart.edge, f"{dart.name}_{name}", end, outward, count=1, along=along)


def _outward(dart: Dart, end: Point, path: Path) -> Point:
    """On along the leg of a dart; square to an edge that is gathered, the piece's side unknown."""
    if dart.tips:
        return _point(unit(np.subtract(end, dart.tips[0])))
    curve = path[None]
    way = direction_on(curve, closest_place(curve, np.array([end]))).value
    return _point(turned_quarter(way)[0])


def _lies_on(path: Path, *points: NDArray[np.float64]) -> bool:
    return all(float(locate(path[None], point[None])[1][0]) <= _ON_EDGE for point in points)


def _at(path: Path, point: NDArray[np.float64]) -> float:
    return float(locate(path[None], point[None])[0][0])


def _width(rows: Rows) -> float:
    return float(width_of(rows[None])[0])


def _point(row: NDArray[np.float64]) -> Point:
    return float(row[0]), float(row[1])
