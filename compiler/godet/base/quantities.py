"""Numbers with units, as a recipe and every file beside it write them.

In: a text such as `14 3/8 in`. Out: a `Quantity` that keeps the exact number and the unit as typed;
or, the other way, a length in mm as the words a person reads. A text that is no quantity gives
`None`; `spoken` raises `ValueError` for a length that is not finite.

    read_quantity("14 3/8 in").value    # Fraction(2921, 8): 365.125 mm, exactly
    spoken(1045.0, "cm")                # "104.5 cm"
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Kind = Literal["length", "ratio", "angle", "mass", "cloth_weight", "bare"]
LengthUnit = Literal["cm", "in", "mm"]

# unit -> what it measures, and how many mm, degrees, kg or g/m2 one of it is; exact by definition
# (international yard and pound agreement of 1959)
UNITS: dict[str, tuple[Kind, Fraction]] = {
    "mm": ("length", Fraction(1)),
    "cm": ("length", Fraction(10)),
    "m": ("length", Fraction(1000)),
    "in": ("length", Fraction(254, 10)),
    "ft": ("length", Fraction(3048, 10)),
    "yd": ("length", Fraction(9144, 10)),
    "%": ("ratio", Fraction(1, 100)),
    "deg": ("angle", Fraction(1)),
    "kg": ("mass", Fraction(1)),
    "lb": ("mass", Fraction(45359237, 100000000)),
    "g/m2": ("cloth_weight", Fraction(1)),
}

# twelve digits are far more than a tape measure has, and keep every value inside a float
_DIGITS = "[0-9]{1,12}"
_QUANTITY = re.compile(
    r"(?P<sign>-?)"
    rf"(?:(?:(?P<whole>{_DIGITS})[ \t]+)?(?P<top>{_DIGITS})/(?P<bottom>{_DIGITS})"
    rf"|(?P<decimal>{_DIGITS}(?:\.{_DIGITS})?))"
    rf"(?:[ \t]*(?P<unit>{'|'.join(sorted(UNITS, key=len, reverse=True))}))?"
)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number as typed, with its unit (`""` for a bare number)."""

    number: Fraction
    unit: str
    kind: Kind

    @property
    def value(self) -> Fraction:
        """The exact value: mm, a ratio, degrees, kg, g/m2, or the bare number itself."""
        return self.number * UNITS[self.unit][1] if self.unit else self.number


def read_quantity(text: str) -> Quantity | None:
    """The quantity that the whole of `text` writes, or `None`.

    A whole number before a fraction takes a proper fraction only (`14 3/8`, not `14 9/8`), and no
    space stands round the slash. A leading `-` is read, so that a file can be told of it.
    """
    match = _QUANTITY.fullmatch(text)
    if match is None:
        return None
    if match["decimal"]:
        number = Fraction(match["decimal"])
    else:
        top, bottom = int(match["top"]), int(match["bottom"])
        if bottom == 0 or (match["whole"] and top >= bottom):
            return None
        number = int(match["whole"] or 0) + Fraction(top, bottom)
    unit = match["unit"] or ""
    kind: Kind = UNITS[unit][0] if unit else "bare"
    return Quantity(-number if match["sign"] else number, unit, kind)


def spoken(mm: float, unit: LengthUnit) -> str:
    """A length in mm in the words of a message.

    Centimetres to a millimetre (below 1 cm to a tenth of one), millimetres to a tenth, inches to
    the nearest sixteenth. Raises `ValueError` when `mm` is not finite.
    """
    if not abs(mm) < float("inf"):
        raise ValueError(f"{mm} is no length")
    if unit == "in":
        sixteenths = round(mm / 25.4 * 16)
        whole, rest = divmod(abs(sixteenths), 16)
        parts = [str(whole)] if whole or not rest else []
        parts += [str(Fraction(rest, 16))] if rest else []
        number = " ".join(parts)
        return f"-{number} in" if sixteenths < 0 else f"{number} in"
    rounded = round(mm / 10, 2 if abs(mm) < 10 else 1) if unit == "cm" else round(mm, 1)
    # adding 0.0 turns -0.0 into 0.0
    return f"{rounded + 0.0:.2f}".rstrip("0").rstrip(".") + f" {unit}"
