"""What a named statement means: the definer that scopes call.

In: a scope, a name and its statement. Out: a `Meaning`. What a statement leaves behind besides its
value (choices, unknowns, blends) is kept in the `Yield` of its program.

    define = definer(yield_)
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.graph.types import LENGTH, LEVEL, POINT, Type, Words
from godet.language import tree
from godet.program.bare_numbers import bare_number
from godet.program.dart_meanings import dart_meaning
from godet.program.edges import curve_meaning
from godet.program.expressions import LITERAL_TYPES, evaluate, quantity, wanted
from godet.program.own_functions import of_type
from godet.program.pieces import base_meaning, step
from godet.program.program import Choice, FindLine, Measure
from godet.program.scopes import Definer, Scope
from godet.program.values import BROKEN, Broken, FunctionMeaning, Meaning, Value, wrong_type
from godet.program.yields import Yield


def definer(yields: Yield) -> Definer:
    def define(scope: Scope, name: str, statement: tree.Statement) -> Meaning:
        match statement:
            case tree.Let():
                meaning = evaluate(statement.value, scope)
                if isinstance(meaning, Value | Broken):
                    return meaning
                return scope.session.report(
                    problem("let-needs-value", statement.value.place, found=meaning)
                )
            case tree.PointIs():
                return wanted(statement.value, scope, POINT, f"point `{name}`")
            case tree.CurveIs():
                return curve_meaning(scope, name, statement, yields)
            case tree.DartOn() | tree.DoubleDart() | tree.MeetingDarts():
                return dart_meaning(scope, name, statement, yields)
            case tree.LevelIs():
                return _level(scope, statement)
            case tree.Find():
                return _unknown(scope, name, statement, yields)
            case tree.Choose():
                return _choice(scope, name, statement, yields)
            case tree.ChooseWords():
                return _choice_of_words(scope, name, statement, yields)
            case tree.Measures():
                asked = next(word.place for word in statement.names if word.text == name)
                return measure(name, yields, asked)
            case tree.DefineMeasure():
                return measure(name, yields)
            case tree.Define() | tree.DefineCurve() | tree.DefinePiece():
                return FunctionMeaning(statement, scope)
            case tree.Base():
                return base_meaning(statement, scope)
            case tree.Piece():
                return step(name, statement, scope)
            case _:
                return BROKEN

    return define


def _level(scope: Scope, statement: tree.LevelIs) -> Meaning:
    point = wanted(statement.at, scope, POINT, "`across at`")
    if isinstance(point, Broken):
        return BROKEN
    return scope.session.node("depth", point, type=LEVEL, place=statement.place)


def _unknown(scope: Scope, name: str, statement: tree.Find, yields: Yield) -> Meaning:
    """The unknown is there at once, so that its equation may use what is drawn with it."""
    if _bare_beside(statement.lowest, statement.highest, scope):
        return BROKEN
    lowest = quantity(statement.lowest, scope, "the range of `find`")
    if isinstance(lowest, Broken):
        return BROKEN
    if isinstance(statement.highest, tree.Number):
        # where the ends of the range differ there is no telling what is meant: it is told here, and
        # not in every place that uses the unknown
        highest = wanted(statement.highest, scope, lowest.type, "the range of `find`")
        if isinstance(highest, Broken):
            return BROKEN
    full = f"{scope.title}.{name}" if scope.title else name
    unknown = scope.session.node("unknown", type=lowest.type, place=statement.place, name=full)
    yields.finds[full] = (statement, scope, unknown)
    return unknown


def find_line(name: str, yields: Yield) -> FindLine | None:
    """The equation of an unknown, worked out once everything it uses can be."""
    statement, scope, unknown = yields.finds[name]
    lowest = quantity(statement.lowest, scope, "the range of `find`")
    highest = wanted(statement.highest, scope, unknown.type, "the range of `find`")
    if _bare_beside(statement.left, statement.right, scope):
        return None
    left = quantity(statement.left, scope, "`so that`")
    if isinstance(left, Broken):
        return None
    right = wanted(statement.right, scope, left.type, "`so that`")
    reference = None
    if statement.reference is not None:
        reference = wanted(statement.reference, scope, unknown.type, f"`{statement.selector}`")
    parts: list[Any] = [lowest, highest, right, reference]
    if any(isinstance(part, Broken) for part in parts):
        return None
    assert isinstance(lowest, Value)
    assert isinstance(highest, Value)
    assert isinstance(right, Value)
    return FindLine(
        name,
        unknown.node,
        lowest.node,
        highest.node,
        left.node,
        right.node,
        statement.selector,
        reference.node if isinstance(reference, Value) else None,
        statement.place,
    )


def _choice(scope: Scope, name: str, statement: tree.Choose, yields: Yield) -> Meaning:
    if statement.lowest is not None and _bare_beside(statement.default, statement.lowest, scope):
        return BROKEN
    default = quantity(statement.default, scope, f"the default of `{name}`")
    if isinstance(default, Broken):
        return BROKEN
    session, place = scope.session, statement.place
    leaf = session.node("choice", type=default.type, place=place, name=name)
    chosen = session.node("known", leaf, default, type=default.type, place=place)
    if statement.lowest is not None and statement.highest is not None:
        low = wanted(statement.lowest, scope, default.type, f"the range of `{name}`")
        high = wanted(statement.highest, scope, default.type, f"the range of `{name}`")
        if isinstance(low, Broken) or isinstance(high, Broken):
            return BROKEN
        outside = _outside(name, statement.default, statement.lowest, statement.highest)
        if outside is not None:
            session.report(outside)
        chosen = session.node("within", chosen, low, high, type=default.type, place=place)
    yields.choices[name] = Choice(
        name, default.type, default.node, chosen.node, (), statement.doc, place, name
    )
    return chosen


def _bare_beside(written: tree.Expression, beside: tree.Expression, scope: Scope) -> bool:
    """Whether a number lacks the unit of what it stands with, which is reported."""
    meaning = evaluate(beside, scope) if isinstance(written, tree.Number) else BROKEN
    bare = bare_number(written, meaning.type) if isinstance(meaning, Value) else None
    if bare is not None:
        scope.session.report(bare)
    return bare is not None


def _outside(
    name: str, default: tree.Expression, lowest: tree.Expression, highest: tree.Expression
) -> Problem | None:
    """The problem of a default that lies outside its range, where all three are plain figures."""
    given, least, most = (_figure(each) for each in (default, lowest, highest))
    if given is None or least is None or most is None or least[0] <= given[0] <= most[0]:
        return None
    return problem(
        "default-out-of-range",
        default.place,
        name=name,
        default=given[1],
        lowest=least[1],
        highest=most[1],
    )


def _figure(written: tree.Expression) -> tuple[Fraction, str] | None:
    """A plain number and how it is written, with its minus; None for a formula."""
    if isinstance(written, tree.Number):
        return written.quantity.value, written.typed
    if isinstance(written, tree.Negative):
        inner = _figure(written.value)
        return (-inner[0], f"-{inner[1]}") if inner is not None else None
    return None


def _choice_of_words(
    scope: Scope, name: str, statement: tree.ChooseWords, yields: Yield
) -> Meaning:
    words = tuple(word.text for word in statement.words)
    type = Words(words)
    session, place = scope.session, statement.place
    leaf = session.node("choice", type=type, place=place, name=name)
    default = session.node("word", type=type, place=place, word=words[0])
    chosen = session.node("known", leaf, default, type=type, place=place)
    yields.choices[name] = Choice(
        name, type, default.node, chosen.node, words, statement.doc, place, words[0]
    )
    return chosen


# --- measures ------------------------------------------------------------------------------------


def measure(name: str, yields: Yield, asked: Place | None = None) -> Meaning:
    """A measure of the body: given, or estimated by the vocabulary's formula where it has one.

    `asked` is where a recipe says that it needs it.
    """
    block = yields.definitions[name]
    scope = yields.vocabulary
    session, place = scope.session, asked or block.name.place
    parts = {type(part): part for part in block.body}
    known = described(block)
    type_ = known.type
    uneven = _uneven(parts.get(tree.Range), name)
    if uneven is not None:
        return session.report(uneven)
    leaf = session.node("measure", type=type_, place=place, name=name)
    estimate = parts.get(tree.Estimate)
    if isinstance(estimate, tree.Estimate):
        guess = evaluate(estimate.value, scope)
        value = of_type(estimate.value, guess, type_, scope, f"the estimate of `{name}`")
        if isinstance(value, Broken):
            return BROKEN
        meaning = session.node("known", leaf, value, type=type_, place=place)
    else:
        meaning = session.node("given", leaf, type=type_, place=place)
    yields.measures[name] = known
    return meaning


def _uneven(range: Any, name: str) -> Problem | None:
    """The problem of a range from a length to an angle; None where both ends are alike."""
    match range:
        case tree.Range(lowest=tree.Number() as low, highest=tree.Number() as high):
            first, last = (LITERAL_TYPES.get(end.quantity.kind) for end in (low, high))
            if first is None or last is None or first == last:
                return None
            what = f"the range of `{name}`"
            wrong = wrong_type(high.place, what, first, last)
            return bare_number(low, last) or bare_number(high, first) or wrong
        case _:
            return None


def described(block: tree.DefineMeasure) -> Measure:
    """What the vocabulary says of a measure; its range as plain numbers, mm or radians.

    A measure is of the type of its plausible range; a length where it has none.
    """
    means = take = ""
    lowest = highest = source = None
    type: Type = LENGTH
    for part in block.body:
        match part:
            case tree.Means():
                means = part.text
            case tree.Take():
                take = part.text
            case tree.Range(lowest=tree.Number() as low, highest=tree.Number() as high):
                lowest, highest = plain(low), plain(high)
                type = LITERAL_TYPES.get(low.quantity.kind, LENGTH)
            case tree.Estimate():
                source = part.source
    name = block.name
    return Measure(name.text, means, take, type, lowest, highest, source, name.place)


def plain(literal: tree.Number) -> float:
    """The value of a literal as the solver counts it: mm, radians or a ratio."""
    value = float(literal.quantity.value)
    return math.radians(value) if literal.quantity.kind == "angle" else value
