"""The sheet cut into pages: one grid whose pages print on A4 and on US Letter alike.

In: a sheet. Out: its tiles, row by row, each with its name, its place on the sheet and whether it
is blank. Nothing fails.

    tiles(sheet)[0].name  ->  "A1"

A page prints an area of 190 x 259 mm, which both papers hold inside the margin that a printer
leaves. The grid is 10 mm finer both ways, so neighbours share a strip: 5 mm on each side of a
grid line, enough to show the crosses on the grid's corners whole on all four pages.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from godet.output.clear_room import inside
from godet.output.elements import Curve, Drawing, Sheet
from godet.output.tracing import Points, traced

PRINT_WIDTH, PRINT_HEIGHT = 190.0, 259.0  # mm
STRIP = 5.0  # mm that a page shows of each neighbour
ACROSS = PRINT_WIDTH - 2 * STRIP  # mm from one grid line to the next
DOWN = PRINT_HEIGHT - 2 * STRIP

_SPACING = 0.8  # mm between points of ink
_REACH = 0.5  # mm; more than half the spacing, so no line slips past a corner of a tile


@dataclass(frozen=True)
class Tile:
    row: int  # from 0
    column: int  # from 0
    blank: bool  # shows no line and no inside of any piece

    @property
    def name(self) -> str:
        return tile_name(self.row, self.column)

    @property
    def left(self) -> float:
        """Of its grid lines, on the sheet, mm."""
        return self.column * ACROSS

    @property
    def top(self) -> float:
        return self.row * DOWN


def tile_name(row: int, column: int) -> str:
    """Letter of the row and number of the column: A1, B3, AA1 after Z."""
    letters = ""
    rest = row + 1
    while rest:
        rest, letter = divmod(rest - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return f"{letters}{column + 1}"


def tiles(sheet: Sheet) -> tuple[Tile, ...]:
    """Every tile of the grid that covers the sheet, blank ones included."""
    rows, columns = math.ceil(sheet.height / DOWN), math.ceil(sheet.width / ACROSS)
    used = np.zeros((rows, columns), dtype=np.bool_)
    for drawing in sheet.drawings:
        for element in drawing.elements:
            ink = traced(element, _SPACING) + np.array(drawing.at)
            _mark_ink(used, ink)
        used |= _covered(drawing, rows, columns)
    return tuple(
        Tile(row, column, not used[row, column]) for row in range(rows) for column in range(columns)
    )


def _mark_ink(used: NDArray[np.bool_], ink: Points) -> None:
    for reach_across in (-_REACH, _REACH):
        for reach_down in (-_REACH, _REACH):
            column = np.floor((ink[:, 0] + reach_across) / ACROSS).astype(int)
            row = np.floor((ink[:, 1] + reach_down) / DOWN).astype(int)
            used[row.clip(0, used.shape[0] - 1), column.clip(0, used.shape[1] - 1)] = True


def _covered(drawing: Drawing, rows: int, columns: int) -> NDArray[np.bool_]:
    """Tiles whose middle lies inside a piece: without lines they are still paper to cut."""
    middles = np.array(
        [
            ((column + 0.5) * ACROSS, (row + 0.5) * DOWN)
            for row in range(rows)
            for column in range(columns)
        ]
    )
    covered = np.zeros(rows * columns, dtype=np.bool_)
    for element in drawing.elements:
        if isinstance(element, Curve) and element.layer == "cut":
            outline = traced(element, _SPACING) + np.array(drawing.at)
            covered |= inside(outline, middles)
    return covered.reshape(rows, columns)
