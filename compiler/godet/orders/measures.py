"""Reads one measure of a body, and judges whether it can be right.

In: the text of the measure, the unit a bare number has there, and what the measure means. Out: the
`Measured` value, with a warning when it is implausible; or the error: not a quantity, the wrong
kind, no unit, not above zero, or a unit or decimal point that is plainly wrong. Never raises.

    read_measure("hip_girth", Scalar("38", place), "cm", meaning)
    # (None, (measure-looks-like-in: hip_girth is 38 cm: ... write `38 in`,))
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from godet.base.problems import Problem, problem
from godet.base.quantities import UNITS, LengthUnit, Quantity, read_quantity, spoken
from godet.orders.cures import shown, write_instead
from godet.orders.records import Measured, MeasureKind, MeasureMeaning
from godet.orders.text_files import Read
from godet.orders.yaml_reading import Scalar

_EXAMPLES: dict[MeasureKind, str] = {
    "length": "94 cm",
    "angle": "21 deg",
    "ratio": "12 %",
    "mass": "62 kg",
}
# the code of a measure that would be right in this unit
LOOKS_LIKE: dict[LengthUnit, str] = {
    "in": "measure-looks-like-in",
    "cm": "measure-looks-like-cm",
    "mm": "measure-looks-like-mm",
}
# as a sentence names them
UNIT_NAMES: dict[LengthUnit, str] = {"in": "inches", "cm": "centimetres", "mm": "millimetres"}
# a figure turned from inches twice or the wrong way, or with its decimal point slipped
_SLIPS = (Fraction(10), Fraction(1, 10), Fraction(254, 100), Fraction(100, 254))
# bodies a little larger than the range exist and must not be refused; a figure in the wrong unit
# lies further out
_STILL_A_BODY = 1.25


def read_measure(
    subject: str, text: Scalar, unit_of_bare: str | None, meaning: MeasureMeaning
) -> Read[Measured]:
    """The measure that `text` writes.

    `subject` names it in sentences (`hip_girth`, `hip_girth of size 12`); `unit_of_bare` is one of
    `base.quantities.UNITS`, or `None` where every number must carry its own unit.
    """
    typed = read_quantity(text.text)
    if typed is None:
        return None, (_unreadable(subject, text, meaning),)
    quantity = typed
    if typed.kind == "bare" and unit_of_bare is not None:
        quantity = replace(typed, unit=unit_of_bare, kind=UNITS[unit_of_bare][0])
    wrong = _wrong_kind(subject, text, quantity, meaning)
    if wrong is None and quantity.number <= 0:
        told = _as_typed(text, quantity)
        wrong = problem("measure-not-positive", text.place, subject=subject, value=told)
    if wrong is not None:
        return None, (wrong,)
    value = float(quantity.value)
    if quantity.kind == "angle":
        value = math.radians(value)
    if _plausible(value, meaning):
        return Measured(value, text.text, text.place), ()
    # whoever writes the unit out for a body a little smaller than the range means it
    lowest = meaning.lowest or 0.0
    meant = typed.kind != "bare" and lowest / _STILL_A_BODY <= value < lowest
    slipped = None if meant else _wrong_unit(subject, text, quantity, meaning)
    if slipped is not None:
        return None, (slipped,)
    doubt = problem(
        "measure-implausible",
        text.place,
        subject=subject,
        value=_as_typed(text, quantity),
        range=_range(meaning, speaking_unit(quantity.unit)),
        take=meaning.take,
    )
    return Measured(value, text.text, text.place), (doubt,)


def unit_meant(
    texts: Sequence[tuple[Scalar, MeasureMeaning]], problems: Sequence[Problem]
) -> LengthUnit | None:
    """The unit in which all these bare lengths are meant, where several of them look like it.

    `problems` are those of reading them in the unit that was said.
    """
    looks = [u for p in problems for u, code in LOOKS_LIKE.items() if p.code == code]
    if len(looks) < 2 or len(set(looks)) > 1:
        return None
    unit = looks[0]
    fits = all(read_measure("", text, unit, meaning)[1] == () for text, meaning in texts)
    return unit if fits else None


def speaking_unit(unit: str) -> LengthUnit:
    """The unit in which lengths are told to one who typed `unit`."""
    if unit in ("in", "ft", "yd"):
        return "in"
    return "mm" if unit == "mm" else "cm"


def _unreadable(subject: str, text: Scalar, meaning: MeasureMeaning) -> Problem:
    typed = shown(text.text)
    if not text.text:
        return problem("measure-blank", text.place, subject=subject)
    with_point = text.text.replace(",", ".", 1)
    if read_quantity(with_point) is not None:
        fix = write_instead(text.place, with_point)
        code, cure = "measure-decimal-comma", with_point
        return problem(code, text.place, fix=fix, subject=subject, typed=typed, cure=cure)
    example = _EXAMPLES[meaning.kind]
    return problem("measure-unreadable", text.place, subject=subject, typed=typed, example=example)


def _wrong_kind(
    subject: str, text: Scalar, quantity: Quantity, meaning: MeasureMeaning
) -> Problem | None:
    # a ratio may be written bare, as in a recipe
    if quantity.kind == meaning.kind or (quantity.kind == "bare" and meaning.kind == "ratio"):
        return None
    unitless = quantity.kind == "bare"
    return problem(
        "measure-needs-unit" if unitless else "measure-wrong-kind",
        text.place,
        subject=subject,
        typed=shown(text.text),
        example=_EXAMPLES[meaning.kind],
    )


def _plausible(value: float, meaning: MeasureMeaning) -> bool:
    return (meaning.lowest is None or value >= meaning.lowest) and (
        meaning.highest is None or value <= meaning.highest
    )


def _wrong_unit(
    subject: str, text: Scalar, quantity: Quantity, meaning: MeasureMeaning
) -> Problem | None:
    """The error that a length far from its range would lie in it in another unit."""
    # with one bound alone almost any figure would fit in some unit
    if quantity.kind != "length" or meaning.lowest is None or meaning.highest is None:
        return None
    if meaning.highest < quantity.value <= meaning.highest * _STILL_A_BODY:
        return None
    told = _as_typed(text, quantity)
    number = text.text.removesuffix(quantity.unit).rstrip()
    for unit in LOOKS_LIKE:
        if unit != quantity.unit and _plausible(float(quantity.number * UNITS[unit][1]), meaning):
            cure = f"{number} {unit}"
            fix = write_instead(text.place, cure)
            code = LOOKS_LIKE[unit]
            return problem(code, text.place, fix=fix, subject=subject, value=told, cure=cure)
    for slip in _SLIPS:
        likely = float(quantity.value * slip)
        if _plausible(likely, meaning):
            speaking = speaking_unit(quantity.unit)
            return problem(
                "measure-slipped",
                text.place,
                subject=subject,
                value=told,
                range=_range(meaning, speaking),
                likely=spoken(likely, speaking),
            )
    return None


def _as_typed(text: Scalar, quantity: Quantity) -> str:
    """The quantity in the reader's own figures, with the unit it was read in."""
    return text.text if text.text.endswith(quantity.unit) else f"{text.text} {quantity.unit}"


def _range(meaning: MeasureMeaning, unit: LengthUnit) -> str:
    lowest = None if meaning.lowest is None else _told(meaning.lowest, meaning.kind, unit)
    highest = None if meaning.highest is None else _told(meaning.highest, meaning.kind, unit)
    if lowest is None:
        return f"≤ {highest}"
    return f"≥ {lowest}" if highest is None else f"{lowest} – {highest}"


def _told(value: float, kind: MeasureKind, unit: LengthUnit) -> str:
    if kind == "length":
        return spoken(value, unit)
    if kind == "angle":
        return f"{math.degrees(value):.3g} deg"
    return f"{value:.3g} kg" if kind == "mass" else f"{value * 100:.3g} %"
