"""How the words and signs of one statement are spaced.

In: tokens. Out: each with the space that stands before it. Numbers and words in quotes stay as they
were typed. Nothing fails.

    spaced(cut_lines("let a=max( - 2cm,b )")[0].tokens)   # "let", " a", " =", " max", "(", "-", ..
"""

from __future__ import annotations

from collections.abc import Sequence

from lark import Token

# what an operand ends in: a minus behind it takes away
OPERANDS = frozenset({"NAME", "NUMBER", "TEXT", "RPAR"})


def spaced(tokens: Sequence[Token]) -> list[str]:
    """The tokens, each with the space that stands before it."""
    parts: list[str] = []
    for number, token in enumerate(tokens):
        before = tokens[number - 1] if number else None
        earlier = tokens[number - 2] if number > 1 else None
        space = " " if before is not None and _apart(earlier, before, token) else ""
        parts.append(space + str(token))
    return parts


def _apart(earlier: Token | None, before: Token, token: Token) -> bool:
    """Whether a space stands between two neighbours."""
    if token.type in ("COMMA", "COLON", "RPAR", "DOT") or before.type in ("LPAR", "DOT"):
        return False
    if before.type == "MINUS" and (earlier is None or earlier.type not in OPERANDS):
        return False  # a minus of its own number stands close to it
    return token.type != "LPAR" or before.type != "NAME"
