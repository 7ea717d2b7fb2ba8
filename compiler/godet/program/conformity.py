"""Whether a recipe has all that the kind it makes promises.

In: a typed program. Out: a problem that lists what is missing, or nothing.

    keeps_its_kind(program, session)
"""

from __future__ import annotations

from godet.base.problems import problem
from godet.program.kinds import Kind, KindPiece
from godet.program.program import PieceLines, Program
from godet.program.scopes import Session


def keeps_its_kind(program: Program, session: Session) -> None:
    """Whether the recipe has all that the kind it makes promises."""
    if program.makes is None:
        return
    taken = {t.name: t.kind for t in program.takes}
    missing: list[str] = []
    told = session.lost | set(session.missed)
    for promise in program.makes.pieces.values():
        if promise.optional or promise.name in told:
            continue
        piece = program.pieces.get(promise.name)
        have = _members(piece, taken) if piece is not None else _kept(promise.name, program)
        if have is None:
            missing.append(f"piece {promise.name}")
            continue
        have |= told
        missing.extend(
            f"{m.sort} {promise.name}.{m.name}"
            for m in promise.members.values()
            if not m.optional and m.name not in have
        )
    if missing:
        session.report(
            problem(
                "kind-not-kept",
                program.makes_place,
                kind=program.makes.name,
                missing=", ".join(missing),
            )
        )


def _members(piece: PieceLines, taken: dict[str, Kind]) -> set[str]:
    have = {*piece.points, *piece.edges, *piece.levels}
    if piece.base is not None and piece.base[0] in taken:
        promise = taken[piece.base[0]].pieces.get(piece.base[1])
        have |= _sure(promise) if promise is not None else set()
    return have


def _kept(name: str, program: Program) -> set[str] | None:
    """The members of a piece that comes through from a block; None when none does."""
    for taken in program.takes:
        promise = taken.kind.pieces.get(name)
        if promise is not None and (taken.name, name) not in program.left_out:
            return _sure(promise)
    return None


def _sure(promise: KindPiece) -> set[str]:
    return {member.name for member in promise.members.values() if not member.optional}
