"""Reads one file of a person's as text, or says plainly why it cannot be read.

In: a path. Out: `(text, ())`, or `(None, problems)` when the file is missing, a folder, unreadable,
not UTF-8, or holds nothing. Never raises.

    read_text(Path("bodies/adult_b.yaml"))    # (None, (file-missing: ... Did you mean ...?,))
"""

from __future__ import annotations

from pathlib import Path
from typing import TypeAlias, TypeVar

from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.orders.cures import did_you_mean, nearest, shown_path

T = TypeVar("T")
# what every reader gives: the value, or None, and all that was found; an entry that a file may
# leave out and does leave out is (None, ())
Read: TypeAlias = tuple[T | None, tuple[Problem, ...]]


def whole_file(file: str) -> Place:
    """The place of a problem that is the file's and no line's."""
    return Place(file, 1, 1, 1, 1)


def missing_file(path: Path, place: Place) -> Problem | None:
    """The problem that `path` is no file, with the name nearby that was perhaps meant."""
    try:
        if path.is_file():
            return None
        if path.is_dir():
            return problem("file-is-folder", place, file=shown_path(path))
        if path.exists():
            return problem("file-unreadable", place, file=shown_path(path))
        # every file is alike in its ending
        nearby = {p.stem: p.name for p in sorted(path.parent.iterdir()) if p.is_file()}
    except (OSError, ValueError):  # ValueError: a name with a zero byte in it
        nearby = {}
    meant = nearest(path.stem, nearby)
    hint = did_you_mean(nearby[meant] if meant is not None else None)
    return problem("file-missing", place, file=shown_path(path), hint=hint)


def read_text(path: Path) -> Read[str]:
    """The text of the file, its byte order mark left off."""
    place = whole_file(str(path))
    missing = missing_file(path, place)
    if missing is not None:
        return None, (missing,)
    try:
        data = path.read_bytes()
    except OSError:
        return None, (problem("file-unreadable", place, file=shown_path(path)),)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return None, (problem("file-not-utf8", _place_of_byte(str(path), data, error.start)),)
    if not text.strip():
        return None, (problem("file-empty", place, file=shown_path(path)),)
    return text, ()


def _place_of_byte(file: str, data: bytes, offset: int) -> Place:
    line = data.count(b"\n", 0, offset) + 1
    before = data[data.rfind(b"\n", 0, offset) + 1 : offset]
    column = len(before.decode("utf-8", "replace")) + 1
    return Place(file, line, column, line, column + 1)
