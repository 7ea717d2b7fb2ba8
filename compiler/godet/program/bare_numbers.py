"""A number without a unit where a length or an angle should stand.

In: the written expression and the type that is wanted. Out: the problem, with the cure that is most
likely meant; None where the expression is no bare number or no unit would help.

    bare_number(expression, LENGTH)   # "`2` has no unit, and a length is needed; write `2cm`."
"""

from __future__ import annotations

from godet.base.problems import Fix, Problem, problem
from godet.graph.types import ANGLE, LENGTH, Type
from godet.language import tree


def bare_number(expression: tree.Expression, type: Type | str) -> Problem | None:
    if not isinstance(expression, tree.Number) or expression.quantity.kind != "bare":
        return None
    if type not in (LENGTH, ANGLE):
        return None
    cure = expression.typed + ("cm" if type == LENGTH else "deg")
    fix = Fix(f"write `{cure}`", expression.place, cure)
    return problem(
        "bare-number", expression.place, number=expression.typed, wanted=type, cure=cure, fix=fix
    )
