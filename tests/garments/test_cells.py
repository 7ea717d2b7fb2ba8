"""Which blocks a dress takes, and the reason why it refuses the others."""

from __future__ import annotations

import pytest
from cells import NEVER_WORN, OF_DRESSES, REFUSED, WANTED, Cell
from trials import tried
from wearers import six

from godet.base.shipped import shipped
from godet.tools.compiling import compile_recipe


def test_every_shipped_dress_has_its_row():
    assert {path.stem for path in shipped("recipes").glob("*.godet")} == {*WANTED, *OF_DRESSES}


@pytest.mark.parametrize("cell", REFUSED, ids=lambda cell: cell.name)
def test_a_block_of_the_wrong_sort_is_refused_by_name_and_reason(cell: Cell):
    made = compile_recipe(cell.dress, cell.blocks)
    assert made.draft is None
    (found,) = made.problems
    assert found.code == "wrong-kind"
    assert cell.refusal is not None
    assert cell.refusal in found.sentence


@pytest.mark.parametrize("cell", NEVER_WORN, ids=lambda cell: cell.name)
def test_blocks_that_can_not_be_sewn_together_are_refused_in_words(cell: Cell):
    trial = tried(cell, six(cell))
    assert trial.sound.all()
    for check in trial.draft.checks:
        if cell.never_met is not None and cell.never_met in check.words:
            assert trial.unmet(check).all()
            return
    pytest.fail(f"no requirement says: {cell.never_met}")
