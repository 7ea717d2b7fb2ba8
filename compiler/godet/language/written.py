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

# what can stand before the words of a statement: the end of a value or of a curve
_BEFORE_WORDS = frozenset({"NAME", "NUMBER", "TEXT", "RPAR", "COMPASS", "SMOOTHLY"})


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
        """The comments behind the whole statement, in its last row."""
        return self.remarks.get(len(self.tokens) - 1, ())

    @property
    def ends_in_words(self) -> bool:
        """Whether it ends in words about it, which mean the same on a row of their own."""
        types = [token.type for token in self.tokens]
        if len(types) < 3 or types[-1] != "TEXT" or types[-2] not in _BEFORE_WORDS:
            return False
        return self.may_have_words

    @property
    def is_words(self) -> bool:
        """Whether it is nothing but words in quotes."""
        return [token.type for token in self.tokens] == ["TEXT"]

    @property
    def may_have_words(self) -> bool:
        """Whether words in quotes on the row below are its own."""
        types = [token.type for token in self.tokens]
        if types[0] == "DEFINE":
            return "EQUAL" in types and types[1] not in ("PIECE", "MEASURE")
        return types[0] in ("REQUIRE", "ADVISE") or (types[0] == "CHOOSE" and "EQUAL" in types)


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
            # a comma at the end lets a line go on, but the next statement may begin all the same
            last = len(self.tokens) - 1
            below = [remark.words for remark in self.remarks.get(last, ()) if remark.own_row]
            behind = tuple(r for r in self.remarks.pop(last, ()) if not r.own_row)
            remarks = {**self.remarks, **({last: behind} if behind else {})}
            self.items.append(Statement(tuple(self.tokens), remarks))
            self.items += [CommentLine(words) for words in below]
        self.tokens.clear()
        self.remarks.clear()


def _with_words(items: list[Item]) -> list[Item]:
    """The items, with words on the row below a statement taken into it."""
    joined: list[Item] = []
    for item in items:
        before = joined[-1] if joined else None
        if (
            isinstance(item, Statement)
            and item.is_words
            and isinstance(before, Statement)
            and before.may_have_words
            and not before.behind
            and before.tokens[-1].type != "TEXT"
        ):
            at = len(before.tokens)
            remarks = {**before.remarks, **({at: item.behind} if item.behind else {})}
            joined[-1] = replace(before, tokens=(*before.tokens, *item.tokens), remarks=remarks)
        else:
            joined.append(item)
    return joined
