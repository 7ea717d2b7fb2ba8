"""Seams of a linked draft: over other nodes and pieces, with their notches and their lengths.

In: seams; what stands for a node or a piece now; the linked pieces and their graph. Out: the seams
over these. Their lengths are values of the graph: darts closed and gathers drawn up, an edge that
is sewn `whole` as often as its piece is cut. Raises `Problems` where what is to be notched is no
seam.

    with_lengths(waist_seam, draft_pieces, graph).lengths    # (skirt side, band side)
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import replace
from fractions import Fraction
from functools import reduce

from godet.base.near_names import did_you_mean
from godet.base.problems import Problems, problem
from godet.graph.node import Graph
from godet.graph.types import LENGTH, RATIO
from godet.program.laying import times
from godet.program.program import MatchLine, PieceLines, PointLine, SeamLine


def with_other_nodes(seam: SeamLine, of: Callable[[int], int]) -> SeamLine:
    """The seam with another node in place of each of its nodes; of its lengths there are none."""

    def maybe(number: int | None) -> int | None:
        return of(number) if number is not None else None

    return _with_points(
        replace(seam, easing=maybe(seam.easing), when=maybe(seam.when), lengths=None),
        lambda point: _point_over(point, of),
    )


def _point_over(point: PointLine, of: Callable[[int], int]) -> PointLine:
    when = of(point.when) if point.when is not None else None
    return replace(point, node=of(point.node), when=when)


def kept(seams: Sequence[SeamLine], stays: Callable[[SeamLine], bool]) -> tuple[SeamLine, ...]:
    """The seams that stay. What was sewn after one that goes is sewn after all that this one was
    sewn after."""
    gone = {seam.name: seam.after for seam in seams if not stays(seam)}
    if not gone:
        return tuple(seams)

    def before(seam: SeamLine) -> tuple[str, ...]:
        found: dict[str, None] = {}
        waiting = list(seam.after)
        while waiting:
            name = waiting.pop(0)
            if name not in found:
                found[name] = None
                waiting.extend(gone.get(name, ()))
        return tuple(name for name in found if name not in gone)

    return tuple(replace(seam, after=before(seam)) for seam in seams if seam.name not in gone)


def carried(seam: SeamLine, became: Mapping[str, str]) -> SeamLine:
    """The seam of a block's pieces, under the names that they have now."""
    return _with_points(
        replace(
            seam,
            first=tuple((became[piece], edge, whole) for piece, edge, whole in seam.first),
            second=tuple((became[piece], edge, whole) for piece, edge, whole in seam.second),
        ),
        lambda point: replace(point, piece=became.get(point.piece, point.piece), inherited=True),
    )


def _with_points(seam: SeamLine, of: Callable[[PointLine], PointLine]) -> SeamLine:
    begun, between = seam.begun, seam.between
    return replace(
        seam,
        begun=(of(begun[0]), of(begun[1])) if begun is not None else None,
        between=(of(between[0]), of(between[1])) if between is not None else None,
        matches=tuple(of(point) for point in seam.matches),
    )


def matched(
    seams: Sequence[SeamLine], matches: Sequence[MatchLine], of: Callable[[int], int]
) -> list[SeamLine]:
    """The seams, each with the points that it is notched at; `of` gives a point's linked node."""
    names = {seam.name for seam in seams}
    for match in matches:
        if match.seam not in names:
            hint, fix = did_you_mean(match.seam, names, match.place)
            unknown = problem("no-such-seam", match.place, name=match.seam, hint=hint, fix=fix)
            raise Problems([unknown])
    return [
        replace(
            seam,
            matches=(
                *seam.matches,
                *(
                    _point_over(point, of)
                    for match in matches
                    if match.seam == seam.name
                    for point in match.points
                ),
            ),
        )
        for seam in seams
    ]


def in_order(seams: Sequence[SeamLine], taken: Set[str]) -> tuple[SeamLine, ...]:
    """The seams, each after those of the seams before it that are there; `taken` names those of the
    blocks, of which some may be gone with their pieces."""
    there = {seam.name for seam in seams}
    known = there | taken
    unknown = [(after, seam.place) for seam in seams for after in seam.after if after not in known]
    if unknown:
        name, place = unknown[0]
        hint, _ = did_you_mean(name, known, place)
        raise Problems([problem("no-such-seam", place, name=name, hint=hint)])
    return tuple(
        replace(seam, after=tuple(name for name in seam.after if name in there)) for seam in seams
    )


def with_lengths(seam: SeamLine, pieces: Mapping[str, PieceLines], graph: Graph) -> SeamLine:
    """The seam with its `lengths`."""

    def added(first: int, second: int) -> int:
        return graph.add("add", (first, second), type=LENGTH, place=seam.place)

    def side(edges: tuple[tuple[str, str, bool], ...]) -> int:
        return reduce(added, [_length(*edge, pieces, graph) for edge in edges])

    return replace(seam, lengths=(side(seam.first), side(seam.second)))


def _length(
    piece: str, edge: str, whole: bool, pieces: Mapping[str, PieceLines], graph: Graph
) -> int:
    lines = pieces[piece]
    line = lines.edges[edge]
    length = line.sewn
    if length is None:
        length = graph.add("length", (line.curve,), type=LENGTH, place=line.place)
    if not whole:
        return length
    count = graph.add("number", type=RATIO, place=None, value=Fraction(times(lines)))
    return graph.add("multiply", (length, count), type=LENGTH, place=line.place)
