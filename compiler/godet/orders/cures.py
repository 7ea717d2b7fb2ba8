"""The small cures that the readers of files share: the word that was meant, the text to write.

In: a word and those that could stand there. Out: the nearest one, as a sentence or as a `Fix`.
Nothing fails.

    nearest("hip_girt", ("hip_girth", "bust_girth"))    # "hip_girth"
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from pathlib import Path

from godet.base.places import Place
from godet.base.problems import Fix, problem

# shares of likeness, 1 for the same word
_LIKE_ENOUGH_TO_ASK = 0.6
_LIKE_ENOUGH_TO_REPLACE = 0.85


def shown(text: str, longest: int = 40) -> str:
    """`text` as it can stand in a sentence: printable and not longer than `longest` characters."""
    cut = text if len(text) <= longest else text[: longest - 1] + "…"
    return "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in cut)


def shown_path(path: Path) -> str:
    """A path as it can stand in a sentence."""
    return shown(str(path), 200)


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The one of `known` that `word` was most likely meant to be, if any comes near."""
    return _like(word, known, _LIKE_ENOUGH_TO_ASK)


def name_instead(place: Place, word: str, known: Iterable[str], rest: str = "") -> Fix | None:
    """The fix that puts the nearest of `known` for `word`, if it can hardly be another.

    `rest` is what else stands at `place` after the word, and is kept.
    """
    meant = _like(word, known, _LIKE_ENOUGH_TO_REPLACE)
    return None if meant is None else write_instead(place, meant + rest)


def did_you_mean(name: str | None) -> str:
    """A sentence to follow another, with the space between; empty when there is no such name."""
    return "" if name is None else " " + problem("did-you-mean", None, name=name).sentence


def write_instead(place: Place, text: str) -> Fix:
    """The fix that puts `text` where `place` is."""
    return Fix(problem("write-instead", None, text=text).sentence, place, text)


def _like(word: str, known: Iterable[str], share: float) -> str | None:
    by_lower = {name.lower(): name for name in known}
    found = difflib.get_close_matches(shown(word).lower(), by_lower, n=1, cutoff=share)
    return by_lower[found[0]] if found else None
