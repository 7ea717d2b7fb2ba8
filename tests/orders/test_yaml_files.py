"""YAML is read as text with places; what cannot be read is told, never raised."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml

from godet.orders.text_files import read_text
from godet.orders.yaml_reading import Scalar, Table, compose, read_yaml

Write = Callable[..., Path]


def plain(node: object) -> Any:
    if isinstance(node, Table):
        return {key: plain(entry.value) for key, entry in node.entries.items()}
    assert isinstance(node, Scalar)
    return node.text


@pytest.mark.parametrize("folder", ["recipes/bodies", "recipes/fabrics"])
def test_the_shipped_files_read_as_another_reader_reads_them(folder: str, shipped: Path) -> None:
    files = sorted((shipped / folder).glob("*.yaml"))
    assert len(files) >= 4
    for file in files:
        table, problems = read_yaml(file)
        assert problems == ()
        # PyYAML's BaseLoader, which keeps every scalar as text
        assert plain(table) == yaml.load(file.read_text(), yaml.BaseLoader)


def test_every_value_keeps_its_place() -> None:
    text = 'body: adult_a\nmeasures: {bust_girth: 94, hip_girth: "102"}\n'
    table, problems = compose(text, "a.yaml")
    assert problems == ()
    assert table is not None
    measures = table.entries["measures"].value
    assert isinstance(measures, Table)
    lines = text.split("\n")
    for name, typed in (("bust_girth", "94"), ("hip_girth", '"102"')):
        entry = measures.entries[name]
        for place, words in ((entry.key_place, name), (entry.value.place, typed)):
            assert place.line == place.end_line == 2
            # Python's slice of the line is the outside check
            assert lines[1][place.column - 1 : place.end_column - 1] == words


@pytest.mark.parametrize(
    ("situation", "text", "code", "line", "words"),
    [
        # the YAML reader itself notices these a line later
        ("no colon", "body: a\nunits cm\nmeasures: {}\n", "yaml-no-colon", 2, "`units: cm`"),
        ("an equals sign", "units = cm # bare\nbody: a\n", "yaml-no-colon", 1, "`units: cm`"),
        ("no space behind it", "body: a\nunits:cm\nx: y\n", "yaml-no-colon", 2, "`units: cm`"),
        ("no space in the first", "body:a\nunits: cm\n", "yaml-no-colon", 1, "`body: a`"),
        ("a key alone", "body: a\nmeasures\nunits: cm\n", "yaml-no-colon", 2, "`body: adult_a`"),
        ("a colon too many", "body: a: b\n", "yaml-second-colon", 1, "quote marks"),
        ("keys without braces", "body: a\nm: hip: 94\n", "yaml-second-colon", 2, "braces"),
        (
            "a line end of another kind",
            "body: a\u2028x: y\x85z w\n\nv: 1",
            "yaml-no-colon",
            3,
            "`z: w`",
        ),
        ("deeper than its line", "body: a\n  units: cm\n", "yaml-indent", 2, "same column"),
        ("between two depths", "m:\n  bust: 94\n hip: 3\n", "yaml-indent", 3, "same column"),
        ("a bracket too many", "m: {bust: 94}\n}\n", "yaml-broken", 2, "colons"),
        (
            "a bracket is left open",
            "body: a\nmeasures: {hip_girth: 94\n",
            "yaml-bracket",
            3,
            "line 2",
        ),
        ("a tab for indent", "measures:\n\tbust_girth: 94\n", "yaml-tab", 2, "spaces"),
        ("an anchor", "body: &one a\nunits: cm\n", "yaml-anchor", 1, "`&one`"),
        ("an alias", "body: a\nunits: *one\n", "yaml-anchor", 2, "`*one`"),
        ("stars round a label", "body: *one two*\nunits: cm\n", "yaml-anchor", 1, "`*one`"),
        ("a tag", "body: a\nunits: !!str cm\n", "yaml-tag", 2, "`!!str`"),
        ("a tag that makes objects", "body: !!python/none a\n", "yaml-tag", 1, "python"),
        ("two documents", "body: a\n---\nbody: b\n", "yaml-several-documents", 2, "---"),
        ("a list at the top", "\n- body\n", "yaml-no-keys", 2, "keys"),
        ("a text at the top", "adult\n", "yaml-no-keys", 1, "keys"),
        ("a key twice", "body: a\nunits: cm\nbody: b\n", "key-twice", 3, "line 1"),
        ("a key that is a list", "? [a, b]\n: c\n", "yaml-key-no-text", 1, "word"),
        ("a control character", "body: a\nunits: c\x07m\n", "yaml-character", 2, "U+0007"),
        ("an escape of no character", 'body: "\\UFFFFFFFF"\n', "yaml-broken", 1, "quote"),
        ("nested without end", "a: " + "[" * 5000, "yaml-too-deep", 1, "20"),
        ("a quote left open", 'body: "a\nunits: cm\n', "yaml-quote", 1, "never closed"),
        ("only comments", "# nothing yet\n", "file-empty", 1, "nothing"),
    ],
)
def test_yaml_that_is_not_read(situation: str, text: str, code: str, line: int, words: str) -> None:
    _, problems = compose(text, "a.yaml")
    assert [found.code for found in problems] == [code], situation
    assert problems[0].place is not None
    assert problems[0].place.line == line
    assert words in problems[0].sentence


def test_several_mistakes_are_told_in_one_run() -> None:
    text = "body: &x a\nunits: !y cm\nunits: in\n[1]: b\n"
    table, problems = compose(text, "a.yaml")
    assert [found.code for found in problems] == [
        *("yaml-anchor", "yaml-tag", "key-twice", "yaml-key-no-text")
    ]
    assert [found.place.line for found in problems if found.place] == [1, 2, 3, 4]
    assert table is not None
    assert list(table.entries) == ["body", "units"]


def test_aliases_that_multiply_are_not_followed() -> None:
    lines = ["a: &a [x, x]"]
    lines += [
        f"{b}: &{b} [{', '.join([f'*{a}'] * 9)}]" for a, b in zip("abcdef", "bcdefg", strict=True)
    ]
    table, problems = compose("\n".join(lines), "a.yaml")
    assert table is None
    # 7 anchors and 6 lines of 9 references
    assert [found.code for found in problems] == ["yaml-anchor"] * (7 + 6 * 9)


def test_a_missing_file_names_the_one_nearby(tmp_path: Path, write: Write) -> None:
    write("body: a\n", "adult_a.yaml")
    table, problems = read_yaml(tmp_path / "adult_b.yml")
    assert table is None
    assert [found.code for found in problems] == ["file-missing"]
    assert "Did you mean `adult_a.yaml`?" in problems[0].sentence
    assert problems[0].place is not None
    assert problems[0].place.file == str(tmp_path / "adult_b.yml")


@pytest.mark.parametrize("name", ["nowhere/a.yaml", "a\0b.yaml", "x" * 300 + ".yaml"])
def test_a_name_that_no_file_can_have_is_a_missing_file(name: str, tmp_path: Path) -> None:
    _, problems = read_yaml(tmp_path / name)
    assert [found.code for found in problems] == ["file-missing"]
    assert "Did you mean" not in problems[0].sentence


def test_a_folder_for_a_file(tmp_path: Path) -> None:
    _, problems = read_text(tmp_path)
    assert [found.code for found in problems] == ["file-is-folder"]


def test_what_is_neither_file_nor_folder(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.yaml"
    os.mkfifo(pipe)
    _, problems = read_text(pipe)
    assert [found.code for found in problems] == ["file-unreadable"]


def test_a_file_that_may_not_be_read(
    tmp_path: Path, write: Write, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(self: Path) -> bytes:
        raise PermissionError(13, "Permission denied", str(self))

    path = write("body: a\n")
    monkeypatch.setattr(Path, "read_bytes", refuse)
    _, problems = read_text(path)
    assert [found.code for found in problems] == ["file-unreadable"]


@pytest.mark.parametrize("text", ["", "\n \n"])
def test_an_empty_file(text: str, write: Write) -> None:
    _, problems = read_text(write(text))
    assert [found.code for found in problems] == ["file-empty"]


def test_text_in_another_encoding(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes("body: a\nunits: für\n".encode("latin-1"))
    _, problems = read_text(path)
    assert [found.code for found in problems] == ["file-not-utf8"]
    assert problems[0].place is not None
    # the ü stands after `units: f`, eight characters
    assert (problems[0].place.line, problems[0].place.column) == (2, 9)
    assert "UTF-8" in problems[0].sentence


def test_a_byte_order_mark_is_left_off(write: Write) -> None:
    assert read_text(write("\ufeffbody: a\n")) == ("body: a\n", ())


@pytest.mark.parametrize(
    ("text", "mended"),
    [
        ("body: a\nunits cm\nmeasures: {}\n", "body: a\nunits: cm\nmeasures: {}\n"),
        ("m: {}\nunits =  cm  # bare\nx: y\n", "m: {}\nunits: cm  # bare\nx: y\n"),
    ],
)
def test_a_missing_colon_is_put_by_its_cure(text: str, mended: str) -> None:
    (found,) = compose(text, "a.yaml")[1]
    assert found.fix is not None
    place = found.fix.place
    lines = text.split("\n")
    line = lines[place.line - 1]
    before, after = line[: place.column - 1], line[place.end_column - 1 :]
    lines[place.line - 1] = before + found.fix.replacement + after
    assert "\n".join(lines) == mended
