"""Members of pieces and blocks: `top.front.side`, `front has bust_dart`.

A member of a taken block becomes a placeholder node, filled in when the recipe is linked with a
real block; only what the kind promises can be reached, and an optional member only behind `has` or
where the recipe asked for it.

    member(PieceMeaning("front", block="top", promise=...), Word("side"), scope)
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import problem
from godet.graph.types import CONDITION, CURVE, DART, DOUBLE_DART, LENGTH, LEVEL, POINT, RATIO, Type
from godet.language import tree
from godet.program.kinds import Member
from godet.program.scopes import Scope
from godet.program.values import BROKEN, BlockMeaning, Broken, Meaning, PieceMeaning, Value

TYPE_OF_SORT: dict[str, Type] = {"point": POINT, "level": LEVEL, "edge": CURVE, "dart": DART}
SORT_OF_TYPE: dict[Type, str] = {type: sort for sort, type in TYPE_OF_SORT.items()} | {
    DOUBLE_DART: "dart"
}


def _type(promised: Member) -> Type:
    return DOUBLE_DART if promised.double else TYPE_OF_SORT[promised.sort]


def member(owner: PieceMeaning | BlockMeaning, name: tree.Word, scope: Scope) -> Meaning:
    """What `owner.name` means; a problem when there is no such member, or it is not sure."""
    if isinstance(owner, BlockMeaning):
        promise = owner.kind.pieces.get(name.text)
        if promise is None:
            return _none_such(owner.kind.name, name, list(owner.kind.pieces), scope)
        return PieceMeaning(name.text, block=owner.name, promise=promise)
    if owner.scope is not None:
        meaning = owner.scope.own(name.text)
        owner.scope.asked.add(name.text)
        inherits = owner.scope.inherits
        if meaning is None and inherits is not None:
            meaning = inherits.find(name.text, name.place, scope)
        if meaning is None and owner.scope.base_is_broken():
            return BROKEN
        if meaning is None:
            names = [*owner.scope.statements, *(inherits.names() if inherits is not None else ())]
            return _none_such(owner.title, name, names, scope, none=" It has no names of its own.")
        if isinstance(meaning, Value) and meaning.edge is not None:
            # its own, though drawn by its base: counted and sewn as this piece is
            return replace(meaning, edge=(owner.title, name.text))
        return meaning
    found = promised(owner, name.text, name.place, scope)
    return found or _none_such(owner.title, name, list(_promises(owner)), scope)


def _promises(piece: PieceMeaning) -> tuple[str, ...]:
    return tuple(piece.promise.members) if piece.promise is not None else ()


def base_of(piece: PieceMeaning) -> PieceMeaning | None:
    """The piece that an own piece is drafted from; None where there is none."""
    base = piece.scope.own("base") if piece.scope is not None else None
    return base if isinstance(base, PieceMeaning) else None


def lineage(piece: PieceMeaning) -> Iterator[PieceMeaning]:
    """The piece, the one it is drafted from, the one which that is drafted from, and so on."""
    current: PieceMeaning | None = piece
    while current is not None:
        yield current
        current = base_of(current)


def passed_on(base: PieceMeaning, name: str, place: Place, asking: Scope) -> Meaning | None:
    """What a piece gives to one drafted from it: its points, edges, levels and darts, none of the
    values that only helped to draw it."""
    if base.scope is None:
        return promised(base, name, place, asking)
    statement = base.scope.statements.get(name)
    if isinstance(statement, _PASSED_ON) or (
        isinstance(statement, tree.CurveIs) and statement.edge
    ):
        base.scope.asked.add(name)
        return base.scope.own(name)
    if base.scope.alterations and base.scope.inherits is not None:
        return base.scope.inherits.find(name, place, asking)
    deeper = base_of(base)
    return passed_on(deeper, name, place, asking) if deeper is not None else None


def names_passed_on(base: PieceMeaning) -> tuple[str, ...]:
    """The names that `passed_on` finds."""
    names: list[str] = []
    for piece in lineage(base):
        if piece.scope is not None and piece.scope.alterations and piece.scope.inherits:
            names.extend(piece.scope.inherits.names())
        names.extend(_promises(piece))
        for name, statement in piece.scope.statements.items() if piece.scope is not None else ():
            edge = isinstance(statement, tree.CurveIs) and statement.edge
            if edge or isinstance(statement, _PASSED_ON):
                names.append(name)
    return tuple(dict.fromkeys(names))


_PASSED_ON = (tree.PointIs, tree.LevelIs, tree.DartOn, tree.DoubleDart, tree.MeetingDarts)


def promised(owner: PieceMeaning, name: str, place: Place, scope: Scope) -> Meaning | None:
    """The placeholder of a member that the piece's kind promises; None if it has none such."""
    known = owner.promise.members.get(name) if owner.promise is not None else None
    if known is None:
        return None
    if known.optional and (owner.title, name) not in scope.known_members:
        return scope.session.report(problem("member-not-sure", place, piece=owner.title, name=name))
    node = taken(owner, known.sort, name, _type(known), place, scope)
    if known.sort == "edge":
        return Value(node.type, node.node, (owner.title, name))
    return node


