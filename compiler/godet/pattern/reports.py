"""What the draft did that its maker should know, in words.

In: the lines of the pieces that are drawn, with the solved values; or a hollow that was trimmed.
Out: a `Report` of the width that each blend gives or takes, by piece, edge and place; or the words
for the hollow. Nothing fails.

    reports(pieces, values, "cm")[0].words
    # "rounding the corner at side_waist on front.side gives 4 mm of width there, and passes 6 mm
    # from the corner"
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from godet.base.quantities import LengthUnit
from godet.base.words import WORDS
from godet.pattern.cut_lines import TrimmedHollow
from godet.pattern.naming import in_order
from godet.pattern.pieces import Point, Report, Seam
from godet.pattern.short_lengths import short_length
from godet.pattern.solved import BodyValues
from godet.program.program import PieceLines, SeamLine

_AT_POINT = 0.5  # mm
_LEAST = 0.05  # mm of width; less is not worth saying
_LEAST_SHORTER = 0.3  # mm of a seam, which may be off by 0.76 mm (working tolerance in the trade)


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


def _of_changes(
    piece: str, lines: PieceLines, values: BodyValues, units: LengthUnit
) -> Iterator[Report]:
    """Edges that an alteration left shorter than what they are sewn to."""
    for change in lines.changes:
        shorter = values.number(change.shorter)
        if shorter >= _LEAST_SHORTER:
            _, sentence = WORDS["edge-shorter"]
            length = short_length(shorter, units)
            words = sentence.format(edge=f"{piece}.{change.edge}", length=length)
            yield Report(words, change.place)


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
                    at=blend.at,
                    edge=f"{piece}.{edge}",
                    width=short_length(abs(gives), units),
                    stray=short_length(values.number(blend.strays), units),
                )
                found.append(Report(words, blend.place))
        found.extend(_of_darts(piece, pieces[piece], values, units))
        found.extend(_of_changes(piece, pieces[piece], values, units))
    return tuple(found)


def hollow_words(
    edge: str,
    hollow: TrimmedHollow,
    allowance: float,
    points: Mapping[str, Point],
    units: LengthUnit,
) -> str:
    """What is told of a hollow tighter than its allowance; where it is, from the nearest of the
    piece's points."""
    distances = {name: math.dist(at, hollow.at) for name, at in sorted(points.items())}
    where = ""
    if distances:
        nearest = min(distances, key=lambda name: distances[name])
        away = distances[nearest]
        where = f" at {nearest}"
        if away > _AT_POINT:
            where = f", {short_length(away, units)} from {nearest}"
    _, sentence = WORDS["hollow-trimmed"]
    return sentence.format(
        edge=edge,
        radius=short_length(hollow.radius, units),
        where=where,
        allowance=short_length(allowance, units),
        away=short_length(hollow.away, units),
    )


def seam_reports(
    lines: Sequence[SeamLine], seams: Sequence[Seam], units: LengthUnit
) -> tuple[Report, ...]:
    """For each seam that gathers or stretches its first side: how much to how much."""
    places = {line.name: line.place for line in lines}
    found = []
    for seam in seams:
        if not seam.gathers_or_stretches:
            continue
        code = "seam-gathers" if seam.manner == "gathered" else "seam-stretches"
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
