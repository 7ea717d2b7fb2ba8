"""All rows of a text: its statements in columns, with their comments and blank lines.

In: a text that parses. Out: its rows. Nothing fails.

    list(rows_of("let  a=2cm # narrow"))   # ["let a = 2cm  # narrow"]
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from godet.language.breaking import broken, is_broken
from godet.language.columns import COLUMNS, Row, neighbourhood, set_in_columns, shared, stops
from godet.language.indenting import Indented, indented
from godet.language.spacing import spaced
from godet.language.written import BlankLine, CommentLine, Statement, written

_INDENT = "  "


@dataclass(slots=True)
class _LaidOut:
    """A statement in its rows, all but the comments behind it."""

    rows: list[str]
    depth: int
    behind: str


def rows_of(text: str) -> Iterator[str]:
    """The rows of the text in the one layout, without their line ends."""
    items = list(indented(written(text)))
    statements = _statements(items)
    _align_comments(items, statements)
    for number, each in enumerate(items):
        match each.item:
            case BlankLine():
                yield ""
            case CommentLine(words):
                yield _INDENT * each.depth + words
            case Statement():
                laid_out = statements[number]
                yield from laid_out.rows[:-1]
                yield laid_out.rows[-1] + laid_out.behind


def _statements(items: Sequence[Indented]) -> dict[int, _LaidOut]:
    """Every statement in its rows, by its number among the items."""
    found: dict[int, _LaidOut] = {}
    for run in _runs(items):
        depth = items[run[0][0]].depth
        rows = _in_columns([statement for _, statement in run], _INDENT * depth)
        for (number, statement), row in zip(run, rows, strict=True):
            behind = "".join(f"  {remark.words}" for remark in statement.behind)
            found[number] = _LaidOut(_statement_rows(statement, row), depth, behind)
    return found


def _runs(items: Sequence[Indented]) -> Iterator[list[tuple[int, Statement]]]:
    """Neighbours that may share columns, with their numbers; comment lines do not part them."""
    run: list[tuple[int, Statement]] = []
    shared_by_run = None
    for number, each in enumerate(items):
        if isinstance(each.item, CommentLine):
            continue
        if run:
            kind = neighbourhood(each.item) if isinstance(each.item, Statement) else ""
            if not kind or (each.depth, kind) != shared_by_run:
                yield run
                run = []
        if isinstance(each.item, Statement):
            run.append((number, each.item))
            shared_by_run = (each.depth, neighbourhood(each.item))
    if run:
        yield run


def _in_columns(statements: Sequence[Statement], indent: str) -> list[Row]:
    """Neighbours as rows, with what they share one below the other.

    A row that lacks the words its statement ends in is one whose words stand below.
    """
    if all(each.opening == "choose" or not each.ends_in_words for each in statements):
        rows = [_row(each, spaced(each.tokens), indent) for each in statements]
        set_in_columns(rows, COLUMNS)
        one_column = len({row.start("words") for row in rows if "words" in row.stops}) <= 1
        room = not any(is_broken(row, each) for row, each in zip(rows, statements, strict=True))
        if one_column and room:
            return rows
    rows = [
        _row(each, spaced(each.tokens)[: -1 if each.ends_in_words else None], indent)
        for each in statements
    ]
    set_in_columns(rows, COLUMNS)
    return rows


def _row(statement: Statement, parts: list[str], indent: str) -> Row:
    """A statement with the columns that it may share: but the first, none if it is broken."""
    found = {column: at for column, at in stops(statement).items() if at < len(parts)}
    row = Row(indent, parts, found)
    if is_broken(row, statement):
        row.stops = {column: at for column, at in found.items() if column == "="}
    return row


def _statement_rows(statement: Statement, row: Row) -> list[str]:
    below = statement.tokens[len(row.parts) :]
    return [*broken(row, statement), *(row.indent + _INDENT + str(words) for words in below)]


def _align_comments(items: Sequence[Indented], statements: dict[int, _LaidOut]) -> None:
    """Sets the comments behind neighbours of one row each one below the other."""
    run: list[_LaidOut] = []
    for number in range(len(items) + 1):
        laid_out = statements.get(number)
        if (
            laid_out is not None
            and len(laid_out.rows) == 1
            and run
            and run[-1].depth == laid_out.depth
        ):
            run.append(laid_out)
            continue
        commented = [each for each in run if each.behind]
        starts = shared([(len(each.rows[0]), len(each.behind)) for each in commented])
        for each, start in zip(commented, starts, strict=True):
            each.rows[0] = each.rows[0].ljust(start)
        run = [laid_out] if laid_out is not None and len(laid_out.rows) == 1 else []
