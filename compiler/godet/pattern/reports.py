"""What the draft did that its maker should know: the width that each blend gives or takes, and how
much is gathered or stretched to how much.

In: the lines of the pieces that are drawn and of their seams, with what was solved and sewn. Out:
`Report`s, by piece, edge and place, the seams last. Nothing fails.

    reports(pieces, values, "cm")[0].words
    # "rounding the corner at side_waist on front.side gives 4 mm of width there"
    seam_reports(lines, seams, "cm")[0].words
    # "the seam waist gathers 62 cm to 41 cm, 1.51 to 1"
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from godet.base.quantities import LengthUnit
from godet.base.words import WORDS
from godet.pattern.naming import in_order
from godet.pattern.pieces import Report, Seam
from godet.pattern.short_lengths import short_length
from godet.pattern.solved import BodyValues
from godet.program.program import PieceLines, SeamLine

_LEAST = 0.05  # mm of width; less is not worth saying


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
    return tuple(found)


def seam_reports(
    lines: Sequence[SeamLine], seams: Sequence[Seam], units: LengthUnit
) -> tuple[Report, ...]:
    """For each seam that gathers or stretches its first side: how much to how much."""
    places = {line.name: line.place for line in lines}
    found = []
    for seam in seams:
        code = {"gathered": "seam-gathers", "stretched": "seam-stretches"}.get(seam.manner or "")
        if code is None:
            continue
        long, short = seam.lengths_sewn
        first, second = (short_length(mm, units) for mm in seam.lengths_sewn)
        _, sentence = WORDS[code]
        words = sentence.format(
            seam=seam.name,
            first=first,
            second=second,
            ratio=f"{long / short:.3g}",
            share=f"{100 * (short / long - 1):.3g} %",
        )
        found.append(Report(words, places[seam.name]))
    return tuple(found)
