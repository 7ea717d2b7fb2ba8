"""The pages of a tiled print: first a map, then one page for each tile that is not blank.

In: a finished pattern. Out: pages, each a list of drawings placed in mm from the upper left corner
of the print area (190 x 259 mm, see `tiles`). Nothing fails.

    tile_pages(pattern)[0].name  ->  "map"
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from godet.output.elements import Drawing, Sheet
from godet.output.overview import overview
from godet.output.sheet import arranged
from godet.output.tile_frame import tile_frame
from godet.output.tiles import PRINT_HEIGHT, PRINT_WIDTH, STRIP, Tile, tiles
from godet.pattern.pieces import Pattern


@dataclass(frozen=True)
class Page:
    name: str
    drawings: tuple[Drawing, ...]


def tile_pages(pattern: Pattern) -> tuple[Page, ...]:
    """The map and the tiles, row by row."""
    sheet = arranged(pattern)
    grid = tiles(sheet)
    printed_names = frozenset(tile.name for tile in grid if not tile.blank)
    pages = [Page("map", (overview(pattern, sheet, grid),))]
    for tile in grid:
        if not tile.blank:
            shown = tuple(_shown(sheet, tile))
            frame = tile_frame(pattern, tile, shown, printed_names)
            pages.append(Page(tile.name, (*shown, frame)))
    return tuple(pages)


def _shown(sheet: Sheet, tile: Tile) -> Iterator[Drawing]:
    """The drawings that reach into the tile's print area, moved to it."""
    left, top = tile.left - STRIP, tile.top - STRIP
    for drawing in sheet.drawings:
        at = (drawing.at[0] - left, drawing.at[1] - top)
        box = drawing.box
        if (
            at[0] + box.right >= 0
            and at[0] + box.left <= PRINT_WIDTH
            and at[1] + box.bottom >= 0
            and at[1] + box.top <= PRINT_HEIGHT
        ):
            yield replace(drawing, at=at)
