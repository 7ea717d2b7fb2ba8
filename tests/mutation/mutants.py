"""Small slips of the hand in a text that is right: a line lost, names swapped, another unit.

In: the text of a `.godet` file. Out: its `Mutant`s, each with the one change made. Lines keep their
numbers, so that a place in the mutant is a place in the text. Nothing fails.

    lost_lines("edition 1\\nrecipe a\\n")[0].text  ->  "\\nrecipe a\\n"
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from lark import Token

from godet.language.tokens import Line, cut_lines


@dataclass(frozen=True)
class Mutant:
    sort: str  # a line lost, a block lost, a heading lost, an end lost, names swapped, ..
    text: str
    lines: range  # the changed lines
    names: frozenset[str]  # what was removed or changed
    what: str  # the change in words


# the units a slip of the hand may write instead: one of the same dimension, one of another, none
_OTHER_UNITS = {
    "mm": ("cm", "deg", ""),
    "cm": ("in", "deg", ""),
    "in": ("cm", "deg", ""),
    "deg": ("cm", "%", ""),
    "%": ("cm", "deg", ""),
}
_BLOCKS = ("kind", "piece")
_OF_THE_FILE = ("edition", "recipe")


def _without(text: str, start: int, end: int) -> str:
    """The text with a stretch gone, its line ends kept."""
    return text[:start] + "\n" * text[start:end].count("\n") + text[end:]


def starts_at(line: Line) -> int:
    start = line.tokens[0].start_pos
    assert start is not None
    return start


def ends_at(line: Line) -> int:
    end = line.tokens[-1].end_pos
    assert end is not None
    return end


def _rows(first: Line, last: Line) -> range:
    start, end = first.tokens[0].line, last.tokens[-1].line
    assert start is not None
    assert end is not None
    return range(start, end + 1)


def _words(line: Line) -> str:
    return " ".join(token.value for token in line.tokens)


def opens(line: Line) -> bool:
    """Whether a line opens a block."""
    first, last = line.tokens[0].value, line.tokens[-1].value
    defined = line.tokens[1].value if len(line.tokens) > 1 else ""
    is_block = defined in ("measure", "piece")
    return (first in _BLOCKS and last != "optional") or (first == "define" and is_block)


def blocks(lines: tuple[Line, ...]) -> Iterator[tuple[Line, Line]]:
    """The heading and the `end` of each block."""
    open_: list[Line] = []
    for line in lines:
        if opens(line):
            open_.append(line)
        elif line.tokens[0].value == "end":
            yield open_.pop(), line


def _names(line: Line) -> frozenset[str]:
    """The names a line gives: those right behind its opening words."""
    given = []
    for token in line.tokens[1:]:
        if token.type == "NAME":
            given.append(token.value)
        elif token.type not in ("COMMA", "MEASURE"):
            break
    return frozenset(given)


def lost_lines(text: str) -> Iterator[Mutant]:
    """A statement is lost; of a block its heading, and in another mutant the whole of it."""
    lines = cut_lines(text)
    for line, behind in zip(lines, [*lines[1:], lines[-1]], strict=True):
        if opens(line) or line.tokens[0].value == "end":
            continue
        # that a heading of the file is gone shows in the line behind it
        shows = behind if line.tokens[0].value in _OF_THE_FILE else line
        gone = _without(text, starts_at(line), ends_at(line))
        yield Mutant("line lost", gone, _rows(line, shows), _names(line), _words(line))
    for heading, end in blocks(lines):
        rows = _rows(heading, end)
        inside = [_names(line) for line in lines if line.tokens[0].line in rows]
        for sort, last in (("heading lost", heading), ("block lost", end)):
            gone = _without(text, starts_at(heading), ends_at(last))
            yield Mutant(sort, gone, rows, frozenset().union(*inside), _words(heading))


def lost_ends(text: str) -> Iterator[Mutant]:
    """An `end` is lost: its block's lines and the statement behind it show that."""
    lines = cut_lines(text)
    for heading, end in blocks(lines):
        gone = _without(text, starts_at(end), ends_at(end))
        shows = next((line for line in lines if starts_at(line) > starts_at(end)), end)
        yield Mutant("end lost", gone, _rows(heading, shows), frozenset(), _words(heading))


def swapped_names(text: str) -> Iterator[Mutant]:
    """Two neighbouring names of a line change places."""
    for line in cut_lines(text):
        names = [token for token in line.tokens if token.type == "NAME"]
        for first, second in pairwise(names):
            if first.value == second.value:
                continue
            between = text[first.end_pos : second.start_pos]
            changed = f"{second.value}{between}{first.value}"
            made = text[: first.start_pos] + changed + text[second.end_pos :]
            swapped = frozenset({first.value, second.value})
            what = f"{first.value} <-> {second.value} in: {_words(line)}"
            yield Mutant("names swapped", made, _rows(line, line), swapped, what)


def other_units(text: str) -> Iterator[Mutant]:
    """A number has another unit, or has lost its own."""
    for line in cut_lines(text):
        for token in line.tokens:
            for written in _rewritten(token):
                made = text[: token.start_pos] + written + text[token.end_pos :]
                names = _names(line)
                what = f"{token.value} -> {written} in: {_words(line)}"
                yield Mutant("another unit", made, _rows(line, line), names, what)


def _rewritten(token: Token) -> Iterator[str]:
    if token.type != "NUMBER":
        return
    unit = token.value.lstrip("0123456789./ ")
    number = token.value[: len(token.value) - len(unit)]
    for other in _OTHER_UNITS.get(unit, ()):
        yield (number + other).strip()


def mutants(text: str) -> tuple[Mutant, ...]:
    """Every mutant of a text."""
    made = (*lost_lines(text), *lost_ends(text), *swapped_names(text), *other_units(text))
    return tuple(made)
