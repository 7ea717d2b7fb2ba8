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

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from godet.base.places import Place
from godet.base.problems import Note, Problem, Problems, problem
from godet.graph.node import Node
from godet.graph.taken_up import sewn_inputs
from godet.graph.types import CONDITION, LENGTH, RATIO
from godet.program import unknowns
from godet.program.altered_bases import AlteredBases
from godet.program.altering import gone
from godet.program.blocks import Assembly, Blocks
from godet.program.carrying import Carrying, known_as
from godet.program.draft import Draft
from godet.program.laying import (
    as_sewn,
    flattened,
    laid,
    named_nodes,
    outer,
    outline,
    times,
    with_nodes,
)
from godet.program.named_edges import lost_by_piece, lost_by_seams
from godet.program.program import CLOTH, CheckLine, Choice, FindLine, PieceLines
from godet.program.sewn_seams import in_order, matched, with_lengths, with_other_nodes


def link(assembly: Assembly) -> tuple[Draft | None, tuple[Problem, ...]]:
    """The draft of a program on these blocks; None when a block is not of the kind it needs."""
    try:
        return _linked(assembly, "", {}), ()
    except Problems as found:
        return None, found.problems


def _linked(assembly: Assembly, prefix: str, settings: Mapping[str, int]) -> Draft:
    """The draft of a program, its choices and unknowns known behind a prefix. Raises `Problems`."""
    return _Linking(assembly, prefix, settings).draft()


_LEAVES = frozenset({"choice", "unknown"})


