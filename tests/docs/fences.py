"""The code blocks of the pages in docs/.

In: a page. Out: its fences, each with its language, its info words (`in=piece`), text and line.
An opening fence that is never closed is an error.

    fences(Path("docs/language/let.md"))[0].info   ->  {"in": "piece"}
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from godet.base.shipped import shipped

ROOT = shipped("recipes").parent
DOCS = ROOT / "docs"

_FENCE = re.compile(r"^(`{3,})([^\n]*)\n(.*?)^\1[ ]*$", re.MULTILINE | re.DOTALL)


@dataclass(frozen=True, slots=True)
class Fence:
    page: str  # as "language/let.md"
    line: int
    language: str
    info: Mapping[str, str]
    text: str

    @property
    def title(self) -> str:
        return f"{self.page}:{self.line}"


def pages() -> list[Path]:
    """Every page but those of the problems, which have tests of their own."""
    return [p for p in sorted(DOCS.rglob("*.md")) if "problems" not in p.relative_to(DOCS).parts]


def fences(page: Path) -> list[Fence]:
    text = page.read_text(encoding="utf-8")
    found = []
    for match in _FENCE.finditer(text):
        language, *words = match[2].split() or [""]
        info = dict(word.split("=", 1) for word in words) if language[:1] != "{" else {}
        line = text.count("\n", 0, match.start()) + 1
        found.append(Fence(page.relative_to(DOCS).as_posix(), line, language, info, match[3]))
    marks = re.findall(r"^`{3,}", text, re.MULTILINE)
    assert len(marks) == 2 * len(found), f"{page}: a fence is not closed"
    return found
