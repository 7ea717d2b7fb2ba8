"""Expressions to typed graph values.

In: a tree expression and the scope it is read in. Out: a `Meaning`; a problem of names, types or
dimensions is reported once and gives `BROKEN`, which every operation passes on in silence.

    evaluate(parsed, scope)   # Value(LENGTH, 17)
"""

from __future__ import annotations

from fractions import Fraction

from godet.base.places import Place
from godet.base.problems import Fix, Problem, problem
from godet.graph.types import (
    ANGLE,
    CONDITION,
    CURVE,
    DART,
    DIRECTION,
    DOUBLE_DART,
    LENGTH,
    OFFSET,
    POINT,
    RATIO,
    Plain,
    Quantity,
    Type,
    Words,
)
from godet.language import tree
from godet.program.bare_numbers import bare_number
from godet.program.cloths import cloth_member
from godet.program.dart_members import dart_member
from godet.program.functions import call
from godet.program.members import block_behind, has_member, member
from godet.program.own_functions import no_such_word, of_type
from godet.program.scopes import Scope
from godet.program.values import (
    BROKEN,
    BlockMeaning,
    Broken,
    ClothMeaning,
    Meaning,
    PieceMeaning,
    Value,
    wrong_type,
)

# the type of a literal by its unit
LITERAL_TYPES: dict[str, Quantity] = {
    "length": LENGTH,
    "ratio": RATIO,
    "angle": ANGLE,
    "bare": RATIO,
}


def evaluate(expression: tree.Expression, scope: Scope) -> Meaning:
    """What the expression means in this scope."""
    match expression:
        case tree.Number():
            return number(expression, scope)
        case tree.Name():
            return scope.meaning(expression.name, expression.place)
        case tree.Dotted():
            return _dotted(expression, scope)
        case tree.AsCut():
            return _as_cut(expression, scope)
        case tree.Inherited():
            return _inherited(expression, scope)
        case tree.Call():
            return call(expression, scope, evaluate)
        case tree.Negative():
            return _negative(expression, scope)
        case tree.Binary():
            return _binary(expression, scope)
        case tree.Raised():
            return _raised(expression, scope)
        case tree.Compared():
            return _compared(expression, scope)
        case tree.IsWord():
            return _is_word(expression, scope)
        case tree.Has():
            return has_member(_owner(expression.owner, scope), expression.member, scope)
        case tree.Negated() | tree.Both() | tree.AnyOf():
            return _logical(expression, scope)
        case tree.Either():
            return _either(expression, scope)
        case tree.Moves():
            return _moves(expression, scope)
        case tree.Share():
            return _share(expression, scope)
        case tree.AlongEdge():
            return _along(expression, scope)
        case tree.Crossing():
            return _crossing(expression, scope)
        case tree.Nearest():
            return _nearest(expression, scope)
        case tree.Extreme():
            return _extreme(expression, scope)
        case _:
            assert isinstance(expression, tree.Text)  # all others are named above
            word = expression.text
            fix = Fix(f"write `{word}`", expression.place, word) if word.isidentifier() else None
            return scope.session.report(problem("not-a-value", expression.place, fix=fix))


def number(literal: tree.Number, scope: Scope) -> Meaning:
    """A literal; its value stays an exact fraction (mm, ratio, or degrees)."""
    kind = literal.quantity.kind
    if kind not in LITERAL_TYPES:
        return scope.session.report(
            problem("no-such-unit-here", literal.place, unit=literal.quantity.unit)
        )
    operation = "degrees" if kind == "angle" else "number"
    return scope.session.node(
        operation, type=LITERAL_TYPES[kind], place=literal.place, value=literal.quantity.value
    )


def wanted(expression: tree.Expression, scope: Scope, type: Type, what: str) -> Value | Broken:
    """The value of an expression that must have this type; `what` says for what it is wanted."""
    if isinstance(expression, tree.Name):
        meaning = scope.meaning(expression.name, expression.place, type)
    else:
        meaning = evaluate(expression, scope)
    return of_type(expression, meaning, type, scope, what)


