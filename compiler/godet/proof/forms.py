"""The closed forms of a draft's values, as quotients of polynomials over what is known of the body.

In: a linked draft, what words are chosen, and a budget. Out: forms over atoms: measures and choices
between their ends, unknowns in their ranges, and whatever has no formula (lengths of curves,
widths, crossings) as an atom of its own, the same wherever it is the same value. Raises
`WordNeeded` where a value depends on a word that is not chosen yet, `OutOfBudget`, and `Undefined`
for what is no number whatever the body.

    Forms(draft, {}, Budget(1000)).scalar(draft.names["side_out"])

An operation's formula is the one of its record; the records of new operations are read like all
others.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from godet.graph.ends import end_of
from godet.graph.node import Node
from godet.graph.types import ANGLE, CONDITION, DIRECTION, OFFSET, POINT, Type, Words
from godet.operations.catalogue import OPERATIONS
from godet.program.draft import Draft
from godet.program.program import FindLine
from godet.proof.atoms import Atom, Atoms
from godet.proof.functions import PI, Functions
from godet.proof.polynomials import Budget, Polynomial
from godet.proof.quotients import Quotient

_PAIRS: tuple[Type, ...] = (POINT, OFFSET, DIRECTION)
_WAYS = {"outward": (1, 0), "inward": (-1, 0), "down": (0, 1), "up": (0, -1)}
_NEVER_NEGATIVE = frozenset({"length", "width", "distance"})

Pair = tuple[Quotient, Quotient]


class WordNeeded(Exception):
    """A value depends on which word is chosen."""

    def __init__(self, node: int, words: tuple[str, ...]) -> None:
        self.node = node
        self.words = words


@dataclass(slots=True)
class Forms:
    draft: Draft
    words: Mapping[int, str]  # nodes of choices and cloths: the word taken
    budget: Budget
    atoms: Atoms = field(init=False)
    functions: Functions = field(init=False)
    forms: dict[int, Any] = field(default_factory=dict)
    finds: Mapping[int, FindLine] = field(init=False)

    def __post_init__(self) -> None:
        self.atoms = Atoms(self.budget)
        self.functions = Functions(self.atoms)
        self.finds = {line.unknown: line for line in self.draft.finds}

    def scalar(self, number: int) -> Quotient:
        form: Quotient = self._form(number)
        return form

    def pair(self, number: int) -> Pair:
        form: Pair = self._form(number)
        return form

    def _form(self, number: int) -> Any:
        if number not in self.forms:
            self.budget.spend(1)
            self.forms[number] = self._made(number, self.draft.graph[number])
        return self.forms[number]

    def _made(self, number: int, node: Node) -> Any:
        match node.operation:
            case "number":
                return self.functions.constant(Fraction(str(node.constant("value"))))
            case "degrees":
                turn = Fraction(str(node.constant("value"))) / 180
                return self.atoms.between("pi", *PI) * self.functions.constant(turn)
            case "compass":
                across, down = _WAYS[str(node.constant("way"))]
                return self.functions.constant(across), self.functions.constant(down)
            case "known" | "given" if self._leaf(node) == "measure":
                return self._measure(str(self.draft.graph[node.inputs[0]].constant("name")), node)
            case "known" if self._leaf(node) == "choice":
                return self.atoms.value(number, Atom())
            case "within":
                _, low, high = node.inputs
                return self.atoms.value(number, Atom(self.scalar(low), self.scalar(high)))
            case "unknown":
                line = self.finds[number]
                ends = self.scalar(line.lowest), self.scalar(line.highest)
                return self.atoms.value(number, Atom(*ends))
            case "cloth":
                return self.atoms.between(number, Fraction(0), None)
            case "either":
                return self._either(number, node)
            case "start_point" | "end_point":
                point = end_of(self.draft.graph, node.inputs[0], node.operation == "end_point")
                return self._unknown(number, node) if point is None else self._form(point)
            case "length" if len(node.inputs) == 1:  # nothing is taken up on it
                return self.length(node.inputs[0])
            case "toward":
                start, target = (self.pair(n) for n in node.inputs[:2])
                return self._toward(start, target, self.scalar(node.inputs[2]))
            case "direction_between":
                first, last = (self.pair(n) for n in node.inputs)
                offset = last[0] - first[0], last[1] - first[1]
                span = self._distance(*offset)
                return offset[0] / span, offset[1] / span
            case "abs":
                return self.functions.size(self.scalar(node.inputs[0]))
            case _:
                return self._by_record(number, node)

    def _leaf(self, node: Node) -> str:
        return self.draft.graph[node.inputs[0]].operation

    def _measure(self, name: str, node: Node) -> Quotient:
        """Given or estimated, a measure is any number in its plausible range."""
        measure = self.draft.measures[name]
        ends = [
            Fraction(end) if end is not None else default
            for end, default in ((measure.lowest, Fraction(0)), (measure.highest, None))
        ]
        if node.type == ANGLE:
            # the ends in radians are rounded
            ends = [
                end + sign * Fraction(1, 2**48) if end is not None else None
                for end, sign in zip(ends, (-1, 1), strict=True)
            ]
        return self.atoms.between(f"measure {name}", ends[0], ends[1])

    # --- lengths ------------------------------------------------------------------------------

    def length(self, curve: int) -> Quotient:
        """The length of a curve: of straight lines by their ends, of rows of curves by their parts;
        of others an atom that is never negative."""
        node = self.draft.graph[curve]
        match node.operation:
            case "line":
                start, end = (self.pair(n) for n in node.inputs)
                return self._distance(end[0] - start[0], end[1] - start[1])
            case "joined":
                whole = self.functions.constant(0)
                for part in node.inputs:
                    whole = whole + self.length(part)
                return whole
            case "from_the":
                return self.length(node.inputs[0])
            case "either":
                length: Quotient = self._either(curve, node, of_length=True)
                return length
            case _:
                return self.atoms.between(("length", curve), Fraction(0), None)

    def _distance(self, across: Quotient, down: Quotient) -> Quotient:
        return self.functions.root(across * across + down * down)

    def _toward(self, start: Pair, target: Pair, distance: Quotient) -> Pair:
        offset = target[0] - start[0], target[1] - start[1]
        share = distance / self._distance(*offset)
        return start[0] + share * offset[0], start[1] + share * offset[1]

    # --- branches -----------------------------------------------------------------------------

    def _either(self, number: int, node: Node, of_length: bool = False) -> Any:
        condition, then, otherwise = node.inputs
        form: Callable[[int], Any] = self.length if of_length else self._form
        sure = self.truth(condition)
        if sure is not None:
            return form(then if sure else otherwise)
        first, second = form(then), form(otherwise)
        facts = self.facts(condition, True), self.facts(condition, False)
        if isinstance(first, tuple):
            return tuple(
                self.functions.branched((number, axis), (a, b), facts)
                for axis, (a, b) in enumerate(zip(first, second, strict=True))
            )
        return self.functions.branched((number, of_length), (first, second), facts)

    def truth(self, condition: int) -> bool | None:
        """Whether a condition holds where words or plain numbers alone tell it."""
        node = self.draft.graph[condition]
        match node.operation:
            case "same_word":
                return self.word(node.inputs[0]) == node.constant("word")
            case "negated":
                inner = self.truth(node.inputs[0])
                return None if inner is None else not inner
            case "both" | "any_of":
                deciding = node.operation == "any_of"
                known = [self.truth(n) for n in node.inputs]
                if deciding in known:
                    return deciding
                return None if None in known else not deciding
            case "at_least" | "more_than":
                apart = (self.scalar(node.inputs[0]) - self.scalar(node.inputs[1])).number
                if apart is None:
                    return None
                return apart >= 0 if node.operation == "at_least" else apart > 0
            case _:
                return None

    def facts(self, condition: int, holds: bool) -> tuple[Polynomial, ...]:
        """What is not negative where a condition holds, or does not; what can't be said is left
        out."""
        node = self.draft.graph[condition]
        match node.operation:
            case "at_least" | "more_than":
                left, right = (self.scalar(n) for n in node.inputs)
                apart = left - right if holds else right - left
                return (self.functions.sign_of(apart),)
            case "negated":
                return self.facts(node.inputs[0], not holds)
            case "both" | "any_of" if (node.operation == "both") is holds:
                return tuple(fact for n in node.inputs for fact in self.facts(n, holds))
            case _:
                return ()

    def word(self, number: int) -> str:
        """The word that a node comes to."""
        node = self.draft.graph[number]
        match node.operation:
            case "word":
                return str(node.constant("word"))
            case "either":
                condition, then, otherwise = node.inputs
                sure = self.truth(condition)
                if sure is not None:
                    return self.word(then if sure else otherwise)
        if number not in self.words:
            assert isinstance(node.type, Words)
            raise WordNeeded(number, node.type.words)
        return self.words[number]

    # --- by the records -------------------------------------------------------------------------

    def _by_record(self, number: int, node: Node) -> Any:
        record = OPERATIONS.get(node.operation)
        if record is None or record.formula is None or node.type == CONDITION:
            return self._unknown(number, node)
        if record.takes and record.takes[0].startswith("*"):
            values = [self.scalar(n) for n in node.inputs]
            return self.functions.extreme(values, largest=str(record.formula).startswith("Max"))
        names: dict[str, Any] = {name: v for name, v in node.constants if isinstance(v, int)}
        for name, given in zip(record.takes, node.inputs, strict=True):
            form = self._form(given)
            if isinstance(form, tuple):
                names[f"{name}_across"], names[f"{name}_down"] = form
            else:
                names[name] = form
        texts = record.formula if isinstance(record.formula, tuple) else (record.formula,)
        if node.operation == "power":
            return self.functions.power(
                names["base"], Fraction(names["numerator"], names["denominator"])
            )
        # the formulas are the records' own: sums, products, powers and the functions above
        try:
            found = [
                eval(text, {"__builtins__": {}}, {**self.functions.by_name(), **names})
                for text in texts
            ]
        except (NameError, TypeError):  # a function that algebra here does not take apart
            return self._unknown(number, node)
        return tuple(found) if isinstance(record.formula, tuple) else found[0]

    def _unknown(self, number: int, node: Node) -> Any:
        """What algebra knows nothing of but its sign."""
        if node.type in _PAIRS:
            return tuple(self.atoms.value((number, axis), Atom()) for axis in ("across", "down"))
        if node.operation == "angle":
            return self.atoms.between(number, Fraction(0), PI[1])
        low = Fraction(0) if node.operation in _NEVER_NEGATIVE else None
        return self.atoms.between(number, low, None)
