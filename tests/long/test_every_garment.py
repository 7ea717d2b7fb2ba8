"""Every dress under every set of choices, and every pair of them on every body: for many minutes.

pytest -m long tests/long -s
"""

from __future__ import annotations

import pytest
from cells import DRAFTED, Cell
from product_table import PAGE, every_line, page, read, written
from rules import broken
from trials import choosings, tried
from wearers import everybody


@pytest.mark.long
def test_every_garment_keeps_the_rules_whatever_is_chosen():
    lines = []
    for line in every_line():
        if not lines or lines[-1].cell != line.cell:
            print(line.cell)
        lines.append(line)
    written(lines)
    PAGE.write_text(page(read()), encoding="utf-8")
    assert [words for line in lines for words in line.broken] == []


@pytest.mark.long
@pytest.mark.parametrize("cell", DRAFTED, ids=lambda cell: cell.name)
def test_every_pair_of_choices_keeps_the_rules_on_everybody(cell: Cell):
    people = everybody(cell)
    for chosen in choosings(cell):
        assert list(broken(tried(cell, people, [chosen]))) == []