def condition(written: tree.Expression | None, scope: Scope) -> int | None:
    """The node of what is written behind `when`; None where nothing is, or it is broken."""
    if written is None:
        return None
    value = wanted(written, scope, CONDITION, "`when`")
    return value.node if isinstance(value, Value) else None


def _bare_beside(
    expression: tree.Binary | tree.Compared, left: Value, right: Value
) -> Problem | None:
    return bare_number(expression.left, right.type) or bare_number(expression.right, left.type)


def quantity(expression: tree.Expression, scope: Scope, what: str) -> Value | Broken:
    """The value of an expression that must be a quantity, of whatever dimension."""
    meaning = evaluate(expression, scope)
    if isinstance(meaning, Value) and isinstance(meaning.type, Quantity):
        return meaning
    if isinstance(meaning, Broken):
        return BROKEN
    return scope.session.report(wrong_type(expression.place, what, "a quantity", meaning))


def _owner(expression: tree.Expression, scope: Scope) -> Meaning:
    """What stands before a dot or `has`: a piece before anything else of its name."""
    named = expression.name if isinstance(expression, tree.Name) else ""
    return scope.piece(named) or evaluate(expression, scope)


def _dotted(expression: tree.Dotted, scope: Scope) -> Meaning:
    owner = _owner(expression.owner, scope)
    match owner:
        case Broken():
            return BROKEN
        case PieceMeaning() | BlockMeaning():
            return member(owner, expression.member, scope)
        case ClothMeaning():
            return cloth_member(owner, expression.member, scope)
        case Value() if owner.type in (DART, DOUBLE_DART):
            return dart_member(owner, _spelled(expression.owner) or "this", expression, scope)
        case _:
            written = expression.owner
            named = _spelled(written) or "this"
            hint, fix = _measured_instead(expression, owner)
            wrong = problem(
                "no-members", written.place, found=owner, owner=named, hint=hint, fix=fix
            )
            return scope.session.report_of(named, wrong)


def _as_cut(expression: tree.AsCut, scope: Scope) -> Meaning:
    curve = wanted(expression.curve, scope, CURVE, "`as cut`")
    if isinstance(curve, Broken):
        return BROKEN
    return scope.session.node("as_cut", curve, type=CURVE, place=expression.place)


def _inherited(expression: tree.Inherited, scope: Scope) -> Meaning:
    name = expression.name
    assert scope.inherits is not None  # only a piece with a base has such an edge
    found = scope.inherits.find(name.text, name.place, scope)
    if found is not None:
        return found
    owner = tree.Name(name.place, "base")
    return evaluate(tree.Dotted(name.place, owner, name), scope)


def _spelled(expression: tree.Expression) -> str:
    """A name as it was written, with what stands before its dots; empty for all else."""
    match expression:
        case tree.Name():
            return expression.name
        case tree.Dotted():
            owner = _spelled(expression.owner)
            return f"{owner}.{expression.member.text}" if owner else ""
        case _:
            return ""


def _measured_instead(expression: tree.Dotted, owner: Meaning) -> tuple[str, Fix | None]:
    """The question for `front.side.length`, where `length(front.side)` was meant."""
    edge = _spelled(expression.owner)
    is_curve = isinstance(owner, Value) and owner.type == CURVE
    if expression.member.text not in ("length", "whole") or not is_curve or not edge:
        return "", None
    cure = f"{expression.member.text}({edge})"
    return f" Write `{cure}`.", Fix(f"write `{cure}`", expression.place, cure)


def _negative(expression: tree.Negative, scope: Scope) -> Meaning:
    value = quantity(expression.value, scope, "what stands behind a minus")
    if isinstance(value, Broken):
        return BROKEN
    return scope.session.node("negative", value, type=value.type, place=expression.place)


