"""A value with its unit, as a person writes it, and words in a row.

said(1045.0, LENGTH, "cm")   # "104.5 cm"
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from godet.base.quantities import LengthUnit, spoken
from godet.graph.types import ANGLE, AREA, LENGTH, Type


def said(value: float, type: Type, units: LengthUnit) -> str:
    """The words of a value in mm, radians or plain; "no number" where it is none."""
    if not math.isfinite(value):
        return "no number"
    if type == LENGTH:
        return spoken(value, units)
    if type == AREA:
        side = 25.4 if units == "in" else 10.0
        unit = "in" if units == "in" else "cm"
        return f"{_short(f'{value / side**2:.1f}')} square {unit}"
    if type == ANGLE:
        return _short(f"{math.degrees(value):.1f}") + " degrees"
    return _short(f"{value:.4f}")


def all_of(words: Sequence[str]) -> str:
    """Words in a row: "a, b and c"."""
    *before, last = words
    return f"{', '.join(before)} and {last}" if before else last


def _short(number: str) -> str:
    return number.rstrip("0").rstrip(".")
