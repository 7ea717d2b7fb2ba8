"""What there is of a draft for one body: lines whose conditions fail for it are left out.

In: the linked pieces and seams, and the solved values of a body. Out: those that are there, with no
condition left open. A piece whose fold fails is cut as its half, twice as often and mirrored.
Nothing fails.

    drawn = pieces_there(draft.pieces, values);  seams_there(draft.seams, drawn, values)
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from godet.pattern.seams import kept_seams
from godet.pattern.solved import BodyValues
from godet.program.laying import times
from godet.program.program import CLOTH, CutLine, PieceLines, SeamLine
from godet.program.sewn_seams import kept


def pieces_there(pieces: Mapping[str, PieceLines], values: BodyValues) -> dict[str, PieceLines]:
    """The pieces whose conditions hold, each with its fold, notches and marks that do."""
    return {name: _there(p, values) for name, p in pieces.items() if _holds(p.when, values)}


def _there(piece: PieceLines, values: BodyValues) -> PieceLines:
    piece = replace(
        piece,
        notches=tuple(notch for notch in piece.notches if _holds(notch.when, values)),
        marks=tuple(mark for mark in piece.marks if _holds(mark.when, values)),
    )
    if piece.fold is None or _holds(piece.fold.when, values):
        return piece
    cut = piece.cut or CutLine(1, CLOTH, mirrored=False, place=piece.fold.place)
    return replace(piece, fold=None, cut=replace(cut, count=times(piece), mirrored=True))


def seams_there(
    seams: Sequence[SeamLine], drawn: Mapping[str, PieceLines], values: BodyValues
) -> tuple[SeamLine, ...]:
    """The seams whose conditions hold and whose pieces are there, notched where that holds. An edge
    that lies on the fold is not sewn to itself, nor is one twice."""
    sewn = kept(
        kept_seams(seams, drawn),
        lambda seam: _holds(seam.when, values) and not _on_fold(seam, drawn),
    )
    notched = [
        replace(seam, matches=tuple(p for p in seam.matches if _holds(p.when, values)))
        for seam in sewn
    ]
    once: dict[object, SeamLine] = {}
    for seam in sorted(notched, key=lambda seam: -len(seam.matches)):
        once.setdefault(seam.first, seam)
    return kept(notched, lambda seam: seam.first != seam.second or once[seam.first] is seam)


def _on_fold(seam: SeamLine, drawn: Mapping[str, PieceLines]) -> bool:
    """Whether the seam would sew an edge to its own mirror image across the fold."""
    if seam.first != seam.second:
        return False
    folds = ((drawn[piece].fold, edge) for piece, edge, _ in seam.first)
    return any(fold is not None and fold.edge == edge for fold, edge in folds)


def _holds(condition: int | None, values: BodyValues) -> bool:
    return condition is None or values.holds(condition)
