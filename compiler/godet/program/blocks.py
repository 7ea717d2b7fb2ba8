"""The blocks of a program being linked: each linked when first needed, and what comes of it.

In: an assembly, the program's own pieces, and how to link a block and a value. Out: linked blocks,
the pieces that come through from them, and a block's piece as it is drawn to edges that the program
has redrawn. A block that is missing or can't serve, pieces that share a name, choices set by way of
their own block, and a piece that follows what needs it raise `Problems`.

    blocks.block("top"), blocks.coming["sleeve"], blocks.piece("top", "sleeve")
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from godet.base.places import Place
from godet.base.problems import Note, Problem, Problems, problem
from godet.program.draft import Draft
from godet.program.following import followed
from godet.program.program import FindLine, PieceLines, Program
from godet.program.serving import why_not


@dataclass(frozen=True, slots=True)
class Assembly:
    """A program, and what stands for each block it takes."""

    program: Program
    blocks: Mapping[str, Assembly]


@dataclass
class Blocks:
    assembly: Assembly
    prefix: str
    settings: Mapping[str, int]  # choices that the taker of the program sets: linked nodes
    own: Mapping[str, PieceLines]  # the program's own pieces, flattened and open
    value: Callable[[int], int]  # the linked node of an open one of the program
    altered: Callable[[str], PieceLines]  # what an own piece is drafted from, once it is altered
    # the draft of a block, known behind a prefix, with the choices that are set
    linked: Callable[[Assembly, str, Mapping[str, int]], Draft]
    found_again: list[FindLine] = field(default_factory=list)  # unknowns of pieces drawn anew
    _drafts: dict[str, Draft] = field(default_factory=dict)
    _opening: list[str] = field(default_factory=list)  # being linked: what needs one is a circle
    _drawn: dict[tuple[str, str], PieceLines | None] = field(default_factory=dict)  # None: not yet

    @property
    def program(self) -> Program:
        return self.assembly.program

    def block(self, name: str) -> Draft:
        """The linked block that the program takes under this name. Raises `Problems`."""
        if name not in self._drafts:
            taken = next(each for each in self.program.takes if each.name == name)
            if name not in self.assembly.blocks:
                missing = problem("block-missing", taken.place, name=name, kind=taken.kind.name)
                raise Problems([missing])
            if name in self._opening:
                raise Problems([self._settings_in_circle(name)])
            self._opening.append(name)
            lines = [line for line in self.program.settings if line.block == name]
            settings = self._passed_on(name)
            settings |= {line.choice: self.value(line.value) for line in lines}
            block = self.linked(self.assembly.blocks[name], f"{self.prefix}{name}.", settings)
            self._opening.pop()
            bases = {base[1] for base in self._bases() if base[0] == name}
            reasons = "; ".join(why_not(taken, block, bases))
            if reasons:
                unfit = problem(
                    "wrong-kind",
                    taken.place,
                    name=name,
                    kind=taken.kind.name,
                    block=block.name,
                    reasons=reasons,
                )
                raise Problems([unfit])
            self._drafts[name] = block
        return self._drafts[name]

    def _passed_on(self, name: str) -> dict[str, int]:
        """What the taker of the program sets and the program has no choice for goes on to the block
        whose kind it makes."""
        if name != self.program.makes_kind_of:
            return {}
        return {n: node for n, node in self.settings.items() if n not in self.program.choices}

    def _settings_in_circle(self, block: str) -> Problem:
        """The problem of choices that are set by way of the block they belong to."""
        round_ = self._opening[self._opening.index(block) :]
        lines = [line for name in round_ for line in self.program.settings if line.block == name]
        names = [f"{line.block}.{line.choice}" for line in lines]
        notes = [
            Note(f"`{n}` is set here", line.place) for n, line in zip(names, lines, strict=True)
        ]
        path = " needs ".join([*names, names[0]])
        return problem("cycle", lines[0].place, path=path, notes=notes)

    def _bases(self) -> Iterator[tuple[str, str]]:
        """The pieces of blocks that own pieces are drafted from, as (block, piece)."""
        return (piece.base for piece in self.own.values() if piece.base is not None)

    @cached_property
    def coming(self) -> dict[str, str]:
        """The pieces of blocks that come through as they are: piece by block. Raises `Problems`
        where two blocks bring pieces of one name."""
        gone = {*self._bases(), *self.program.left_out}
        found: dict[str, str] = {}
        both: dict[tuple[str, str], list[str]] = {}
        for taken in self.program.takes:
            for piece in self.block(taken.name).pieces:
                if (taken.name, piece) in gone or piece in self.own:
                    continue
                first = found.setdefault(piece, taken.name)
                if first != taken.name:
                    both.setdefault((first, taken.name), []).append(piece)
        if both:
            raise Problems([self._shared(*names, pieces) for names, pieces in both.items()])
        return found

    def _shared(self, first: str, second: str, pieces: list[str]) -> Problem:
        """The problem of two blocks that bring pieces of the same names."""
        place = next(taken.place for taken in self.program.takes if taken.name == second)
        names = " and ".join([", ".join(pieces[:-1]), pieces[-1]] if pieces[1:] else pieces)
        return problem(
            "pieces-share-name", place, first=first, second=second, pieces=names, piece=pieces[0]
        )

    def _became(self, block: str) -> dict[str, str]:
        """The pieces of a block that are redrafted, with their names in this draft."""
        bases = {n: self._drafted_from(p) for n, p in self.own.items() if not p.step}
        became = {base[1]: n for n, base in bases.items() if base is not None and base[0] == block}
        # of several redrafts of one piece, that of its own name stands for it
        return became | {n: n for n, base in bases.items() if base == (block, n)}

    def _drafted_from(self, piece: PieceLines) -> tuple[str, str] | None:
        """The base of a piece; of an altered one that is drafted from steps, that of the first."""
        base = piece.base
        while base is not None and base[0] == "" and self.own[base[1]].step:
            base = self.own[base[1]].base
        return base

    def names_now(self, block: str) -> dict[str, str]:
        """The pieces of a block that are redrafted or come through, with their names here."""
        kept = {piece: piece for piece, of in self.coming.items() if of == block}
        return self._became(block) | kept

    def piece(self, block: str, name: str) -> PieceLines:
        """A piece of a block, drawn anew where it follows edges that are drawn anew."""
        key = (block, name)
        piece = self.block(block).pieces[name]
        if not piece.follows:
            return piece
        if key not in self._drawn:
            self._drawn[key] = None
            self._drawn[key] = self._followed(block, piece)
        known = self._drawn[key]
        if known is None:
            edges = ", ".join(f"{p}.{edge}" for p, edge in piece.follows)
            path = f"{block}.{name} follows {edges}, which needs {block}.{name}"
            raise Problems([problem("cycle", self._redrawn_at(piece), path=path)])
        return known

    def _redrawn_at(self, piece: PieceLines) -> Place:
        """Where this program redrafts what a block's piece follows."""
        became = {p.base: p for p in self.own.values() if p.base is not None}
        places = [p.place for base, p in became.items() if base[1] in dict(piece.follows)]
        return places[0] if places else self.program.place

    def _followed(self, block: str, piece: PieceLines) -> PieceLines:
        before, became = self.block(block), self._became(block)
        redrawn: dict[int, int] = {}
        for followed_piece, edge in piece.follows:
            old = before.pieces[followed_piece].edges[edge].curve
            own = self.own.get(became.get(followed_piece, ""))
            if own is not None and edge in own.edges:
                redrawn[old] = self.value(own.edges[edge].curve)
            elif own is not None and own.alterations:
                altered = self.altered(own.name)
                if edge in altered.edges:
                    redrawn[old] = altered.edges[edge].curve
            elif followed_piece != piece.name:
                redrawn[old] = self.piece(block, followed_piece).edges[edge].curve
        redrawn = {old: new for old, new in redrawn.items() if old != new}
        drawn, finds = followed(piece, redrawn, before, f"{self.prefix}{piece.name}.")
        self.found_again.extend(finds)
        return drawn

    def link_all(self) -> None:
        """Link every block, and raise what is wrong with all of them together."""
        problems: list[Problem] = []
        for taken in self.program.takes:
            try:
                self.block(taken.name)
            except Problems as found:
                self._opening.clear()
                problems.extend(each for each in found.problems if each not in problems)
        if problems:
            raise Problems(problems)
