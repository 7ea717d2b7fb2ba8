"""Where something stands in a text.

In: a file name and positions. Out: a `Place`, which a problem can point at. Nothing fails.

    Place("dress.godet", line=4, column=3, end_line=4, end_column=9)
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A stretch of a file; lines and columns count from 1, the end column is one past the last."""

    file: str
    line: int
    column: int
    end_line: int
    end_column: int

    def to(self, last: Place) -> Place:
        """The stretch from the start of this place to the end of `last`."""
        return Place(self.file, self.line, self.column, last.end_line, last.end_column)

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"
