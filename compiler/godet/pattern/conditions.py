"""What of a draft is there for one body: lines that stand under a condition.

In: the lines of a piece or the seams of a draft, and the values of a body. Out: those that hold. A
piece that is not laid on the fold is cut twice as often, every second one the other way round.
Nothing fails.

    as_it_is(back, values).fold    # None where the back opens
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from godet.pattern.solved import BodyValues
from godet.program.program import CutLine, FoldLine, PieceLines, SeamLine

_CLOTH = "main"


def there(when: int | None, values: BodyValues) -> bool:
    """Whether what stands under this condition is there for the body."""
    return when is None or values.holds(when)


def as_it_is(piece: PieceLines, values: BodyValues) -> PieceLines:
    """The piece with the notches and on the fold that are there for the body."""
    notches = tuple(notch for notch in piece.notches if there(notch.when, values))
    piece = replace(piece, notches=notches)
    if piece.fold is None or _folded(piece.fold, values):
        return piece
    cut = piece.cut or CutLine(1, _CLOTH, mirrored=False, place=piece.place)
    return replace(piece, fold=None, cut=replace(cut, count=2 * cut.count, mirrored=True))


def _folded(fold: FoldLine, values: BodyValues) -> bool:
    return fold.edge is not None and there(fold.when, values)


def sewn_seams(seams: Iterable[SeamLine], values: BodyValues) -> tuple[SeamLine, ...]:
    """The seams that are sewn for the body."""
    return tuple(seam for seam in seams if there(seam.when, values))
