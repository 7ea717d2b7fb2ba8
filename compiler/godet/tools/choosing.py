"""Reads what a maker chose, from the command line or a docket, against the recipe's choices.

In: texts by name (`skirt_length`, `top.sleeve`) and the draft. Out: numbers in mm, ratios or
radians, or words; and a problem for each name the recipe does not have and each text that can't be
read.

    chosen({"skirt_length": ("62 cm", None)}, draft)   # ({"skirt_length": 620.0}, ())
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.base.quantities import read_quantity
from godet.graph.types import ANGLE, LENGTH, RATIO, Type, Words
from godet.program.draft import Draft

Chosen = Mapping[str, float | str]


def chosen(
    texts: Mapping[str, tuple[str, Place | None]], draft: Draft
) -> tuple[Chosen, tuple[Problem, ...]]:
    """The choices that could be read, and what could not."""
    values: dict[str, float | str] = {}
    problems: list[Problem] = []
    for name, (text, place) in texts.items():
        choice = draft.choices.get(name)
        if choice is None:
            problems.append(_unknown(name, place, draft))
            continue
        value = _read(text, choice.type)
        if value is None:
            problems.append(_unread(text, name, choice.type, place))
            continue
        values[name] = value
    return values, tuple(problems)


def _read(text: str, type: Type) -> float | str | None:
    if isinstance(type, Words):
        return text if text in type.words else None
    quantity = read_quantity(text.strip())
    if quantity is None:
        return None
    value = float(quantity.value)
    match (type, quantity.kind):
        case (kind, "length") if kind == LENGTH:
            return value
        case (kind, "angle") if kind == ANGLE:
            return math.radians(value)
        case (kind, "ratio" | "bare") if kind == RATIO:
            return value
        case _:
            return None


def _wanted(type: Type) -> str:
    if isinstance(type, Words):
        return str(type)
    if type == LENGTH:
        return "a length, as `62 cm`"
    return "an angle, as `20deg`" if type == ANGLE else "a ratio, as `1/3` or `88 %`"


def _unread(text: str, name: str, type: Type, place: Place | None) -> Problem:
    words = type.words if isinstance(type, Words) else ()
    hint, fix = did_you_mean(text, words, place)
    wanted = _wanted(type)
    return problem(
        "choice-not-read", place, text=text, name=name, wanted=wanted, hint=hint, fix=fix
    )


def _unknown(name: str, place: Place | None, draft: Draft) -> Problem:
    hint, fix = did_you_mean(name, draft.choices, place)
    names = ", ".join(sorted(draft.choices)) or "none"
    listed = f" Its choices: {names}."
    return problem("no-such-choice", place, name=name, hint=hint or listed, fix=fix)
