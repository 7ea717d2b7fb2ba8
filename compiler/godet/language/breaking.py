"""Breaks a statement that has no room in one row; a row that goes on ends in a comma.

In: the parts of a statement, its tokens and the comments inside it. Out: its rows. A chain of
curves is laid a step a row and brackets an argument a row; a list fills its rows. Commas behind the
`=` come first. What has no comma to break at stays in one row, however long. Nothing fails.

    broken(Row("", parts, {}), statement)   # ["edge side = base.side until p,", "    then ..."]
"""

from __future__ import annotations

from godet.language.columns import WIDTH, Row
from godet.language.written import Statement

_FURTHER = "    "  # how much the rows of a statement that goes on stand in


def is_broken(row: Row, statement: Statement) -> bool:
    """Whether a statement can't stand in one row."""
    last = len(statement.tokens) - 1
    return len(row.text) > WIDTH or any(at < last for at in statement.remarks)


def broken(row: Row, statement: Statement) -> list[str]:
    """The rows of a statement; its comments inside stand behind or below the commas they stood at.

    The row may lack the statement's last words, which then stand elsewhere.
    """
    breaks = _breaks(row, statement) if len(row.text) > WIDTH else {}
    rows: list[str] = []
    current, begun = row.indent, False
    for first, last in _segments(row, statement, breaks):
        text = "".join(row.parts[first : last + 1])
        if begun and (breaks.get(first - 1, False) or len(current) + len(text) > WIDTH):
            rows.append(current)
            current, begun = row.indent + _FURTHER, False
        current += text if begun else text.lstrip()
        begun = True
        remarks = statement.remarks.get(last, ())
        if remarks and last < len(statement.tokens) - 1:
            rows.append(current + "".join(f"  {r.words}" for r in remarks if not r.own_row))
            rows += [row.indent + _FURTHER + r.words for r in remarks if r.own_row]
            current, begun = row.indent + _FURTHER, False
    return [*rows, current]


def _segments(row: Row, statement: Statement, breaks: dict[int, bool]) -> list[tuple[int, int]]:
    """The first and the last part of each stretch that stays together."""
    last = len(row.parts) - 1
    ends = sorted({*breaks, *(at for at in statement.remarks if at < last), last})
    return [(end_before + 1, end) for end_before, end in zip([-1, *ends], ends, strict=False)]


def _breaks(row: Row, statement: Statement) -> dict[int, bool]:
    """Behind which parts a row may end; True where it must."""
    tokens = statement.tokens[: len(row.parts)]
    depth, equal = 0, len(tokens)
    commas: list[tuple[int, int]] = []
    for number, token in enumerate(tokens[:-1]):
        depth += {"LPAR": 1, "RPAR": -1}.get(token.type, 0)
        if token.type == "COMMA":
            commas.append((depth, number))
        elif token.type == "EQUAL" and depth == 0:
            equal = min(equal, number)
    behind = [comma for comma in commas if comma[1] > equal]
    before_first = row.indent + "".join(row.parts[: behind[0][1] + 1]) if behind else ""
    if behind and len(before_first) <= WIDTH:
        commas = behind
    outermost = min((depth for depth, _ in commas), default=0)
    places = [number for depth, number in commas if depth == outermost]
    steps = [n for n in places if tokens[n + 1].type in ("THEN", "BLENDED")]
    return dict.fromkeys(steps, True) if steps else dict.fromkeys(places, outermost > 0)
