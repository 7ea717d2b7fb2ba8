"""The published drafts as recipes read as every other: nothing to tell of them, laid out as
`godet fmt` does."""

from __future__ import annotations

import pytest
from worked_drafts import FOLDER

from godet.language.formatting import formatted
from godet.tools.checking import check

RECIPES = sorted(FOLDER.glob("*.godet"))


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_a_published_draft_is_laid_out_and_has_nothing_wrong(path):
    assert check([str(path)]).problems == ()
    text = path.read_text(encoding="utf-8")
    assert formatted(text, str(path)).text == text
