"""What a program's pieces are drafted from, once it is altered: worked out when first asked for.

In: the program's own pieces, open; how to link a node, and how to tell a linked piece by its title.
Out: the lines of a base after its alterations, and the members that placeholders stand for. A
member that the alterations took away, and pieces that need each other, raise `Problems`.

    bases.lines("front").edges["side"]
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from godet.base.places import Place
from godet.base.problems import Problems, problem
from godet.graph.node import Graph, Node
from godet.program import altering
from godet.program.altering import gone
from godet.program.laying import nodes_of
from godet.program.program import DartLine, PieceLines


@dataclass(slots=True)
class AlteredBases:
    own: Mapping[str, PieceLines]
    graph: Graph
    of: Callable[[int], int]
    titled: Callable[[str], PieceLines]  # `front`, `top.front`
    _lines: dict[str, PieceLines | None] = field(default_factory=dict)  # None: being altered

    def needs(self, name: str) -> list[int]:
        """The open nodes that a piece's base, and how it is altered, are written with."""
        own = self.own[name]
        needs = [n for line in own.alterations for n in altering.nodes_of(line)]
        if own.base is not None and own.base[0] == "":
            before = self.own[own.base[1]]
            needs.extend(nodes_of(before))
            needs.extend(self.needs(before.name) if before.alterations else [])
        return needs

    def member(self, placeholder: Node, place: Place | None) -> int:
        """The linked node that a placeholder stands for."""
        lines = self.lines(str(placeholder.constant("piece")))
        name = str(placeholder.constant("name"))
        match placeholder.constant("sort"):
            case "point" if name in lines.points:
                return lines.points[name]
            case "level" if name in lines.levels:
                return lines.levels[name]
            case "dart" if self._is_still(lines.darts.get(name), placeholder):
                return lines.darts[name].node
            case "edge" if name in lines.edges:
                return lines.edges[name].curve
        raise Problems([gone(lines, name, place, f" `base.{name}` is what it was before.")])

    def _is_still(self, dart: DartLine | None, placeholder: Node) -> bool:
        """Whether what bears a name is of the type it had before: a dart may be gathers now."""
        return dart is not None and self.graph[dart.node].type == placeholder.type

    def lines(self, name: str) -> PieceLines:
        """The base of one of the program's pieces, once it is altered."""
        if name not in self._lines:
            own = self.own[name]
            assert own.base is not None
            base = self.titled(".".join(part for part in own.base if part))
            self._lines[name] = None
            self._lines[name] = altering.altered(
                base, own.alterations, self.graph, self.of, self.titled
            )
        found = self._lines[name]
        if found is None:
            waiting = [n for n, lines in self._lines.items() if lines is None]
            path = " needs ".join([*waiting[waiting.index(name) :], name])
            raise Problems([problem("cycle", self.own[name].place, path=path)])
        return found
