"""Calls: the functions of the language and those a recipe defines.

In: a call and the scope it stands in. Out: its `Meaning`. A wrong number of arguments, a wrong
type, and a function that needs itself are problems.

    width(top.front, waist), min(8 in, waist_to_hip), usable_stretch(fabric)
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from godet.base.problems import problem
from godet.graph.types import (
    ANGLE,
    BY_NAME,
    CURVE,
    FABRIC,
    LENGTH,
    LEVEL,
    POINT,
    RATIO,
    Quantity,
    Type,
    Words,
)
from godet.language import tree
from godet.program.bare_numbers import bare_number
from godet.program.members import outline_of, own, times_of
from godet.program.scopes import MOST_CALLS, Scope
from godet.program.values import (
    BROKEN,
    BlockMeaning,
    Broken,
    ClothMeaning,
    FunctionMeaning,
    Meaning,
    PieceMeaning,
    Value,
    WholeEdge,
)

Evaluate = Callable[[tree.Expression, Scope], Meaning]
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
}


def call(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    """What a call gives."""
    name = expression.function.text
    meaning = scope.find(name, expression.function.place)
    if isinstance(meaning, FunctionMeaning):
        return _defined(expression, meaning, scope, evaluate)
    if isinstance(meaning, Broken):
        return BROKEN
    if meaning is not None:
        return scope.session.report(
            problem("not-a-function", expression.function.place, name=name, found=meaning)
        )
    if name in _PLAIN:
        return _plain(expression, scope, evaluate)
    if name in _SPECIAL:
        return _SPECIAL[name](expression, scope, evaluate)
    names = ", ".join(sorted([*_PLAIN, *_SPECIAL]))
    return scope.session.miss(
        name, problem("unknown-function", expression.function.place, name=name, names=names)
    )


def _count(expression: tree.Call, count: int, scope: Scope) -> bool:
    if len(expression.arguments) == count:
        return True
    scope.session.report(
        problem(
            "wrong-count",
            expression.place,
            name=expression.function.text,
            wanted=count,
            found=len(expression.arguments),
        )
    )
    return False


def _of_type(
    expression: tree.Expression, meaning: Meaning, type: Type | str, scope: Scope, name: str
) -> Value | Broken:
    if isinstance(meaning, Value) and meaning.type == type:
        return meaning
    if isinstance(meaning, Broken):
        return BROKEN
    bare = bare_number(expression, type)
    if bare is not None:
        return scope.session.report(bare)
    return scope.session.report_of(
        name, problem("wrong-type", expression.place, what=f"`{name}`", wanted=type, found=meaning)
    )


def _plain(expression: tree.Call, scope: Scope, evaluate: Evaluate) -> Meaning:
    name = expression.function.text
    operation, types, gives = _PLAIN[name]
    if not _count(expression, len(types), scope):
        return BROKEN
    values = []
    for argument, type in zip(expression.arguments, types, strict=True):
        meaning = evaluate(argument.value, scope)
        value = _of_type(argument.value, meaning, type, scope, name)
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
        value = _of_type(argument.value, meaning, type, scope, name)
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
    return _of_type(argument, meaning, "a quantity", scope, expression.function.text)


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
    edge = _of_type(argument, meaning, CURVE, scope, "whole")
    if isinstance(edge, Broken):
        return BROKEN
    if edge.edge is None:
        return scope.session.report(problem("whole-needs-edge", expression.place))
    piece, _ = edge.edge
    block, _, name = piece.rpartition(".")
    return WholeEdge(edge, times_of(name, block or None, expression.place, scope).node)


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
    edge = _of_type(argument, meaning, CURVE, scope, "length")
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
        return scope.session.report(
            problem("wrong-type", first.place, what="`width`", wanted="a piece", found=piece)
        )
    level = evaluate(tree.Dotted(second.place, first, _level_name(second)), scope)
    down = _of_type(second, level, LEVEL, scope, "width")
    if isinstance(down, Broken):
        return BROKEN
    outline = outline_of(piece, expression.place, scope)
    return scope.session.node("width", outline, down, type=LENGTH, place=expression.place)


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
    return scope.session.report_of(word.text, problem("no-such-level", word.place, name=word.text))


def _level_of_own(word: tree.Word, root: Scope) -> bool:
    """Whether a piece of the recipe has the level, its own or its base's."""
    for piece in root.pieces.values():
        inner = piece.scope
        if inner is None:
            continue
        level = inner.own(word.text) or inner.inherited(word.text, word.place, inner)
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
    "width": _width,
    "girth": _girth,
}


