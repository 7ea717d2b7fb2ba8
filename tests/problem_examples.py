"""Examples of problems, from a page of docs/problems or a file of tests/bad_files, really run.

In: an example: a text, what it is, how it is to be read. Out: what was told about it. The expected
problems stand in the text as comments at the ends of their lines, `# error: bare-number`; they are
taken out before the text is run. A problem without a place is expected in the first line.

    told(Example("body", "body: a\\n", {}, {})).expected   # the comments of the text
"""

from __future__ import annotations

import re
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from godet.base.problems import Problem
from godet.base.shipped import shipped
from godet.base.words import WORDS
from godet.language.library import Library
from godet.orders.bodies import read_body
from godet.orders.dockets import read_docket
from godet.orders.fabrics import read_fabric
from godet.orders.tables import read_size_table
from godet.pattern.pieces import Pattern
from godet.tools.checking import check
from godet.tools.choosing import chosen
from godet.tools.compiling import compile_recipe
from godet.tools.drafting import draft, draft_all, prepared_for, shipped_file
from godet.tools.requests import Request
from godet.tools.vocabulary import vocabulary

MARK = re.compile(r"[ \t]*# (error|warning|advice): ([a-z0-9-]+)")
FILES = {
    "body": "body.yaml",
    "fabric": "fabric.yaml",
    "docket": "docket.yaml",
    "sizes": "sizes.csv",
}
VOCABULARY = vocabulary(Library(shipped("recipes")))
Expected = tuple[int, str, str]  # line, severity, code


@dataclass(frozen=True, slots=True)
class Example:
    """One text; `options` say how a recipe is drafted, as `draft=adult_a choose=width:50cm`."""

    sort: str  # recipe, body, fabric, docket, sizes
    text: str
    options: Mapping[str, str]
    beside: Mapping[str, str]  # further files by name

    @property
    def expected(self) -> list[Expected]:
        """Those of the files beside it too: the mistake may stand in one of them."""
        return sorted(
            (number, found[1], found[2])
            for text in (self.text, *self.beside.values())
            for number, line in enumerate(text.split("\n"), 1)
            for found in MARK.finditer(line)
        )


def plain(text: str) -> str:
    """The text without the comments that say what is expected."""
    return "\n".join(MARK.sub("", line) for line in text.split("\n"))


@dataclass(frozen=True, slots=True)
class Told:
    problems: tuple[Problem, ...]
    pattern: Pattern | None
    folder: str

    @property
    def placed(self) -> list[Expected]:
        """Line, severity and code of each problem, as the comments of an example give them."""
        return sorted(
            (p.place.line if p.place is not None else 1, str(p.severity), p.code)
            for p in self.problems
        )

    def against(self, expected: list[Expected]) -> list[Expected]:
        """What is placed, to be compared with what an example expects.

        What would be advised besides is no part of the lesson, unless the example says so; a code
        that is only a part of what is told counts where its words stand in the note, the check or
        the report of its line.
        """
        advised = {code for _, severity, code in expected if severity == "advice"}
        problems = [each for each in self.placed if each[1] != "advice" or each[2] in advised]
        parts = [
            (line, severity, code)
            for line, severity, code in expected
            if severity == "advice" and any(at == line and _says(code, w) for at, w in self._parts)
        ]
        return sorted([*problems, *(part for part in parts if part not in problems)])

    @property
    def _parts(self) -> list[tuple[int, str]]:
        """Lines, and what is told of them besides problems."""
        notes = [note for p in self.problems for note in p.notes]
        parts = [(note.place.line, note.words) for note in notes if note.place is not None]
        if self.pattern is not None:
            parts += [(report.place.line, report.words) for report in self.pattern.reports]
            parts += [(c.place.line, c.wanted) for c in self.pattern.checks if not c.ok]
        return parts

    def words(self) -> str:
        """All that is said, as one text, without the folder in which it was tried."""
        said = [p.sentence for p in self.problems]
        said += [note.words for p in self.problems for note in p.notes]
        said += [p.fix.words for p in self.problems if p.fix is not None]
        if self.pattern is not None:
            said += [report.words for report in self.pattern.reports]
            said += [f"{check.words} {check.wanted}" for check in self.pattern.checks]
        return " ".join(" ".join(said).replace(self.folder + "/", "").split())


def _says(code: str, words: str) -> bool:
    """Whether the sentence of a code stands in `words`, whatever fills its gaps."""
    gaps = re.sub(r"\\\{\w+\\\}", ".+?", re.escape(WORDS[code][1]))
    return re.search(gaps, words) is not None


def run(example: Example) -> Told:
    """The example as a person would try it, in a folder of its own."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for beside, text in example.beside.items():
            (folder / beside).parent.mkdir(parents=True, exist_ok=True)
            (folder / beside).write_text(plain(text), encoding="utf-8")
        path = folder / _file_name(example)
        path.write_bytes(plain(example.text).encode("utf-8", "surrogateescape"))
        problems, pattern = _read(example, path, folder)
        return Told(tuple(problems), pattern, name)


def _file_name(example: Example) -> str:
    if example.sort != "recipe":
        return FILES[example.sort]
    named = re.search(r"^recipe (\w+)", example.text, re.MULTILINE)
    return f"{named[1] if named else 'example'}.godet"


def _read(example: Example, path: Path, folder: Path) -> tuple[tuple[Problem, ...], Pattern | None]:
    match example.sort:
        case "body":
            return read_body(path, VOCABULARY)[1], None
        case "fabric":
            return read_fabric(path)[1], None
        case "docket":
            return read_docket(path)[1], None
        case "sizes":
            return read_size_table(path, VOCABULARY)[1], None
        case _ if "draft" not in example.options:
            return check([str(path)]).problems, None
        case _:
            return _drafted(example.options, path, folder)


def _drafted(
    options: Mapping[str, str], path: Path, folder: Path
) -> tuple[tuple[Problem, ...], Pattern | None]:
    """Drafted for a body, or for each size of a table that lies beside the recipe."""
    fabrics = {}
    for each in filter(None, options.get("fabric", "").split(",")):
        cloth, _, file = each.rpartition(":")
        fabrics[cloth or "main"] = folder / file if (folder / file).exists() else Path(file)
    blocks = dict(each.split(":", 1) for each in filter(None, options.get("block", "").split(",")))
    choices = {
        name: (value, None)
        for name, _, value in (
            each.partition(":") for each in filter(None, options.get("choose", "").split(","))
        )
    }
    body = options["draft"]
    if not body.endswith(".csv"):
        request = Request(str(path), Path(body) if body else None, fabrics, blocks, choices)
        drafted = draft(request)
        return drafted.problems, drafted.pattern
    compiled = compile_recipe(str(path), blocks)
    bodies, found = read_size_table(folder / body, VOCABULARY)
    assert compiled.draft is not None, compiled.problems
    cloths = {name: read_fabric(shipped_file(file, "fabrics"))[0] for name, file in fabrics.items()}
    values, wrong = chosen(choices, compiled.draft)
    known = {name: cloth for name, cloth in cloths.items() if cloth is not None}
    patterns, problems = draft_all(prepared_for(bodies, known, values, compiled.draft))
    return (*compiled.problems, *found, *wrong, *problems), patterns[0]
