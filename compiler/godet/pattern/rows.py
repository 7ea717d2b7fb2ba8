"""The edges of one side of a seam in a row, as they hang together when it is sewn.

In: finished pieces, the seams, and how often each piece is cut. Out: the row: its edges one after
the other, each walked from its first end or turned, a `whole` edge once for each time it is cut.
They hang together at the corners of a piece, at a fold, and by the seams that are sewn before; if
these don't join them, by any other seam that does not wait for this one. Nothing fails: there is no
row where they don't hang together in one way.

    row_of(edges, seams_before, joined)      # front.armhole turned, then back.armhole
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from godet.pattern.pieces import Piece
from godet.program.program import SeamLine


class End(NamedTuple):
    """One end of an edge."""

    piece: str
    edge: str
    last: bool


@dataclass(frozen=True, slots=True)
class Walked:
    """An edge as a row walks it."""

    piece: str
    edge: str
    copy: int  # of those cut of the piece: the first and the second mirror each other
    turned: bool = False

    @property
    def begin(self) -> End:
        return End(self.piece, self.edge, self.turned)

    @property
    def end(self) -> End:
        return End(self.piece, self.edge, not self.turned)


@dataclass(frozen=True, slots=True)
class Row:
    edges: tuple[Walked, ...]
    ring: bool = False  # closed before the seam is sewn

    @property
    def begin(self) -> End:
        return self.edges[0].begin

    @property
    def end(self) -> End:
        return self.edges[-1].end

    @property
    def mirrored(self) -> bool:
        """Whether it is the same row walked from its end."""
        there = [(each.begin, each.end) for each in self.edges]
        return there == [(each.end, each.begin) for each in reversed(self.edges)]

    def reversed(self) -> Row:
        edges = (replace(each, turned=not each.turned) for each in reversed(self.edges))
        return Row(tuple(edges), self.ring)

    def beginning_with(self, number: int) -> Row:
        """The ring walked from the beginning of one of its edges."""
        return Row((*self.edges[number:], *self.edges[:number]), self.ring)


def beyond(end: End, pieces: Mapping[str, Piece]) -> End:
    """The end of the edge that goes on from there round the piece."""
    walk = pieces[end.piece].outline
    number = next(n for n, step in enumerate(walk) if step.edge == end.edge)
    onward = end.last != walk[number].turned
    step = walk[(number + (1 if onward else -1)) % len(walk)]
    return End(end.piece, step.edge, step.turned if onward else not step.turned)


def at_fold(end: End, pieces: Mapping[str, Piece]) -> bool:
    """Whether an edge ends at the fold."""
    return pieces[end.piece].edges[beyond(end, pieces).edge].on_fold


def edges_of(side: Sequence[tuple[str, str, bool]], times: Mapping[str, int]) -> tuple[Walked, ...]:
    """Each edge of a side, as often as it is sewn there."""
    return tuple(
        Walked(piece, edge, copy)
        for piece, edge, whole in side
        for copy in range(times[piece] if whole else 1)
    )


def seams_before(line: SeamLine, lines: Sequence[SeamLine]) -> tuple[SeamLine, ...]:
    """The seams that are sewn before this one by what is said of them."""
    named = {each.name: each for each in lines}
    found: dict[str, SeamLine] = {}
    waiting = list(line.after)
    while waiting:
        name = waiting.pop()
        if name in named and name not in found and name != line.name:
            found[name] = named[name]
            waiting.extend(named[name].after)
    return tuple(found.values())


def row_of(
    edges: Sequence[Walked],
    pieces: Mapping[str, Piece],
    sewn: Callable[[End, End], bool],
) -> Row | None:
    """The row of these edges; `sewn` tells whether two ends of edges meet in a seam. None where
    they don't hang together, or in more than one way."""
    if len(edges) == 1:
        return Row(tuple(edges))
    ends = [(number, last) for number in range(len(edges)) for last in (False, True)]
    partners: dict[tuple[int, bool], list[tuple[int, bool]]] = {end: [] for end in ends}
    for here in ends:
        for there in ends:
            if here[0] < there[0] and _hang_together(edges, here, there, pieces, sewn):
                partners[here].append(there)
                partners[there].append(here)
    if any(len(found) > 1 for found in partners.values()):
        return None
    joints = {end: found[0] for end, found in partners.items() if found}
    free = [end for end in ends if end not in joints]
    walk = tuple(_walk(edges, joints, free[0] if free else ends[0]))
    return Row(walk, ring=not free) if len(walk) == len(edges) else None


def _hang_together(
    edges: Sequence[Walked],
    here: tuple[int, bool],
    there: tuple[int, bool],
    pieces: Mapping[str, Piece],
    sewn: Callable[[End, End], bool],
) -> bool:
    first, second = edges[here[0]], edges[there[0]]
    a, b = End(first.piece, first.edge, here[1]), End(second.piece, second.edge, there[1])
    if a == b:
        mirrored = first.copy == second.copy ^ 1
        corner = beyond(a, pieces)
        return mirrored and (at_fold(a, pieces) or sewn(corner, corner))
    if first.copy != second.copy:
        return False
    return beyond(a, pieces) == b or sewn(beyond(a, pieces), beyond(b, pieces))


def _walk(
    edges: Sequence[Walked],
    joints: Mapping[tuple[int, bool], tuple[int, bool]],
    start: tuple[int, bool],
) -> Iterator[Walked]:
    entered: tuple[int, bool] | None = start
    passed: set[int] = set()
    while entered is not None and entered[0] not in passed:
        number, last = entered
        passed.add(number)
        yield replace(edges[number], turned=last)
        entered = joints.get((number, not last))
