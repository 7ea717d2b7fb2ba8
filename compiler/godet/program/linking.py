"""Links a typed program with the blocks it takes: a complete draft, ready for any body.

In: an `Assembly`, a program with the programs of its blocks and theirs in turn. Out: a `Draft` in
whose graph no placeholder is left. What the recipe does not mention comes through from its blocks:
pieces, edges, seams, allowances, checks; a piece that follows redrawn edges is drawn anew. Choices
and unknowns of a block are known by the name it is taken under (`top.fit`). A block is linked when
something first needs it, so that its choices may be set from the geometry of another. A block that
is missing or can't serve, and whatever needs itself, are problems.

    draft, problems = link(Assembly(column_dress, {"top": Assembly(knit_tee, {})}))
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from godet.base.places import Place
from godet.base.problems import Note, Problem, Problems, problem
from godet.graph.node import Node
from godet.graph.types import CONDITION, CURVE, LENGTH, RATIO
from godet.program.carrying import Carrying
from godet.program.draft import Draft
from godet.program.following import followed
from godet.program.laying import flattened, laid, named_nodes, times, with_nodes
from godet.program.program import CheckLine, Choice, FindLine, PieceLines, Program
from godet.program.serving import why_not


@dataclass(frozen=True, slots=True)
class Assembly:
    """A program, and what stands for each block it takes."""

    program: Program
    blocks: Mapping[str, Assembly]


def link(assembly: Assembly) -> tuple[Draft | None, tuple[Problem, ...]]:
    """The draft of a program on these blocks; None when a block is not of the kind it needs."""
    try:
        return _Linking(assembly, "", {}).draft(), ()
    except Problems as found:
        return None, found.problems


_LEAVES = frozenset({"choice", "unknown"})


class _Linking:
    """Copies the nodes of one program, filling in what was left open."""

    def __init__(self, assembly: Assembly, prefix: str, settings: Mapping[str, int]) -> None:
        self.assembly = assembly
        self.program = assembly.program
        self.prefix = prefix
        self.settings = settings  # choices that the taker of this block sets: linked nodes
        self.graph = self.program.graph
        self.linked: dict[int, int] = {}
        self.own = flattened(self.program.pieces)
        self.blocks: dict[str, Draft] = {}
        self.opening: list[str] = []  # blocks being linked: what needs one of them goes in a circle
        self.brought: dict[tuple[str, str], PieceLines | None] = {}  # None: being drawn anew
        self.found_again: list[FindLine] = []

    # --- blocks -----------------------------------------------------------------------------------

    def block(self, name: str) -> Draft:
        """The linked block that the program takes under this name. Raises `Problems`."""
        if name not in self.blocks:
            taken = next(each for each in self.program.takes if each.name == name)
            if name not in self.assembly.blocks:
                missing = problem("block-missing", taken.place, name=name, kind=taken.kind.name)
                raise Problems([missing])
            if name in self.opening:
                raise Problems([self._settings_in_circle(name)])
            self.opening.append(name)
            lines = [line for line in self.program.settings if line.block == name]
            settings = {line.choice: self.of(line.value) for line in lines}
            block = _Linking(self.assembly.blocks[name], f"{self.prefix}{name}.", settings).draft()
            self.opening.pop()
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
            self.blocks[name] = block
        return self.blocks[name]

    def _settings_in_circle(self, block: str) -> Problem:
        """The problem of choices that are set by way of the block they belong to."""
        round_ = self.opening[self.opening.index(block) :]
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
        shared: list[Problem] = []
        for taken in self.program.takes:
            for piece in self.block(taken.name).pieces:
                if (taken.name, piece) in gone or piece in self.own:
                    continue
                first, second = found.setdefault(piece, taken.name), taken.name
                if first != second:
                    place = taken.place
                    shared.append(
                        problem("pieces-share-name", place, first=first, second=second, piece=piece)
                    )
        if shared:
            raise Problems(shared)
        return found

    def _became(self, block: str) -> dict[str, str]:
        """The pieces of a block that are redrafted, with their names in this draft."""
        own = {n: p for n, p in self.own.items() if not p.step}
        became = {p.base[1]: n for n, p in own.items() if p.base is not None and p.base[0] == block}
        # of several redrafts of one piece, that of its own name stands for it
        return became | {n: n for n, p in own.items() if p.base == (block, n)}

    def from_block(self, block: str, name: str) -> PieceLines:
        """A piece of a block, drawn anew where it follows edges that are drawn anew."""
        key = (block, name)
        piece = self.block(block).pieces[name]
        if not piece.follows:
            return piece
        if key not in self.brought:
            self.brought[key] = None
            self.brought[key] = self._followed(block, piece)
        known = self.brought[key]
        if known is None:
            edges = ", ".join(f"{p}.{edge}" for p, edge in piece.follows)
            path = f"{block}.{name} follows {edges}, which needs {block}.{name}"
            raise Problems([problem("cycle", self.own_place(piece), path=path)])
        return known

    def own_place(self, piece: PieceLines) -> Place:
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
                redrawn[old] = self.of(own.edges[edge].curve)
            elif followed_piece != piece.name:
                redrawn[old] = self.from_block(block, followed_piece).edges[edge].curve
        redrawn = {old: new for old, new in redrawn.items() if old != new}
        drawn, finds = followed(piece, redrawn, before, f"{self.prefix}{piece.name}.")
        self.found_again.extend(finds)
        return drawn

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
        names = {n: f"{p}.{name}" for p, name, n in named_nodes(program.pieces)}
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
        if node.type == CONDITION:
            return [] if self._known(number) is not None else self._unsure(node)
        if node.operation == "either":
            sure = self._known(node.inputs[0])
            return list(node.inputs) if sure is None else [node.inputs[1 if sure else 2]]
        if self._setting(node) is not None:
            return [node.inputs[0]]
        return list(node.inputs)

    def _unsure(self, condition: Node) -> list[int]:
        """The parts of a condition that are not known before there is a body."""
        if condition.operation in ("both", "any_of", "negated"):
            return [n for n in condition.inputs if self._known(n) is None]
        return list(condition.inputs)

    def _known(self, number: int) -> bool | None:
        """Whether a condition holds, where that is known once the blocks are: `has` and so on."""
        node = self.graph[number]
        if node.operation == "taken":
            return self._there(node)
        if node.operation not in ("both", "any_of", "negated"):
            return None
        known = [self._known(each) for each in node.inputs]
        if node.operation == "negated":
            return None if known[0] is None else not known[0]
        deciding = (
            node.operation == "any_of"
        )  # one that holds decides an `or`, one that fails an `and`
        if deciding in known:
            return deciding
        return None if None in known else not deciding

    def _setting(self, node: Node) -> int | None:
        """What the taker of this block sets a choice to; None where it sets none."""
        if node.operation != "known" or self.graph[node.inputs[0]].operation != "choice":
            return None
        return self.settings.get(str(self.graph[node.inputs[0]].constant("name")))

    def _there(self, condition: Node) -> bool:
        """Whether the block has the member that a `has` asks for."""
        block = self.block(str(condition.constant("block")))
        piece = block.pieces.get(str(condition.constant("piece")))
        name = str(condition.constant("name"))
        return piece is not None and name in {*piece.points, *piece.edges, *piece.levels}

    def _copy(self, number: int) -> int:
        node, place = self.graph[number], self.graph.places[number]
        if node.operation == "own":
            return self._own(node)
        if node.type == CONDITION:
            known = self._known(number)
            if known is not None:
                return self._truth(known)
            parts = self._unsure(node)
            if len(parts) < len(node.inputs):
                return self.linked[parts[0]]
        if node.operation == "taken":
            return self._taken(node)
        if node.operation == "either":
            known = self._known(node.inputs[0])
            if known is not None:
                return self.linked[node.inputs[1 if known else 2]]
        constants = dict(node.constants)
        if node.operation in _LEAVES:
            constants["name"] = self.prefix + str(constants["name"])
        setting = self._setting(node)
        if setting is not None:
            inputs: tuple[int, ...] = (self.linked[node.inputs[0]], setting)
        else:
            inputs = tuple(self.linked[n] for n in node.inputs)
        return self.graph.add(node.operation, inputs, type=node.type, place=place, **constants)

    def _taken(self, node: Node) -> int:
        sort, name = node.constant("sort"), str(node.constant("name"))
        piece = self.from_block(str(node.constant("block")), str(node.constant("piece")))
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
            own = self.own.get(name)
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
        own, base = self.own.get(name), self._base(name)
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
        own, base = self.own.get(name), self._base(name)
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
        return [*(name for name, piece in self.own.items() if not piece.step), *self.coming]

    def _base(self, name: str) -> PieceLines | None:
        """What a block gives to a piece of this draft."""
        own = self.own.get(name)
        if own is None:
            return self.from_block(self.coming[name], name)
        return self.from_block(*own.base) if own.base is not None else None

    def _has_level(self, name: str, level: str) -> bool:
        own, base = self.own.get(name), self._base(name)
        return (own is not None and level in own.levels) or (
            base is not None and level in base.levels
        )

    def _dressed(self, name: str) -> PieceLines:
        """A piece with its fold and cut, its own or its base's; nothing of it linked."""
        own, base = self.own.get(name), self._base(name)
        if own is None:
            assert base is not None
            return base
        return own if base is None else laid(own, base)

    def piece(self, name: str) -> PieceLines:
        """A whole piece: its own lines laid over its base's."""
        own, base = self.own.get(name), self._base(name)
        if own is None:
            assert base is not None
            became = {**self._became(self.coming[name]), **{n: n for n in self.coming}}
            return replace(base, follows=_renamed(base.follows, became))
        whole = with_nodes(own, self.of)
        if base is None:
            return whole
        assert own.base is not None
        became = {**self._became(own.base[0]), **{n: n for n in self.coming}}
        follows = own.follows or _renamed(base.follows, became)
        return replace(laid(whole, base), follows=follows)

    # --- the whole --------------------------------------------------------------------------------

    def draft(self) -> Draft:
        """The linked draft. Raises `Problems`."""
        program, prefix = self.program, self.prefix
        self._every_block()
        pieces = {name: self.piece(name) for name in self._all_pieces()}
        choices = {prefix + n: self._choice(prefix + n, c) for n, c in program.choices.items()}
        finds = [self._find(line) for line in program.finds]
        names = {f"{p}.{n}": node for p, n, node in named_nodes(pieces)}
        names |= {prefix + n: self.of(node) for n, node in program.lets.items()}
        names |= {n: c.node for n, c in choices.items()}
        measures = dict(program.measures)
        checks = [self._check(check) for check in program.checks]
        seams = [
            replace(s, easing=self.of(s.easing)) if s.easing is not None else s
            for s in program.seams
        ]
        blocks: list[str] = []
        for taken in program.takes:
            block = self.blocks[taken.name]
            choices |= block.choices
            finds.extend(block.finds)
            measures |= block.measures
            names |= {f"{taken.name}.{p}.{n}": node for p, n, node in named_nodes(block.pieces)}
            # what the block itself knows by the name it is taken under: its choices and values
            inside = f"{prefix}{taken.name}."
            names |= {n: node for n, node in block.names.items() if n.startswith(inside)}
            kept = {piece: piece for piece, of in self.coming.items() if of == taken.name}
            carrying = Carrying(block, pieces, {**self._became(taken.name), **kept})
            checks.extend(carrying.checks())
            seams.extend(carrying.seams(taken.name, {seam.name for seam in seams}))
            blocks.append(f"{taken.name} = {_spoken(block)}")
        finds.extend(self.found_again)
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

    def _every_block(self) -> None:
        """Link every block, and raise what is wrong with all of them together."""
        problems: list[Problem] = []
        for taken in self.program.takes:
            try:
                self.block(taken.name)
            except Problems as found:
                self.opening.clear()
                problems.extend(each for each in found.problems if each not in problems)
        if problems:
            raise Problems(problems)

    def _choice(self, name: str, choice: Choice) -> Choice:
        default = self.settings.get(choice.name)
        if default is None:
            default = self.of(choice.default)
        return replace(choice, name=name, default=default, node=self.of(choice.node))

    def _find(self, line: FindLine) -> FindLine:
        linked = self._linked_find(line)
        if linked.unknown not in self.graph.reached_from([linked.left, linked.right]):
            name = line.name.rpartition(".")[2]
            raise Problems([problem("unknown-unused", line.place, name=name)])
        return linked

    def _linked_find(self, line: FindLine) -> FindLine:
        return replace(
            line,
            name=self.prefix + line.name,
            unknown=self.of(line.unknown),
            lowest=self.of(line.lowest),
            highest=self.of(line.highest),
            left=self.of(line.left),
            right=self.of(line.right),
            reference=self._maybe(line.reference),
        )

    def _check(self, check: CheckLine) -> CheckLine:
        return replace(
            check,
            condition=self.of(check.condition),
            measured=self._maybe(check.measured),
            wanted=self._maybe(check.wanted),
        )

    def _maybe(self, number: int | None) -> int | None:
        return self.of(number) if number is not None else None


def _renamed(
    edges: tuple[tuple[str, str], ...], became: Mapping[str, str]
) -> tuple[tuple[str, str], ...]:
    """Edges under the names their pieces have now; those of pieces that are gone left out."""
    return tuple((became[piece], edge) for piece, edge in edges if piece in became)


def _spoken(block: Draft) -> str:
    """A block with those it stands on: `turtleneck(knit_tee)`."""
    inner = ", ".join(each.partition(" = ")[2] for each in block.blocks)
    return f"{block.name}({inner})" if inner else block.name
