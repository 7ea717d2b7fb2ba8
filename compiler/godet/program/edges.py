"""Edges and curves of a piece, and the darts on them.

In: a statement that draws, and the scope of its piece. Out: its curve; an edge is turned as its
kind says, and has the mouths of its darts in it. What is wrong is reported by what draws it.

    drawn = drawn_curve(scope, "waist", statement, yields);  darted(scope, "waist", drawn.curve)
"""

from __future__ import annotations

from godet.language import tree
from godet.program.curves import Drawn, draw
from godet.program.kinds import Kind
from godet.program.scopes import Scope
from godet.program.values import BROKEN, Broken, Meaning, Value
from godet.program.yields import Yield


def curve_meaning(scope: Scope, name: str, statement: tree.CurveIs, yields: Yield) -> Meaning:
    """What a curve or an edge means by its name."""
    drawn = drawn_curve(scope, name, statement, yields)
    if isinstance(drawn, Broken):
        return BROKEN
    if not statement.edge:
        scope.session.blends[drawn.curve.node] = drawn.blends
        return drawn.curve
    curve = _with_darts(scope, name, drawn.curve)
    if isinstance(curve, Broken):
        return BROKEN
    yields.drawn[(scope.title, name)] = Drawn(curve, drawn.blends)
    return Value(curve.type, curve.node, (scope.title, name))


def drawn_curve(scope: Scope, name: str, statement: tree.CurveIs, yields: Yield) -> Drawn | Broken:
    """The curve as its chain draws it, without the darts on it; an edge begins at its first end."""
    drawn = draw(statement.chain, scope)
    if isinstance(drawn, Broken) or not statement.edge:
        return drawn
    # a step of `front` is titled "front flared": its edges begin where those of the front do
    first_end = _first_end(yields.makes, scope.title.partition(" ")[0], name)
    if first_end is None:
        return drawn
    curve = scope.session.node(
        "from_the", drawn.curve, type=drawn.curve.type, place=statement.place, which=first_end
    )
    return Drawn(curve, drawn.blends)


def _first_end(kind: Kind | None, piece: str, edge: str) -> str | None:
    promise = kind.pieces.get(piece) if kind is not None else None
    member = promise.members.get(edge) if promise is not None else None
    return member.first_end if member is not None else None


def _with_darts(scope: Scope, name: str, curve: Value) -> Value | Broken:
    """The edge with the mouth of each dart that the piece puts on it; in the order of their names,
    for that of the lines means nothing."""
    others: list[Value] = []
    for dart, statement in sorted(scope.statements.items(), key=lambda item: item[0]):
        if not isinstance(statement, tree.DartOn) or statement.edge.text != name:
            continue
        made = scope.own(dart)
        if not isinstance(made, Value):
            return BROKEN
        curve = scope.session.node(
            "darted", curve, made, *others, type=curve.type, place=statement.place
        )
        others.append(made)
    return curve
