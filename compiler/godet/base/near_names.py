"""The name that was meant: near in spelling to the one that was written.

In: a word, the names that could stand there, and its place. Out: a sentence to follow another, with
the space between, and the fix; empty and None where no name comes near. Nothing fails.

    did_you_mean("hip_girt", ["hip_girth"], place)   # (" Did you mean `hip_girth`?", Fix(...))
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable

from godet.base.places import Place
from godet.base.problems import Fix


def did_you_mean(
    word: str, names: Iterable[str], place: Place | None, likeness: float = 0.6
) -> tuple[str, Fix | None]:
    """The question and its fix; `likeness` is 1 for the same word. Without a place, no fix."""
    near = difflib.get_close_matches(word, sorted(set(names)), n=1, cutoff=likeness)
    if not near:
        return "", None
    fix = Fix(f"write `{near[0]}`", place, near[0]) if place is not None else None
    return f" Did you mean `{near[0]}`?", fix