def _binary(expression: tree.Binary, scope: Scope) -> Meaning:
    left, right = evaluate(expression.left, scope), evaluate(expression.right, scope)
    if isinstance(left, Broken) or isinstance(right, Broken):
        return BROKEN
    if not isinstance(left, Value) or not isinstance(right, Value):
        owner = right if isinstance(left, Value) else left
        place = expression.right.place if isinstance(left, Value) else expression.left.place
        return scope.session.report(wrong_type(place, "arithmetic", "a quantity", owner))
    if expression.sign in "+-":
        return _sum(expression, left, right, scope)
    if not isinstance(left.type, Quantity) or not isinstance(right.type, Quantity):
        return scope.session.report(
            problem(
                "no-arithmetic",
                expression.place,
                left=left.type,
                right=right.type,
                sign=expression.sign,
            )
        )
    multiplied = expression.sign == "*"
    type = left.type.times(right.type) if multiplied else left.type.over(right.type)
    operation = "multiply" if multiplied else "divide"
    return scope.session.node(operation, left, right, type=type, place=expression.place)


def _sum(expression: tree.Binary, left: Value, right: Value, scope: Scope) -> Meaning:
    session, place = scope.session, expression.place
    adding = expression.sign == "+"
    if isinstance(left.type, Quantity) and left.type == right.type:
        operation = "add" if adding else "subtract"
        return session.node(operation, left, right, type=left.type, place=place)
    match (left.type, right.type, adding):
        case (Plain("a point"), Plain("a point"), False):
            return session.node("offset", right, left, type=OFFSET, place=place)
        case (Plain("a point"), Plain("an offset"), True):
            return session.node("shifted", left, right, type=POINT, place=place)
        case (Plain("a point"), Plain("a point"), True):
            return session.report(problem("points-added", place))
    bare = _bare_beside(expression, left, right)
    if bare is not None:
        return session.report(bare)
    verb = "added to" if adding else "taken from"
    return session.report(
        problem(
            "different-dimensions",
            place,
            first=str(right.type).capitalize(),
            verb=verb,
            second=left.type,
        )
    )


def _raised(expression: tree.Raised, scope: Scope) -> Meaning:
    base = quantity(expression.base, scope, "a power")
    if isinstance(base, Broken) or not isinstance(base.type, Quantity):
        return BROKEN
    if expression.exponent.quantity.kind != "bare":
        return scope.session.report(problem("exponent-has-unit", expression.exponent.place))
    exponent = expression.exponent.quantity.value
    return power(base, base.type, exponent, expression.place, scope)


def power(base: Value, type: Quantity, exponent: Fraction, place: Place, scope: Scope) -> Value:
    return scope.session.node(
        "power",
        base,
        type=type.to_the(exponent),
        place=place,
        numerator=exponent.numerator,
        denominator=exponent.denominator,
    )


def _compared(expression: tree.Compared, scope: Scope) -> Meaning:
    left = quantity(expression.left, scope, "a comparison")
    right = quantity(expression.right, scope, "a comparison")
    if isinstance(left, Broken) or isinstance(right, Broken):
        return BROKEN
    if left.type != right.type:
        bare = _bare_beside(expression, left, right)
        if bare is not None:
            return scope.session.report(bare)
        return scope.session.report(
            problem(
                "different-dimensions",
                expression.place,
                first=str(left.type).capitalize(),
                verb="compared with",
                second=right.type,
            )
        )
    operation = "at_least" if "=" in expression.sign else "more_than"
    if expression.sign.startswith("<"):
        left, right = right, left
    return scope.session.node(operation, left, right, type=CONDITION, place=expression.place)


