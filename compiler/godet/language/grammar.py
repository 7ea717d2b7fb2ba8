"""The grammar as a parser, ready in a few milliseconds.

In: `grammar.lark` and the tables made from it. Out: lark's LALR parser, fed with tokens that
`tokens.py` has cut. The tables hold the digest of the grammar and the version of lark they were
made with; where either differs they are built anew, which takes a tenth of a second and no more.
After a change to the grammar run `python -m godet.language.grammar` to write them again.

    parse_line(line.tokens)   # a lark tree; raises Unexpected
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from functools import cache
from importlib import import_module
from importlib.resources import files
from pathlib import Path
from typing import Any

import lark
from lark import Lark, Token, UnexpectedToken
from lark.grammar import Rule
from lark.lexer import TerminalDef
from lark.parsers.lalr_interactive_parser import InteractiveParser

_TABLES = "godet.language.grammar_tables"


def grammar_text() -> str:
    return files("godet.language").joinpath("grammar.lark").read_text(encoding="utf-8")


def digest(text: str) -> str:
    """What the tables must have been made from."""
    return hashlib.sha256(text.encode()).hexdigest()


@cache
def parser() -> Lark:
    """The parser, from the tables where they fit."""
    text = grammar_text()
    tables: Any = import_module(_TABLES)
    if digest(text) == tables.DIGEST and lark.__version__ == tables.LARK:
        load: Callable[..., Lark] = Lark._load_from_dict
        return load(tables.DATA, tables.MEMO)
    return built(text)


def built(text: str) -> Lark:
    """The parser, built from the grammar."""
    # the basic lexer is never used: tokens are fed to the parser one by one
    return Lark(
        text, parser="lalr", lexer="basic", propagate_positions=True, maybe_placeholders=True
    )


class Unexpected(Exception):
    """A token that can't stand where it does; None where the line ends too soon."""

    def __init__(self, token: Token | None, accepted: frozenset[str]) -> None:
        super().__init__(str(token))
        self.token = token
        self.accepted = accepted  # the terminals that could stand there


def parse_line(tokens: Sequence[Token]) -> Any:
    """What one line parses to. Raises `Unexpected`."""
    feeding = parser().parse_interactive()
    for token in tokens:
        _feed(feeding, feeding.feed_token, token, token)
    return _feed(feeding, feeding.feed_eof, tokens[-1], None)


def _feed(
    feeding: InteractiveParser, feed: Callable[[Token], Any], token: Token, blamed: Token | None
) -> Any:
    try:
        return feed(token)
    except UnexpectedToken:
        accepts: Callable[[], set[str]] = feeding.accepts
        raise Unexpected(blamed, frozenset(accepts())) from None


def tables_text() -> str:
    """The tables as a Python module."""
    text = grammar_text()
    data, memo = built(text).memo_serialize([TerminalDef, Rule])
    lines = [
        '"""Made from grammar.lark by `python -m godet.language.grammar`; not written by hand."""',
        "",
        "from typing import Any",
        "",
        f'LARK = "{lark.__version__}"',
        f'DIGEST = "{digest(text)}"',
        f"DATA: dict[str, Any] = {data!r}",
        f"MEMO: dict[int, Any] = {memo!r}",
        "",
    ]
    return "\n".join(lines)


if __name__ == "__main__":
    Path(__file__).with_name("grammar_tables.py").write_text(tables_text(), encoding="utf-8")
