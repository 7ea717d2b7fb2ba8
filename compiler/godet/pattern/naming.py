"""What pieces and patterns are called in print, and their numbers.

In: names of a recipe. Out: titles and an order. Nothing fails.

    title("column_dress")                                # "Column dress"
"""

from __future__ import annotations

from collections.abc import Iterable

_FIRST = ("front", "back")


def title(name: str) -> str:
    """A name as a heading."""
    words = name.replace("_", " ")
    return words[:1].upper() + words[1:]


def in_order(pieces: Iterable[str]) -> list[str]:
    """Front and back first, then by name: the order in which pieces are numbered from 1."""
    names = set(pieces)
    return [n for n in _FIRST if n in names] + sorted(names.difference(_FIRST))
