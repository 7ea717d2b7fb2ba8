"""Links a typed program with the blocks it takes: a complete draft, ready for any body.

In: a program and, for each name it takes, the linked draft of a block. Out: a `Draft` in whose
graph no placeholder is left. What the recipe does not mention comes through from its blocks:
pieces, edges, seams, allowances, checks. Choices and unknowns of a block are known by the name it
is taken under (`top.fit`).

    draft, problems = link(column_dress, {"top": knit_tee_draft})
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from godet.base.problems import Note, Problem, Problems, problem
from godet.graph.node import Graph, Node
from godet.graph.types import CONDITION, CURVE, LENGTH, RATIO
from godet.program.carrying import Carrying
from godet.program.program import (
    CheckLine,
    Choice,
    EdgeLine,
    FindLine,
    Measure,
    PieceLines,
    Program,
    SeamLine,
)
from godet.program.unknowns import unused


@dataclass(frozen=True, slots=True)
class Draft:
    """A linked program: every node number can be solved for a body."""

    name: str
    doc: str
    edition: int
    file: str
    graph: Graph
    kind: str | None
    pieces: Mapping[str, PieceLines]
    seams: tuple[SeamLine, ...]
    checks: tuple[CheckLine, ...]
    finds: tuple[FindLine, ...]
    choices: Mapping[str, Choice]
    measures: Mapping[str, Measure]
    names: Mapping[str, int]  # "front.hip_side", "side_out", "top.front.side": for explaining
    blocks: tuple[str, ...]  # what it was linked with: "top = knit_tee"

    @property
    def digest(self) -> str:
        """A digest of meaning: the same for the same draft, however its text is laid out."""
        summary = hashlib.sha256(repr((self.edition, self.kind)).encode())
        for line in _lines_of_meaning(self):
            summary.update(repr(line).encode())
        return summary.hexdigest()


def _lines_of_meaning(draft: Draft) -> Iterator[tuple[object, ...]]:
    graph = draft.graph

    def node(number: int | None) -> str | None:
        return graph.digest(number).hex() if number is not None else None

    for name, piece in sorted(draft.pieces.items()):
        yield (name, piece.title, sorted(piece.marks), node(piece.grain), node(piece.when))
        cut = piece.cut
        yield (piece.fold and piece.fold[0], cut and (cut.count, cut.cloth, cut.mirrored))
        yield tuple(sorted((n, node(p)) for n, p in piece.points.items()))
        yield tuple(sorted((n, node(e.curve)) for n, e in piece.edges.items()))
        yield tuple(sorted((n, node(at)) for n, at in piece.levels.items()))
        yield tuple(sorted((n, node(a)) for n, a in piece.allowances.items()))
        yield tuple(sorted((n.edge, node(n.at)) for n in piece.notches))
    for seam in sorted(draft.seams, key=lambda seam: seam.name):
        yield (
            seam.name,
            seam.first,
            seam.second,
            seam.manner,
            node(seam.easing),
            sorted(seam.after),
        )
    yield tuple(sorted((c.level, node(c.condition), c.words) for c in draft.checks))
    for find in sorted(draft.finds, key=lambda find: find.name):
        ends = (find.left, find.right, find.lowest, find.highest, find.reference)
        yield (find.name, find.selector, tuple(node(end) for end in ends))
    yield tuple(sorted((name, node(c.node)) for name, c in draft.choices.items()))


def link(
    program: Program, blocks: Mapping[str, Draft], prefix: str = ""
) -> tuple[Draft | None, tuple[Problem, ...]]:
    """The draft of a program on these blocks; None when a block is not of the kind it needs."""
    problems = tuple(_unfit(program, blocks)) or tuple(_shared(program, blocks))
    if problems:
        return None, problems
    try:
        return _Linking(program, blocks, prefix).draft(), ()
    except Problems as found:
        return None, found.problems


def _unfit(program: Program, blocks: Mapping[str, Draft]) -> Iterator[Problem]:
    for taken in program.takes:
        block = blocks.get(taken.name)
        if block is None:
            yield problem("block-missing", taken.place, name=taken.name, kind=taken.kind.name)
            continue
        reasons = []
        if block.kind != taken.kind.name:
            made = f"makes a {block.kind}" if block.kind else "makes no kind of its own"
            reasons.append(f"it {made}")
        for promise in taken.kind.pieces.values():
            piece = block.pieces.get(promise.name)
            if piece is None:
                if not promise.optional:
                    reasons.append(f"it has no piece {promise.name}")
                continue
            have = {*piece.points, *piece.edges, *piece.levels}
            reasons.extend(
                f"it has no {member.sort} {promise.name}.{member.name}"
                for member in promise.members.values()
                if not member.optional and member.name not in have
            )
            reasons.extend(
                f"it must not have {promise.name}.{name}" for name in sorted(taken.forbidden & have)
            )
        bases = {piece.base for piece in program.pieces.values() if piece.base is not None}
        reasons.extend(
            f"it has no piece {piece}"
            for of, piece in sorted(bases)
            if of == taken.name and piece not in block.pieces and taken.kind.pieces[piece].optional
        )
        if reasons:
            yield problem(
                "wrong-kind",
                taken.place,
                name=taken.name,
                kind=taken.kind.name,
                block=block.name,
                reasons="; ".join(reasons),
            )


def _shared(program: Program, blocks: Mapping[str, Draft]) -> Iterator[Problem]:
    """Two blocks that both bring a piece of one name, where the recipe draws none of its own."""
    brought: dict[str, str] = {}
    for of, piece in coming(program, blocks):
        first = brought.setdefault(piece, of)
        if first != of:
            place = next(taken.place for taken in program.takes if taken.name == of)
            yield problem("pieces-share-name", place, first=first, second=of, piece=piece)


def coming(program: Program, blocks: Mapping[str, Draft]) -> Iterator[tuple[str, str]]:
    """The pieces of blocks that come through as they are, as (block, piece)."""
    redrafted = {piece.base for piece in program.pieces.values()}
    for taken in program.takes:
        for piece in blocks[taken.name].pieces:
            dropped = (taken.name, piece) in redrafted or (taken.name, piece) in program.left_out
            if not dropped and piece not in program.pieces:
                yield taken.name, piece


_LEAVES = frozenset({"choice", "unknown"})


class _Linking:
    """Copies the nodes of one program, filling in what was left open."""

    def __init__(self, program: Program, blocks: Mapping[str, Draft], prefix: str) -> None:
        self.program = program
        self.blocks = blocks
        self.prefix = prefix
        self.graph = program.graph
        self.linked: dict[int, int] = {}
        self.bases = {
            name: blocks[piece.base[0]].pieces[piece.base[1]] if piece.base is not None else None
            for name, piece in program.pieces.items()
        }
        self.coming = {piece: blocks[of].pieces[piece] for of, piece in coming(program, blocks)}

    # --- nodes ------------------------------------------------------------------------------------

    def of(self, number: int) -> int:
        """The linked node of an open one."""
        waiting = [number]
        opened: list[int] = []
        while waiting:
            current = waiting[-1]
            if current in self.linked:
                waiting.pop()
                continue
            needs = [n for n in self._needs(current) if n not in self.linked]
            if needs:
                if current in opened:
                    raise Problems([self._circle(opened[opened.index(current) :])])
                opened.append(current)
                waiting.extend(needs)
                continue
            if opened and opened[-1] == current:
                opened.pop()
            self.linked[current] = self._copy(current)
            waiting.pop()
        return self.linked[number]

    def _circle(self, nodes: list[int]) -> Problem:
        """The problem of values that need each other by way of a whole outline or girth."""
        program = self.program
        names = {n: f"{p}.{name}" for p, name, n in _named(program.pieces)}
        names |= {n: name for name, n in program.lets.items()}
        path = [(names[n], self.graph.places[n]) for n in nodes if n in names]
        way = " needs ".join(name for name, _ in [*path, *path[:1]])
        notes = [Note(f"`{name}` is given here", place) for name, place in path]
        return problem("cycle", path[0][1] if path else program.place, path=way, notes=notes)

    def _needs(self, number: int) -> list[int]:
        """The open nodes that must be linked before this one."""
        node = self.graph[number]
        if node.operation == "own":
            return self._own_needs(node)
        if node.operation == "either":
            branch = self._sure_branch(node)
            return list(node.inputs) if branch is None else [branch]
        return list(node.inputs)

    def _sure_branch(self, either: Node) -> int | None:
        """The branch of an `if .. has ..`, which is known once the block is."""
        condition = self.graph[either.inputs[0]]
        if condition.operation != "taken" or condition.constant("sort") != "has":
            return None
        return either.inputs[1] if self._there(condition) else either.inputs[2]

    def _there(self, condition: Node) -> bool:
        """Whether the block has the member that a `has` asks for."""
        block = self.blocks[str(condition.constant("block"))]
        piece = block.pieces.get(str(condition.constant("piece")))
        name = str(condition.constant("name"))
        return piece is not None and name in {*piece.points, *piece.edges, *piece.levels}

    def _copy(self, number: int) -> int:
        node, place = self.graph[number], self.graph.places[number]
        if node.operation == "taken":
            return self._taken(node)
        if node.operation == "own":
            return self._own(node)
        if node.operation == "either":
            branch = self._sure_branch(node)
            if branch is not None:
                return self.linked[branch]
        constants = dict(node.constants)
        if node.operation in _LEAVES:
            constants["name"] = self.prefix + str(constants["name"])
        inputs = tuple(self.linked[n] for n in node.inputs)
        return self.graph.add(node.operation, inputs, type=node.type, place=place, **constants)

    def _taken(self, node: Node) -> int:
        sort, name = node.constant("sort"), str(node.constant("name"))
        if sort == "has":
            return self._truth(self._there(node))
        block = self.blocks[str(node.constant("block"))]
        piece = block.pieces[str(node.constant("piece"))]
        match sort:
            case "point":
                return piece.points[name]
            case "level":
                return piece.levels[name]
            case "edge":
                return piece.edges[name].curve
            case "outline":
                curves = tuple(edge.curve for _, edge in sorted(piece.edges.items()))
                return self.graph.add("together", curves, type=CURVE, place=piece.place)
            case _:
                return self._number(times(piece))

    def _own_needs(self, node: Node) -> list[int]:
        pieces = [str(node.constant("piece"))]
        level = str(node.constant("name"))
        if node.constant("sort") == "girth":
            pieces = [name for name in self._all_pieces() if self._has_level(name, level)]
        needs: list[int] = []
        for name in pieces:
            own = self.program.pieces.get(name)
            if own is None or node.constant("sort") == "times":
                continue
            needs.extend(edge.curve for edge in own.edges.values())
            if own.when is not None:
                needs.append(own.when)
            if level in own.levels:
                needs.append(own.levels[level])
        return needs

    def _own(self, node: Node) -> int:
        sort, name = node.constant("sort"), str(node.constant("piece"))
        if sort == "times":
            return self._number(times(self._dressed(name)))
        if sort == "outline":
            return self._outline(name)
        return self._girth(str(node.constant("name")))

    def _outline(self, name: str) -> int:
        own, base = self.program.pieces.get(name), self._base(name)
        curves = {edge: line.curve for edge, line in base.edges.items()} if base else {}
        if own is not None:
            curves |= {edge: self.linked[line.curve] for edge, line in own.edges.items()}
        inputs = tuple(curve for _, curve in sorted(curves.items()))
        return self.graph.add("together", inputs, type=CURVE, place=None)

    def _girth(self, level: str) -> int:
        """The whole width of every piece that has the level, added up in the order of names."""
        names = [name for name in sorted(self._all_pieces()) if self._has_level(name, level)]
        total = self._whole_width(names[0], level)  # the typed program has seen the level
        for name in names[1:]:
            whole = self._whole_width(name, level)
            total = self.graph.add("add", (total, whole), type=LENGTH, place=None)
        return total

    def _whole_width(self, name: str, level: str) -> int:
        """The width of a piece along a level, as often as it is cut; nothing while it is left out
        by its condition."""
        own, base = self.program.pieces.get(name), self._base(name)
        if own is not None and level in own.levels:
            down = self.linked[own.levels[level]]
        else:
            assert base is not None
            down = base.levels[level]
        graph = self.graph
        width = graph.add("width", (self._outline(name), down), type=LENGTH, place=None)
        count = self._number(times(self._dressed(name)))
        whole = graph.add("multiply", (width, count), type=LENGTH, place=None)
        when = base.when if base is not None else None
        if own is not None and own.when is not None:
            when = self.linked[own.when]
        if when is None:
            return whole
        nought = graph.add("number", type=LENGTH, place=None, value=Fraction(0))
        return graph.add("either", (when, whole, nought), type=LENGTH, place=None)

    def _number(self, value: int) -> int:
        return self.graph.add("number", type=RATIO, place=None, value=Fraction(value))

    def _truth(self, value: bool) -> int:
        """A condition that is known: whether 1, or 0, is at least 1."""
        inputs = (self._number(int(value)), self._number(1))
        return self.graph.add("at_least", inputs, type=CONDITION, place=None)

    # --- pieces -----------------------------------------------------------------------------------

    def _all_pieces(self) -> list[str]:
        """The recipe's own pieces, and those of its blocks that come through."""
        return [*self.program.pieces, *self.coming]

    def _base(self, name: str) -> PieceLines | None:
        return self.bases[name] if name in self.program.pieces else self.coming.get(name)

    def _has_level(self, name: str, level: str) -> bool:
        own, base = self.program.pieces.get(name), self._base(name)
        return (own is not None and level in own.levels) or (
            base is not None and level in base.levels
        )

    def _dressed(self, name: str) -> PieceLines:
        """A piece with its fold and cut, its own or its base's; nothing of it linked."""
        own, base = self.program.pieces.get(name), self._base(name)
        if own is None:
            assert base is not None
            return base
        if base is None:
            return own
        return replace(own, fold=own.fold or base.fold, cut=own.cut or base.cut)

    def piece(self, name: str) -> PieceLines:
        """A whole piece: its own lines laid over its base's."""
        own, base = self.program.pieces.get(name), self._base(name)
        if own is None:
            assert base is not None
            return base
        of = self._of
        points = {n: self.of(p) for n, p in own.points.items()}
        edges = {n: self._edge(e) for n, e in own.edges.items()}
        levels = {n: self.of(at) for n, at in own.levels.items()}
        allowances = {n: of(a) for n, a in own.allowances.items()}
        values = {n: self.of(v) for n, v in own.values.items()}
        notches = tuple(replace(n, at=self.of(n.at)) for n in own.notches)
        own = replace(
            own,
            points=points,
            edges=edges,
            levels=levels,
            allowances=allowances,
            notches=notches,
            grain=of(own.grain),
            when=of(own.when),
            values=values,
        )
        if base is None:
            return own
        return replace(
            own,
            points={**base.points, **points},
            edges={**base.edges, **edges},
            levels={**base.levels, **levels},
            allowances={**base.allowances, **allowances},
            notches=(*base.notches, *notches),
            fold=own.fold or base.fold,
            grain=own.grain if own.grain is not None else base.grain,
            cut=own.cut or base.cut,
            marks=(*base.marks, *own.marks),
            title=own.title or base.title,
            when=own.when if own.when is not None else base.when,
            values={**base.values, **values},
        )

    def _of(self, number: int | None) -> int | None:
        return self.of(number) if number is not None else None

    def _edge(self, edge: EdgeLine) -> EdgeLine:
        blends = tuple(
            replace(note, gives=self.of(note.gives), over=self.of(note.over))
            for note in edge.blends
        )
        return replace(edge, curve=self.of(edge.curve), blends=blends)

    # --- the whole --------------------------------------------------------------------------------

    def draft(self) -> Draft:
        program, prefix = self.program, self.prefix
        pieces = {name: self.piece(name) for name in self._all_pieces()}
        choices = {prefix + n: self._choice(prefix + n, c) for n, c in program.choices.items()}
        finds = [self._find(line) for line in program.finds]
        if without := unused(self.graph, finds):
            raise Problems(without)
        names = {f"{p}.{n}": node for p, n, node in _named(pieces)}
        names |= {prefix + n: self.of(node) for n, node in program.lets.items()}
        names |= {n: c.node for n, c in choices.items()}
        measures = dict(program.measures)
        checks = [self._check(check) for check in program.checks]
        seams = [replace(s, easing=self._of(s.easing)) for s in program.seams]
        blocks: list[str] = []
        for taken in program.takes:
            block = self.blocks[taken.name]
            choices |= block.choices
            finds.extend(block.finds)
            measures |= block.measures
            names |= {f"{taken.name}.{p}.{n}": node for p, n, node in _named(block.pieces)}
            # what the block itself knows by the name it is taken under: its choices and values
            inside = f"{prefix}{taken.name}."
            names |= {n: node for n, node in block.names.items() if n.startswith(inside)}
            carrying = Carrying(block, pieces, self._became(taken.name))
            checks.extend(carrying.checks())
            seams.extend(carrying.seams(taken.name, {seam.name for seam in seams}))
            blocks.append(f"{taken.name} = {block.name}")
        return Draft(
            name=program.name,
            doc=program.doc,
            edition=program.edition,
            file=program.file,
            graph=self.graph,
            kind=program.makes.name if program.makes is not None else None,
            pieces=pieces,
            seams=tuple(seams),
            checks=tuple(checks),
            finds=tuple(finds),
            choices=choices,
            measures=dict(sorted(measures.items())),
            names=names,
            blocks=tuple(blocks),
        )

    def _became(self, block: str) -> dict[str, str]:
        """The pieces of a block that are kept or redrafted, with their names in this draft."""
        own = self.program.pieces.items()
        became = {p.base[1]: n for n, p in own if p.base is not None and p.base[0] == block}
        # of several redrafts of one piece, that of its own name stands for it
        became |= {n: n for n, p in own if p.base == (block, n)}
        kept = (piece for of, piece in coming(self.program, self.blocks) if of == block)
        return became | {piece: piece for piece in kept}

    def _choice(self, name: str, choice: Choice) -> Choice:
        return replace(
            choice, name=name, default=self.of(choice.default), node=self.of(choice.node)
        )

    def _find(self, line: FindLine) -> FindLine:
        return replace(
            line,
            name=self.prefix + line.name,
            unknown=self.of(line.unknown),
            lowest=self.of(line.lowest),
            highest=self.of(line.highest),
            left=self.of(line.left),
            right=self.of(line.right),
            reference=self._of(line.reference),
        )

    def _check(self, check: CheckLine) -> CheckLine:
        return replace(
            check,
            condition=self.of(check.condition),
            measured=self._of(check.measured),
            wanted=self._of(check.wanted),
        )


def times(piece: PieceLines) -> int:
    """How often the drawn piece is cut: twice on the fold or as a mirrored pair."""
    on_fold = 2 if piece.fold is not None else 1
    return on_fold * (piece.cut.count if piece.cut is not None else 1)


def _named(pieces: Mapping[str, PieceLines]) -> Iterator[tuple[str, str, int]]:
    for name, piece in pieces.items():
        for point, node in piece.points.items():
            yield name, point, node
        for edge, line in piece.edges.items():
            yield name, edge, line.curve
        for level, node in piece.levels.items():
            yield name, level, node
        for value, node in piece.values.items():
            yield name, value, node
