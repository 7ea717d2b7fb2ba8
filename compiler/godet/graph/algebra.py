"""Closed forms: the one module behind which sympy lives, loaded on demand.

In: a linked graph and a node. Out: the formula of its value over measures and choices, as text.
Only what has an algebraic formula is written out; lengths along curves, widths, crossings, splines
and found unknowns stand in it by name. A formula that would grow past `LIMIT` nodes stops at the
named values it has met, since inlining through a whole draft explodes. Nothing fails.

    ClosedForms(graph, names, "cm", taken).text(node)   # ("hip_girth/4 + 1", ) or (across, down)

Angles by name are in radians; a number of degrees is told as one, `20*deg`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from typing import Any

from godet.base.recursion import room_to_recurse
from godet.graph.node import Graph, Node
from godet.graph.types import DIRECTION, OFFSET, POINT, Quantity, Type
from godet.operations.catalogue import OPERATIONS

LIMIT = 400
_UNIT = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(254, 10)}
_PAIRS: tuple[Type, ...] = (POINT, OFFSET, DIRECTION)

# of a polynomial: numbered atoms with their exponents, and a coefficient
Term = tuple[tuple[tuple[int, int], ...], Fraction]

Form = Any  # a sympy expression
Pair = tuple[Form, Form]


class ClosedForms:
    """Formulas of one graph in one unit of length.

    `names` maps nodes to what a recipe calls them; `taken` tells for an `if` whether the body at
    hand takes the first branch, or None where there is no body.
    """

    def __init__(
        self,
        graph: Graph,
        names: Mapping[int, str],
        unit: str,
        taken: Callable[[int], bool | None],
    ) -> None:
        import sympy

        self._sympy = sympy
        self._graph = graph
        self._names = names
        self._unit = _UNIT[unit]
        self._taken = taken
        self._forms: dict[int, Form | Pair] = {}
        self._unnamed: dict[tuple[str, ...], list[int]] = {}
        self._written = 0

    def text(self, number: int) -> tuple[str, ...]:
        """The formula of a number, or those of a point's across and down."""
        with room_to_recurse():
            form = self._form(number)
        parts = form if isinstance(form, tuple) else (form,)
        return tuple(self._sympy.sstr(self._readable(part)) for part in parts)

    def _readable(self, form: Form) -> Form:
        """Angles in degrees, and fractions that no tape shows as decimals."""
        form = form.xreplace({self._sympy.pi: 180 * self._sympy.Symbol("deg")})
        odd = {r for r in form.atoms(self._sympy.Rational) if r.q not in (1, 2, 3, 4, 6, 8, 16)}
        return form.xreplace({r: self._sympy.Float(r, 6) for r in odd})

    def _form(self, number: int) -> Form | Pair:
        if number not in self._forms:
            self._forms[number] = self._made(number)
        return self._forms[number]

    def _made(self, number: int) -> Form | Pair:
        node = self._graph[number]
        self._written += 1
        if self._written > LIMIT and number in self._names:
            return self._symbol(number)
        match node.operation:
            case "number":
                scale = node.type.length if isinstance(node.type, Quantity) else Fraction(0)
                value = Fraction(str(node.constant("value"))) / self._unit ** int(scale)
                return self._sympy.Rational(value.numerator, value.denominator)
            case "degrees":
                value = Fraction(str(node.constant("value")))
                return self._sympy.pi * self._sympy.Rational(
                    value.numerator, value.denominator * 180
                )
            case "compass":
                across, down = {
                    "outward": (1, 0),
                    "inward": (-1, 0),
                    "down": (0, 1),
                    "up": (0, -1),
                }[str(node.constant("way"))]
                return (self._sympy.Integer(across), self._sympy.Integer(down))
            case "measure" | "choice" | "cloth" | "unknown" | "word":
                return self._symbol(number)
            case "known" | "given" | "within":
                return self._symbol(number) if self._is_asked(node) else self._form(node.inputs[0])
            case "either":
                return self._branch(number, node)
            case _:
                return self._by_record(number, node)

    def _is_asked(self, node: Node) -> bool:
        """Whether the node is a measure or a choice: what a person brings, and no formula."""
        first = self._graph[node.inputs[0]]
        return first.operation in ("measure", "choice") or (
            first.operation == "known" and self._is_asked(first)
        )

    def _branch(self, number: int, node: Node) -> Form | Pair:
        condition, then, otherwise = node.inputs
        taken = self._taken(condition)
        if taken is None:
            return self._symbol(number)
        return self._form(then if taken else otherwise)

    def _by_record(self, number: int, node: Node) -> Form | Pair:
        record = OPERATIONS[node.operation]
        if record.formula is None:
            return self._symbol(number)
        if record.takes and record.takes[0].startswith("*"):
            return getattr(self._sympy, str(record.formula).partition("(")[0])(
                *(self._form(n) for n in node.inputs)
            )
        known: dict[str, Form] = {
            name: self._sympy.Integer(value)
            for name, value in node.constants
            if isinstance(value, int)
        }
        for name, given in zip(record.takes, node.inputs, strict=True):
            form = self._form(given)
            if isinstance(form, tuple):
                known[f"{name}_across"], known[f"{name}_down"] = form
            else:
                known[name] = form
        if isinstance(record.formula, tuple):
            across, down = (self._parsed(text, known) for text in record.formula)
            return (across, down)
        return self._parsed(record.formula, known)

    def _parsed(self, formula: str, known: Mapping[str, Form]) -> Form:
        """A record's formula over its inputs."""
        # whole numbers at once: an exponent can't be a placeholder
        placeholders = {
            name: value if value.is_Integer else self._sympy.Symbol(f"_{name}")
            for name, value in known.items()
        }
        form = self._sympy.sympify(formula, locals=dict(placeholders))
        return form.xreplace({placeholders[name]: value for name, value in known.items()})

    def _symbol(self, number: int) -> Form | Pair:
        name = self.name(number)
        if self._graph[number].type in _PAIRS:
            symbols = (self._sympy.Symbol(f"{name}.{part}") for part in ("across", "down"))
            across, down = symbols
            return (across, down)
        return self._sympy.Symbol(name)

    def name(self, number: int) -> str:
        """What to call a node in a formula."""
        if number in self._names:
            return self._names[number]
        node = self._graph[number]
        if node.operation in ("measure", "choice", "unknown"):
            return str(node.constant("name"))
        if node.operation == "word":
            return str(node.constant("word"))
        if node.operation == "cloth":
            return f"{node.constant('cloth')}.{node.constant('property')}"
        if node.operation in ("known", "given", "within"):
            return self.name(node.inputs[0])
        inner = [self._names[n] for n in node.inputs if n in self._names]
        # values without a name are told apart by a number, or algebra would take them for one
        alike = self._unnamed.setdefault((node.operation, *inner), [])
        if number not in alike:
            alike.append(number)
        count = alike.index(number) + 1
        again = f"_{count}" if count > 1 else ""
        return f"{node.operation}{again}({', '.join(inner)})"


