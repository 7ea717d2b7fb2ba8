"""A hundredth of the table of every dress under every set of choices, made again."""

from __future__ import annotations

import random

import pytest
from product_table import PAGE, WHOLE, Line, lines_of, page, read
from trials import whole_product

LINES = read()
_PICKED = random.Random(1).sample(LINES, len(LINES) // 100)


def test_the_table_has_every_set_of_choices_of_every_dress():
    assert [(line.cell, line.choices) for line in LINES] == [
        (cell.name, " ".join([choosing.cloth, *choosing.words.values()]))
        for cell in WHOLE
        for choosing in whole_product(cell)
    ]


@pytest.mark.parametrize("line", _PICKED, ids=lambda line: f"{line.cell}: {line.choices}")
def test_a_set_of_choices_drafts_and_refuses_as_many_as_before(line: Line):
    # after a change to a recipe: pytest -m long tests/long
    (cell,) = (cell for cell in WHOLE if cell.name == line.cell)
    found = (
        choosing
        for choosing in whole_product(cell)
        if " ".join([choosing.cloth, *choosing.words.values()]) == line.choices
    )
    (made,) = lines_of(cell, found)
    assert made.broken == ()
    assert made == line


def test_the_page_holds_the_sums_of_the_table():
    assert PAGE.read_text(encoding="utf-8") == page(LINES)
