"""The map of a tiled print: every page of the grid in small, with the pieces that lie on it.

In: a sheet, its tiles and the box to fill. Out: elements. Nothing fails.

    tile_map(sheet, tiles(sheet), Box(0, 150, 190, 259))
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from godet.output.clear_room import Room
from godet.output.elements import Box, Curve, Drawing, Element, Line, Sheet, Words
from godet.output.lettering import text_width
from godet.output.tiles import ACROSS, DOWN, Tile
from godet.output.tracing import LETTER_BOX, Points, baseline_at, traced

_NAME_SIZE = 2.6  # mm, letters of the names of pages and pieces; less on a small map
_NAME_SHARE = 0.3  # of the width of a page on the map, at most
_CLEAR = 0.5  # mm kept round a name
_PLACES = (13, 17)  # places tried for a name, across and down
_SPACING = 0.5  # mm between points of ink


def tile_map(sheet: Sheet, grid: Sequence[Tile], box: Box) -> Iterator[Element]:
    """The grid and the pieces as large as the box allows; a blank page is crossed out."""
    columns, rows = grid[-1].column + 1, grid[-1].row + 1
    scale = min(box.width / (columns * ACROSS), box.height / (rows * DOWN))
    size = min(_NAME_SIZE, scale * ACROSS * _NAME_SHARE)
    origin = np.array((box.left, box.top))
    outlines = [
        (drawing, line) for drawing in sheet.drawings for line in _outline(drawing, origin, scale)
    ]
    pages = [line for tile in grid for line in _page(tile, origin, scale)]
    lines = [*pages, *(outline for _, outline in outlines)]
    yield from lines
    ink = np.concatenate([traced(line, _SPACING) for line in lines])
    for tile in grid:
        corner = origin + np.array((tile.left, tile.top)) * scale
        page = corner + np.array([(0, 0), (ACROSS, 0), (ACROSS, DOWN), (0, DOWN)]) * scale
        words = _name(f"map.{tile.name}-name", (tile.name,), Room(page, ink), size)
        ink = np.concatenate([ink, traced(words, _SPACING)])
        yield words
    for drawing, outline in outlines:
        if isinstance(outline, Curve):
            texts = (drawing.title, drawing.title.split(" ")[0])
            room = Room(traced(outline, _SPACING), ink)
            words = _name(f"map.{drawing.id}-name", texts, room, size, amid=True)
            ink = np.concatenate([ink, traced(words, _SPACING)])
            yield words


def _page(tile: Tile, origin: Points, scale: float) -> Iterator[Line]:
    left, top = origin + np.array((tile.left, tile.top)) * scale
    right, bottom = left + ACROSS * scale, top + DOWN * scale
    id = f"map.{tile.name}"
    corners = [(left, top), (right, top), (right, bottom), (left, bottom), (left, top)]
    yield Line(id, "tile", np.array(corners), dotted=True)
    if tile.blank:
        yield Line(f"{id}-blank-falling", "tile", np.array([(left, top), (right, bottom)]))
        yield Line(f"{id}-blank-rising", "tile", np.array([(left, bottom), (right, top)]))


def _outline(drawing: Drawing, origin: Points, scale: float) -> Iterator[Curve | Line]:
    """The cutting line of a piece, or the sides of the test square."""
    for element in drawing.elements:
        at = np.array(drawing.at)
        if isinstance(element, Curve) and element.layer == "cut":
            path = origin + (element.path + at) * scale
            yield Curve(f"map.{element.id}", "tile", path, closed=True)
        elif isinstance(element, Line) and element.layer == "test-square":
            yield Line(f"map.{element.id}", "tile", origin + (element.points + at) * scale)


def _name(id: str, texts: Sequence[str], room: Room, size: float, amid: bool = False) -> Words:
    """The first of the texts that finds clear room, else the last.

    It stands at the first clear place from the upper left, or, bold, `amid` the lines about it.
    """
    centres = room.grid(*_PLACES)
    for text in texts:
        box = text_width(text, size, bold=amid), LETTER_BOX * size
        clearances = room.clearances(centres, *box, 0.0)
        clear = np.flatnonzero(clearances >= _CLEAR)
        if len(clear):
            break
    chosen = int(clearances.argmax()) if amid or not len(clear) else int(clear[0])
    across, down = centres[chosen]
    at = baseline_at((float(across), float(down)), 0.0, 0.0, size, 0.0)
    return Words(id, "tile", text, at, size, bold=amid)
