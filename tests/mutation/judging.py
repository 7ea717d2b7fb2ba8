"""What Godet says of a mutant, and what of the draft a mutant changes.

In: a mutant of a shipped file. Out: the problems a person is shown, or what the texts mean now: the
digest of every draft that the file has a part in, the words a reader sees, kinds and measures. The
shipped texts stand together in one folder, so that the changed one is the one that is used.

    with Shelf() as shelf: shelf.judged("ease.godet", mutant)
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from godet.base.problems import Problem
from godet.base.shipped import shipped
from godet.language import library
from godet.language.parser import parse
from godet.program.modules import kinds_of
from godet.tools.compiling import Compiled, compile_recipe
from godet.tools.vocabulary import measures

RECIPES = ("column_dress", "knit_tee")
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


# the files that show a change of a file: itself, then what takes or uses it
SHOWING = {
    "ease.godet": ("ease", "column_dress"),
    "kinds.godet": ("kinds", "column_dress"),
    "measures.godet": ("measures", "column_dress", "every_measure"),
}


@dataclass(frozen=True)
class Meaning:
    """What a person would find changed."""

    drafts: tuple[Any, ...]  # digests: drawing, seams, checks, choices, unknowns
    words: tuple[Any, ...]  # what is told and printed
    names: tuple[Any, ...]  # what `explain` can tell by name


@dataclass(frozen=True)
class Judged:
    problems: tuple[Problem, ...]  # of the first file that has any
    meaning: Meaning | None  # None where there are problems


@dataclass(frozen=True)
class Shelf:
    folder: Path

    def judged(self, file: str, text: str) -> Judged:
        path = self.folder / file
        path.write_text(text, encoding="utf-8")
        try:
            return self._judged(file)
        finally:
            path.write_text(SHIPPED[file], encoding="utf-8")

    def _judged(self, file: str) -> Judged:
        found: list[Meaning] = []
        for showing in SHOWING.get(file, (Path(file).stem,)):
            compiled = compile_recipe(str(self.folder / f"{showing}.godet"))
            if compiled.problems:
                return Judged(compiled.problems, None)
            found.append(_meaning(compiled))
        return Judged((), Meaning(*(tuple(part) for part in zip(*map(_parts, found), strict=True))))


def _parts(meaning: Meaning) -> tuple[Any, ...]:
    return meaning.drafts, meaning.words, meaning.names


def _meaning(compiled: Compiled) -> Meaning:
    read = compiled.library
    kinds, _ = kinds_of(read)
    promised = {name: replace(kind, doc="", place=_HERE) for name, kind in kinds.items()}
    told: list[Any] = [{name: kind.doc for name, kind in kinds.items()}]
    told.append({name: replace(known, place=_HERE) for name, known in measures(read).items()})
    draft, program = compiled.draft, compiled.program
    if draft is None or program is None:
        return Meaning((promised,), tuple(told), ())
    told += [draft.name, draft.doc]
    told += [(c.doc, c.typed) for _, c in sorted(draft.choices.items())]
    digest = draft.graph.digest
    # a measure is drawn with as its estimate says
    lets = {n: digest(v) for n, v in program.lets.items() if n.startswith("use_")}
    names = {name: digest(node) for name, node in draft.names.items()}
    return Meaning((promised, draft.digest, lets), tuple(told), (names,))


_HERE: Any = None


@contextmanager
def standing(folder: Path) -> Iterator[Shelf]:
    """The shipped texts in a folder; a text that was read before is not parsed again."""
    for name, text in {**SHIPPED, "every_measure.godet": _every_measure()}.items():
        (folder / name).write_text(text, encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        once: Callable[..., Any] = cache(parse)
        patch.setattr(library, "parse", once)
        yield Shelf(folder)
