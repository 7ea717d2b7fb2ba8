"""Members of pieces and blocks: `top.front.side`, `front has bust_dart`.

A member of a taken block becomes a placeholder node, filled in when the recipe is linked with a
real block; only what the kind promises can be reached, and an optional member only behind `has` or
where the recipe asked for it.

    member(PieceMeaning("front", block="top", promise=...), Word("side"), scope)
"""

from __future__ import annotations

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import problem
from godet.graph.types import CONDITION, CURVE, DART, LEVEL, POINT, RATIO, Type
from godet.language import tree
from godet.program.scopes import Scope
from godet.program.values import BROKEN, BlockMeaning, Meaning, PieceMeaning, Value

_TYPES: dict[str, Type] = {"point": POINT, "level": LEVEL, "edge": CURVE, "dart": DART}


def member(owner: PieceMeaning | BlockMeaning, name: tree.Word, scope: Scope) -> Meaning:
    """What `owner.name` means; a problem when there is no such member, or it is not sure."""
    if isinstance(owner, BlockMeaning):
        promise = owner.kind.pieces.get(name.text)
        if promise is None:
            return _none_such(owner.kind.name, name, list(owner.kind.pieces), scope)
        return PieceMeaning(name.text, block=owner.name, promise=promise)
    if owner.scope is not None:
        meaning = owner.scope.own(name.text)
        meaning = meaning or owner.scope.inherited(name.text, name.place, scope)
        if meaning is None and owner.scope.base_is_broken():
            return BROKEN
        if meaning is None:
            names = [*owner.scope.statements, *owner.scope.inherited_names()]
            return _none_such(owner.name, name, names, scope)
        return meaning
    found = promised(owner, name.text, name.place, scope)
    if found is None:
        names = list(owner.promise.members) if owner.promise is not None else []
        return _none_such(f"{owner.block}.{owner.name}", name, names, scope)
    return found


def promised(owner: PieceMeaning, name: str, place: Place, scope: Scope) -> Meaning | None:
    """The placeholder of a member that the piece's kind promises; None if it has none such."""
    known = owner.promise.members.get(name) if owner.promise is not None else None
    if known is None:
        return None
    if known.optional and (f"{owner.block}.{owner.name}", name) not in scope.known_members:
        return scope.session.report(
            problem("member-not-sure", place, piece=f"{owner.block}.{owner.name}", name=name)
        )
    node = taken(owner, known.sort, name, _TYPES[known.sort], place, scope)
    if known.sort == "edge":
        return Value(node.type, node.node, (f"{owner.block}.{owner.name}", name))
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


def outline_of(piece: PieceMeaning, place: Place, scope: Scope) -> Value:
    """All edges of a piece together."""
    if piece.scope is not None:
        return own(piece.name, "outline", "", CURVE, place, scope)
    return taken(piece, "outline", "", CURVE, place, scope)


def times_of(piece: str, block: str | None, place: Place, scope: Scope) -> Value:
    """How often the drawn piece is cut: a node, since a fold or a cut may come from the block."""
    if block is None:
        return own(piece, "times", "", RATIO, place, scope)
    return taken(PieceMeaning(piece, block=block), "times", "", RATIO, place, scope)


def has_member(owner: Meaning, name: tree.Word, scope: Scope) -> Meaning:
    """Whether a taken piece has an optional member; known when the recipe is linked."""
    if not isinstance(owner, PieceMeaning) or owner.promise is None:
        return scope.session.report(problem("has-needs-piece", name.place, found=owner))
    known = owner.promise.members.get(name.text)
    if known is None:
        title = f"{owner.block}.{owner.name}"
        return _none_such(title, name, list(owner.promise.members), scope)
    return taken(owner, "has", name.text, CONDITION, name.place, scope)


def _none_such(owner: str, name: tree.Word, names: list[str], scope: Scope) -> Meaning:
    if name.text in scope.session.lost or name.text in scope.session.missed:
        return BROKEN
    hint, fix = did_you_mean(name.text, names, name.place)
    known = ", ".join(sorted(set(names)))
    hint = hint or (f" It has {known}." if names else " Its kind promises none.")
    return scope.session.report_of(
        name.text,
        problem("no-such-member", name.place, owner=owner, name=name.text, hint=hint, fix=fix),
    )
