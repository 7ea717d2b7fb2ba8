"""Whether a recipe has all that the kind it makes promises.

In: a typed program. Out: a problem that lists what is missing, or nothing.

    keeps_its_kind(program, session)
"""

from __future__ import annotations

from godet.base.problems import problem
from godet.program.kinds import Kind
from godet.program.program import PieceLines, Program
from godet.program.scopes import Session


def keeps_its_kind(program: Program, session: Session) -> None:
    """Whether the recipe has all that the kind it makes promises."""
    if program.makes is None:
        return
    taken = {t.name: t.kind for t in program.takes}
    missing: list[str] = []
    for promise in program.makes.pieces.values():
        if promise.optional:
            continue
        piece = program.pieces.get(promise.name)
        if piece is None:
            if not any(promise.name in kind.pieces for kind in taken.values()):
                missing.append(f"piece {promise.name}")
            continue
        have = _members(piece, taken)
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
        have |= set(promise.members) if promise is not None else set()
    return have