def parameter_type(name: tree.TypeName, scope: Scope) -> Type | None:
    """The type a parameter is declared with; an unknown one is a problem."""
    if name.name == "words":
        return Words(name.words)
    type = BY_NAME.get(name.name)
    if type is None:
        scope.session.report(
            problem("unknown-type", name.place, name=name.name, names=", ".join(BY_NAME))
        )
    return type


def _defined(
    expression: tree.Call, function: FunctionMeaning, scope: Scope, evaluate: Evaluate
) -> Meaning:
    define, called = function.define, expression.function.text
    if scope.session.too_many_calls():
        # told once, of what was being worked out, not of every call that is still to come
        if all(found.code != "too-many-calls" for found in scope.session.problems):
            working = scope.session.working_on
            place = working[0][2] if working else expression.place
            scope.session.report(problem("too-many-calls", place, most=MOST_CALLS))
        return BROKEN
    inner = Scope(scope.session, scope.define, parent=function.scope)
    given = _arguments(expression, define, scope)
    if given is None:
        return BROKEN
    for parameter in define.parameters:
        type = parameter_type(parameter.type, scope)
        written = given.get(parameter.name.text)
        if type is None:
            return BROKEN
        if written is None:
            assert parameter.default is not None
            meaning = _argument(parameter.default, type, function.scope, evaluate, called)
        else:
            meaning = _argument(written, type, scope, evaluate, called)
        if isinstance(meaning, Broken):
            return BROKEN
        inner.fixed[parameter.name.text] = meaning
    call_made = (id(define), *inner.fixed.values())
    if call_made in scope.session.calls:
        return scope.session.calls[call_made]
    working = scope.session.working_on
    for at, (known, name, _) in enumerate(working):
        if known is function.scope and name == define.name.text:
            # told of the first in the text of all that call each other, and so once
            place, first = min((place, name) for _, name, place in working[at:])
            return scope.session.report(problem("function-needs-itself", place, name=first))
    working.append((function.scope, define.name.text, define.name.place))
    try:
        meaning = evaluate(define.value, inner)
    finally:
        working.pop()
    scope.session.calls[call_made] = meaning
    return meaning


def _argument(
    expression: tree.Expression, type: Type, scope: Scope, evaluate: Evaluate, name: str
) -> Meaning:
    if isinstance(type, Words) and isinstance(expression, tree.Name):
        unknown = scope.find(expression.name, expression.place) is None
        if unknown and expression.name in type.words:
            return scope.session.node(
                "word", type=type, place=expression.place, word=expression.name
            )
    meaning = evaluate(expression, scope)
    if type == FABRIC and isinstance(meaning, ClothMeaning):
        return meaning
    return _of_type(expression, meaning, type, scope, name)


def _arguments(
    expression: tree.Call, define: tree.Define, scope: Scope
) -> dict[str, tree.Expression] | None:
    """The written arguments by parameter; None when they don't fit, which is reported."""
    names = [parameter.name.text for parameter in define.parameters]
    given: dict[str, tree.Expression] = {}
    for position, argument in enumerate(expression.arguments):
        if argument.name is not None:
            name = argument.name.text
        else:
            name = names[position] if position < len(names) else ""
        if name not in names or name in given:
            break
        given[name] = argument.value
    else:
        missing = [p for p in define.parameters if p.default is None and p.name.text not in given]
        if not missing:
            return given
    scope.session.report(
        problem(
            "arguments-do-not-fit",
            expression.place,
            name=define.name.text,
            names=", ".join(names),
        )
    )
    return None
