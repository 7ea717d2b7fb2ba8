"""Calls: the functions of the language; those a recipe defines are called by `own_functions`.

In: a call and the scope it stands in. Out: its `Meaning`. A wrong number of arguments and a wrong
type are problems.

    width(top.front, waist), min(8 in, waist_to_hip)
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Fix, problem
from godet.graph.types import (
    ANGLE,
    AREA,
    CURVE,
    LENGTH,
    LEVEL,
    POINT,
    RATIO,
    Quantity,
    Type,
)
from godet.language import tree
from godet.program.members import outline_of, own, times_of, width_of
from godet.program.own_functions import call_own, of_type
from godet.program.scopes import Evaluate, Scope
from godet.program.values import (
    BROKEN,
    BlockMeaning,
    Broken,
    FunctionMeaning,
    Meaning,
    PieceMeaning,
    Value,
    WholeEdge,
    wrong_type,
)

_Special = Callable[[tree.Call, Scope, Evaluate], Meaning]

# plain functions: operation, types of the arguments, type of the answer
_PLAIN: dict[str, tuple[str, tuple[Type, ...], Type]] = {
    "sin": ("sin", (ANGLE,), RATIO),
    "cos": ("cos", (ANGLE,), RATIO),
    "tan": ("tan", (ANGLE,), RATIO),
    "slope": ("slope", (LENGTH, LENGTH), ANGLE),
    "distance": ("distance", (POINT, POINT), LENGTH),
    "across_from": ("across_from", (POINT, POINT), LENGTH),
    "down_from": ("down_from", (POINT, POINT), LENGTH),
    "angle": ("angle", (CURVE, CURVE), ANGLE),
    "corner": ("corner", (CURVE, CURVE, CURVE, CURVE), ANGLE),
    "radius": ("radius", (CURVE, POINT), LENGTH),
}


def call(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    """What a call gives."""
    name = expression.function.text
    meaning = scope.find(name, expression.function.place)
    if isinstance(meaning, FunctionMeaning):
        return call_own(expression, meaning, scope, evaluate)
    # a choice called `length` leaves the function `length` what it is
    if name in _PLAIN or name in _SPECIAL:
        if _names_an_argument(expression, scope):
            return BROKEN
        return _SPECIAL.get(name, _plain)(expression, scope, evaluate)
    if isinstance(meaning, Broken):
        return BROKEN
    if meaning is not None:
        return scope.session.report(
            problem("not-a-function", expression.function.place, name=name, found=meaning)
        )
    if name in scope.session.lost:
        return BROKEN
    place, names = expression.function.place, [*_PLAIN, *_SPECIAL]
    own = [n for n in scope.names() if scope.is_function(n)]
    hint, fix = did_you_mean(name, [*names, *own], place)
    listed = f" There are {', '.join(sorted(names))}, and what is defined here."
    return scope.session.miss(
        name, problem("unknown-function", place, name=name, hint=hint or listed, fix=fix)
    )


def _names_an_argument(expression: tree.Call, scope: Scope) -> bool:
    """Whether an argument is given by a name, which is reported: these take theirs in order."""
    for argument in expression.arguments:
        if argument.name is not None:
            named, value = argument.name.place, argument.value.place
            place = Place(named.file, named.line, named.column, value.line, value.column)
            fix = Fix(f"take `{argument.name.text}:` out", place, "")
            function = expression.function.text
            scope.session.report(problem("argument-named", named, name=function, fix=fix))
            return True
    return False


def _count(expression: tree.Call, count: int, scope: Scope) -> bool:
    if len(expression.arguments) == count:
        return True
    scope.session.report(
        problem(
            "wrong-count",
            expression.place,
            name=expression.function.text,
            wanted="1 thing" if count == 1 else f"{count} things",
            found=len(expression.arguments),
        )
    )
    return False


def _plain(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    name = expression.function.text
    operation, types, gives = _PLAIN[name]
    if not _count(expression, len(types), scope):
        return BROKEN
    values = []
    for argument, type in zip(expression.arguments, types, strict=True):
        meaning = evaluate(argument.value, scope)
        value = of_type(argument.value, meaning, type, scope, f"`{name}`")
        if isinstance(value, Broken):
            return BROKEN
        values.append(value)
    return scope.session.node(operation, *values, type=gives, place=expression.place)


def _alike(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    """`min` and `max`: quantities of one dimension."""
    name = expression.function.text
    meanings = [evaluate(argument.value, scope) for argument in expression.arguments]
    types = [m.type for m in meanings if isinstance(m, Value) and isinstance(m.type, Quantity)]
    # a bare number beside lengths is the one that is wrong, wherever it stands
    type: Type | str = next((t for t in types if t != RATIO), RATIO) if types else "a quantity"
    values: list[Value] = []
    for argument, meaning in zip(expression.arguments, meanings, strict=True):
        value = of_type(argument.value, meaning, type, scope, f"`{name}`")
        if isinstance(value, Broken):
            return BROKEN
        values.append(value)
    if not values:
        _count(expression, 1, scope)
        return BROKEN
    return scope.session.node(name, *values, type=values[0].type, place=expression.place)


def _one_quantity(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Value | Broken:
    if not _count(expression, 1, scope):
        return BROKEN
    argument = expression.arguments[0].value
    meaning = evaluate(argument, scope)
    if isinstance(meaning, Value) and isinstance(meaning.type, Quantity):
        return meaning
    return of_type(argument, meaning, "a quantity", scope, f"`{expression.function.text}`")


def _absolute(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    value = _one_quantity(expression, scope, evaluate)
    if isinstance(value, Broken):
        return BROKEN
    return scope.session.node("abs", value, type=value.type, place=expression.place)


def _root(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    value = _one_quantity(expression, scope, evaluate)
    if isinstance(value, Broken) or not isinstance(value.type, Quantity):
        return BROKEN
    type = value.type.to_the(Fraction(1, 2))
    return scope.session.node(
        "power", value, type=type, place=expression.place, numerator=1, denominator=2
    )


def _whole(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    """`whole(front.neck)`: an edge counted as often as its piece is cut."""
    if not _count(expression, 1, scope):
        return BROKEN
    argument = expression.arguments[0].value
    meaning = evaluate(argument, scope)
    edge = of_type(argument, meaning, CURVE, scope, "`whole`")
    if isinstance(edge, Broken):
        return BROKEN
    if edge.edge is None:
        return scope.session.report(problem("whole-needs-edge", expression.place))
    piece, _ = edge.edge
    return WholeEdge(edge, times_of(piece, expression.place, scope).node)


def _length(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    """`length(edge)`, or of a whole edge."""
    if not _count(expression, 1, scope):
        return BROKEN
    argument = expression.arguments[0].value
    meaning = evaluate(argument, scope)
    session, place = scope.session, expression.place
    if isinstance(meaning, WholeEdge):
        length = session.node("length", meaning.edge, type=LENGTH, place=place)
        return session.node("multiply", length, meaning.times, type=LENGTH, place=place)
    edge = of_type(argument, meaning, CURVE, scope, "`length`")
    if isinstance(edge, Broken):
        return BROKEN
    return session.node("length", edge, type=LENGTH, place=place)


def _width(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    """`width(top.front, waist)`: of the drawn piece, along one of its levels."""
    if not _count(expression, 2, scope):
        return BROKEN
    first, second = (argument.value for argument in expression.arguments)
    named = first.name if isinstance(first, tree.Name) else ""
    piece = scope.piece(named) or evaluate(first, scope)
    if isinstance(piece, Broken):
        return BROKEN
    if not isinstance(piece, PieceMeaning):
        return scope.session.report(wrong_type(first.place, "`width`", "a piece", piece))
    level = evaluate(tree.Dotted(second.place, first, _level_name(second)), scope)
    down = of_type(second, level, LEVEL, scope, "`width`")
    if isinstance(down, Broken):
        return BROKEN
    name = _level_name(second).text
    return width_of(piece, name, expression.place, scope)


def _area(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    """`area(front)` of the drawn piece, `area(neck, yoke, centre)` inside curves that close."""
    session, place = scope.session, expression.place
    arguments = [argument.value for argument in expression.arguments]
    if len(arguments) == 1:
        named = arguments[0].name if isinstance(arguments[0], tree.Name) else ""
        piece = scope.piece(named) or evaluate(arguments[0], scope)
        if isinstance(piece, PieceMeaning):
            outline = outline_of(piece, place, scope)
            return session.node("area", outline, type=AREA, place=place)
    curves = []
    for argument in arguments:
        curve = of_type(argument, evaluate(argument, scope), CURVE, scope, "`area`")
        if isinstance(curve, Broken):
            return BROKEN
        curves.append(curve)
    if not curves:
        _count(expression, 1, scope)
        return BROKEN
    together = session.node("together", *curves, type=CURVE, place=place)
    return session.node("area", together, type=AREA, place=place)


def _level_name(expression: tree.Expression) -> tree.Word:
    name = expression.name if isinstance(expression, tree.Name) else "?"
    return tree.Word(name, expression.place)


def _girth(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    """`girth(hip)`: all round the garment, over all pieces that have the level."""
    if not _count(expression, 1, scope):
        return BROKEN
    argument = expression.arguments[0].value
    word = _level_name(argument)
    root = scope
    while root.parent is not None:
        root = root.parent
    if _level_of_own(word, root) or _level_kept(word, root):
        return own("", "girth", word.text, LENGTH, expression.place, scope)
    broken = any(p.scope is not None and p.scope.base_is_broken() for p in root.pieces.values())
    if word.text in scope.session.lost or broken:
        return BROKEN
    levels = _levels(root)
    hint, fix = did_you_mean(word.text, levels, word.place)
    hint = hint or (f" There are {', '.join(sorted(levels))}." if levels else "")
    return scope.session.report_of(
        word.text, problem("no-such-level", word.place, name=word.text, hint=hint, fix=fix)
    )


def _levels(root: Scope) -> set[str]:
    """The levels that the recipe's pieces draw and that the kinds of its blocks promise."""
    scopes = [piece.scope for piece in root.pieces.values() if piece.scope is not None]
    drawn = {
        name
        for scope in scopes
        for name, statement in scope.statements.items()
        if isinstance(statement, tree.LevelIs)
    }
    blocks = [block for block in root.fixed.values() if isinstance(block, BlockMeaning)]
    promised = {
        member.name
        for block in blocks
        for piece in block.kind.pieces.values()
        for member in piece.members.values()
        if member.sort == "level" and not member.optional
    }
    return drawn | promised


def _level_of_own(word: tree.Word, root: Scope) -> bool:
    """Whether a piece of the recipe has the level, its own or its base's."""
    for piece in root.pieces.values():
        inner = piece.scope
        if inner is None:
            continue
        level = inner.own(word.text)
        if level is None and inner.inherits is not None:
            level = inner.inherits.find(word.text, word.place, inner)
        if isinstance(level, Value) and level.type == LEVEL:
            return True
    return False


def _level_kept(word: tree.Word, root: Scope) -> bool:
    """Whether a piece that comes through from a taken block is sure to have the level."""
    for block in root.fixed.values():
        for piece in block.kind.pieces.values() if isinstance(block, BlockMeaning) else ():
            level = piece.members.get(word.text)
            if level is not None and level.sort == "level" and not level.optional:
                return True
    return False


_SPECIAL: dict[str, _Special] = {
    "min": _alike,
    "max": _alike,
    "abs": _absolute,
    "sqrt": _root,
    "whole": _whole,
    "length": _length,
    "area": _area,
    "width": _width,
    "girth": _girth,
}
