"""Lengths that may be a hair's breadth, in the words a person reads.

In: mm and the reader's unit. Out: text. Raises `ValueError` for a length that is not finite.

    short_length(4.0, "cm")                              # "4 mm"
"""

from __future__ import annotations

from godet.base.quantities import LengthUnit, spoken

_CM, _IN = 10.0, 25.4  # mm


def short_length(mm: float, units: LengthUnit) -> str:
    """In mm below 1 cm; in parts of an inch below 1/16 in, where a tape has no line."""
    if units == "in" and abs(mm) < _IN / 16:
        return f"{mm / _IN:.1g} in"
    if units == "cm" and abs(mm) < 0.1:
        return f"{mm:.1g} mm"
    return spoken(mm, "mm" if units == "cm" and abs(mm) < _CM else units)
