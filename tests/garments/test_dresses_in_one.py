"""Dresses without a waist seam, and what is made of them, under every pair of choices."""

from __future__ import annotations

import pytest
from cells import DRAFTED, Cell
from rules import broken
from trials import compiled, tried
from wearers import few

CELLS = [cell for cell in DRAFTED if cell.skirt is None]


@pytest.mark.parametrize("cell", CELLS, ids=lambda cell: cell.name)
def test_it_is_compiled_without_a_word_and_breaks_no_rule(cell: Cell):
    assert compiled(cell.dress, tuple(cell.blocks.items())).problems == ()
    assert list(broken(tried(cell, few(cell)))) == []
