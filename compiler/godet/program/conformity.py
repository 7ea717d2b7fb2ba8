"""Whether a recipe has all that the kind it makes promises.

In: a typed program. Out: a problem that lists what is missing, or nothing; a warning where a piece
takes the place of a block's without a word.

    keeps_its_kind(program, {"fit"}, session);  pieces_in_place(program, session)
"""

from __future__ import annotations

from collections.abc import Set

from godet.base.problems import problem
from godet.program.kinds import Kind, KindPiece
from godet.program.program import PieceLines, Program
from godet.program.scopes import Session


def keeps_its_kind(program: Program, written: Set[str], session: Session) -> None:
    """Whether the recipe has all that the kind it makes promises. `written` names the choices that
    its text gives, of which one that is wrong has been told of."""
    if program.makes is None:
        return
    taken = {t.name: t.kind for t in program.takes}
    told = session.lost | set(session.missed)
    choices = {*written, *told, *_settable_in_block(program)}
    missing = [
        f"choice {choice.name}"
        for choice in program.makes.choices.values()
        if not choice.optional and choice.name not in choices
    ]
    _choices_agree(program.makes, program, session)
    _darts_agree(program.makes, program, session)
    for promise in program.makes.pieces.values():
        if promise.optional or promise.name in told:
            continue
        piece = program.pieces.get(promise.name)
        have = (
            _members(piece, program, taken) if piece is not None else _kept(promise.name, program)
        )
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


def _settable_in_block(program: Program) -> set[str]:
    """The choices that come with the kind of a taken block and that the recipe does not set."""
    block = program.makes_kind_of
    if program.makes is None or block is None:
        return set()
    return set(program.makes.choices) - {s.choice for s in program.settings if s.block == block}


def _choices_agree(kind: Kind, program: Program, session: Session) -> None:
    """Whether the choices that the kind lets a taker set are of the types it says."""
    for name, choice in program.choices.items():
        promised = kind.choices.get(name)
        if promised is not None and promised.type != choice.type:
            session.report(
                problem(
                    "kind-choice-differs",
                    choice.place,
                    name=name,
                    kind=kind.name,
                    wanted=promised.type,
                    found=choice.type,
                )
            )


def _darts_agree(kind: Kind, program: Program, session: Session) -> None:
    """Whether the darts that the kind promises have as many points as it says."""
    for promise in kind.pieces.values():
        piece = program.pieces.get(promise.name)
        for name, dart in piece.darts.items() if piece is not None else ():
            promised = promise.members.get(name)
            if promised is None or promised.sort != "dart":
                continue
            if (dart.manner == "double") != promised.double:
                wanted, found = ("two points", "one") if promised.double else ("one point", "two")
                session.report(
                    problem(
                        "kind-dart-differs",
                        dart.place,
                        kind=kind.name,
                        name=name,
                        wanted=wanted,
                        found=found,
                    )
                )


def _members(piece: PieceLines, program: Program, taken: dict[str, Kind]) -> set[str]:
    have = set(piece.members)
    if piece.base is None:
        return have
    block, name = piece.base
    if block == "":
        return have | _members(program.pieces[name], program, taken)
    promise = taken[block].pieces.get(name) if block in taken else None
    return have | (_sure(promise) if promise is not None else set())


def _kept(name: str, program: Program) -> set[str] | None:
    """The members of a piece that comes through from a block; None when none does."""
    for taken in program.takes:
        promise = taken.kind.pieces.get(name)
        if promise is not None and (taken.name, name) not in program.left_out:
            return _sure(promise)
    return None


def _sure(promise: KindPiece) -> set[str]:
    return {member.name for member in promise.members.values() if not member.optional}


def pieces_in_place(program: Program, session: Session) -> None:
    """Warn of a piece that bears the name of a taken block's and is not drafted from it, where the
    block's is not left out in so many words."""
    drafted_from = {piece.base for piece in program.pieces.values()}
    for taken in program.takes:
        for name in taken.kind.pieces:
            said = (taken.name, name) in {*drafted_from, *program.left_out}
            piece = program.pieces.get(name)
            if piece is not None and not said and name not in session.lost:
                session.report(problem("piece-in-place", piece.place, piece=name, block=taken.name))
