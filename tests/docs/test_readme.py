"""The README shows what Godet does today: its picture, its recipe, its commands."""

from __future__ import annotations

import re
from pathlib import Path

from click.testing import CliRunner

from godet.base.shipped import shipped
from godet.tools.command import VERBS, main

ROOT = shipped("recipes").parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_picture_is_what_the_first_command_draws(tmp_path: Path):
    # drawn again with `godet draft ... --as svg` and copied to docs/column_dress.svg
    command = re.search(r"godet (draft column_dress [^\n]*) --out my_dress", README)
    assert command is not None
    options = [*command[1].split(), "--out", str(tmp_path), "--as", "svg"]
    result = CliRunner().invoke(main, options)
    assert result.exit_code == 0, result.output
    drawn = (tmp_path / "pieces.svg").read_text(encoding="utf-8")
    assert drawn == (ROOT / "docs" / "column_dress.svg").read_text(encoding="utf-8")


def test_the_recipe_shown_is_the_recipe_shipped():
    recipe = (shipped("recipes") / "column_dress.godet").read_text(encoding="utf-8")
    assert f"```\n{recipe.rstrip()}\n```" in README


def test_every_verb_it_names_is_there():
    named = set(re.findall(r"^godet (\w+)", README, re.MULTILINE))
    assert named
    assert named <= set(VERBS)


def test_every_file_it_links_to_is_there():
    for target in re.findall(r"\]\(([^)#:]+)\)", README):
        assert (ROOT / target).exists(), target
