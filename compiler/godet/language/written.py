"""A text as its writer sees it: statements with their comments, comment lines, blank lines.

In: a text. Out: what stands in it, in order, with nothing lost but white space. Never raises; lines
that do not parse are statements like any other.

    written("let a = 2cm # narrow")   # [Statement(tokens=(let, a, =, 2cm), remarks=...)]
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from lark import Token

from godet.language.tokens import OPENING_WORDS, tokens_of


@dataclass(frozen=True, slots=True)
class Remark:
    """A comment inside or behind a statement."""

    words: str
    own_row: bool


@dataclass(frozen=True, slots=True)
class Statement:
    tokens: tuple[Token, ...]
    # behind which token, by its position, which comments stand
    remarks: Mapping[int, tuple[Remark, ...]] = field(default_factory=dict)

    @property
    def opening(self) -> str:
        return str(self.tokens[0])

    @property
    def behind(self) -> tuple[Remark, ...]:
        """The comments behind the whole statement."""
        return self.remarks.get(len(self.tokens) - 1, ())


@dataclass(frozen=True, slots=True)
class CommentLine:
    words: str


@dataclass(frozen=True, slots=True)
class BlankLine:
    pass


Item = Statement | CommentLine | BlankLine


def written(text: str) -> list[Item]:
    """All that stands in a text; words in quotes on the row below their statement are in it."""
    reading = _Reading([])
    for token in tokens_of(text):
        reading.take(token)
    reading.close()
    return _with_words(reading.items)


@dataclass(slots=True)
class _Reading:
    items: list[Item]
    tokens: list[Token] = field(default_factory=list)
    remarks: dict[int, tuple[Remark, ...]] = field(default_factory=dict)
    row_is_empty: bool = True

    def take(self, token: Token) -> None:
        if token.type == "NEWLINE":
            self._new_row()
            return
        if token.type == "COMMENT":
            self._comment(token)
        else:
            if self.row_is_empty and self.tokens and token.value in OPENING_WORDS:
                self.close()
            self.tokens.append(token)
        self.row_is_empty = False

    def _new_row(self) -> None:
        if self.tokens and self.tokens[-1].type != "COMMA":
            self.close()
        elif not self.tokens and self.row_is_empty:
            self.items.append(BlankLine())
        self.row_is_empty = True

    def _comment(self, token: Token) -> None:
        words = str(token).rstrip()
        if not self.tokens:
            self.items.append(CommentLine(words))
            return
        at = len(self.tokens) - 1
        remark = Remark(words, own_row=self.row_is_empty)
        self.remarks[at] = (*self.remarks.get(at, ()), remark)

    def close(self) -> None:
        if self.tokens:
            self.items.append(Statement(tuple(self.tokens), dict(self.remarks)))
        self.tokens.clear()
        self.remarks.clear()


def _with_words(items: list[Item]) -> list[Item]:
    joined: list[Item] = []
    for item in items:
        before = joined[-1] if joined else None
        if _is_words(item) and isinstance(before, Statement) and _wants_words(before):
            assert isinstance(item, Statement)
            at = len(before.tokens)
            remarks = {**before.remarks, **({at: item.behind} if item.behind else {})}
            joined[-1] = replace(before, tokens=(*before.tokens, *item.tokens), remarks=remarks)
        else:
            joined.append(item)
    return joined


def _is_words(item: Item) -> bool:
    return isinstance(item, Statement) and [token.type for token in item.tokens] == ["TEXT"]


def _wants_words(statement: Statement) -> bool:
    """Whether words on the row below may as well stand in the statement itself."""
    types = [token.type for token in statement.tokens]
    if types[-1] in ("TEXT", "COMMA") or statement.behind:
        return False
    if types[0] == "DEFINE":
        return "EQUAL" in types and types[1] not in ("PIECE", "MEASURE")
    return types[0] in ("REQUIRE", "ADVISE") or (types[0] == "CHOOSE" and "EQUAL" in types)