def _is_word(expression: tree.IsWord, scope: Scope) -> Meaning:
    value = evaluate(expression.value, scope)
    if isinstance(value, Broken):
        return BROKEN
    if not isinstance(value, Value) or not isinstance(value.type, Words):
        return scope.session.report(problem("is-needs-words", expression.place, found=value))
    word = expression.word
    if word.text not in value.type.words:
        return scope.session.report(no_such_word(word, value.type))
    same = scope.session.node(
        "same_word", value, type=CONDITION, place=expression.place, word=word.text
    )
    if not expression.negated:
        return same
    return scope.session.node("negated", same, type=CONDITION, place=expression.place)


def _logical(expression: tree.Negated | tree.Both | tree.AnyOf, scope: Scope) -> Meaning:
    session, place = scope.session, expression.place
    if isinstance(expression, tree.Negated):
        value = wanted(expression.value, scope, CONDITION, "`not`")
        if isinstance(value, Broken):
            return BROKEN
        return session.node("negated", value, type=CONDITION, place=place)
    both = isinstance(expression, tree.Both)
    what = "`and`" if both else "`or`"
    left = wanted(expression.left, scope, CONDITION, what)
    # the right side is asked only where the left one holds, or for `or` does not
    beside = scope.knowing(_sure_members(expression.left, both, scope))
    right = wanted(expression.right, beside, CONDITION, what)
    if isinstance(left, Broken) or isinstance(right, Broken):
        return BROKEN
    return session.node("both" if both else "any_of", left, right, type=CONDITION, place=place)


def _sure_members(
    condition: tree.Expression, holds: bool, scope: Scope
) -> frozenset[tuple[str, str]]:
    """The optional members that are sure to be there where a condition holds, or does not."""
    match condition:
        case tree.Has() if holds:
            owner = _owner(condition.owner, scope)
            block = block_behind(owner) if isinstance(owner, PieceMeaning) else None
            return frozenset({(block.title, condition.member.text)} if block is not None else ())
        case tree.Negated():
            return _sure_members(condition.value, not holds, scope)
        case tree.Both() if holds:
            left = _sure_members(condition.left, holds, scope)
            return left | _sure_members(condition.right, holds, scope.knowing(left))
        case tree.AnyOf() if not holds:
            left = _sure_members(condition.left, holds, scope)
            return left | _sure_members(condition.right, holds, scope.knowing(left))
        case _:
            return frozenset()


def _either(expression: tree.Either, scope: Scope) -> Meaning:
    condition = wanted(expression.condition, scope, CONDITION, "`if`")
    inside, outside = (
        scope.knowing(_sure_members(expression.condition, holds, scope)) for holds in (True, False)
    )
    then, other = evaluate(expression.then, inside), evaluate(expression.otherwise, outside)
    if any(isinstance(m, Broken) for m in (condition, then, other)):
        return BROKEN
    if not (isinstance(then, Value) and isinstance(other, Value)) or then.type != other.type:
        return scope.session.report(
            problem("branches-differ", expression.place, then=then, otherwise=other)
        )
    assert isinstance(condition, Value)
    return scope.session.node(
        "either", condition, then, other, type=then.type, place=expression.place
    )


# --- points --------------------------------------------------------------------------------------


def direction(way: tree.Direction, here: Value, ahead: Value, scope: Scope) -> Value | Broken:
    """A direction at the point `here`; a direction of an edge runs towards `ahead`."""
    session, place = scope.session, way.place
    if way.by is None:
        return session.node("compass", type=DIRECTION, place=place, way=way.how)
    if way.how == "at":
        angle = wanted(way.by, scope, ANGLE, "a direction")
        if isinstance(angle, Broken):
            return BROKEN
        return session.node("direction_at", angle, type=DIRECTION, place=place)
    if way.how == "toward":
        target = wanted(way.by, scope, POINT, "`toward`")
        if isinstance(target, Broken):
            return BROKEN
        return session.node("direction_between", here, target, type=DIRECTION, place=place)
    edge = wanted(way.by, scope, CURVE, f"`{way.how}`")
    if isinstance(edge, Broken):
        return BROKEN
    operation = "square_direction" if way.how == "square" else "direction_along"
    return session.node(operation, edge, here, ahead, type=DIRECTION, place=place)


