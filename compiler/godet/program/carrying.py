"""What comes through from a block besides its pieces: checks and seams, held to the new drawing.

In: a block, and which of its pieces became which of the recipe. Out: its checks measured on what
was redrawn, less those of a piece or dart that is gone; its seams under the new names of their
pieces. Nothing fails.

    carried = Carrying(block, {"front": lines}, {"front": "front"})
    carried.checks(), carried.seams("top", taken_names)
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from godet.graph.rewriting import Rewriting
from godet.program.dart_members import OF_A_DART
from godet.program.draft import Draft
from godet.program.program import CheckLine, PieceLines, SeamLine
from godet.program.sewn_seams import carried, kept, with_other_nodes


def known_as(seam: str, taken_as: str, used: set[str]) -> str:
    """The name of a block's seam where names are used elsewhere."""
    return f"{taken_as}.{seam}" if seam in used else seam


@dataclass(slots=True)
class Carrying:
    block: Draft
    pieces: Mapping[str, PieceLines]  # of the recipe, linked
    became: Mapping[str, str]  # the block's pieces that are kept or redrafted: their names now
    _redrawn: Rewriting = field(init=False)  # over the old drawing: what stands in the new

    def __post_init__(self) -> None:
        redrawn: dict[int, int] = {}
        for old_name, name in self.became.items():
            old, new = self.block.pieces[old_name], self.pieces[name]
            for before, after in zip(_drawn(old), _drawn(new), strict=True):
                # what one piece keeps, another may have redrawn
                redrawn |= {
                    node: after[n]
                    for n, node in before.items()
                    if n in after and (after[n] != node or node not in redrawn)
                }
        self._redrawn = Rewriting(self.block.graph, redrawn)

    def checks(self) -> list[CheckLine]:
        """The block's checks, each line that was redrawn put in place of the old one."""
        gone = self._gone() | self._asked_of_lost_darts()
        graph = self.block.graph
        return [
            replace(
                check,
                condition=self._redrawn.of(check.condition),
                measured=self._redrawn.maybe(check.measured),
                wanted=self._redrawn.maybe(check.wanted),
            )
            for check in self.block.checks
            if not gone.intersection(graph.reached_from([check.condition]))
        ]

    def _asked_of_lost_darts(self) -> set[int]:
        """What is asked of a dart that its piece no longer has, having been made something else."""
        lost = {
            dart.node
            for old_name, name in self.became.items()
            for called, dart in self.block.pieces[old_name].darts.items()
            if called not in self.pieces[name].darts
        }
        graph = self.block.graph
        asking = [n for c in self.block.checks for n in graph.reached_from([c.condition])]
        return {
            number
            for number in asking
            if graph[number].operation in OF_A_DART and lost.intersection(graph[number].inputs)
        }

    def seams(self, taken_as: str, used: set[str]) -> list[SeamLine]:
        """The block's seams whose edges are all there; one whose name is used elsewhere is known by
        its block too (`top.side`)."""
        seams = kept(
            self.block.seams,
            lambda seam: all(self._is_there(p, e) for p, e, _ in (*seam.first, *seam.second)),
        )
        names = {s.name: known_as(s.name, taken_as, used) for s in seams}
        return [
            replace(
                with_other_nodes(carried(seam, self.became), self._redrawn.of),
                name=names[seam.name],
                after=tuple(names[after] for after in seam.after if after in names),
            )
            for seam in seams
        ]

    def _is_there(self, piece: str, edge: str) -> bool:
        """Whether an edge of the block still is there: a piece divided or joined may lose it."""
        return piece in self.became and edge in self.pieces[self.became[piece]].edges

    def _gone(self) -> set[int]:
        """What only the pieces that are gone draw, and nothing that is there is drawn from."""
        of_gone = self._nodes(set(self.block.pieces) - set(self.became))
        there = self._nodes(set(self.became))
        return of_gone.difference(self.block.graph.reached_from(sorted(there)))

    def _nodes(self, names: set[str]) -> set[int]:
        return {n for name in names for by in _drawn(self.block.pieces[name]) for n in by.values()}


def _drawn(piece: PieceLines) -> Iterator[Mapping[str, int]]:
    yield piece.points
    yield {name: edge.curve for name, edge in piece.edges.items()}
    yield piece.levels
    yield {name: dart.node for name, dart in piece.darts.items()}
    yield piece.widths
    yield piece.values
