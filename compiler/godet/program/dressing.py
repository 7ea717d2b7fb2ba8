"""What is put on the outline of a piece: notches, allowances, corners, fold, grain, cut, marks.

In: the statements of a piece that dress it, and its scope. Out: what they say, as nodes. An edge
that is none of the piece's, a name said twice, and what is of a wrong type are problems.

    dressing = Dressing(scope);  dressing.read(line);  dressing.allowances["side"]
"""

from __future__ import annotations

from fractions import Fraction

from godet.base.places import Place
from godet.base.problems import problem
from godet.graph.types import CONDITION, DIRECTION, LENGTH, POINT, RATIO
from godet.language import tree
from godet.program.expressions import condition, direction, evaluate, wanted
from godet.program.members import lineage
from godet.program.program import CornerLine, CutLine, FoldLine, MarkLine, NotchLine
from godet.program.scopes import Scope
from godet.program.values import Broken, PieceMeaning, Value, wrong_type

_ONCE = (tree.Fold, tree.Grain, tree.CutOf, tree.Title)


class Dressing:
    """What is put on the outline: notches, allowances, fold, grain, cut, marks."""

    def __init__(self, scope: Scope) -> None:
        self.scope = scope
        self.notches: list[NotchLine] = []
        self.allowances: dict[str, int | None] = {}
        self.allowed_at: dict[str, Place] = {}
        self.corners: dict[str, tuple[CornerLine, ...]] = {}
        self.fold: FoldLine | None = None
        self.grain: int | None = None
        self.cut: CutLine | None = None
        self.marks: list[MarkLine] = []
        self.title = ""
        self.said: set[str] = set()

    def read(self, line: tree.Statement) -> None:
        if isinstance(line, _ONCE):
            word = type(line).__name__.removesuffix("Of").lower()
            if word in self.said:
                self.scope.session.report(problem("given-twice", line.place, name=word))
                return
            self.said.add(word)
        match line:
            case tree.NotchAt():
                self._notch(line)
            case tree.Allow():
                self._allow(line)
            case tree.Fold(edge=None):
                if self.scope.own("base") is not None:
                    self.fold = FoldLine("", line.place, self._never(), takes_away=True)
            case tree.Fold(edge=tree.Word() as edge) if self._is_edge(edge):
                self._fold(edge.text, line)
            case tree.Grain():
                self._grain(line)
            case tree.CutOf():
                self._cut(line)
            case tree.Mark():
                self._mark(line)
            case tree.Title():
                self.title = line.text
            case _:
                pass

    def _fold(self, edge: str, line: tree.Fold) -> None:
        if line.like is None:
            self.fold = FoldLine(edge, line.place, condition(line.when, self.scope))
            return
        other = evaluate(line.like, self.scope)
        if isinstance(other, PieceMeaning):
            self.fold = FoldLine(edge, line.place, like=other.title)
        elif not isinstance(other, Broken):
            self.scope.session.report(wrong_type(line.like.place, "`fold .. as`", "a piece", other))

    def _never(self) -> int:
        """A condition that fails: that nought is more than nought."""
        graph = self.scope.session.graph
        nought = graph.add("number", type=RATIO, place=None, value=Fraction(0))
        return graph.add("more_than", (nought, nought), type=CONDITION, place=None)

    def _is_edge(self, name: tree.Word) -> bool:
        meaning = self.scope.meaning(name.text, name.place)
        itself = PieceMeaning(self.scope.title, scope=self.scope)
        own = {(piece.title, name.text) for piece in lineage(itself)}
        if isinstance(meaning, Value) and meaning.edge in own:
            return True
        if not isinstance(meaning, Broken):
            self.scope.session.report(
                wrong_type(name.place, "this", "an edge of this piece", meaning)
            )
        return False

    def _notch(self, line: tree.NotchAt) -> None:
        at = wanted(line.at, self.scope, POINT, "`notch`")
        when = condition(line.when, self.scope)
        if self._is_edge(line.edge) and isinstance(at, Value):
            name = line.at.name if isinstance(line.at, tree.Name) else ""
            self.notches.append(NotchLine(line.edge.text, at.node, line.place, name, when=when))

    def _allow(self, line: tree.Allow) -> None:
        amount: int | None = None
        if line.amount is not None:
            given = wanted(line.amount, self.scope, LENGTH, "`allow`")
            if isinstance(given, Broken):
                return
            amount = given.node
        corners = []
        for cornered in line.corners:
            at = wanted(cornered.at, self.scope, POINT, f"`{cornered.shape} at`")
            if isinstance(at, Value):
                corners.append(CornerLine(at.node, cornered.shape, cornered.place))
        for edge in line.edges:
            if not self._is_edge(edge):
                continue
            if edge.text in self.allowances:
                self.scope.session.report(problem("given-twice", edge.place, name=edge.text))
            self.allowances[edge.text] = amount
            self.allowed_at[edge.text] = line.place
            self.corners[edge.text] = tuple(corners)

    def _grain(self, line: tree.Grain) -> None:
        origin = self.scope.fixed["origin"]
        assert isinstance(origin, Value)
        if line.direction.how not in ("down", "up", "outward", "inward", "at"):
            self.scope.session.report(problem("grain-direction", line.direction.place))
            return
        way = direction(line.direction, origin, origin, self.scope)
        if isinstance(way, Value) and way.type == DIRECTION:
            self.grain = way.node

    def _cut(self, line: tree.CutOf) -> None:
        count = line.count
        whole = isinstance(count, tree.Number) and count.quantity.kind == "bare"
        value = count.quantity.value if isinstance(count, tree.Number) else Fraction(0)
        if not whole or value.denominator != 1 or value < 1:
            typed = count.typed if isinstance(count, tree.Number) else "this"
            self.scope.session.report(problem("cut-count", count.place, count=typed))
            return
        self.cut = CutLine(int(value), line.cloth.text, line.mirrored, line.place)

    def _mark(self, line: tree.Mark) -> None:
        """Only a point that the piece names can be marked: a mark is printed with its name."""
        when = condition(line.when, self.scope)
        for name in line.names:
            meaning = self.scope.meaning(name.text, name.place)
            named = not isinstance(self.scope.statements.get(name.text), tree.Let)
            is_point = isinstance(meaning, Value) and meaning.type == POINT
            if is_point and named and name.text not in self.scope.fixed:
                self.marks.append(MarkLine(name.text, when))
            elif not isinstance(meaning, Broken):
                self.scope.session.report(
                    wrong_type(name.place, "`mark`", "a named point of the piece", meaning)
                )
