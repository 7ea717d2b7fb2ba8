"""What is proved of the shipped recipes, for every body and every choice; the list is kept here.

A line that goes from proved to not proved is a loss; one that comes to be proved is put on the
list. The requirements are not on it: each can be broken by choices that the recipe allows.
"""

from __future__ import annotations

import pytest
from library_drafts import linked

from godet.proof.proving import matching, prove_check, prove_seam
from godet.proof.verdicts import NotProved, Proved

# sewn edge to edge, drawn from the same points or found to be as long
PROVED = {"armhole", "neckband_ends", "shoulder", "side", "underarm"}


@pytest.mark.parametrize("recipe", ["knit_tee", "column_dress"])
def test_every_seam_without_stretch_is_proved_to_match(recipe: str):
    draft = linked(recipe)
    seams = {seam.name: prove_seam(draft, seam) for seam in draft.seams if matching(seam)}
    assert seams == dict.fromkeys(PROVED, Proved())


@pytest.mark.parametrize("recipe", ["knit_tee", "column_dress"])
def test_no_requirement_of_a_shipped_recipe_is_proved_as_each_can_be_broken(recipe: str):
    draft = linked(recipe)
    verdicts = {check.words: prove_check(draft, check) for check in draft.checks}
    assert set(verdicts.values()) == {NotProved("open")}
