"""The drawing of one piece, the same for every backend: lines, marks and label.

In: a finished pattern and one of its pieces. Out: a `Drawing` in the piece's own coordinates, its
elements named after what they are: the sewing line of an edge is "front.side". Nothing fails.

    piece_drawing(pattern, front).elements
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from godet.output.clear_room import SPACING, Room
from godet.output.dart_drawing import dart_lines, dart_side, dart_words
from godet.output.elements import Curve, Drawing, Element, Layer, Line, Words
from godet.output.label import (
    allowance_words,
    cut_words,
    label_lines,
    label_strip,
    piece_title,
)
from godet.output.placing import beside_line, beside_point, block, block_at, block_size
from godet.output.printed import name_words, printed
from godet.output.tracing import box_of, traced, without_empty_cubics
from godet.pattern.pieces import Notch, Pattern, Piece, Point
from godet.pattern.short_lengths import short_length

_ARROW = 5.0  # mm, the sides of an arrow head
_ARROW_SPREAD = math.radians(22)
_BRACKET_DEPTH = 12.0  # mm from the fold; less on a short fold
_NOTCH_APART = 6.0  # mm between the two cuts of a double notch
_NOTCH_INWARD = 5.0  # mm, where the edge has no allowance to cut into
_CROSS = 4.0  # mm, half the width of a mark
_NAME_SIZE = 3.2  # mm, letters of the names of levels and marks
_FOLD_SIZE = 4.0  # mm, letters on the fold bracket
_OUTSIDE_SIZE = 3.0  # mm, letters of a label that has no room inside
_OUTSIDE_GAP = 4.0  # mm below the piece


def piece_drawing(pattern: Pattern, piece: Piece) -> Drawing:
    """Everything that is printed of a piece, its origin where the piece has it."""
    lines = tuple(_lines(piece))
    elements = (*lines, *_names(pattern, piece, lines))
    return Drawing(
        id=piece.name,
        title=piece_title(piece),
        description=f"{cut_words(piece)}. {allowance_words(pattern, piece)}.",
        box=box_of(elements),
        elements=elements,
    )


def _lines(piece: Piece) -> Iterator[Element]:
    cut_line = without_empty_cubics(piece.cut_line)
    yield Curve(f"{piece.name}.cut-line", "cut", cut_line, closed=True)
    for step in piece.outline:
        edge = piece.edges[step.edge]
        layer: Layer = "fold" if edge.on_fold else "sew"
        yield Curve(f"{piece.name}.{edge.name}", layer, without_empty_cubics(edge.path))
    for fold, bracket in _brackets(piece).items():
        yield from _arrow(f"{piece.name}.{fold}-bracket", "fold", bracket)
    yield from _arrow(f"{piece.name}.grain-line", "grain", np.array(piece.grain))
    for level in piece.levels.values():
        ends = np.array([(level.left, level.at), (level.right, level.at)])
        yield Line(f"{piece.name}.level-{level.name}", "level", ends)
    for dart in piece.darts.values():
        yield from dart_lines(piece, dart)
    for notch in piece.notches:
        yield from _notch(piece, notch)
    for mark in piece.marks:
        for way, reach in (("across", (_CROSS, 0.0)), ("down", (0.0, _CROSS))):
            ends = np.array([np.subtract(mark.at, reach), np.add(mark.at, reach)])
            yield Line(f"{piece.name}.mark-{mark.name}-{way}", "mark", ends)


def _names(pattern: Pattern, piece: Piece, lines: tuple[Element, ...]) -> Iterator[Words]:
    """The words on the lines, each clear of what stands already, and last the label."""
    ink = np.concatenate([traced(line, SPACING) for line in lines])
    room = Room(_sewing_line(piece), ink)
    for fold, bracket in _brackets(piece).items():
        ends = (_point(bracket[1]), _point(bracket[2]))
        words, room = beside_line(
            room, f"{piece.name}.{fold}-words", "fold", printed("fold"), *ends, _FOLD_SIZE
        )
        yield words
    for level in piece.levels.values():
        ends = ((level.left, level.at), (level.right, level.at))
        id, text = f"{piece.name}.level-{level.name}-name", name_words(level.name)
        words, room = beside_line(room, id, "level", text, *ends, _NAME_SIZE)
        yield words
    for dart in piece.darts.values():
        id, text = f"{piece.name}.dart-{dart.name}-name", dart_words(dart, pattern)
        words, room = beside_line(room, id, "dart", text, *dart_side(dart), _NAME_SIZE)
        yield words
    for mark in piece.marks:
        id, text = f"{piece.name}.mark-{mark.name}-name", name_words(mark.name)
        words, room = beside_point(room, id, "mark", text, mark.at, _CROSS, _NAME_SIZE)
        yield words
    for edge, text in _sewing_words(pattern, piece):
        middle = traced(Curve("", "sew", piece.edges[edge].path), SPACING)
        start, end = (_point(middle[len(middle) * share // 4]) for share in (1, 3))
        id = f"{piece.name}.{edge}-sewing"
        words, room = beside_line(room, id, "sew", text, start, end, _NAME_SIZE)
        yield words
    words, room = beside_line(
        room, f"{piece.name}.grain-words", "grain", printed("grain"), *piece.grain, _NAME_SIZE
    )
    yield words
    yield from _label(pattern, piece, room)


def _sewing_words(pattern: Pattern, piece: Piece) -> Iterator[tuple[str, str]]:
    """For each edge that a seam gathers or stretches: how much of it to how much."""
    for seam in pattern.seams:
        if not seam.gathers_or_stretches:
            continue
        name = "gather" if seam.manner == "gathered" else "stretch"
        share = seam.lengths_sewn[1] / seam.lengths_sewn[0]
        for owner, _, edge in (part.edge.rpartition(".") for part in seam.sides[0]):
            if owner == piece.name and edge in piece.edges:
                length = piece.edges[edge].length_sewn
                before, after = (short_length(mm, pattern.units) for mm in (length, length * share))
                yield edge, printed(name, length=before, sewn=after)


def _label(pattern: Pattern, piece: Piece, room: Room) -> tuple[Words, ...]:
    id = f"{piece.name}.label"
    broad, strip = label_lines(pattern, piece), label_strip(pattern, piece)
    inside = block(room, id, "label", (broad, strip), room.grid(24, 24))
    if inside is not None:
        return inside
    width, height = block_size(broad, _OUTSIDE_SIZE)
    left, bottom = room.ink[:, 0].min(), room.ink[:, 1].max()
    centre = (float(left) + width / 2, float(bottom) + _OUTSIDE_GAP + height / 2)
    return block_at(id, "label", broad, centre, _OUTSIDE_SIZE)


def _sewing_line(piece: Piece) -> NDArray[np.float64]:
    """The outline as a closed polygon (n, 2)."""
    walked = []
    for step in piece.outline:
        points = traced(Curve("", "sew", piece.edges[step.edge].path), SPACING)
        walked.append(points[::-1] if step.turned else points)
    return np.concatenate(walked)


def _brackets(piece: Piece) -> dict[str, NDArray[np.float64]]:
    """For each edge on the fold, its bracket: from the fold inwards, along it and back (4, 2)."""
    brackets = {}
    for step in piece.outline:
        edge = piece.edges[step.edge]
        if not edge.on_fold:
            continue
        ends = edge.path[0, 0], edge.path[-1, 3]
        start, end = reversed(ends) if step.turned else ends
        along = end - start
        length = math.hypot(*along)
        along = along / length
        # the outline is walked clockwise as printed, so the piece lies on the right
        inward = np.array([-along[1], along[0]])
        depth = min(_BRACKET_DEPTH, length / 6)
        near = start + along * length * 0.12
        far = end - along * length * 0.12
        brackets[edge.name] = np.array(
            [near, near + inward * depth, far + inward * depth, far],
        )
    return brackets


def _arrow(id: str, layer: Layer, points: NDArray[np.float64]) -> Iterator[Line]:
    """A line with a head at each end, as long as the line can carry."""
    yield Line(id, layer, points)
    for name, tip, behind in (("from", points[0], points[1]), ("to", points[-1], points[-2])):
        back = math.atan2(behind[1] - tip[1], behind[0] - tip[0])
        side = min(_ARROW, math.dist(tip, behind) / 3)
        barbs = [
            tip + side * np.array([math.cos(turned), math.sin(turned)])
            for turned in (back - _ARROW_SPREAD, back + _ARROW_SPREAD)
        ]
        yield Line(f"{id}-head-{name}", layer, np.array([barbs[0], tip, barbs[1]]))


def _notch(piece: Piece, notch: Notch) -> Iterator[Line]:
    """One or two cuts square to the edge, from the sewing line out to the cutting line."""
    outward = np.array(notch.outward)
    along = np.array([-outward[1], outward[0]])
    reach = outward * (piece.edges[notch.edge].allowance or -_NOTCH_INWARD)
    offsets = (0.0,) if notch.count == 1 else (-_NOTCH_APART / 2, _NOTCH_APART / 2)
    for number, offset in enumerate(offsets, start=1):
        foot = np.array(notch.at) + along * offset
        id = f"{piece.name}.notch-{notch.edge}-{notch.name}-{number}"
        yield Line(id, "notch", np.array([foot, foot + reach]))


def _point(place: NDArray[np.float64]) -> Point:
    return float(place[0]), float(place[1])
