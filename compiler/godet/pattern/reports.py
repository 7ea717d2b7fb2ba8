"""What the draft did that its maker should know: the width that each blend gives or takes, and by
how much legs of darts were lengthened, and lower darts moved to meet upper ones.

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


def _of_darts(
    piece: str, lines: PieceLines, values: BodyValues, units: LengthUnit
) -> Iterator[Report]:
    """What was made of darts whose legs, places or widths did not agree."""
    for name, dart in sorted(lines.darts.items()):
        for code, node in (
            ("dart-strays", dart.strays),
            ("dart-moved", dart.moved),
            ("dart-wider", dart.wider),
        ):
            length = values.number(node) if node is not None else 0.0
            if abs(length) < _LEAST:
                continue
            _, sentence = WORDS["dart-narrower" if length < 0.0 else code]
            spoken = short_length(abs(length), units)
            words = sentence.format(dart=name, piece=piece, length=spoken)
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
        found.extend(_of_darts(piece, pieces[piece], values, units))
    return tuple(found)
