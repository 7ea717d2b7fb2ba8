"""Closed forms say what the solver computes.

sympy evaluates the formulas; the solver's own functions give the other side.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
import sympy
from small_recipes import DRESS, HEADING, MEASURES, draft, inputs, values

from godet.geometry.guards import Guarded
from godet.graph.algebra import ClosedForms
from godet.operations.catalogue import OPERATIONS
from godet.operations.record import Operation, numeric_function

WITH_FORMULA = {name: op for name, op in OPERATIONS.items() if op.formula is not None}
# what an operation takes besides numbers
OF_POINTS = {"point", "first", "last", "start", "end", "by", "direction"}
CONSTANTS = {"power": {"numerator": 3, "denominator": 2}}
ROWS = 400
STRAIGHT = DRESS.replace("(hip_girth + ease_at_hip(fit)) / 4", "hip_girth / 4 + 2cm")


def is_pair(record: Operation, name: str) -> bool:
    return f"{name}_across" in str(record.formula) or f"{name}_down" in str(record.formula)


def plain(result: Any) -> Any:
    return result.value if isinstance(result, Guarded) else result


@pytest.mark.parametrize("name", WITH_FORMULA)
def test_a_formula_gives_what_the_numeric_function_gives(name: str):
    record = WITH_FORMULA[name]
    random = np.random.default_rng(3)
    constants: dict[str, int] = CONSTANTS.get(name, {})
    takes = record.takes
    formula: Any = record.formula
    if takes and takes[0].startswith("*"):
        takes = ("a", "b", "c")
        formula = str(formula).replace("*values", "a, b, c")
    given, symbols, numbers = [], [], []
    for taken in takes:
        if is_pair(record, taken):
            values = random.uniform(-300.0, 300.0, (ROWS, 2))
            symbols += [f"{taken}_across", f"{taken}_down"]
            numbers += [values[:, 0], values[:, 1]]
        else:
            low = 0.1 if name in ("power", "divide") else -1.4
            values = random.uniform(low, 1.4, ROWS)
            symbols.append(taken)
            numbers.append(values)
        given.append(values)
    known = {s: sympy.Symbol(s) for s in symbols} | {
        c: sympy.Integer(v) for c, v in constants.items()
    }
    parts = formula if isinstance(formula, tuple) else (formula,)
    if name == "within":
        given[1:] = [np.full(ROWS, -2.0), np.full(ROWS, 2.0)]
    result = np.asarray(plain(numeric_function(record.function)(*given, **constants)))
    columns = result.T if isinstance(formula, tuple) or result.ndim == 2 else [result]
    for part, column in zip(parts, columns, strict=True):
        form = sympy.lambdify([known[s] for s in symbols], sympy.sympify(part, locals=known))
        # sympy's lambdified formula, evaluated by numpy, is the outside of this comparison
        expected = np.broadcast_to(form(*numbers), column.shape)
        np.testing.assert_allclose(
            column.astype(float), expected.astype(float), rtol=1e-13, atol=1e-12
        )


def forms_of(text: str, name: str) -> tuple[str, ...]:
    made = draft(text)
    node = made.names[name]
    called = {n: s for s, n in sorted(made.names.items(), key=lambda i: -len(i[0])) if n != node}
    return ClosedForms(made.graph, called, "cm", lambda _condition: None).text(node)


@pytest.mark.parametrize(
    ("line", "form"),
    # worked out by hand
    [
        ("let a = hip_girth / 4 + 2cm", "hip_girth/4 + 2"),
        ("let a = (hip_girth + waist_girth) / 2 - waist_girth", "hip_girth/2 - waist_girth/2"),
        ("let a = 1 in + hip_girth * 0", "2.54000"),
        ("let a = sqrt(hip_girth * waist_girth)", "sqrt(hip_girth*waist_girth)"),
        ("let a = hip_girth ^ 3 / waist_girth ^ 2", "hip_girth**3/waist_girth**2"),
        ("let a = max(hip_girth, waist_girth)", "Max(hip_girth, waist_girth)"),
        ("let a = hip_girth > 90cm", "hip_girth > 90"),
    ],
)
def test_a_closed_form_is_over_the_measures_and_in_the_unit_asked_for(line: str, form: str):
    (text,) = forms_of(f"{HEADING}measure hip_girth, waist_girth\n{line}\n", "a")
    assert (
        sympy.simplify(sympy.sympify(text) - sympy.sympify(form)) == 0
        if ">" not in form
        else (text == form)
    )


def test_a_point_has_a_form_for_across_and_one_for_down():
    across, down = forms_of(STRAIGHT, "front.hip_side")
    assert sympy.sympify(across) == sympy.sympify("hip_girth/4 + 2")
    assert sympy.sympify(down) == sympy.sympify("waist_to_hip + 42")


def test_the_form_of_a_point_gives_its_value_on_a_body():
    made = draft(STRAIGHT)
    given = inputs(made, {**MEASURES, "waist_to_hip": 200.0})
    (point,) = values(made, "front.hem_side", given)
    known = {"hip_girth": 98.0, "waist_to_hip": 20.0, "skirt_length": 60.0}
    for text, mm in zip(forms_of(STRAIGHT, "front.hem_side"), point, strict=True):
        assert float(sympy.sympify(text).subs(known)) * 10.0 == pytest.approx(mm, abs=1e-9)


def test_what_has_no_closed_form_stands_in_it_by_name():
    _, down = forms_of(DRESS, "front.hem_centre")
    assert sympy.sympify(down.replace(".", "_")) == sympy.sympify("front_hem_depth + 42")


def test_values_without_a_name_are_not_taken_for_one_another():
    text = f"{HEADING}measure hip_girth, waist_girth\nchoose fit = one of close, loose\n"
    text += (
        "let a = (if fit is close then hip_girth else 0cm) - (if fit is close then 1cm else 2cm)\n"
    )
    (form,) = forms_of(text, "a")
    assert form != "0"


def test_a_long_chain_of_names_has_a_form_all_the_same():
    lines = "".join(f"let a{n} = a{n - 1} + a{n - 2}\n" for n in range(2, 300))
    text = f"{HEADING}measure hip_girth\nlet a0 = hip_girth\nlet a1 = 1cm\n{lines}"
    (form,) = forms_of(text, "a299")
    assert len(form) < 2000
