"""What a tile carries beside the pattern: its lines to cut and join, crosses, and its label.

In: a finished pattern, a tile, the drawings it shows and the names of the tiles that are printed.
Out: a `Drawing` in mm from the upper left corner of the print area. Nothing fails.

    tile_frame(pattern, tile, shown, frozenset({"A1", "A2"}))
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from godet.output.clear_room import SPACING, Room
from godet.output.decimals import decimal_text
from godet.output.elements import Drawing, Element, Line, Words
from godet.output.label import failed_checks, stamp, wrapped
from godet.output.lettering import printable, text_width
from godet.output.placing import beside_line, block, block_at, block_size
from godet.output.printed import printed
from godet.output.tiles import ACROSS, DOWN, PRINT_HEIGHT, PRINT_WIDTH, STRIP, Tile, tile_name
from godet.output.tracing import LETTER_BOX, Points, baseline_at, box_of, traced
from godet.pattern.pieces import Pattern, Point

_CROSS = 4.5  # mm, half the width of a cross; less than the strip, so it is whole on every page
_DIAMOND = 1.5  # mm, half the width of the diamond on it
_NUMBER_SIZE = 1.9  # mm, letters of a cross's numbers
_NUMBER_CLEAR = 0.6  # mm kept round them
_NUMBER_PLACES = [(11, 2.6), (11, 5.5), (20, 2.6), (20, 5.5), (30, 2.6), (9, 9), (9, 16), (20, 20)]
_JOIN_SIZE = 2.4  # mm, letters along the grid lines
_LABEL_SIZES = (3.0, 2.6, 2.2)  # mm
_LABEL_INSET = 6.0  # mm from the grid lines
_LEFT, _TOP = STRIP, STRIP
_RIGHT, _BOTTOM = PRINT_WIDTH - STRIP, PRINT_HEIGHT - STRIP


def tile_frame(
    pattern: Pattern, tile: Tile, shown: Sequence[Drawing], printed_names: frozenset[str]
) -> Drawing:
    """The tile's own lines and words, its words clear of the pattern's lines where they can be."""
    placed = [traced(element, SPACING) + at for at, element in _placed(shown)]
    lines = [*_grid_lines(tile), *_crosses(tile)]
    ink = _on_page(np.concatenate([*placed, *(traced(line, SPACING) for line in lines)]))
    numbers = list(_numbers(tile, ink))
    ink = np.concatenate([ink, *(traced(words, SPACING) for words in numbers)])
    frame: list[Element] = [*lines, *numbers]
    frame += _joins(tile, printed_names, ink)
    frame += _label(pattern, tile, ink)
    return Drawing(f"tile-{tile.name}", tile.name, printed("page"), box_of(frame), tuple(frame))


def _on_page(ink: Points) -> Points:
    kept: Points = ink[((ink >= 0) & (ink <= (PRINT_WIDTH, PRINT_HEIGHT))).all(axis=1)]
    return kept


def _placed(shown: Sequence[Drawing]) -> Iterator[tuple[Points, Element]]:
    for drawing in shown:
        for element in drawing.elements:
            yield np.array(drawing.at), element


def _grid_lines(tile: Tile) -> Iterator[Line]:
    """Dotted where another page is laid on, solid where this one is cut."""
    corners = np.array([(_LEFT, _BOTTOM), (_LEFT, _TOP), (_RIGHT, _TOP)])
    yield Line(f"{tile.name}.join-line", "tile", corners, dotted=True)
    corners = np.array([(_RIGHT, _TOP), (_RIGHT, _BOTTOM), (_LEFT, _BOTTOM)])
    yield Line(f"{tile.name}.cut-line", "tile", corners)


def _crosses(tile: Tile) -> Iterator[Line]:
    """A cross with a diamond on each corner of the tile."""
    for across, down, place in _corners():
        id, middle = f"{tile.name}.cross-{across}{down}", np.array(place)
        for name, reach in (("across", (_CROSS, 0.0)), ("down", (0.0, _CROSS))):
            yield Line(f"{id}-{name}", "tile", np.array([middle - reach, middle + reach]))
        diamond = np.array([(1, 0), (0, 1), (-1, 0), (0, -1), (1, 0)]) * _DIAMOND
        yield Line(f"{id}-diamond", "tile", middle + diamond)


def _numbers(tile: Tile, ink: Points) -> Iterator[Words]:
    """Beside each cross, within the tile, its place on the sheet in mm.

    The numbers count from the sheet's corner, never from the neighbour, so that a page laid a
    little wrong is seen at once and its error is not handed on.
    """
    room = Room(_box(_LEFT, _TOP, _RIGHT, _BOTTOM), ink)
    for across, down, place in _corners():
        text = printed(
            "corner",
            across=decimal_text(tile.left + across * ACROSS, 0),
            down=decimal_text(tile.top + down * DOWN, 0),
        )
        inward = np.array((1 - 2 * across, 1 - 2 * down))
        centres = np.array(place) + inward * np.array(_NUMBER_PLACES)
        box = text_width(text, _NUMBER_SIZE), LETTER_BOX * _NUMBER_SIZE
        clear = np.flatnonzero(room.clearances(centres, *box, 0.0) >= _NUMBER_CLEAR)
        x, y = centres[clear[0] if len(clear) else 0]
        at = baseline_at((float(x), float(y)), 0.0, 0.0, _NUMBER_SIZE, 0.0)
        id = f"{tile.name}.cross-{across}{down}-numbers"
        yield Words(id, "tile", text, at, _NUMBER_SIZE)


def _corners() -> Iterator[tuple[int, int, Point]]:
    for down, y in enumerate((_TOP, _BOTTOM)):
        for across, x in enumerate((_LEFT, _RIGHT)):
            yield across, down, (x, y)


def _joins(tile: Tile, printed_names: frozenset[str], ink: Points) -> Iterator[Words]:
    """In the strip beyond each grid line: which page joins there, if one is printed."""
    row, column = tile.row, tile.column
    sides: tuple[tuple[str, int, int, Point, Point, Points], ...] = (
        ("join-here", row, column - 1, (_LEFT, _BOTTOM), (_LEFT, _TOP), _box(0, _TOP, _LEFT)),
        ("join-here", row - 1, column, (_LEFT, _TOP), (_RIGHT, _TOP), _box(_LEFT, 0, None, _TOP)),
        ("cut-here", row, column + 1, (_RIGHT, _BOTTOM), (_RIGHT, _TOP), _box(_RIGHT, _TOP)),
        ("cut-here", row + 1, column, (_LEFT, _BOTTOM), (_RIGHT, _BOTTOM), _box(_LEFT, _BOTTOM)),
    )
    for says, other_row, other_column, start, end, strip in sides:
        name = tile_name(other_row, other_column)
        if other_row >= 0 and other_column >= 0 and name in printed_names:
            words, _ = beside_line(
                Room(strip, ink),
                f"{tile.name}.beside-{name}",
                "tile",
                printed(says, name=name),
                start,
                end,
                _JOIN_SIZE,
            )
            yield words


def _label(pattern: Pattern, tile: Tile, ink: Points) -> Iterator[Element]:
    """Name, title, body and date, at the upper left if it is clear there, else where it is."""
    id = f"{tile.name}.label"
    lines = (
        tile.name,
        printable(pattern.title),
        printed("body", body=pattern.body),
        stamp(pattern),
        printed("page"),
        *wrapped(failed_checks(pattern)),
    )
    room = Room(_box(_LEFT, _TOP, _RIGHT, _BOTTOM), ink)
    words = None
    for size in _LABEL_SIZES:
        width, height = block_size(lines, size)
        corner = (_LEFT + _LABEL_INSET + width / 2, _TOP + _LABEL_INSET + height / 2)
        for centres in (np.array([corner]), room.grid(16, 20)):
            words = words or block(room, id, "tile", [lines], centres, turns=(0.0,), sizes=(size,))
    yield from words or block_at(id, "tile", lines, corner, size)


def _box(
    left: float, top: float, right: float | None = None, bottom: float | None = None
) -> Points:
    """A box's corners (4, 2); it reaches to the edge of the print area where nothing is said."""
    right = PRINT_WIDTH if right is None else right
    bottom = PRINT_HEIGHT if bottom is None else bottom
    return np.array([(left, top), (right, top), (right, bottom), (left, bottom)], dtype=np.float64)
