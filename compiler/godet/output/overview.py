"""The first page of a tiled print: how to print and join it, the 10 cm square, the map of pages.

In: a finished pattern, its sheet and its tiles. Out: a `Drawing` in mm from the upper left corner
of the print area. Nothing fails.

    overview(pattern, sheet, tiles(sheet))
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from godet.output.elements import Box, Drawing, Sheet, Words
from godet.output.label import estimates, failed_checks, stamp, wrapped
from godet.output.lettering import LINE_HEIGHT, printable
from godet.output.placing import block_at, block_size
from godet.output.printed import printed
from godet.output.scale_square import SIDE, square_lines
from godet.output.tile_map import tile_map
from godet.output.tiles import PRINT_HEIGHT, PRINT_WIDTH, Tile
from godet.output.tracing import box_of
from godet.pattern.pieces import Pattern, Point

_HEADING = 4.0  # mm, letters
_SIZE = 2.8  # mm, letters of the instructions
_INSTRUCTION_LINES = 27  # beside the square
_GAP = 6.0  # mm between the parts of the page
_INSET = 1.0  # mm kept from the edge of the print area


def overview(pattern: Pattern, sheet: Sheet, grid: Sequence[Tile]) -> Drawing:
    """The page's elements, from the top: heading, square and instructions, map."""
    heading = (
        printable(pattern.title),
        printed("body", body=pattern.body),
        stamp(pattern),
        _pages(grid),
    )
    # a long title takes smaller letters rather than leave the page
    size = _HEADING * min(1.0, (PRINT_WIDTH - 2 * _INSET) / block_size(heading, _HEADING)[0])
    width, height = block_size(heading, size)
    top = height + _GAP
    map_top = top + SIDE + _GAP
    elements = [
        *block_at("map.heading", "tile", heading, (_INSET + width / 2, height / 2), size),
        *square_lines("map.test-square", "test-square", (_INSET, top)),
        *_instructions(pattern, grid, (_INSET + SIDE + _GAP, top)),
        *tile_map(sheet, grid, Box(_INSET, map_top, PRINT_WIDTH - _INSET, PRINT_HEIGHT - _INSET)),
    ]
    return Drawing("map", sheet.title, printed("page"), box_of(elements), tuple(elements))


def _pages(grid: Sequence[Tile]) -> str:
    full = [tile for tile in grid if not tile.blank]
    if len(full) == 1:
        return printed("one-page", name=full[0].name)
    return printed("pages", pages=len(full), first=grid[0].name, last=grid[-1].name)


def _instructions(pattern: Pattern, grid: Sequence[Tile], at: Point) -> Iterator[Words]:
    says = [printed("how-print"), printed("how-measure"), printed("how-cut"), printed("how-join")]
    says.append(printed("how-blank" if any(tile.blank for tile in grid) else "no-blank"))
    says += [*failed_checks(pattern), *estimates(pattern)]
    # a blank line after each sentence
    lines = [line for sentence in says for line in (*wrapped([sentence]), "")][:-1]
    if len(lines) > _INSTRUCTION_LINES:
        left_over = len([line for line in lines[_INSTRUCTION_LINES - 1 :] if line])
        lines = [*lines[: _INSTRUCTION_LINES - 1], printed("more", count=left_over)]
    for number, line in enumerate(lines):
        down = at[1] + _SIZE * (0.75 + LINE_HEIGHT * number)
        if line:
            yield Words(f"map.how-{number}", "tile", line, (at[0], down), _SIZE, "start")
