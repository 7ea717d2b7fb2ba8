"""Columns of neighbouring rows: what they share stands one below the other.

In: rows as parts, each part with the space before it. Out: the same rows with wider spaces. A
column is shared by neighbours as long as it opens no gap wider than `WIDEST_GAP` and pushes none
that has room out of its row; where it would, the next column begins. Nothing fails.

- What gives a name has its `=` in a column; a choice also its range, its limits and its words.
- What a kind's members may have has its `from` or `optional` in a column.

    rows = [Row("", ["let", " a", " =", " b"], {"=": 2}), Row("", ["let", " long", ..], {"=": 2})]
    set_in_columns(rows, ("=",))   # the first row is now `let a    = b`
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from godet.language.tokens import opens_block
from godet.language.written import Statement

WIDTH = 100
WIDEST_GAP = 28
COLUMNS = ("=", "from", "to", "tail", "words")
_GIVE_A_NAME = frozenset({"let", "set", "choose", "point", "edge", "curve", "level", "dart"})
_MEMBERS = frozenset({"point", "level", "edge", "dart", "double", "piece", "choose"})


@dataclass(slots=True)
class Row:
    indent: str
    parts: list[str]
    stops: dict[str, int]  # column: the part that begins there

    @property
    def text(self) -> str:
        return self.indent + "".join(self.parts)

    def start(self, column: str) -> int:
        """Where a column begins."""
        at = self.stops[column]
        before = len(self.indent) + sum(map(len, self.parts[:at]))
        return before + len(self.parts[at]) - len(self.parts[at].lstrip())

    def widen(self, column: str, start: int) -> None:
        """Lets a column begin there, which is no nearer than it does."""
        at = self.stops[column]
        self.parts[at] = " " * (start - self.start(column)) + self.parts[at]


def neighbourhood(statement: Statement) -> str:
    """What a statement's neighbours must share to stand in its columns; "" where nothing is."""
    if "=" in stops(statement):
        return statement.opening
    return "member" if statement.opening in _MEMBERS and not opens_block(statement.tokens) else ""


def stops(statement: Statement) -> dict[str, int]:
    """At which token each column of a statement begins."""
    flat = _outside_brackets(statement)
    if "EQUAL" in flat:
        if statement.opening not in _GIVE_A_NAME:
            return {}
        found = {"=": flat["EQUAL"]}
        if statement.opening == "choose":
            found |= {word: flat[word.upper()] for word in ("from", "to") if word.upper() in flat}
            if statement.ends_in_words:
                found["words"] = len(statement.tokens) - 1
        return found
    tails = [flat[word] for word in ("FROM", "OPTIONAL") if word in flat]
    return {"tail": min(tails)} if tails and statement.opening in _MEMBERS else {}


def _outside_brackets(statement: Statement) -> dict[str, int]:
    """The first place of each sort of token that stands in no brackets."""
    places: dict[str, int] = {}
    depth = 0
    for number, token in enumerate(statement.tokens):
        depth += {"LPAR": 1, "RPAR": -1}.get(token.type, 0)
        if depth == 0:
            places.setdefault(token.type, number)
    return places


def set_in_columns(rows: Sequence[Row], columns: Sequence[str]) -> None:
    """Widens the space before each of the columns, in neighbours that share those before it too."""
    groups = [list(rows)]
    for column in columns:
        groups = [part for group in groups for part in _aligned(group, column)]


def _aligned(rows: Sequence[Row], column: str) -> list[list[Row]]:
    """The rows with that column aligned, divided where one begins elsewhere than the one before."""
    found = [row for row in rows if column in row.stops]
    starts = shared([(row.start(column), len(row.text) - row.start(column)) for row in found])
    for row, start in zip(found, starts, strict=True):
        row.widen(column, start)
    divided: list[list[Row]] = []
    before: int | None = None
    for row in rows:
        here = row.start(column) if column in row.stops else before
        if not divided or (before is not None and here != before):
            divided.append([])
        divided[-1].append(row)
        before = here
    return divided


def shared(rows: Sequence[tuple[int, int]]) -> list[int]:
    """Where a column begins in each of neighbouring rows.

    Of a row is given where it would begin by itself, and how long what stands from there on is.
    """
    groups: list[list[tuple[int, int]]] = []
    for row in rows:
        if groups and _may_share([*groups[-1], row]):
            groups[-1].append(row)
        else:
            groups.append([row])
    return [max(start for start, _ in group) for group in groups for _ in group]


def _may_share(rows: Sequence[tuple[int, int]]) -> bool:
    widest = max(start for start, _ in rows)
    narrow = widest - min(start for start, _ in rows) <= WIDEST_GAP
    return narrow and all(widest + rest <= WIDTH or start + rest > WIDTH for start, rest in rows)
