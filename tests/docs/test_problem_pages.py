"""Every problem has a page, and every page shows the problem and its cure, both really run.

The pages are this project's own words; what is checked is that they say what the program says.
"""

from __future__ import annotations

import errno
import os
import re
import shlex
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from fences import DOCS
from problem_examples import Example, run

from godet.base.shipped import shipped
from godet.base.words import WORDS, Severity
from godet.tools.command import main

PAGES = sorted(p for p in (DOCS / "problems").glob("*.md") if p.stem != "index")
BAD_FILES = Path(__file__).parents[1] / "bad_files"
SOURCE = shipped("stdlib").parent / "compiler" / "godet"
_FENCE = re.compile(r"^```(\S+)([^\n]*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_SORTS = {"godet": "recipe"}


@dataclass(frozen=True, slots=True)
class Page:
    code: str
    severity: str
    sentence: str
    wrong: Example | None
    right: Example | None
    consoles: tuple[str, ...]


def read(path: Path) -> Page:
    text = path.read_text(encoding="utf-8")
    head, _, _ = text.partition("\n## ")
    title = re.match(r"# ([a-z0-9-]+)\n\n\*(\w+)\* · (.*?)\n\n", head, re.DOTALL)
    assert title is not None, f"{path}: the heading, the severity and the sentence"
    parts = {part.partition("\n")[0]: part for part in text.split("\n## ")[1:]}
    beside = {
        options["file"]: content
        for _, options, content in _fences(parts.get("Beside it", ""))
        if "file" in options
    }
    shown = {
        name: next(
            (
                Example(sort, content, options, beside)
                for sort, options, content in _fences(parts.get(name, ""))
                if sort != "console" and "file" not in options
            ),
            None,
        )
        for name in ("Wrong", "Right")
    }
    consoles = tuple(match[3] for match in _FENCE.finditer(text) if match[1] == "console")
    sentence = " ".join(title[3].split())
    return Page(title[1], title[2], sentence, shown["Wrong"], shown["Right"], consoles)


def _fences(text: str) -> list[tuple[str, dict[str, str], str]]:
    found = []
    for match in _FENCE.finditer(text):
        words = match[2].split()
        options = dict(word.split("=", 1) for word in words if "=" in word)
        sort = next((word for word in words if "=" not in word), _SORTS.get(match[1], match[1]))
        found.append((sort, options, match[3]))
    return found


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_the_page_shows_what_is_told_and_how_it_is_cured(path: Path):
    page = read(path)
    assert page.code == path.stem
    assert page.severity == WORDS[page.code][0]
    if page.wrong is None or page.right is None:
        assert page.consoles, "a page without a text shows commands"
        return
    told, cured = run(page.wrong), run(page.right)
    assert page.wrong.expected, "what is expected stands as a comment in the text"
    # what would be advised besides is no part of the lesson, unless the page says so
    advised = {code for _, severity, code in page.wrong.expected if severity == "advice"}
    placed = [each for each in told.placed if each[1] != "advice" or each[2] in advised]
    assert placed == page.wrong.expected
    assert page.sentence in told.words()
    faults = [p for p in cured.problems if p.severity is not Severity.ADVICE]
    assert faults == [], [p.sentence for p in faults]
    assert page.code not in {p.code for p in cured.problems}


@pytest.mark.parametrize("path", [p for p in PAGES if read(p).wrong is None], ids=lambda p: p.stem)
def test_the_commands_of_a_page_do_what_it_says(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(tmp_path)
    page = read(path)
    outputs = [_commands(console, monkeypatch) for console in page.consoles]
    assert f"[{page.code}]" in outputs[0]
    assert page.sentence in " ".join(outputs[0].split())
    assert all(f"[{page.code}]" not in output for output in outputs[1:])


def _refuse_to_read(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As if the file were not to be read by who runs the tests, who may read all as a superuser."""
    read = Path.read_text

    def refused(file: Path, *arguments: Any, **named: Any) -> str:
        if file == path:
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(file))
        return read(file, *arguments, **named)

    monkeypatch.setattr(Path, "read_text", refused)


def _commands(console: str, monkeypatch: pytest.MonkeyPatch) -> str:
    """What the commands of a console block print."""
    output = ""
    for line in console.splitlines():
        if not line.startswith("$ "):
            continue
        command, *arguments = shlex.split(line[2:])
        if command == "echo":
            Path(arguments[-1]).write_text(arguments[0] + "\n", encoding="utf-8")
        elif command == "printf":
            Path(arguments[-1]).write_bytes(
                arguments[0].encode("latin-1").decode("unicode_escape").encode("latin-1")
            )
        elif command == "mkfifo":
            os.mkfifo(arguments[0])
        elif command == "mkdir":
            Path(arguments[0]).mkdir()
        elif command == "ln":
            os.symlink(arguments[-2], arguments[-1])
        elif command == "chmod":
            _refuse_to_read(Path(arguments[-1]), monkeypatch)
        else:
            assert command == "godet", line
            result = CliRunner().invoke(main, arguments, catch_exceptions=False)
            output += result.stdout + result.stderr
    return output
