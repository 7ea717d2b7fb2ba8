"""Quantities are read exactly and spoken back as a tape measure would show them."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from godet.base.quantities import UNITS, LengthUnit, read_quantity, spoken


@pytest.mark.parametrize(
    ("text", "value", "kind"),
    [
        # 1 in = 25.4 mm, 1 ft = 304.8 mm, 1 yd = 914.4 mm, 1 lb = 0.45359237 kg: exact by the
        # international yard and pound agreement of 1959
        ("2.5cm", Fraction(25), "length"),
        ("2.5 cm", Fraction(25), "length"),
        ("6 mm", Fraction(6), "length"),
        ("1.2 m", Fraction(1200), "length"),
        ("14 3/8 in", Fraction(115, 8) * Fraction("25.4"), "length"),
        ("3/8in", Fraction("9.525"), "length"),
        ("38 1/2 in", Fraction("977.9"), "length"),
        ("5 ft", Fraction(1524), "length"),
        ("1 yd", Fraction("914.4"), "length"),
        ("12 %", Fraction(3, 25), "ratio"),
        ("12deg", Fraction(12), "angle"),
        ("180 g/m2", Fraction(180), "cloth_weight"),
        ("62 kg", Fraction(62), "mass"),
        ("100 lb", Fraction("45.359237"), "mass"),
        ("94", Fraction(94), "bare"),
        ("1/3", Fraction(1, 3), "bare"),
        ("41 1/2", Fraction(83, 2), "bare"),
        ("-3 cm", Fraction(-30), "length"),
    ],
)
def test_a_quantity_is_read_exactly(text: str, value: Fraction, kind: str) -> None:
    quantity = read_quantity(text)
    assert quantity is not None
    assert (quantity.value, quantity.kind) == (value, kind)


@pytest.mark.parametrize(
    "text",
    [
        *(
            "",
            " ",
            "cm",
            "2,5 cm",
            "1e3",
            "94 inches",
            "3 / 8 in",
            "14 9/8 in",
            "1/0 in",
            "14.5 3/8",
        ),
        *(".5 cm", "5. cm", "+5 cm", "--5", "٣ cm", "94 CM", "94 cm.", "94 cm\n", "9" * 13, "nan"),
    ],
)
def test_what_is_no_quantity_is_none(text: str) -> None:
    assert read_quantity(text) is None


@given(
    st.decimals(0, 10**6, places=3, allow_nan=False),
    st.sampled_from(sorted(UNITS)),
    st.sampled_from(["", " ", "  "]),
)
def test_every_decimal_with_every_unit_is_read_exactly(
    number: Decimal, unit: str, space: str
) -> None:
    quantity = read_quantity(f"{number:f}{space}{unit}")
    assert quantity is not None
    # the standard library reads the decimal, exactly
    assert quantity.number == Fraction(number)
    assert (quantity.unit, quantity.kind) == (unit, UNITS[unit][0])


@given(st.text())
def test_no_text_raises(text: str) -> None:
    quantity = read_quantity(text)
    assert quantity is None or quantity.unit in ("", *UNITS)


@pytest.mark.parametrize(
    ("mm", "unit", "words"),
    [
        (1045.0, "cm", "104.5 cm"),
        (1000.0, "cm", "100 cm"),
        (0.4, "cm", "0.04 cm"),
        (-0.001, "cm", "0 cm"),
        (-25.0, "cm", "-2.5 cm"),
        (6.35, "mm", "6.3 mm"),
        (1000.0, "mm", "1000 mm"),
        # 41.125 in x 25.4
        (1044.575, "in", "41 1/8 in"),
        (1045.0, "in", "41 1/8 in"),
        (9.525, "in", "3/8 in"),
        (25.4, "in", "1 in"),
        (0.1, "in", "0 in"),
        (-28.575, "in", "-1 1/8 in"),
    ],
)
def test_a_length_is_spoken_as_a_tape_shows_it(mm: float, unit: LengthUnit, words: str) -> None:
    assert spoken(mm, unit) == words


@given(st.integers(1, 16 * 400))
def test_every_sixteenth_of_an_inch_is_read_back_as_spoken(sixteenths: int) -> None:
    words = spoken(sixteenths / 16 * 25.4, "in")
    quantity = read_quantity(words)
    assert quantity is not None
    # 1 in = 25.4 mm by definition
    assert quantity.value == Fraction(sixteenths, 16) * Fraction(254, 10)


@pytest.mark.parametrize("mm", [float("nan"), float("inf"), float("-inf")])
def test_a_length_that_is_not_finite_is_refused(mm: float) -> None:
    with pytest.raises(ValueError, match="no length"):
        spoken(mm, "cm")
