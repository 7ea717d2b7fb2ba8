"""Text made fit to print: harmless characters, a limited length, a width to keep room for.

In: any text, such as a title somebody typed. Out: one clean line of it, or its width in mm.
Nothing fails.

    printable("Front\\x00 <b>")  ->  "Front <b>"     (a backend escapes the brackets)
"""

from __future__ import annotations

import unicodedata

LONGEST = 60  # characters; longer text is cut and ends in an ellipsis
LINE_HEIGHT = 1.35  # of the size of the letters, from one line to the next

# Shares of the letter size. Taken from the widest of the plain faces a viewer may put in place of
# the one asked for, so that words keep clear of lines whichever face is drawn.
_NARROW, _USUAL, _CAPITAL, _WIDE = 0.41, 0.64, 0.79, 1.0
_NARROW_LETTERS = frozenset("fijlrtI.,:;|!'()[] -/·")
_WIDE_LETTERS = frozenset("mwMW%…@—")
_BOLD = 1.13


def printable(text: str, longest: int = LONGEST) -> str:
    """One line of at most `longest` characters.

    Control and formatting characters (such as those that turn the direction of writing) and
    characters that no file can hold are left out; every run of white space becomes one space.
    """
    # only the start is looked at: a hostile text may be of any length
    spaced = (" " if c.isspace() else c for c in text[: longest * 8])
    kept = " ".join("".join(c for c in spaced if unicodedata.category(c)[0] != "C").split())
    if len(kept) > longest or len(text) > longest * 8:
        return kept[: longest - 1].rstrip() + "…"
    return kept


def text_width(text: str, size: float, bold: bool = False) -> float:
    """Room in mm that a line of letters of this size (mm) needs in any plain sans-serif face."""
    share = sum(_share(letter) for letter in text)
    return share * size * (_BOLD if bold else 1.0)


def _share(letter: str) -> float:
    if letter in _NARROW_LETTERS:
        return _NARROW
    if letter in _WIDE_LETTERS or unicodedata.east_asian_width(letter) in "WF":
        return _WIDE
    return _CAPITAL if letter.isupper() else _USUAL