def taken(
    owner: PieceMeaning, sort: str, name: str, type: Type, place: Place, scope: Scope
) -> Value:
    """A placeholder for something a taken block's piece will give."""
    return scope.session.node(
        "taken",
        type=type,
        place=place,
        block=owner.block or "",
        piece=owner.name,
        sort=sort,
        name=name,
    )


def own(piece: str, sort: str, name: str, type: Type, place: Place, scope: Scope) -> Value:
    """A placeholder for something that is known of this recipe's piece only when it is whole."""
    return scope.session.node("own", type=type, place=place, piece=piece, sort=sort, name=name)


def altered(piece: str, sort: str, name: str, type: Type, place: Place, scope: Scope) -> Value:
    """A placeholder for something that a piece has from its base once that is altered."""
    return scope.session.node("altered", type=type, place=place, piece=piece, sort=sort, name=name)


def outline_of(piece: PieceMeaning, place: Place, scope: Scope) -> Value:
    """All edges of a piece together."""
    if piece.scope is not None:
        return own(piece.name, "outline", "", CURVE, place, scope)
    return taken(piece, "outline", "", CURVE, place, scope)


def width_of(piece: PieceMeaning, level: str, place: Place, scope: Scope) -> Value:
    """The width of a drawn piece along one of its levels, as sewn."""
    if piece.scope is not None:
        return own(piece.name, "width", level, LENGTH, place, scope)
    return taken(piece, "width", level, LENGTH, place, scope)


def times_of(title: str, place: Place, scope: Scope) -> Value:
    """How often the drawn piece is cut: a node, since a fold or a cut may come from the block."""
    block, _, piece = title.rpartition(".")
    if not block:
        return own(piece, "times", "", RATIO, place, scope)
    return taken(PieceMeaning(piece, block=block), "times", "", RATIO, place, scope)


def has_member(owner: Meaning, name: tree.Word, scope: Scope) -> Meaning:
    """Whether a piece has an optional member of the block it comes from; known when the recipe is
    linked."""
    if isinstance(owner, Broken):
        return BROKEN
    block = block_behind(owner) if isinstance(owner, PieceMeaning) else None
    if block is None:
        return scope.session.report(
            problem("has-needs-piece", name.place, found=_not_of_a_block(owner))
        )
    if name.text not in _promises(block):
        return _none_such(block.title, name, list(_promises(block)), scope)
    return taken(block, "has", name.text, CONDITION, name.place, scope)


def _not_of_a_block(owner: Meaning) -> str:
    return "a piece of this recipe alone" if isinstance(owner, PieceMeaning) else str(owner)


def type_passed_on(base: PieceMeaning, name: str) -> Type | None:
    """The type of what `passed_on` finds, without working it out."""
    for piece in lineage(base):
        if piece.scope is not None and name in piece.scope.statements:
            return piece.scope.type_of(name)
        known = piece.promise.members.get(name) if piece.promise is not None else None
        if known is not None:
            return _type(known)
    return None


def block_behind(piece: PieceMeaning) -> PieceMeaning | None:
    """The piece of a taken block at the end of a piece's lineage; None where it has none."""
    return next((each for each in lineage(piece) if each.promise is not None), None)


def _none_such(
    owner: str,
    name: tree.Word,
    names: list[str],
    scope: Scope,
    none: str = " Its kind promises none.",
) -> Meaning:
    if name.text in scope.session.lost or name.text in scope.session.missed:
        return BROKEN
    hint, fix = did_you_mean(name.text, names, name.place)
    hint = hint or (f" It has {', '.join(sorted(set(names)))}." if names else none)
    return scope.session.report_of(
        name.text,
        problem("no-such-member", name.place, owner=owner, name=name.text, hint=hint, fix=fix),
    )
