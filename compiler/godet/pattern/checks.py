"""The requirements and advice of a draft, tried on one body.

In: the draft and its solved values. Out: `Check`s with what was measured and wanted, in words of
the reader's unit. Nothing fails; a condition that compares nothing has no such words.

    checks(draft, values, "cm")[0].wanted                # "at least 92 cm"
"""

from __future__ import annotations

from collections import Counter
from pathlib import PurePath
from typing import Literal

from godet.base.quantities import LengthUnit
from godet.base.words import WORDS
from godet.pattern.pieces import Check
from godet.pattern.solved import BodyValues
from godet.program.draft import Draft
from godet.program.program import CheckLine
from godet.program.saying import said

_WANTED = {">=": "wanted-at-least", "<=": "wanted-at-most", ">": "wanted-more", "<": "wanted-less"}


def checks(draft: Draft, values: BodyValues, units: LengthUnit) -> tuple[Check, ...]:
    """In the order of their places, the recipe's own before its blocks'; named by their number."""
    numbers: Counter[str] = Counter()
    found = []
    for line in sorted(draft.checks, key=lambda line: _order(line, draft)):
        level: Literal["require", "advise"] = "require" if line.level == "require" else "advise"
        numbers[level] += 1
        measured = wanted = ""
        if line.measured is not None and line.wanted is not None:
            type = draft.graph[line.measured].type
            measured = said(values.number(line.measured), type, units)
            wanted = wanted_words(line.sign, said(values.number(line.wanted), type, units))
        found.append(
            Check(
                name=f"{level} {numbers[level]}",
                level=level,
                ok=values.holds(line.condition),
                measured=measured,
                wanted=wanted,
                words=line.words,
                place=line.place,
            )
        )
    return tuple(found)


def wanted_words(sign: str, value: str) -> str:
    """What a comparison asks for, as `at least 92 cm` for `>=`."""
    _, sentence = WORDS[_WANTED[sign]]
    return sentence.format(value=value)


def _order(line: CheckLine, draft: Draft) -> tuple[bool, str, int, int]:
    place = line.place
    # of a block only the file's own name counts: where it is installed changes nothing
    return place.file != draft.file, PurePath(place.file).name, place.line, place.column