class _Linking:
    """Copies the nodes of one program, filling in what was left open."""

    def __init__(self, assembly: Assembly, prefix: str, settings: Mapping[str, int]) -> None:
        self.program = assembly.program
        self.prefix = prefix
        self.settings = settings  # choices that the taker of this block sets: linked nodes
        self.graph = self.program.graph
        self.linked: dict[int, int] = {}
        self.own = flattened(self.program.pieces)
        self.blocks = Blocks(assembly, prefix, settings, self.own, self.of, self._altered, _linked)
        self.altered = AlteredBases(self.own, self.graph, self.of, self._titled)

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
        notes += [self._as_altered(n) for n in nodes if self.graph[n].operation == "altered"]
        return problem("cycle", path[0][1] if path else program.place, path=way, notes=notes)

    def _as_altered(self, number: int) -> Note:
        name = self.graph[number].constant("name")
        words = f"`{name}` is here what the alteration makes of it; before it, it is `base.{name}`"
        return Note(words, self.graph.places[number])

    def _needs(self, number: int) -> list[int]:
        """The open nodes that must be linked before this one."""
        node = self.graph[number]
        if node.operation == "own":
            return self._own_needs(node)
        if node.operation == "altered":
            return self.altered.needs(str(node.constant("piece")))
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
        block = self.blocks.block(str(condition.constant("block")))
        piece = block.pieces.get(str(condition.constant("piece")))
        name = str(condition.constant("name"))
        return piece is not None and name in piece.members

    def _copy(self, number: int) -> int:
        node, place = self.graph[number], self.graph.places[number]
        if node.operation == "own":
            return self._own(node, place)
        if node.operation == "altered":
            return self.altered.member(node, place)
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
            inputs = sewn_inputs(self.graph, node.operation, inputs)
        return self.graph.add(node.operation, inputs, type=node.type, place=place, **constants)

    def _taken(self, node: Node) -> int:
        sort, name = node.constant("sort"), str(node.constant("name"))
        piece = self.blocks.piece(str(node.constant("block")), str(node.constant("piece")))
        match sort:
            case "point":
                return piece.points[name]
            case "level":
                return piece.levels[name]
            case "edge":
                return piece.edges[name].curve
            case "dart":
                return piece.darts[name].node
            case "width":
                return piece.widths[name]
            case "outline":
                return outline(piece.edges, piece.darts, self.graph)
            case _:
                return self._number(times(piece))

    def _altered(self, name: str) -> PieceLines:
        """The base of one of the program's pieces, once it is altered."""
        return self.altered.lines(name)

    def _titled(self, title: str) -> PieceLines:
        """A piece by its title: the program's own, or `top.front`."""
        block, _, name = title.rpartition(".")
        return self.blocks.piece(block, name) if block else self.piece(name)

    def _own_needs(self, node: Node) -> list[int]:
        pieces = [str(node.constant("piece"))]
        level = str(node.constant("name"))
        if node.constant("sort") == "girth":
            pieces = self._round_the_garment(level)
        needs: list[int] = []
        for name in pieces:
            own = self.own.get(name)
            if own is None or node.constant("sort") == "times":
                continue
            needs.extend(edge.curve for edge in own.edges.values())
            needs.extend(dart.node for dart in own.darts.values())
            if own.when is not None:
                needs.append(own.when)
            if level in own.levels:
                needs.append(own.levels[level])
        return needs

    def _own(self, node: Node, place: Place | None) -> int:
        sort, name = node.constant("sort"), str(node.constant("piece"))
        if sort == "times":
            return self._number(times(self._dressed(name)))
        if sort == "outline":
            return self._outline(name)
        if sort == "width":
            return self._width(name, str(node.constant("name")), place)
        return self._girth(str(node.constant("name")), place)

    def _outline(self, name: str) -> int:
        own, base = self.own.get(name), self._base(name)
        edges = dict(base.edges) if base is not None else {}
        darts = dict(base.darts) if base is not None else {}
        if own is not None:
            edges |= {n: replace(e, curve=self.linked[e.curve]) for n, e in own.edges.items()}
            darts |= {n: replace(d, node=self.linked[d.node]) for n, d in own.darts.items()}
        return outline(edges, darts, self.graph)

    def _girth(self, level: str, place: Place | None) -> int:
        """The whole width of the pieces round the garment, added up in the order of names."""
        names = self._round_the_garment(level)
        if not names:  # the typed program has seen the level, but an alteration took it away
            raise Problems([problem("no-such-level", place, name=level, hint="")])
        total = self._whole_width(names[0], level)
        for name in names[1:]:
            whole = self._whole_width(name, level)
            total = self.graph.add("add", (total, whole), type=LENGTH, place=None)
        return total

    def _round_the_garment(self, level: str) -> list[str]:
        """The pieces that have the level, without a lining or interfacing under others."""
        names = (name for name in self._all_pieces() if self._has_level(name, level))
        cuts = {name: self._dressed(name).cut for name in names}
        return outer({n: cut.cloth if cut is not None else CLOTH for n, cut in cuts.items()})

    def _width(self, name: str, level: str, place: Place | None) -> int:
        """The width of a drawn piece along a level, as sewn."""
        own, base = self.own.get(name), self._base(name)
        redrawn = own is not None and (own.edges or own.darts or own.levels)
        if base is not None and not redrawn and level in base.widths:
            return base.widths[level]
        if own is not None and level in own.levels:
            down = self.linked[own.levels[level]]
        else:
            assert base is not None
            if level not in base.levels:
                raise Problems([gone(base, level, place)])
            down = base.levels[level]
        measured = sewn_inputs(self.graph, "width", (self._outline(name), down))
        return self.graph.add("width", measured, type=LENGTH, place=place)

    def _whole_width(self, name: str, level: str) -> int:
        """The width of a piece along a level, as often as it is cut; nothing while it is left out
        by its condition."""
        own, base, graph = self.own.get(name), self._base(name), self.graph
        width = self._width(name, level, None)
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
        return [*(name for name, piece in self.own.items() if not piece.step), *self.blocks.coming]

    def _base(self, name: str) -> PieceLines | None:
        """What a block gives to a piece of this draft."""
        own = self.own.get(name)
        if own is None:
            return self.blocks.piece(self.blocks.coming[name], name)
        if own.alterations:
            return self._altered(name)
        return self.blocks.piece(*own.base) if own.base is not None else None

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
            names = self.blocks.names_now(self.blocks.coming[name])
            return replace(base, follows=_renamed(base.follows, names))
        whole = self._folded(with_nodes(own, self.of))
        if base is None:
            return whole
        assert own.base is not None
        names = self.blocks.names_now(own.base[0]) if own.base[0] else {}
        follows = own.follows or _renamed(base.follows, names)
        return _without_idle_fold(replace(laid(whole, base), follows=follows))

    def _named_elsewhere(self, block: str) -> set[str]:
        """The names of seams of the program itself and of its other blocks."""
        others = (taken.name for taken in self.program.takes if taken.name != block)
        own = {seam.name for seam in self.program.seams}
        return own.union(*({s.name for s in self.blocks.block(each).seams} for each in others))

    def _folded(self, piece: PieceLines) -> PieceLines:
        """The piece on the fold where the one is that it names for that."""
        if piece.fold is None or piece.fold.like is None:
            return piece
        other = self._titled(piece.fold.like).fold
        if other is None:
            return replace(piece, fold=None)
        return replace(piece, fold=replace(piece.fold, when=other.when, like=None))

    # --- the whole --------------------------------------------------------------------------------

    def draft(self) -> Draft:
        """The linked draft. Raises `Problems`."""
        program, prefix = self.program, self.prefix
        self.blocks.link_all()
        pieces = {name: as_sewn(self.piece(name), self.graph) for name in self._all_pieces()}
        self._all_there(pieces)
        choices = {prefix + n: self._choice(prefix + n, c) for n, c in program.choices.items()}
        finds = [self._find(line) for line in program.finds]
        if without := unknowns.unused(self.graph, finds):
            raise Problems(without)
        names = {f"{p}.{n}": node for p, n, node in named_nodes(pieces)}
        names |= {prefix + n: self.of(node) for n, node in program.lets.items()}
        names |= {n: c.node for n, c in choices.items()}
        measures = dict(program.measures)
        checks = [self._check(check) for check in program.checks]
        seams = [with_other_nodes(seam, self.of) for seam in program.seams]
        blocks: list[str] = []
        taken_seams: set[str] = set()
        for taken in program.takes:
            block = self.blocks.block(taken.name)
            elsewhere = self._named_elsewhere(taken.name)
            taken_seams |= {known_as(seam.name, taken.name, elsewhere) for seam in block.seams}
            choices |= block.choices
            finds.extend(block.finds)
            measures |= block.measures
            names |= {f"{taken.name}.{p}.{n}": node for p, n, node in named_nodes(block.pieces)}
            # what the block itself knows by the name it is taken under: its choices and values
            inside = f"{prefix}{taken.name}."
            names |= {n: node for n, node in block.names.items() if n.startswith(inside)}
            carrying = Carrying(block, pieces, self.blocks.names_now(taken.name))
            checks.extend(carrying.checks())
            seams.extend(carrying.seams(taken.name, elsewhere))
            blocks.append(f"{taken.name} = {_spoken(block)}")
        kind = program.makes.name if program.makes is not None else None
        also = program.makes.also if program.makes is not None else frozenset()
        settable = {name: choice.type for name, choice in program.choices.items()}
        if program.makes_kind_of is not None:
            block = self.blocks.block(program.makes_kind_of)
            kind, also = block.kind, block.also
            set_here = {s.choice for s in program.settings if s.block == program.makes_kind_of}
            through = {n: type for n, type in block.settable.items() if n not in set_here}
            settable = through | settable
        finds.extend(self.blocks.found_again)
        seams = matched(seams, program.matches, self.of)
        seams_in_order = in_order(seams, taken_seams)
        return Draft(
            name=program.name,
            doc=program.doc,
            edition=program.edition,
            file=program.file,
            graph=self.graph,
            kind=kind,
            also=also,
            pieces=pieces,
            seams=tuple(with_lengths(seam, pieces, self.graph) for seam in seams_in_order),
            checks=tuple(checks),
            finds=tuple(finds),
            choices=choices,
            settable=settable,
            measures=dict(sorted(measures.items())),
            names=names,
            blocks=tuple(blocks),
        )

    def _all_there(self, pieces: Mapping[str, PieceLines]) -> None:
        """Raises `Problems` where the recipe's own lines name what alterations took away."""
        program = self.program
        lost = [
            each
            for name, own in program.pieces.items()
            if name in pieces
            for each in lost_by_piece(own, pieces[name])
        ]
        lost.extend(lost_by_seams(program.seams, pieces))
        if lost:
            raise Problems(lost)

    def _choice(self, name: str, choice: Choice) -> Choice:
        default = self.settings.get(choice.name)
        if default is None:
            default = self.of(choice.default)
        return replace(choice, name=name, default=default, node=self.of(choice.node))

    def _find(self, line: FindLine) -> FindLine:
        return unknowns.with_nodes(line, self.of, self.prefix + line.name)

    def _check(self, check: CheckLine) -> CheckLine:
        return replace(
            check,
            condition=self.of(check.condition),
            measured=self._maybe(check.measured),
            wanted=self._maybe(check.wanted),
        )

    def _maybe(self, number: int | None) -> int | None:
        return self.of(number) if number is not None else None


def _without_idle_fold(piece: PieceLines) -> PieceLines:
    """The piece without a line that takes a fold away where there is none."""
    idle = piece.fold is not None and piece.fold.takes_away
    return replace(piece, fold=None) if idle else piece


def _renamed(
    edges: tuple[tuple[str, str], ...], became: Mapping[str, str]
) -> tuple[tuple[str, str], ...]:
    """Edges under the names their pieces have now; those of pieces that are gone left out."""
    return tuple((became[piece], edge) for piece, edge in edges if piece in became)


def _spoken(block: Draft) -> str:
    """A block with those it stands on: `turtleneck(knit_tee)`."""
    inner = ", ".join(each.partition(" = ")[2] for each in block.blocks)
    return f"{block.name}({inner})" if inner else block.name
