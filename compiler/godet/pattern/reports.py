"""What the draft did that its maker should know: the width that each blend gives or takes, and by
how much the leg of a dart was lengthened.

In: the lines of the pieces that are drawn, with the solved values. Out: `Report`s, by piece, edge
and place. Nothing fails.

    reports(pieces, values, "cm")[0].words
    # "rounding the corner at side_waist on front.side gives 4 mm of width there"
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from godet.base.quantities import LengthUnit
from godet.base.words import WORDS
from godet.pattern.naming import in_order
from godet.pattern.pieces import Report
from godet.pattern.short_lengths import short_length
from godet.pattern.solved import BodyValues
from godet.program.program import PieceLines

_LEAST = 0.05  # mm of width; less is not worth saying


def _strays(
    piece: str, lines: PieceLines, values: BodyValues, units: LengthUnit
) -> Iterator[Report]:
    """The legs of darts that were lengthened."""
    for name, dart in sorted(lines.darts.items()):
        length = values.number(dart.strays) if dart.strays is not None else 0.0
        if length >= _LEAST:
            _, sentence = WORDS["dart-strays"]
            words = sentence.format(dart=name, piece=piece, length=short_length(length, units))
            yield Report(words, dart.place)


def reports(
    pieces: Mapping[str, PieceLines], values: BodyValues, units: LengthUnit
) -> tuple[Report, ...]:
    found = []
    for piece in in_order(pieces):
        for edge, line in sorted(pieces[piece].edges.items()):
            for blend in sorted(line.blends, key=lambda blend: blend.place):
                gives = values.number(blend.gives)
                if abs(gives) < _LEAST:
                    continue
                _, sentence = WORDS["blend-gives" if gives > 0.0 else "blend-takes"]
                words = sentence.format(
                    at=blend.at, edge=f"{piece}.{edge}", width=short_length(abs(gives), units)
                )
                found.append(Report(words, blend.place))
        found.extend(_strays(piece, pieces[piece], values, units))
    return tuple(found)
