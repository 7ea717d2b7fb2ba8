"""The page of dresses: what it shows can be drafted."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from godet.base.shipped import shipped
from godet.tools.command import main

PAGE = (Path(__file__).parents[2] / "docs" / "dresses.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^godet (.+)$", PAGE, re.MULTILINE)


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_of_the_page_drafts(command: str, tmp_path: Path):
    arguments = [*shlex.split(command), "--out", str(tmp_path), "--as", "json"]
    result = CliRunner().invoke(main, arguments)
    assert result.exit_code == 0, result.output
    assert (tmp_path / "draft.json").exists()


def test_every_dress_of_the_library_stands_on_the_page():
    dresses = {path.stem for path in shipped("recipes").glob("*.godet")}
    assert dresses <= set(re.findall(r"\w+", PAGE))


def test_the_page_has_every_operation_of_the_library():
    table = PAGE.split("## Operations")[1].split("##")[0].split("```")[0]
    library = {
        path.stem: path.read_text(encoding="utf-8") for path in shipped("stdlib").glob("*.godet")
    }
    made_of_another = {name for name, text in library.items() if "\n  takes " in text}
    # an A-line is a skirt, of a straight one; the other words of the table are blocks
    assert made_of_another - {"a_line_skirt"} <= set(re.findall(r"`(\w+)`", table))
    assert set(re.findall(r"`(\w+)`", table)) <= set(library)
