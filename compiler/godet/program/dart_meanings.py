"""Darts of a piece.

In: a statement that makes a dart, and the scope of its piece. Out: a `Meaning`. Where a dart is put
on an edge, the edge's name means the edge before any dart is on it. A dart on what is no edge of
the piece, and parts of the wrong types, are problems.

    dart_meaning(scope, "bust_dart", statement, yields)
"""

from __future__ import annotations

from fractions import Fraction

from godet.base.problems import problem
from godet.graph.types import ANGLE, DART, DOUBLE_DART, LENGTH, POINT, Type
from godet.language import tree
from godet.program.bare_numbers import bare_number
from godet.program.edges import drawn_curve
from godet.program.expressions import evaluate, wanted
from godet.program.own_functions import of_type
from godet.program.scopes import Scope
from godet.program.values import BROKEN, Broken, Meaning, Value
from godet.program.yields import Yield


def dart_meaning(scope: Scope, name: str, statement: tree.DartIs, yields: Yield) -> Meaning:
    """What a dart means by its name."""
    match statement:
        case tree.DartOn():
            return _on_edge(scope, name, statement, yields)
        case tree.DoubleDart():
            return _double(scope, name, statement)
        case tree.MeetingDarts():
            darts = [
                wanted(each, scope, DART, "`meeting`")
                for each in (statement.upper, statement.lower)
            ]
            return _node("joined_darts", darts, DOUBLE_DART, statement, scope)


def _on_edge(scope: Scope, name: str, statement: tree.DartOn, yields: Yield) -> Meaning:
    edge = undarted(scope, statement.edge, yields)
    if isinstance(edge, Broken):
        return BROKEN
    beside = Scope(scope.session, scope.define, parent=scope, title=scope.title)
    beside.fixed[statement.edge.text] = edge
    amount = evaluate(statement.amount, beside)
    if not isinstance(amount, Value) or amount.type != ANGLE:
        bare = bare_number(statement.amount, LENGTH)
        if bare is not None:
            return scope.session.report(bare)
        amount = of_type(statement.amount, amount, LENGTH, scope, "the width of a dart")
    at = wanted(statement.at, beside, POINT, f"dart `{name}`")
    pivot = wanted(statement.pivot, beside, POINT, "the point of a dart")
    short: Value | Broken = scope.session.node("number", type=LENGTH, place=None, value=Fraction(0))
    if statement.short is not None:
        short = wanted(statement.short, beside, LENGTH, "`stopping`")
    by_angle = isinstance(amount, Value) and amount.type == ANGLE
    given = [edge, at, pivot, amount, short]
    constants = {"by": "angle" if by_angle else "width", "pressed": statement.pressed or ""}
    return _node("dart", given, DART, statement, scope, **constants)


def undarted(scope: Scope, edge: tree.Word, yields: Yield) -> Value | Broken:
    """An edge of the piece as it is drawn, before any dart is on it."""
    statement = scope.statements.get(edge.text)
    if not isinstance(statement, tree.CurveIs) or not statement.edge:
        if not isinstance(scope.meaning(edge.text, edge.place), Broken):
            scope.session.report(problem("dart-needs-edge", edge.place, name=edge.text))
        return BROKEN
    drawn = drawn_curve(scope, edge.text, statement, yields)
    if isinstance(drawn, Broken):
        return BROKEN
    return Value(drawn.curve.type, drawn.curve.node, (scope.title, edge.text))


def _double(scope: Scope, name: str, statement: tree.DoubleDart) -> Meaning:
    given = [
        wanted(statement.middle, scope, POINT, f"dart `{name}`"),
        wanted(statement.width, scope, LENGTH, "the width of a dart"),
        wanted(statement.upper, scope, POINT, "the point of a dart"),
        wanted(statement.lower, scope, POINT, "the point of a dart"),
    ]
    return _node("double_dart", given, DOUBLE_DART, statement, scope)


def _node(
    operation: str,
    given: list[Value | Broken],
    type: Type,
    statement: tree.DartIs,
    scope: Scope,
    **constants: str,
) -> Meaning:
    known = [each for each in given if isinstance(each, Value)]
    if len(known) < len(given):
        return BROKEN
    return scope.session.node(operation, *known, type=type, place=statement.place, **constants)
