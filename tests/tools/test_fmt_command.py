"""`godet fmt`: files laid out whole or not at all, and hooks told what would change."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from godet.tools.command import main

UNTIDY = "edition 1\nrecipe  a\nlet b=2cm\nlet longer   = b\n"
TIDY = "edition 1\nrecipe a\nlet b      = 2cm\nlet longer = b\n"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def godet(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments, catch_exceptions=False)


def test_a_file_is_laid_out_and_then_stays(folder: Path):
    (folder / "a.godet").write_text(UNTIDY)
    first, second = godet("fmt", "a.godet"), godet("fmt", "a.godet")
    assert (first.exit_code, first.stdout) == (0, "laid out a.godet\n")
    assert (second.exit_code, second.stdout) == (0, "laid out already\n")
    assert (folder / "a.godet").read_text() == TIDY


def test_a_hook_is_told_what_would_change_and_nothing_is_written(folder: Path):
    (folder / "a.godet").write_text(UNTIDY)
    (folder / "b.godet").write_text(TIDY)
    told = godet("fmt", "--check", "--json", "a.godet", "b.godet")
    assert told.exit_code == 1
    assert json.loads(told.stdout)["would_change"] == ["a.godet"]
    assert (folder / "a.godet").read_text() == UNTIDY
    assert godet("fmt", "--check", "b.godet").exit_code == 0


def test_all_recipes_of_a_folder_are_meant_by_it(folder: Path):
    (folder / "own").mkdir()
    for name in ("a.godet", "own/b.godet", "notes.txt"):
        (folder / name).write_text(UNTIDY)
    assert godet("fmt", ".").exit_code == 0
    assert (folder / "own" / "b.godet").read_text() == TIDY
    assert (folder / "notes.txt").read_text() == UNTIDY


def test_what_is_installed_in_a_hidden_folder_is_none_of_ones_recipes(folder: Path):
    (folder / ".venv").mkdir()
    (folder / "folder.godet").mkdir()
    for name in (".venv/a.godet", "folder.godet/b.godet"):
        (folder / name).write_text(UNTIDY)
    told = godet("fmt", ".")
    assert (told.exit_code, told.stdout) == (0, "laid out folder.godet/b.godet\n")
    assert (folder / ".venv" / "a.godet").read_text() == UNTIDY


@pytest.mark.parametrize("name", ["empty", "", "a" * 300, "a\0b"])
def test_where_no_recipe_is_that_is_told(folder: Path, name: str):
    (folder / "empty").mkdir()
    (folder / "a.godet").write_text(UNTIDY)
    told = godet("fmt", "--check", name)
    assert told.exit_code == 1
    assert "[file-missing]" in told.stderr
    assert told.stdout == ""


def test_a_folder_that_is_closed_is_told(folder: Path, monkeypatch: pytest.MonkeyPatch):
    (folder / "a.godet").write_text(TIDY)

    def closed(name: str) -> None:
        raise PermissionError(13, "Permission denied", name)

    monkeypatch.setattr("os.scandir", closed)
    told = godet("fmt", ".")
    assert told.exit_code == 1
    assert "[file-unreadable]" in told.stderr


def test_a_file_that_does_not_parse_is_refused_and_the_others_are_laid_out(folder: Path):
    broken = UNTIDY.replace("=2cm", "=2 cmm")
    (folder / "a.godet").write_text(broken)
    (folder / "b.godet").write_text(UNTIDY)
    told = godet("fmt", "a.godet", "b.godet")
    assert told.exit_code == 1
    assert "a.godet:3" in told.stderr
    assert (folder / "a.godet").read_text() == broken
    assert (folder / "b.godet").read_text() == TIDY


def test_line_ends_and_a_byte_order_mark_of_another_system_go(folder: Path):
    (folder / "a.godet").write_bytes(b"\xef\xbb\xbf" + TIDY.replace("\n", "\r\n").encode())
    assert godet("fmt", "a.godet").exit_code == 0
    assert (folder / "a.godet").read_bytes() == TIDY.encode()


@pytest.mark.parametrize(
    ("name", "content", "code"),
    [
        ("missing.godet", None, "file-missing"),
        ("latin.godet", "let grün = 1cm".encode("latin-1"), "file-not-utf8"),
        ("nothing.godet", b"\n \n", "file-empty"),
    ],
)
def test_a_file_that_cannot_be_read_is_told(
    folder: Path, name: str, content: bytes | None, code: str
):
    if content is not None:
        (folder / name).write_bytes(content)
    told = godet("fmt", name)
    assert told.exit_code == 1
    assert f"[{code}]" in told.stderr


def test_a_file_that_cannot_be_written_is_told_and_left(
    folder: Path, monkeypatch: pytest.MonkeyPatch
):
    (folder / "a.godet").write_text(UNTIDY)

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("tempfile.mkstemp", full)
    told = godet("fmt", "a.godet")
    assert told.exit_code == 1
    assert "No space left on device" in told.stderr
    assert (folder / "a.godet").read_text() == UNTIDY
