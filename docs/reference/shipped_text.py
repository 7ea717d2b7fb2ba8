"""A text of the library, parsed, with what stands at any place of it.

In: the path of a `.godet` file that is right. Out: its statements by their sort, and the written
words of a place. A text with problems is an error.

    ShippedText(path).all(tree.Define)
"""

from __future__ import annotations

from pathlib import Path
from typing import TypeVar

from godet.base.places import Place
from godet.language import tree
from godet.language.parser import parse

Statement = TypeVar("Statement", bound=tree.Statement)


class ShippedText:
    def __init__(self, path: Path) -> None:
        self.name = path.stem
        text = path.read_text(encoding="utf-8")
        self.lines = text.splitlines()
        self.file, problems = parse(text, path.name)
        assert not problems, problems

    def all(self, sort: type[Statement]) -> list[Statement]:
        """The statements of one sort, in the order of the text."""
        return [line for line in self.file.statements if isinstance(line, sort)]

    def written(self, place: Place) -> str:
        """What stands at a place in one line or several, spaces evened out."""
        rows = self.lines[place.line - 1 : place.end_line]
        rows[-1] = rows[-1][: place.end_column - 1]
        rows[0] = rows[0][place.column - 1 :]
        return " ".join(" ".join(rows).split())
