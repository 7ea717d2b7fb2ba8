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


def test_every_operation_of_the_page_is_in_the_library():
    table = PAGE.split("## Operations")[1].split("##")[0].split("```")[0]
    named = set(re.findall(r"`(\w+)`", table))
    assert named <= {path.stem for path in shipped("stdlib").glob("*.godet")}