def square_root(terms: Iterable[Term]) -> list[Term] | None:
    """The polynomial, in terms of numbered atoms, whose square this is; None where there is none.

    `square_root([(((0, 2),), Fraction(4))])` is `[(((0, 1),), Fraction(2))]`: the root of 4 x^2.
    """
    import sympy

    listed = list(terms)
    numbers = sorted({atom for monomial, _ in listed for atom, _ in monomial})
    if not numbers:
        return None
    symbols = {number: sympy.Symbol(f"a{number}") for number in numbers}
    whole = sympy.Poly(
        {
            tuple(dict(monomial).get(number, 0) for number in numbers): sympy.Rational(
                value.numerator, value.denominator
            )
            for monomial, value in listed
        },
        *symbols.values(),
        domain="QQ",
    )
    factor, parts = whole.sqf_list()
    scale = sympy.sqrt(factor)
    if not scale.is_Rational or any(power % 2 for _, power in parts):
        return None
    root = sympy.Poly(scale, *symbols.values(), domain="QQ")
    for part, power in parts:
        root *= part ** (power // 2)
    return [
        (
            tuple((n, int(e)) for n, e in zip(numbers, exponents, strict=True) if e),
            Fraction(int(value.p), int(value.q)),
        )
        for exponents, value in root.terms()
    ]
