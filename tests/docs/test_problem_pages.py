"""Each problem has a page in docs/problems: its wrong example gives it, its right one is right."""

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
from marked_examples import Example, marks, run

from godet.base.shipped import shipped
from godet.base.words import WORDS
from godet.tools.command import main

FOLDER = shipped("recipes").parent / "docs" / "problems"
PAGES = sorted(path for path in FOLDER.glob("*.md") if path.stem != "index")
# the place of the problem is the form's: `# code`, then `*severity* · sentence`, then why
HEAD = re.compile(r"# (?P<code>[a-z0-9-]+)\n\n\*(?P<severity>\w+)\* · (?P<sentence>.+?)\n\n", re.S)
FENCE = re.compile(r"^```(?P<info>\S[^\n]*)\n(?P<text>.*?)^```$", re.S | re.M)


@dataclass(frozen=True)
class Page:
    code: str
    severity: str
    sentence: str
    parts: dict[str, list[Example]]  # by heading; what stands before the first is left out
    consoles: list[str]  # what no text can bring about is shown by commands

    @property
    def beside(self) -> dict[str, str]:
        return {e.options["file"]: e.text for e in self.parts.get("Beside it", [])}


def page(path: Path) -> Page:
    text = path.read_text(encoding="utf-8")
    head = HEAD.match(text)
    assert head is not None, "a page begins with its code, its severity and its sentence"
    parts = {}
    for part in re.split(r"^## ", text, flags=re.M)[1:]:
        title = part.split("\n", 1)[0]
        fences = [f for f in FENCE.finditer(part) if f["info"] != "console"]
        parts[title] = [Example.of(f["info"], f["text"]) for f in fences]
    sentence = " ".join(head["sentence"].split())
    consoles = [f["text"] for f in FENCE.finditer(text) if f["info"] == "console"]
    return Page(head["code"], head["severity"], sentence, parts, consoles)


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_a_page_tells_the_truth(path: Path, tmp_path: Path):
    shown = page(path)
    assert shown.code == path.stem
    assert shown.severity == WORDS[shown.code][0]
    if "Wrong" in shown.parts:
        (wrong,) = shown.parts["Wrong"]
        found = run(wrong, shown.beside, tmp_path / "wrong")
        expected = sorted(
            m for e in (wrong, *shown.parts.get("Beside it", ())) for m in marks(e.text)
        )
        assert expected or found.patterns
        assert not found.differs(expected), found.differs(expected)
        sentences = found.sentences(shown.code)
        # words that are only a part of what is told are looked for in all of it
        assert shown.sentence in (sentences or found.told), sentences or found.told
    for right in shown.parts.get("Right", ()):
        found = run(right, shown.beside, tmp_path / "right")
        assert found.problems == (), [p.sentence for p in found.problems]
        assert found.patterns or "draft" not in right.options


def test_pages_show_a_wrong_and_a_right_example():
    assert PAGES
    for path in PAGES:
        shown = page(path)
        assert set(shown.parts) <= {"Wrong", "Right", "Beside it"}, path
        if not shown.consoles:
            assert len(shown.parts["Wrong"]) == len(shown.parts["Right"]) == 1, path


@pytest.mark.parametrize("path", [p for p in PAGES if page(p).consoles], ids=lambda p: p.stem)
def test_the_commands_of_a_page_do_what_it_says(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(tmp_path)
    shown = page(path)
    outputs = [_commands(console, monkeypatch) for console in shown.consoles]
    assert f"[{shown.code}]" in outputs[0]
    assert shown.sentence in " ".join(outputs[0].split())
    assert all(f"[{shown.code}]" not in output for output in outputs[1:])


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
