"""Colours for Godet texts in the built pages, with the words that the compiler itself cuts by.

In: a text. Out: Pygments tokens. Nothing fails: what means nothing is plain text.
"""

from __future__ import annotations

from typing import ClassVar

from pygments.lexer import RegexLexer, words
from pygments.token import Comment, Keyword, Name, Number, Operator, Punctuation, String, Text

from godet.language.tokens import OPENING_WORDS, WORDS


class GodetLexer(RegexLexer):
    name = "Godet"
    aliases: ClassVar[list[str]] = ["godet"]
    filenames: ClassVar[list[str]] = ["*.godet"]

    tokens: ClassVar = {
        "root": [
            (r"\s+", Text),
            (r"#[^\n]*", Comment),
            (r'"[^"\n]*"', String),
            (r"(?:\d+ )?\d+(?:/\d+|\.\d+)? ?(?:(?:mm|cm|m|in|ft|yd|deg)\b|%)?", Number),
            (words(sorted(OPENING_WORDS), prefix=r"^(\s*)", suffix=r"\b"), Keyword.Declaration),
            (words(sorted(WORDS), prefix=r"\b", suffix=r"\b"), Keyword),
            (r"[^\W\d]\w*", Name),
            (r">=|<=|[=+\-*/^<>]", Operator),
            (r"[,:.()]", Punctuation),
            (r".", Text),
        ]
    }
