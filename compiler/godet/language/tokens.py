"""Cuts a text into tokens, and tokens into logical lines.

In: the text of a `.godet` file and its name. Out: `Line`s of lark tokens, one line a statement;
comments kept apart. Never raises: a character that means nothing becomes an `UNREADABLE` token,
which no rule of the grammar takes.

A number carries its unit in one token (`14 3/8 in`), so `in` can be a word elsewhere. A line that
ends in a comma goes on, unless the next one begins a statement of its own.

    cut_lines("let a = 2cm", "a.godet")[0].tokens  ->  LET NAME EQUAL NUMBER
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lark import Token

from godet.base.places import Place
from godet.base.quantities import read_quantity

OPENING_WORDS = frozenset(
    """
    edition use recipe takes makes without kind define measure choose let find piece
    point edge curve level dart notch allow fold grain cut mark seam match require advise end
    means take estimate title set deprecated double swing convert spread divide join unfold
    """.split()
)
WORDS = OPENING_WORDS | frozenset(
    """
    from to of one so that at by over on in the with optional then until through leaving
    arriving smoothly blended square along toward parallel extended line arc across down
    up outward inward is has and or not if else midway way crossing nearest near lowest
    highest innermost outermost first only mirrored easing stretched gathered after when
    none follows since now stopping called pressed meeting into as places hinged holding
    keeping mitred rounded folded reversed reshaped tension fair between
    """.split()
)

COMPASS = frozenset({"down", "up", "outward", "inward"})

_PUNCTUATION = {
    "=": "EQUAL",
    ",": "COMMA",
    ":": "COLON",
    ".": "DOT",
    "(": "LPAR",
    ")": "RPAR",
    "+": "PLUS",
    "-": "MINUS",
    "*": "TIMES",
    "/": "DIVIDED",
    "^": "CIRCUMFLEX",
    ">=": "AT_LEAST",
    "<=": "AT_MOST",
    ">": "MORE",
    "<": "LESS",
}

_TOKEN = re.compile(
    r"""
    (?P<SPACE>[ \t\r\f]+)
  | (?P<COMMENT>\#[^\n]*)
  | (?P<NEWLINE>\n)
  | (?P<NUMBER>(?:\d+[ ]\d+/\d+|\d+/\d+|\d+(?:\.\d+)?)
      (?:[ ]?(?:(?:mm|cm|m|in|ft|yd|deg|kg|lb)(?!\w)|%))?)
  | (?P<NAME>[^\W\d]\w*)
  | (?P<TEXT>"[^"\n]*")
  | (?P<PUNCTUATION>>=|<=|[=,:.()+\-*/^<>])
  | (?P<UNREADABLE>"[^"\n]*|.)
    """,
    re.VERBOSE,
)


@dataclass(frozen=True, slots=True)
class Line:
    """The tokens of one statement, never empty."""

    tokens: tuple[Token, ...]


def place_of(token: Token, file: str) -> Place:
    """Where a token stands."""
    return Place(
        file, token.line or 1, token.column or 1, token.end_line or 1, token.end_column or 1
    )


def tokens_of(text: str) -> Iterator[Token]:
    line, line_start = 1, 0
    for found in _TOKEN.finditer(text):
        type_, value = found.lastgroup or "", found.group()
        if type_ == "NUMBER" and read_quantity(value) is None:
            type_ = "UNREADABLE"  # nothing below the slash, or too many digits
        if type_ == "NAME" and not value.isidentifier():
            type_ = "UNREADABLE"  # begins with a figure such as ½
        elif type_ == "NAME" and value in WORDS:
            type_ = "COMPASS" if value in COMPASS else value.upper()
        elif type_ == "PUNCTUATION":
            type_ = _PUNCTUATION[value]
        if type_ != "SPACE":
            column = found.start() - line_start + 1
            yield Token(
                type_, value, found.start(), line, column, line, column + len(value), found.end()
            )
        if type_ == "NEWLINE":
            line, line_start = line + 1, found.end()


def opens_block(tokens: Sequence[Token]) -> bool:
    """Whether a line holds those that follow, up to its `end`."""
    types = [token.type for token in tokens]
    if types[0] in ("PIECE", "KIND"):
        return types[-1] != "OPTIONAL"
    return types[:2] in (["DEFINE", "MEASURE"], ["DEFINE", "PIECE"])


def cut_lines(text: str) -> tuple[Line, ...]:
    """The statements of a text as lines of tokens, comments left out."""
    lines: list[Line] = []
    current: list[Token] = []
    for token in tokens_of(text):
        if token.type == "COMMENT":
            continue
        if token.type == "NEWLINE":
            if current and current[-1].type != "COMMA":
                lines.append(Line(tuple(current)))
                current = []
            continue
        if token.value in OPENING_WORDS and current and token.line != current[-1].line:
            lines.append(Line(tuple(current)))
            current = []
        current.append(token)
    if current:
        lines.append(Line(tuple(current)))
    return tuple(lines)
