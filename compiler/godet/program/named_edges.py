"""Edges and points that lines name, though an alteration has taken them away.

In: what a piece says itself and the whole piece that it is laid over; the seams and the whole
pieces. Out: a problem for each name that the piece no longer has. Nothing else fails.

    lost_by_piece(own, whole), lost_by_seams(seams, pieces)
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from godet.base.problems import Problem, problem
from godet.program.altering import gone
from godet.program.program import PieceLines, SeamLine


def lost_by_piece(own: PieceLines, whole: PieceLines) -> Iterator[Problem]:
    """What a piece is dressed with on edges, and the points it marks, that are not there."""
    dressed = [(each.edge, each.place) for each in own.notches]
    dressed += list(own.allowed_at.items())
    if own.fold is not None and not own.fold.takes_away:
        dressed.append((own.fold.edge, own.fold.place))
    for edge, place in dressed:
        if edge not in whole.edges:
            yield gone(whole, edge, place)
    for mark in own.marks:
        if mark.point not in whole.points:
            yield gone(whole, mark.point, own.place)


def lost_by_seams(seams: Sequence[SeamLine], pieces: Mapping[str, PieceLines]) -> Iterator[Problem]:
    """The seams that join what is not there."""
    for seam in seams:
        for piece, edge, _ in (*seam.first, *seam.second):
            if piece in pieces and edge not in pieces[piece].edges:
                named = f"{piece}.{edge}"
                yield problem("seam-without-edge", seam.place, seam=seam.name, edge=named)
