"""The types that a text can name: `length`, `point`, `one of (close, easy)`.

In: a type as written. Out: the `Type`, or None where there is none of that name. Nothing fails.

    type_named(tree.TypeName(place, "length"))   # LENGTH
"""

from __future__ import annotations

from godet.graph.types import BY_NAME, Type, Words
from godet.language import tree


def type_named(written: tree.TypeName) -> Type | None:
    """The type of a value; None for a piece of a kind, and for a name that is no type."""
    if written.name == "words":
        return Words(written.words)
    return BY_NAME.get(written.name) if written.piece is None else None
