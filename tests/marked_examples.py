"""Examples that carry the problems they should give, as comments, and are run here.

A problem that is expected stands behind the line where its place begins: `# error: unknown-name`
(or `warning`, or `advice`); one without a place in the first line. The comments are taken out
before anything is run, so that they may stand in any kind of file.

    found = run(Example("yaml body", {}, "body: a\\n"), {}, folder)
    found.marks == marks("body: a  # error: key-missing\\n")
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from godet.base.problems import Problem
from godet.base.shipped import shipped
from godet.base.words import WORDS
from godet.language.library import Library
from godet.orders.bodies import read_body
from godet.orders.dockets import read_docket
from godet.orders.fabrics import read_fabric
from godet.orders.records import MeasureMeaning
from godet.orders.tables import read_size_table
from godet.pattern.pieces import Pattern
from godet.tools.checking import check
from godet.tools.compiling import compile_recipe
from godet.tools.drafting import draft, draft_all, prepared_for
from godet.tools.requests import Request
from godet.tools.vocabulary import vocabulary

_MARK = re.compile(r"[ \t]*# (error|warning|advice): ([a-z0-9-]+)")
_NAMES = {
    "godet": "recipe.godet",
    "yaml body": "body.yaml",
    "yaml fabric": "fabric.yaml",
    "yaml docket": "docket.yaml",
    "csv sizes": "sizes.csv",
}

# line, severity, code
Mark = tuple[int, str, str]


@dataclass(frozen=True)
class Example:
    """A file: its kind (`godet`, `yaml body`, ..), how it is run, and its text.

    `options` of a recipe: `draft` is a shipped body, a file beside it, or a size table there;
    `fabric` a cloth (`rib:cotton_rib` for another than the main one); `choose` and `block` are
    `name:value`. Those with several values are divided by commas. Without `draft` the recipe is
    only checked.
    """

    kind: str
    options: Mapping[str, str]
    text: str

    @staticmethod
    def of(info: str, text: str) -> Example:
        """From the words behind a fence: `godet draft=adult_a fabric=cotton_jersey`."""
        words = info.split()
        kind = " ".join(word for word in words if "=" not in word)
        assert kind in _NAMES, info
        return Example(kind, dict(word.split("=", 1) for word in words if "=" in word), text)


@dataclass(frozen=True)
class Found:
    """The problems of an example, and all that is told of it, without the name of its folder."""

    problems: tuple[Problem, ...]
    patterns: tuple[Pattern, ...]
    folder: str

    @property
    def marks(self) -> list[Mark]:
        """Where each problem should be marked."""
        return sorted(
            (p.place.line if p.place is not None else 1, str(p.severity), p.code)
            for p in self.problems
        )

    def differs(self, expected: Iterable[Mark]) -> str:
        """How the problems differ from what is expected; empty where they are as expected.

        A code that is no problem of its own, but a part of what is told, is looked for in the
        notes, checks and reports that stand at its line.
        """
        codes = {p.code for p in self.problems}
        wanted = list(expected)
        parts = [m for m in wanted if m[1] == "advice" and m[2] not in codes]
        lacking = [
            (line, severity, code)
            for line, severity, code in parts
            if not any(line == at and says(code, words) for at, words in self._parts())
        ]
        if lacking or self.marks != sorted(m for m in wanted if m not in parts):
            told = "\n".join(self._plain(f"{p.code}: {p.sentence}") for p in self.problems)
            return f"expected {sorted(wanted)}, told {self.marks}; lacking {lacking}\n{told}"
        return ""

    def _parts(self) -> Iterable[tuple[int, str]]:
        for found in self.problems:
            yield from ((n.place.line, n.words) for n in found.notes if n.place is not None)
        for pattern in self.patterns:
            yield from ((c.place.line, c.wanted) for c in pattern.checks if not c.ok)
            yield from ((r.place.line, r.words) for r in pattern.reports)

    def sentences(self, code: str) -> list[str]:
        return [self._plain(p.sentence) for p in self.problems if p.code == code]

    @property
    def told(self) -> str:
        """Every sentence, note and cure, and what a pattern says of itself."""
        words = [w for p in self.problems for w in (p.sentence, *(n.words for n in p.notes))]
        words += [p.fix.words for p in self.problems if p.fix is not None]
        words += [c.wanted for pattern in self.patterns for c in pattern.checks if not c.ok]
        words += [r.words for pattern in self.patterns for r in pattern.reports]
        return self._plain("\n".join(words))

    def _plain(self, words: str) -> str:
        return words.replace(f"{self.folder}/", "")


def says(code: str, words: str) -> bool:
    """Whether the words of a code stand in `words`, whatever fills the gaps in them."""
    sentence = WORDS[code][1].replace("{{", "{").replace("}}", "}")
    pattern = re.sub(r"\\\{\w+\\\}", ".+?", re.escape(sentence))
    return re.search(pattern, words) is not None


def marks(text: str) -> list[Mark]:
    """The problems that a text says it has."""
    return sorted(
        (number, severity, code)
        for number, line in enumerate(text.split("\n"), start=1)
        for severity, code in _MARK.findall(line)
    )


def run(example: Example, beside: Mapping[str, str], folder: Path) -> Found:
    """What is told of an example, written to `folder` with the files beside it. That a name is not
    used is left out where the example does not say so: small examples give names for show."""
    found = _run(example, beside, folder)
    expected = {code for _, _, code in marks(example.text)}
    told = tuple(p for p in found.problems if p.code != "not-used" or p.code in expected)
    return replace(found, problems=told)


def _run(example: Example, beside: Mapping[str, str], folder: Path) -> Found:
    for name, text in beside.items():
        _write(folder / name, text)
    path = folder / _NAMES[example.kind]
    named = re.search(r"^recipe (\w+)", example.text, re.MULTILINE)
    if example.kind == "godet" and named:
        path = folder / f"{named[1]}.godet"
    _write(path, example.text)
    match example.kind:
        case "yaml body":
            return Found(read_body(path, _measures())[1], (), str(folder))
        case "yaml fabric":
            return Found(read_fabric(path)[1], (), str(folder))
        case "yaml docket":
            return Found(read_docket(path)[1], (), str(folder))
        case "csv sizes":
            return Found(read_size_table(path, _measures())[1], (), str(folder))
    if "draft" not in example.options:
        return Found(check([str(path)]).problems, (), str(folder))
    if example.options["draft"].endswith(".csv"):
        return _drafted_for_sizes(example, path)
    drafted = draft(_request(example, path))
    patterns = (drafted.pattern,) if drafted.pattern is not None else ()
    return Found(drafted.problems, patterns, str(folder))


@cache
def _measures() -> Mapping[str, MeasureMeaning]:
    return vocabulary(Library(shipped("recipes")))


def _drafted_for_sizes(example: Example, path: Path) -> Found:
    """The recipe drafted for all sizes of a table in one batch."""
    bodies, problems = read_size_table(path.parent / example.options["draft"], _measures())
    compiled = compile_recipe(str(path), dict(_pairs(example.options.get("block", ""))))
    assert compiled.draft is not None, compiled.problems
    patterns, found = draft_all(prepared_for(bodies, {}, {}, compiled.draft))
    drawn = tuple(pattern for pattern in patterns if pattern is not None)
    return Found((*compiled.problems, *problems, *found), drawn, str(path.parent))


def _request(example: Example, path: Path) -> Request:
    options = example.options
    cloths = [c.rpartition(":") for c in options.get("fabric", "").split(",") if c]
    return Request(
        str(path),
        body=_beside(path, options["draft"]) if options["draft"] else None,
        fabrics={name or "main": _beside(path, file) for name, _, file in cloths},
        blocks=dict(_pairs(options.get("block", ""))),
        choices={n: (value, None) for n, value in _pairs(options.get("choose", ""))},
    )


def _beside(path: Path, name: str) -> Path:
    """A file beside the recipe, or the shipped one of that name."""
    beside = path.parent / name
    return beside if beside.is_file() else Path(name)


def _pairs(text: str) -> Iterable[tuple[str, str]]:
    for part in text.split(","):
        name, _, value = part.partition(":")
        if name:
            yield name, value


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    plain = "\n".join(_MARK.sub("", line) for line in text.split("\n"))
    path.write_bytes(plain.encode("utf-8", "surrogateescape"))
