"""Whether problems stand inside the text they are told of."""

from __future__ import annotations

from collections.abc import Iterable

from godet.base.problems import Problem


def outside(text: str, problems: Iterable[Problem]) -> list[Problem]:
    """The problems whose place does not lie in the text, or ends before it begins."""
    lines = text.split("\n")

    def lies_inside(found: Problem) -> bool:
        place = found.place
        return (
            place is not None
            and 1 <= place.line <= place.end_line <= len(lines)
            and 1 <= place.column <= len(lines[place.line - 1]) + 1
            and 1 <= place.end_column <= len(lines[place.end_line - 1]) + 1
            and (place.line, place.column) <= (place.end_line, place.end_column)
        )

    return [found for found in problems if not lies_inside(found)]
