"""Every dress on every top, with every skirt: drafted, or refused with the reason that is true."""

from __future__ import annotations

import pytest
from cells import DRAFTED, OF_DRESSES, REFUSED, WANTED, Cell

from godet.base.shipped import shipped
from godet.tools.compiling import compile_recipe


def test_every_shipped_dress_has_its_row():
    assert {path.stem for path in shipped("recipes").glob("*.godet")} == {*WANTED, *OF_DRESSES}


@pytest.mark.parametrize("cell", DRAFTED, ids=lambda cell: cell.name)
def test_a_right_top_is_taken_without_a_word(cell: Cell):
    made = compile_recipe(cell.dress, cell.blocks)
    assert made.draft is not None
    assert made.problems == ()


@pytest.mark.parametrize("cell", REFUSED, ids=lambda cell: cell.name)
def test_a_wrong_block_is_refused_by_name_and_reason(cell: Cell):
    made = compile_recipe(cell.dress, cell.blocks)
    assert made.draft is None
    (found,) = made.problems
    assert found.code == "wrong-kind"
    assert cell.refusal is not None
    assert cell.refusal in found.sentence
