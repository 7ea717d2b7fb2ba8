"""What the finished garment measures: its girths by level, its length, its hem.

In: the finished pieces by name, and how often each is cut. Out: mm by name. Nothing fails; what
the pieces do not have is left out.

    girths(pieces, times)["waist"];  finished(pieces, times)["length"]
"""

from __future__ import annotations

from collections.abc import Mapping

from godet.pattern.pieces import Piece
from godet.program.laying import outer

_BODY = ("front", "back")


def girths(pieces: Mapping[str, Piece], times: Mapping[str, int]) -> dict[str, float]:
    """For each level the whole width of all pieces that have it, added in the order of names;
    without a lining or interfacing, where it lies under other pieces."""
    levels = sorted({level for piece in pieces.values() for level in piece.levels})
    return {level: _girth(level, pieces, times) for level in levels}


def _girth(level: str, pieces: Mapping[str, Piece], times: Mapping[str, int]) -> float:
    cloths = {name: piece.cut.cloth for name, piece in pieces.items() if level in piece.levels}
    return sum(pieces[name].levels[level].width * times[name] for name in outer(cloths))


def finished(pieces: Mapping[str, Piece], times: Mapping[str, int]) -> dict[str, float]:
    """`length`: down the centre of the back, or of the front where the back has none;
    `hem_sweep`: round the lower edge of front and back, where both pieces have one."""
    sizes: dict[str, float] = {}
    body = [name for name in _BODY if name in pieces]
    for name in ("back", "front"):
        if name in pieces and "centre" in pieces[name].edges:
            sizes["length"] = pieces[name].edges["centre"].length_sewn
            break
    if body and all("bottom" in pieces[name].edges for name in body):
        sizes["hem_sweep"] = sum(
            pieces[name].edges["bottom"].length_sewn * times[name] for name in body
        )
    return sizes
