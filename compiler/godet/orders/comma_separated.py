"""Splits the lines of a CSV file into cells that know where they stand.

In: the text of a file. Out: its rows, each a tuple of cells; lines that start with `#`, blank lines
and rows of nothing but commas are left out. A cell may stand in `"` marks, a `"` inside it doubled,
and ends with its line. A quote mark that is never closed is a problem, and its row is left out.

    split_rows("size,hip_girth [cm]\\n12,102\\n", "table.csv")[0][1][1].text    # "102"
"""

from __future__ import annotations

import re

from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.orders.yaml_reading import Scalar

Row = tuple[Scalar, ...]

_LINE_END = re.compile(r"\r\n|\r|\n")
_CELL = re.compile(r'[ \t]*"(?P<quoted>(?:[^"]|"")*)"[ \t]*(?=,|$)|(?P<plain>[^,]*)')


def split_rows(text: str, file: str) -> tuple[tuple[Row, ...], tuple[Problem, ...]]:
    """The rows of the text in order, and the problems of those that cannot be split."""
    rows: list[Row] = []
    found: list[Problem] = []
    for number, line in enumerate(_LINE_END.split(text), start=1):
        if line.startswith("#"):
            continue
        row, open_quote = _cells(line, file, number)
        if open_quote is not None:
            found.append(problem("table-open-quote", open_quote, line=number))
        elif any(cell.text for cell in row):
            rows.append(row)
    return tuple(rows), tuple(found)


def _cells(line: str, file: str, number: int) -> tuple[Row, Place | None]:
    """The cells of a line, and the first that opens a quote mark without closing it."""
    cells: list[Scalar] = []
    open_quote: Place | None = None
    start = 0
    while True:
        match = _CELL.match(line, start)
        assert match is not None  # the plain form matches even nothing
        quoted = match["quoted"]
        text = match["plain"].strip() if quoted is None else quoted.replace('""', '"')
        place = Place(file, number, start + 1, number, match.end() + 1)
        cells.append(Scalar(text, place))
        if quoted is None and text.startswith('"') and open_quote is None:
            open_quote = place
        start = match.end() + 1
        if start > len(line):
            return tuple(cells), open_quote
