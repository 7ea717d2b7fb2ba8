"""Problems as a person sees them: the line of the file they point at, underlined."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from click.testing import CliRunner

from godet.base.places import Place
from godet.base.problems import problem
from godet.tools.command import main
from godet.tools.showing import shown, texts_of


def draft(body: Path) -> str:
    result = CliRunner().invoke(main, ["draft", "column_dress", "--body", str(body)])
    assert result.exit_code == 1
    return result.stderr


def test_the_line_of_a_body_is_shown_underlined(tmp_path: Path):
    body = tmp_path / "marta.yaml"
    body.write_text("body: marta\nunits: cm\nmeasures: {hip_girth: 102, waist_to_hip: 20,5}\n")
    assert draft(body) == (
        f"error at {body}:3:45 [key-decimal-comma]\n"
        "  `5` stands alone after a comma; if it belongs to the number before it, "
        "write a point: `20.5`.\n"
        "  3 | measures: {hip_girth: 102, waist_to_hip: 20,5}\n"
        "    |                                             ^\n"
        "  cure: write `20.5`\n"
    )


def test_a_byte_order_mark_moves_no_column(tmp_path: Path):
    body = tmp_path / "marta.yaml"
    body.write_bytes(b"\xef\xbb\xbfbody: marta\nunit: cm\n")
    text = draft(body)
    assert "  2 | unit: cm\n    | ^^^^\n" in text


def test_letters_of_another_encoding_are_shown_as_far_as_they_can_be(tmp_path: Path):
    body = tmp_path / "renee.yaml"
    body.write_bytes("body: renée\nunits: cm\n".encode("latin-1"))
    text = draft(body)
    assert "[file-not-utf8]" in text
    assert "  1 | body: ren\N{REPLACEMENT CHARACTER}e\n    |          ^\n" in text


def test_a_control_character_never_reaches_the_terminal():
    place = Place("a.yaml", 1, 3, 1, 4)
    text = shown([problem("yaml-character", place, number="U+001B")], {"a.yaml": "a \x1b[31m b"})
    assert "\x1b" not in text
    assert "  1 | a \N{REPLACEMENT CHARACTER}[31m b\n" in text


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with names")
def test_a_pipe_is_not_waited_for(tmp_path: Path):
    body = tmp_path / "marta.yaml"
    os.mkfifo(body)
    assert "[file-unreadable]" in draft(body)


def test_a_file_that_is_not_there_shows_no_line():
    found = [problem("file-empty", Place("nowhere.yaml", 1, 1, 1, 1), file="nowhere.yaml")]
    assert texts_of(found) == {}
