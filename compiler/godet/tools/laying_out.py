"""Lays out recipe files: the Python call behind `godet fmt`.

In: files, and folders whose `.godet` files are meant. Out: a `LaidOut`: the new text of each file
that is not in the one layout yet, and the problems of those that can't be read or do not parse,
which are left as they are. Nothing is written here.

    lay_out([Path("recipes")]).changed
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from godet.base.problems import Problem
from godet.language.formatting import formatted
from godet.language.library import SUFFIX
from godet.orders.text_files import read_text


@dataclass(frozen=True, slots=True)
class LaidOut:
    files: tuple[Path, ...]  # all that were looked at
    changed: Mapping[Path, str]
    problems: tuple[Problem, ...]
    texts: Mapping[str, str]  # of every file read, by name


def lay_out(paths: Sequence[Path]) -> LaidOut:
    """Every file in the one layout."""
    files = tuple(dict.fromkeys(file for path in paths for file in _files(path)))
    changed: dict[Path, str] = {}
    problems: list[Problem] = []
    texts: dict[str, str] = {}
    for file in files:
        text, found = read_text(file)
        problems.extend(found)
        if text is None:
            continue
        texts[str(file)] = text
        new = formatted(text, str(file))
        problems.extend(new.problems)
        if new.text is not None and new.text.encode("utf-8") != file.read_bytes():
            changed[file] = new.text
    return LaidOut(files, changed, tuple(problems), texts)


def _files(path: Path) -> Iterator[Path]:
    if path.is_dir():
        yield from sorted(path.rglob(f"*{SUFFIX}"))
    else:
        yield path
