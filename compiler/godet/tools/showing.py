"""Shows problems: underlined in their text for a person, or as JSON for a program.

In: problems and the texts their places refer to. Out: text. Nothing fails; a place whose text is
not at hand is shown by file and line alone.

    print(shown(problems, texts))
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from godet.base.places import Place
from godet.base.problems import Problem


def shown(problems: Iterable[Problem], texts: Mapping[str, str]) -> str:
    """Every problem with its line of the text, a blank line between."""
    return "\n\n".join(_one(found, texts) for found in problems)


def _one(found: Problem, texts: Mapping[str, str]) -> str:
    where = f" at {found.place}" if found.place is not None else ""
    lines = [f"{found.severity}{where} [{found.code}]", f"  {found.sentence}"]
    lines += _underlined(found.place, texts)
    for note in found.notes:
        at = f" ({note.place.file}, line {note.place.line})" if note.place is not None else ""
        lines.append(f"  note: {note.words}{at}")
    if found.fix is not None:
        lines.append(f"  cure: {found.fix.words}")
    return "\n".join(lines)


def _underlined(place: Place | None, texts: Mapping[str, str]) -> list[str]:
    if place is None or place.file not in texts:
        return []
    lines = texts[place.file].split("\n")
    if not 1 <= place.line <= len(lines):
        return []
    typed = lines[place.line - 1].expandtabs(1)
    line = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in typed)
    last = place.end_column if place.end_line == place.line else len(line) + 1
    number = str(place.line)
    marks = " " * (place.column - 1) + "^" * max(1, last - place.column)
    return [f"  {number} | {line}", f"  {' ' * len(number)} | {marks}"]


def texts_of(problems: Iterable[Problem]) -> dict[str, str]:
    """The texts of the files at which the problems point, of those that can be read."""
    texts = {}
    for file in {found.place.file for found in problems if found.place is not None}:
        with suppress(OSError, ValueError):  # ValueError: a name with a zero byte in it
            if Path(file).is_file():  # a pipe would be waited for
                # the byte order mark is none of the line's columns
                texts[file] = Path(file).read_text(encoding="utf-8-sig", errors="replace")
    return texts


def as_records(problems: Iterable[Problem]) -> list[dict[str, Any]]:
    """The problems as plain data for JSON."""
    return [
        {
            "code": found.code,
            "severity": str(found.severity),
            "sentence": found.sentence,
            "place": place_record(found.place),
            "notes": [{"words": n.words, "place": place_record(n.place)} for n in found.notes],
            "fix": {
                "words": found.fix.words,
                "place": place_record(found.fix.place),
                "replacement": found.fix.replacement,
            }
            if found.fix is not None
            else None,
        }
        for found in problems
    ]


def place_record(place: Place | None) -> dict[str, Any] | None:
    """A place as plain data for JSON."""
    if place is None:
        return None
    return {
        "file": place.file,
        "line": place.line,
        "column": place.column,
        "end_line": place.end_line,
        "end_column": place.end_column,
    }