def _moves(expression: tree.Moves, scope: Scope) -> Meaning:
    point = wanted(expression.start, scope, POINT, "a move")
    for move in expression.moves:
        distance = wanted(move.distance, scope, LENGTH, f"`{move.direction.how}`")
        if isinstance(point, Broken) or isinstance(distance, Broken):
            return BROKEN
        way = direction(move.direction, point, point, scope)
        if isinstance(way, Broken):
            return BROKEN
        point = scope.session.node(
            "moved", point, way, distance, type=POINT, place=expression.place
        )
    return point


def _share(expression: tree.Share, scope: Scope) -> Meaning:
    first = wanted(expression.first, scope, POINT, "a share of the way")
    last = wanted(expression.last, scope, POINT, "a share of the way")
    share: Value | Broken
    if expression.share is None:
        share = scope.session.node(
            "number", type=RATIO, place=expression.place, value=Fraction(1, 2)
        )
    else:
        share = wanted(expression.share, scope, RATIO, "a share of the way")
    if isinstance(first, Broken) or isinstance(last, Broken) or isinstance(share, Broken):
        return BROKEN
    return scope.session.node("between", first, last, share, type=POINT, place=expression.place)


def _along(expression: tree.AlongEdge, scope: Scope) -> Meaning:
    edge = wanted(expression.edge, scope, CURVE, "`along`")
    end = wanted(expression.end, scope, POINT, "`along .. from`")
    distance = evaluate(expression.distance, scope)
    if isinstance(edge, Broken) or isinstance(end, Broken) or isinstance(distance, Broken):
        return BROKEN
    session, place = scope.session, expression.place
    if isinstance(distance, Value) and distance.type == RATIO:
        length = session.node("length", edge, type=LENGTH, place=place)
        distance = session.node("multiply", length, distance, type=LENGTH, place=place)
    walked = of_type(expression.distance, distance, LENGTH, scope, "`along .. by`")
    if isinstance(walked, Broken):
        return BROKEN
    return session.node("along", edge, end, walked, type=POINT, place=place)


def _crossing(expression: tree.Crossing, scope: Scope) -> Meaning:
    first = wanted(expression.first, scope, CURVE, "`crossing`")
    second = wanted(expression.second, scope, CURVE, "`crossing`")
    if isinstance(first, Broken) or isinstance(second, Broken):
        return BROKEN
    selector = expression.selector or "only"
    inputs = [first, second]
    if selector == "nearest" and expression.reference is not None:
        reference = wanted(expression.reference, scope, POINT, "`nearest`")
        if isinstance(reference, Broken):
            return BROKEN
        inputs.append(reference)
    if selector == "first" and expression.reference is not None:
        along = wanted(expression.reference, scope, CURVE, "`first along`")
        if isinstance(along, Broken):
            return BROKEN
        if along.node == second.node:
            inputs = [second, first]
        elif along.node != first.node:
            return scope.session.report(problem("first-along-other", expression.reference.place))
    return scope.session.node(
        "crossing", *inputs, type=POINT, place=expression.place, selector=selector
    )


def _nearest(expression: tree.Nearest, scope: Scope) -> Meaning:
    curve = wanted(expression.curve, scope, CURVE, "`nearest on`")
    to = wanted(expression.to, scope, POINT, "`nearest on .. to`")
    if isinstance(curve, Broken) or isinstance(to, Broken):
        return BROKEN
    return scope.session.node("nearest_on", curve, to, type=POINT, place=expression.place)


def _extreme(expression: tree.Extreme, scope: Scope) -> Meaning:
    way = expression.way
    curve = wanted(expression.curve, scope, CURVE, f"`{way} of`")
    if isinstance(curve, Broken):
        return BROKEN
    return scope.session.node("extreme", curve, type=POINT, place=expression.place, way=way)
