"""What Godet says of a mutant, and what of the draft a mutant changes.

In: a mutant of a shipped file. Out: the problems a person is shown, and where there is no error
what the texts mean now: the digest of every draft that the file has a part in, the words a reader
sees, what can be asked by name. The shipped texts stand together in one folder, so that the changed
one is the one that is used; a text that was read before is not parsed again.

    with standing(folder) as shelf: shelf.judged("ease.godet", mutant.text)
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from mutants import Mutant

from godet.base.problems import Problem, has_errors
from godet.base.shipped import shipped
from godet.language import library
from godet.language.parser import parse
from godet.language.tokens import cut_lines
from godet.program.modules import kinds_of
from godet.tools.compiling import Compiled, compile_recipe
from godet.tools.vocabulary import measures

SHIPPED = {
    path.name: path.read_text(encoding="utf-8")
    for room in ("recipes", "stdlib")
    for path in sorted(shipped(room).glob("*.godet"))
}


def _every_measure() -> str:
    """A recipe that asks for all there are, since no shipped one does."""
    known = sorted(measures(library.Library(shipped("stdlib"))))
    values = "".join(f"let use_{name} = {name}\n" for name in known)
    return f"edition 1\nrecipe every_measure\nmeasure {', '.join(known)}\n{values}"


TEXTS = {**SHIPPED, "every_measure.godet": _every_measure()}
# the files that show a change of a module: itself, then what takes or uses it
_SHOWING = {"measures.godet": ("measures", "column_dress", "every_measure")}
_NOWHERE: Any = None


def _showing(file: str) -> tuple[str, ...]:
    if "\nrecipe " in SHIPPED[file]:
        return (Path(file).stem,)
    stem = Path(file).stem
    users = [Path(n).stem for n, text in SHIPPED.items() if f" from {stem}\n" in text]
    recipes = [user for user in users if "\nrecipe " in SHIPPED[f"{user}.godet"]]
    return _SHOWING.get(file, (stem, *recipes[:3]))


@dataclass(frozen=True)
class Meaning:
    """What a person would find changed."""

    draft: Any  # digests: drawing, seams, checks, choices, unknowns; what kinds promise
    words: Any  # what is told and printed
    names: Any  # what `explain` can be asked


@dataclass(frozen=True)
class Judged:
    problems: tuple[Problem, ...]  # that the text as shipped has not
    meanings: tuple[Meaning, ...]  # of each file that shows the change; none behind an error

    @property
    def refused(self) -> bool:
        return has_errors(self.problems)


@dataclass(frozen=True)
class Shelf:
    folder: Path
    known: frozenset[str]  # the sentences told of the texts as shipped

    def judged(self, file: str, text: str) -> Judged:
        told: list[Problem] = []
        meanings: list[Meaning] = []
        for showing in _showing(file):
            compiled = compile_recipe(
                str(self.folder / f"{showing}.godet"), instead={str(self.folder / file): text}
            )
            told += [p for p in compiled.problems if p.sentence not in self.known]
            if has_errors(told):
                return Judged(tuple(told), ())
            meanings.append(_meaning(compiled))
        return Judged(tuple(told), tuple(meanings))


def _meaning(compiled: Compiled) -> Meaning:
    read = compiled.library
    kinds, _ = kinds_of(read)
    promised = {name: replace(kind, doc="", place=_NOWHERE) for name, kind in kinds.items()}
    told: list[Any] = [{name: kind.doc for name, kind in kinds.items()}]
    told.append({name: replace(known, place=_NOWHERE) for name, known in measures(read).items()})
    draft, program = compiled.draft, compiled.program
    if draft is None or program is None:
        return Meaning(promised, told, None)
    told += [draft.name, draft.doc]
    told += [(c.doc, c.typed, c.words) for _, c in sorted(draft.choices.items())]
    digest = draft.graph.digest
    names = {name: digest(node) for name, node in draft.names.items()}
    # what this one asks of the measures is all it means
    asked = names if draft.name == "every_measure" else None
    return Meaning((promised, draft.digest, asked), told, names)


@contextmanager
def standing(folder: Path) -> Iterator[Shelf]:
    """The shipped texts in a folder."""
    for name, text in TEXTS.items():
        (folder / name).write_text(text, encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(library, "parse", cache(parse))
        shelf = Shelf(folder, frozenset())
        told = [p.sentence for file in SHIPPED for p in shelf.judged(file, SHIPPED[file]).problems]
        yield replace(shelf, known=frozenset(told))


# --- where a mutant may be told ------------------------------------------------------------------


def at_the_right_place(file: str, mutant: Mutant, told: Problem) -> bool:
    """Whether a problem stands at the changed line or where what was changed is used."""
    place = told.place
    if place is None:
        return False
    stands_in = Path(place.file).name
    if stands_in == file and place.line in mutant.lines:
        return True
    text = mutant.text if stands_in == file else TEXTS[stands_in]
    rows = range(place.line, place.end_line + 1)
    there = {t.value for line in cut_lines(text) for t in line.tokens if t.line in rows}
    # the line that makes or takes a kind uses all of its names
    there |= set(told.sentence.replace(".", " ").replace(",", " ").replace("`", " ").split())
    return bool(mutant.names & there)


# --- why a mutant may mean the same --------------------------------------------------------------

_LISTS = frozenset(
    "use takes measure allow mark point level edge dart piece seam choose define".split()
)


def _same_list(mutant: Mutant, text: str) -> bool:
    """Two neighbours of a list whose order says nothing: only a comma stands between them."""
    if mutant.sort != "names swapped":
        return False
    line = next(line for line in cut_lines(text) if line.tokens[0].line == mutant.lines.start)
    pairs = zip(line.tokens, line.tokens[1:], line.tokens[2:], strict=False)
    beside = any(
        {first.value, last.value} == mutant.names and comma.type in ("COMMA", "WITH")
        for first, comma, last in pairs
    )
    return beside and line.tokens[0].value in _LISTS


def _nought(mutant: Mutant, text: str) -> bool:
    """Nothing is nothing, in whatever unit."""
    number = mutant.what.split(" -> ")[0]
    return mutant.sort == "another unit" and number.strip("cmindeg% ") == "0"


def _words_for_readers_of_the_text(mutant: Mutant, text: str) -> bool:
    """Words that explain a definition of a module; no output prints them."""
    lines = cut_lines(text)
    at = next(n for n, line in enumerate(lines) if line.tokens[0].line == mutant.lines.start)
    return lines[at].tokens[0].type == "TEXT" and lines[at - 1].tokens[0].value == "define"


REASONS = {
    "neighbours of a list without order": _same_list,
    "nought in another unit": _nought,
    "words that only who reads the text sees": _words_for_readers_of_the_text,
}


def reason(mutant: Mutant, text: str) -> str | None:
    """Why the mutant of a text means what the text means; None where there is no telling."""
    return next((words for words, holds in REASONS.items() if holds(mutant, text)), None)
