"""Which expressions are consistent, and of what dimension, against sympy's physics units.

Random expressions of the language are written twice: as text for Godet, and as quantities for
sympy (sympy.physics.units, SI dimension system). Godet must accept just those that sympy finds
consistent, with the same exponent of length. sympy takes an angle for a plain number; Godet keeps
it apart, so that angles have an oracle of their own: the table at the end, by hand.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy.physics.units import centimeter, inch, length
from sympy.physics.units.systems.si import dimsys_SI

from godet.graph.node import Graph
from godet.graph.types import ANGLE, CONDITION, LENGTH, RATIO, Quantity, Type
from godet.language.library import Library
from godet.language.parser import parse
from godet.program.recipes import typed_program

HERE = Library(Path(__file__).parent)  # read once: kinds and measures are always the same


def godet_type(expression: str) -> Type | None:
    """The type of an expression; None where it is refused."""
    graph = Graph()
    file, read = parse(f"edition 1\nrecipe a\nlet x = {expression}\n", "a.godet")
    assert read == (), (expression, read)
    program, _ = typed_program(file, HERE, graph)
    assert program is not None
    return graph[program.lets["x"]].type if "x" in program.lets else None


# --- lengths, areas, ratios, against sympy -------------------------------------------------------


class Inconsistent(Exception):
    """Quantities of different dimensions where one is wanted."""


@dataclass(frozen=True)
class Written:
    """An expression as text, and as sympy has it: a quantity, or None where it is inconsistent."""

    text: str
    quantity: Any


def exponent(quantity: Any) -> Fraction:
    """The exponent of length, as sympy's SI system tells it."""
    _, dimension = sympy.physics.units.systems.SI._collect_factor_and_dimension(quantity)
    found = dimsys_SI.get_dimensional_dependencies(dimension).get(length, 0)
    return Fraction(int(found.p), int(found.q)) if isinstance(found, sympy.Rational) else found


def combined(text: str, parts: list[Written], make: Any) -> Written:
    if any(part.quantity is None for part in parts):
        return Written(text, None)
    quantities = [part.quantity for part in parts]
    try:
        return Written(text, make(*quantities))
    except Inconsistent:
        return Written(text, None)


def alike(*quantities: Any) -> Any:
    """One of several quantities that may be added or compared; their values do not matter."""
    # sympy's own judgement: the sum of what differs in dimension is refused with a ValueError
    try:
        sympy.physics.units.systems.SI._collect_factor_and_dimension(
            sympy.Add(*quantities, evaluate=False)
        )
    except ValueError:
        raise Inconsistent from None
    return quantities[0]


LEAVES = st.sampled_from(
    [
        Written("2cm", 2 * centimeter),
        Written("1 1/2 in", sympy.Rational(3, 2) * inch),
        Written("30 %", sympy.Rational(3, 10)),
        Written("4", sympy.Integer(4)),
        Written("(3cm * 2cm)", 6 * centimeter**2),
        Written("(1 / 5cm)", 1 / (5 * centimeter)),
    ]
)


def grown(inner: st.SearchStrategy[Written]) -> st.SearchStrategy[Written]:
    two, three = st.tuples(inner, inner), st.tuples(inner, inner, inner)
    powers = st.sampled_from(["2", "3", "1/2", "1/3", "3/2"])
    return st.one_of(
        two.map(lambda p: combined(f"({p[0].text} + {p[1].text})", [*p], alike)),
        two.map(lambda p: combined(f"({p[0].text} - {p[1].text})", [*p], alike)),
        two.map(lambda p: combined(f"({p[0].text} * {p[1].text})", [*p], lambda a, b: a * b)),
        two.map(lambda p: combined(f"({p[0].text} / {p[1].text})", [*p], lambda a, b: a / b)),
        inner.map(lambda p: combined(f"(-{p.text})", [p], lambda a: -a)),
        inner.map(lambda p: combined(f"abs({p.text})", [p], lambda a: a)),
        inner.map(lambda p: combined(f"sqrt({p.text})", [p], lambda a: abs(a) ** HALF)),
        st.tuples(inner, powers).map(
            lambda p: combined(
                f"(({p[0].text}) ^ {p[1]})", [p[0]], lambda a: abs(a) ** sympy.Rational(p[1])
            )
        ),
        three.map(lambda p: combined(f"min({p[0].text}, {p[1].text}, {p[2].text})", [*p], alike)),
        two.map(lambda p: combined(f"max({p[0].text}, {p[1].text})", [*p], alike)),
        three.map(
            lambda p: combined(
                f"(if {p[0].text} > {p[1].text} then {p[1].text} else {p[2].text})", [*p], alike
            )
        ),
    )


HALF = sympy.Rational(1, 2)


@settings(max_examples=250, deadline=None)
@given(st.recursive(LEAVES, grown, max_leaves=7))
def test_what_is_consistent_and_of_what_dimension_is_as_sympy_has_it(written: Written):
    found = godet_type(written.text)
    if written.quantity is None:
        assert found is None
    else:
        assert found == Quantity(exponent(written.quantity), Fraction(0))


def test_sympy_tells_the_consistent_from_the_others():
    assert exponent(sympy.sqrt(centimeter**2)) == 1
    assert exponent(inch / centimeter) == 0
    with pytest.raises(Inconsistent):
        alike(centimeter, centimeter**2)


# --- angles, by a table of the rules -------------------------------------------------------------

# each rule of angles by hand: the operation, and what it gives; None where it must be refused
ANGLES: dict[str, Type | None] = {
    "30deg": ANGLE,
    "-30deg": ANGLE,
    "abs(-30deg)": ANGLE,
    "30deg + 15deg": ANGLE,
    "30deg - 15deg": ANGLE,
    "30deg + 1": None,
    "30deg + 10 %": None,
    "30deg + 1cm": None,
    "2 * 30deg": ANGLE,
    "30deg * 50 %": ANGLE,
    "30deg / 2": ANGLE,
    "30deg / 15deg": RATIO,
    "(30deg / 15deg) * 2cm": LENGTH,
    "30deg * 15deg": Quantity(Fraction(0), Fraction(2)),
    "sqrt(30deg * 15deg)": ANGLE,
    "1 / 30deg": Quantity(Fraction(0), Fraction(-1)),
    "2cm * 30deg": Quantity(Fraction(1), Fraction(1)),
    "2cm * 30deg / 15deg": LENGTH,
    "sin(30deg)": RATIO,
    "cos(30deg)": RATIO,
    "tan(30deg)": RATIO,
    "sin(1)": None,
    "cos(50 %)": None,
    "tan(2cm)": None,
    "sin(30deg) * 2cm": LENGTH,
    "slope(2cm, 3cm)": ANGLE,
    "slope(2cm, 3deg)": None,
    "slope(2, 3)": None,
    "sin(slope(2cm, 3cm))": RATIO,
    "slope(2cm, 3cm) + 5deg": ANGLE,
    "min(30deg, 15deg)": ANGLE,
    "max(30deg, 2)": None,
    "min(30deg, 2cm)": None,
    "30deg > 15deg": CONDITION,
    "30deg > 1": None,
    "30deg > 1cm": None,
    "if 1 > 2 then 30deg else 15deg": ANGLE,
    "if 1 > 2 then 30deg else 1": None,
}


@pytest.mark.parametrize("expression", ANGLES)
def test_angles_keep_their_own_dimension(expression: str):
    assert godet_type(expression) == ANGLES[expression]
