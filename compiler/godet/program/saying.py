"""A value with its unit, as a person writes it.

said(1045.0, LENGTH, "cm")   # "104.5 cm"
"""

from __future__ import annotations

import math

from godet.base.quantities import UNITS, LengthUnit, spoken
from godet.graph.types import ANGLE, AREA, LENGTH, Type


def said(value: float, type: Type, units: LengthUnit) -> str:
    """The words of a value in mm, radians or plain; "no number" where it is none."""
    if not math.isfinite(value):
        return "no number"
    if type == LENGTH:
        return spoken(value, units)
    if type == AREA:
        return _short(f"{value / float(UNITS[units][1]) ** 2:.2f}") + f" square {units}"
    if type == ANGLE:
        return _short(f"{math.degrees(value):.1f}") + " degrees"
    return _short(f"{value:.4f}")


def _short(number: str) -> str:
    return number.rstrip("0").rstrip(".")
