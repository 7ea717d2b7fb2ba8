"""The bodies that a cell is tried on.

In: a cell. Out: women of EN 13402-3 (to a bust of 122 cm) and of ASTM D5585, women of bdims; on
dartless tops children of 92 to 164 cm and men of bdims too. `few` takes a handful
of bdims. Nothing fails.

    everybody(Cell("shift_dress", "knit_tee"))
"""

from __future__ import annotations

from collections.abc import Sequence

import women
from cells import Cell

from godet.orders.records import Body


def standard_women() -> list[Body]:
    return [*women.en_women(), *women.astm_women()]


def children() -> list[Body]:
    return [c for c in women.children() if 92 <= c.measures["height"].value / 10 <= 164]


def everybody(cell: Cell) -> list[Body]:
    return _with(cell, standard_women(), women.bdims_women(), children(), women.bdims_men())


def few(cell: Cell) -> list[Body]:
    return _with(
        cell,
        standard_women(),
        women.bdims_women()[5::37],
        children()[::3],
        women.bdims_men()[5::37],
    )


def six(cell: Cell) -> list[Body]:
    """The smallest, a middle and the largest woman of the tables, and three that are odd."""
    table = sorted(standard_women(), key=lambda woman: woman.measures["bust_girth"].value)
    people = women.bdims_women()

    def shape(woman: Body) -> float:
        return woman.measures["hip_girth"].value - woman.measures["bust_girth"].value

    def waist(woman: Body) -> float:
        return woman.measures["waist_girth"].value - woman.measures["hip_girth"].value

    odd = [min(people, key=shape), max(people, key=shape), min(people, key=waist)]
    return [table[0], table[len(table) // 2], table[-1], *odd]


def _with(
    cell: Cell,
    table: Sequence[Body],
    people: Sequence[Body],
    small: Sequence[Body],
    men: Sequence[Body],
) -> list[Body]:
    if "blouse" in cell.upper:
        return [*table, *people]
    return [*table, *people, *small, *men]
