"""An explanation as text, and as plain data for JSON.

In: an `Explanation` and the reader's unit. Out: the text, or numbers in mm, degrees and shares with
the same sentences. Nothing fails.

    print(told(explanation, "cm"))
"""

from __future__ import annotations

import math
from typing import Any

from godet.base.quantities import LengthUnit
from godet.graph.types import ANGLE, CURVE, DART, DOUBLE_DART, GATHERS, LENGTH, LEVEL, POINT, Type
from godet.program.saying import said
from godet.tools.effect_words import sentence
from godet.tools.explaining import Explanation


def told(explanation: Explanation, units: LengthUnit) -> str:
    """The explanation as text."""
    lines = [f"{explanation.name}: {explanation.type}"]
    titles = _titles(explanation.type)
    if explanation.drawn:
        lines += ["", "drawn from", *(f"  {part}" for part in explanation.drawn)]
    if explanation.formula:
        lines += ["", f"formula (lengths in {'inches' if units == 'in' else units})"]
        lines += [f"  {t} = {f}" for t, f in zip(titles, explanation.formula, strict=True)]
    lines += ["", "statements, the nearest first"]
    width = max((len(line.place) for line in explanation.statements), default=0)
    lines += [f"  {line.place:<{width}}  {line.text}" for line in explanation.statements]
    if explanation.value is not None:
        lines += ["", f"on {explanation.body}", *_values(explanation, units)]
        lines += [
            f"  {name} is estimated: {source}" for name, source in explanation.estimated.items()
        ]
        if not isinstance(explanation.value, str):
            lines += ["", "what a little more does"]
            lines += [f"  {sentence(effect, units)}" for effect in explanation.effects]
            if not explanation.effects:
                lines.append("  no measure and no choice of a number changes it")
    return "\n".join(lines)


def _titles(type: Type) -> tuple[str, ...]:
    if type == POINT:
        return ("across", "down")
    if type in (DART, DOUBLE_DART):
        return ("wide",)
    return ("length" if type == CURVE else "down" if type == LEVEL else "value",)


def _values(explanation: Explanation, units: LengthUnit) -> list[str]:
    if isinstance(explanation.value, str):
        return [f"  {explanation.value}"]
    lengths = (POINT, CURVE, LEVEL, DART, DOUBLE_DART, GATHERS)
    type = LENGTH if explanation.type in lengths else explanation.type
    titled = zip(_titles(explanation.type), explanation.value or (), strict=True)
    lines = [f"  {title} {said(value, type, units)}" for title, value in titled]
    if explanation.width is not None:
        lines.append(f"  wide {said(explanation.width, LENGTH, units)}")
    return lines


def as_record(explanation: Explanation, units: LengthUnit) -> dict[str, Any]:
    """The explanation as plain data; angles in degrees, as everywhere a person reads them."""
    value = explanation.value
    if explanation.type == ANGLE and not isinstance(value, str) and value is not None:
        value = tuple(math.degrees(each) for each in value)
    titles = _titles(explanation.type)
    named = isinstance(value, str) or value is None
    return {
        "name": explanation.name,
        "type": str(explanation.type),
        "drawn_from": list(explanation.drawn),
        "formula": dict(zip(titles, explanation.formula, strict=False)),
        "statements": [
            {"name": line.name, "place": line.place, "text": line.text}
            for line in explanation.statements
        ],
        "body": explanation.body,
        "value": value if named else dict(zip(titles, value or (), strict=True)),
        "width": explanation.width,
        "estimated": dict(explanation.estimated),
        "effects": [
            {
                "cause": effect.cause,
                "sort": effect.sort,
                "step": effect.step,
                "abrupt": effect.abrupt,
                "moves": [
                    {"what": move.words, "how": move.sort, "by": _by(move.sort, move.by)}
                    for move in effect.moves
                ],
                "sentence": sentence(effect, units),
            }
            for effect in explanation.effects
        ],
    }


def _by(sort: str, by: tuple[float, ...]) -> list[float]:
    return [math.degrees(each) if sort == "angle" else each for each in by]
