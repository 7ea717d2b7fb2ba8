"""Lays out recipe files: the Python call behind `godet fmt`.

In: files, and folders whose `.godet` files are meant. Out: a `LaidOut`: the new text of each file
that is not in the one layout yet, and the problems of those that can't be read or do not parse,
which are left as they are. Nothing is written here.

The new text has the line ends of Unix and no byte order mark, whatever the old one had.

    lay_out(["recipes"]).changed
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from godet.base.problems import Problem, problem
from godet.language.formatting import formatted
from godet.language.library import SUFFIX
from godet.orders.text_files import read_text, whole_file


@dataclass(frozen=True, slots=True)
class LaidOut:
    files: tuple[Path, ...]  # all that were looked at
    changed: Mapping[Path, str]
    problems: tuple[Problem, ...]
    texts: Mapping[str, str]  # of every file read, by name


def lay_out(names: Sequence[str]) -> LaidOut:
    """Every file in the one layout."""
    problems: list[Problem] = []
    files = tuple(dict.fromkeys(file for name in names for file in _files(name, problems)))
    changed: dict[Path, str] = {}
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


def _files(name: str, problems: list[Problem]) -> list[Path]:
    """The file of that name, or those of the folder and the folders in it."""
    if not os.path.isdir(name):
        if name:
            return [Path(name)]
        # no name at all is no name for the folder one stands in
        problems.append(problem("file-missing", None, file=name, hint=""))
        return []

    def closed(error: OSError) -> None:
        folder = str(error.filename)
        problems.append(problem("file-unreadable", whole_file(folder), file=folder))

    found: list[Path] = []
    for folder, inner, held in os.walk(name, onerror=closed):
        # a hidden folder, such as that of an installation, holds no work of one's own
        inner[:] = sorted(each for each in inner if not each.startswith("."))
        found += [Path(folder, each) for each in sorted(held) if each.endswith(SUFFIX)]
    if not found:
        pattern = str(Path(name, f"*{SUFFIX}"))
        problems.append(problem("file-missing", None, file=pattern, hint=""))
    return found
