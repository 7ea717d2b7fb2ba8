"""Seams as they are sewn: which edges, how long each side, and in which order.

In: the draft's seams, the finished pieces by name, and how often each is cut. Out: `Seam`s in the
order of sewing, and problems: sides that do not fit each other, gathers that gather nothing, seams
that wait for each other. A seam with a piece that is left out is left out too.

    seams(draft.seams, {"front": front}, {"front": 2}, values, "adult_a", "cm", file)
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.base.quantities import LengthUnit
from godet.pattern.pieces import Piece, Seam, SeamSide
from godet.pattern.short_lengths import short_length
from godet.pattern.solved import BodyValues
from godet.program.program import SeamLine
from godet.program.sewn_seams import kept

# seams are compared on the sewing line; working tolerances in the trade run from 0.76 mm to 1/8 in
TOLERANCE = 1.0  # mm


@dataclass(frozen=True, slots=True)
class Sewing:
    """What a piece's edges are sewn to."""

    joined: frozenset[str]  # its edges that a seam joins
    to_front: frozenset[str]  # those of them that are sewn to an edge of a front piece


def sewing(piece: str, lines: Sequence[SeamLine]) -> Sewing:
    """How a piece is sewn by these seams."""
    joined, to_front = set(), set()
    for line in lines:
        for side, other in ((line.first, line.second), (line.second, line.first)):
            own = {edge for name, edge, _ in side if name == piece}
            joined |= own
            if any(name.startswith("front") for name, _, _ in other):
                to_front |= own
    return Sewing(frozenset(joined), frozenset(to_front))


def kept_seams(seams: Sequence[SeamLine], pieces: Mapping[str, object]) -> tuple[SeamLine, ...]:
    """The seams all of whose pieces are there."""
    return kept(seams, lambda seam: all(p in pieces for p, _, _ in (*seam.first, *seam.second)))


def seams(
    lines: Sequence[SeamLine],
    pieces: Mapping[str, Piece],
    times: Mapping[str, int],
    values: BodyValues,
    body: str,
    units: LengthUnit,
    file: str,
) -> tuple[tuple[Seam, ...], tuple[Problem, ...]]:
    """Every seam of `lines`, whose pieces must be there, with its number in the order of sewing.
    `file` is the recipe's own."""
    problems: list[Problem] = []
    ordered, circle = _in_sewing_order(lines)
    if circle:
        names = ", ".join(f"`{line.name}`" for line in circle)
        problems.append(problem("seams-in-circle", circle[0].place, seams=names))
    found: list[Seam] = []
    for line in ordered:
        seam = _seam(line, times, values, len(found) + 1)
        found.append(seam)
        misfit = _misfit(line, seam, values)
        if misfit is None:
            continue
        code, off = misfit
        first, second = (short_length(mm, units) for mm in seam.lengths_sewn)
        problems.append(
            problem(
                code,
                _redrafted(line, pieces, file) or line.place,
                body=body,
                seam=line.name,
                first=first,
                second=second,
                difference=short_length(off, units),
            )
        )
    return tuple(found), tuple(problems)


def _redrafted(line: SeamLine, pieces: Mapping[str, Piece], own: str) -> Place | None:
    """Where the recipe's `own` file draws an edge anew that a block sews: not the block's seam is
    to be mended."""
    if line.place.file == own:
        return None
    edges = [pieces[piece].edges[edge] for piece, edge, _ in (*line.first, *line.second)]
    return next((edge.place for edge in edges if edge.place.file == own), None)


def _seam(line: SeamLine, times: Mapping[str, int], values: BodyValues, order: int) -> Seam:
    first, second = (
        tuple(
            SeamSide(f"{piece}.{edge}", times[piece] if whole else 1)
            for piece, edge, whole in written
        )
        for written in (line.first, line.second)
    )
    assert line.lengths is not None  # as in every linked draft
    lengths = (values.number(line.lengths[0]), values.number(line.lengths[1]))
    return Seam(
        name=line.name,
        sides=(first, second),
        lengths_sewn=lengths,
        manner=line.manner,
        ease=lengths[0] - lengths[1],
        order=order,
    )


def _misfit(line: SeamLine, seam: Seam, values: BodyValues) -> tuple[str, float] | None:
    """In which way the sides don't fit, and by how much in mm; None where they do."""
    if line.manner == "gathered":
        return ("seam-gathers-nothing", -seam.ease) if seam.ease < -TOLERANCE else None
    if line.manner == "stretched":
        return ("seam-stretches-nothing", seam.ease) if seam.ease > TOLERANCE else None
    stated = values.number(line.easing) if line.easing is not None else 0.0
    off = abs(seam.ease - stated)
    return ("seam-lengths-differ", off) if off > TOLERANCE else None


def _in_sewing_order(lines: Sequence[SeamLine]) -> tuple[list[SeamLine], list[SeamLine]]:
    """Each seam behind those it comes after, otherwise by name; and those that wait for each
    other, which are put last."""
    waiting = {line.name: line for line in sorted(lines, key=lambda line: line.name)}
    ordered: list[SeamLine] = []
    while waiting:
        ready = next(
            (line for line in waiting.values() if not any(n in waiting for n in line.after)), None
        )
        if ready is None:
            return [*ordered, *waiting.values()], list(waiting.values())
        ordered.append(waiting.pop(ready.name))
    return ordered, []
