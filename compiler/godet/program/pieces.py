"""The statements of one piece.

In: a piece's tree, the name it stands for (one text may draft front and back), and its base.
Out: its scope, and the `PieceLines` that keep what the piece says of itself.

    scope = piece_scope("front", piece, base, root);  piece_lines(piece, scope, yields)
"""

from __future__ import annotations

from fractions import Fraction

from godet.base.places import Place
from godet.base.problems import problem
from godet.graph.types import CONDITION, DIRECTION, LENGTH, POINT
from godet.language import tree
from godet.program.expressions import direction, wanted
from godet.program.members import member, promised
from godet.program.program import CutLine, EdgeLine, NotchLine, PieceLines
from godet.program.scopes import Scope
from godet.program.statements import Yield
from godet.program.values import BlockMeaning, Broken, Meaning, PieceMeaning, Value

_NAMED = (tree.PointIs, tree.CurveIs, tree.LevelIs, tree.Let, tree.Find)
_DRESSING = (
    tree.NotchAt,
    tree.Allow,
    tree.Fold,
    tree.Grain,
    tree.CutOf,
    tree.Mark,
    tree.Title,
)


_ONCE = (tree.Fold, tree.Grain, tree.CutOf, tree.Title)


def piece_scope(
    name: str, piece: tree.Piece, base: tuple[tree.Word, tree.Word] | None, root: Scope
) -> Scope:
    """The scope in which one piece is drafted; names it does not give come from its base."""
    scope = Scope(root.session, root.define, parent=root, title=name)
    scope.fixed["origin"] = _origin(scope)
    if base is not None:
        _inherit(scope, base, root)
    misplaced = False
    for statement in piece.body:
        # told of the first of such lines: they have one heading too few
        if not isinstance(statement, _NAMED + _DRESSING) and not misplaced:
            root.session.report(problem("not-in-a-piece", statement.place))
        misplaced = not isinstance(statement, _NAMED + _DRESSING)
        if isinstance(statement, _NAMED):
            scope.give(statement.name, statement)
    return scope


def _origin(scope: Scope) -> Value:
    session = scope.session
    nought = session.node("number", type=LENGTH, place=None, value=Fraction(0))
    return session.node("point_at", nought, nought, type=POINT, place=None)


def _inherit(scope: Scope, base: tuple[tree.Word, tree.Word], root: Scope) -> None:
    block_name, piece_name = base
    block = root.meaning(block_name.text, block_name.place)
    if isinstance(block, Broken):
        scope.fixed["base"] = block
        return
    if not isinstance(block, BlockMeaning):
        scope.fixed["base"] = root.session.report(
            problem("base-needs-block", block_name.place, name=block_name.text)
        )
        return
    meaning = member(block, piece_name, root)
    scope.fixed["base"] = meaning
    if not isinstance(meaning, PieceMeaning) or meaning.promise is None:
        return
    names = tuple(meaning.promise.members)

    def inherited(name: str, place: Place, asking: Scope) -> Meaning | None:
        return promised(meaning, name, place, asking)

    scope.inherited = inherited
    scope.inherited_names = lambda: names


def piece_lines(piece: tree.Piece, scope: Scope, yields: Yield) -> PieceLines:
    """All that the piece says of itself, as nodes."""
    base = scope.fixed.get("base")
    points: dict[str, int] = {}
    levels: dict[str, int] = {}
    edges: dict[str, EdgeLine] = {}
    values: dict[str, int] = {}
    for name, statement in scope.statements.items():
        meaning = scope.own(name)
        if not isinstance(meaning, Value):
            # what is wrong with it is told already; that the kind lacks it would be the echo
            scope.session.lost.add(name)
            continue
        if isinstance(statement, tree.PointIs):
            points[name] = meaning.node
        elif isinstance(statement, tree.LevelIs):
            levels[name] = meaning.node
        elif isinstance(statement, tree.CurveIs) and statement.edge:
            blends = yields.drawn[(scope.title, name)].blends
            edges[name] = EdgeLine(meaning.node, statement.place, blends)
        else:
            values[name] = meaning.node
    if isinstance(base, Broken):
        scope.session.lost.add(scope.title)
    dressing = _Dressing(scope)
    for line in piece.body:
        dressing.read(line)
    when = wanted(piece.when, scope, CONDITION, "`when`") if piece.when is not None else None
    origin = (base.block or "", base.name) if isinstance(base, PieceMeaning) else None
    return PieceLines(
        name=scope.title,
        place=piece.place,
        base=origin,
        points=points,
        edges=edges,
        levels=levels,
        notches=tuple(dressing.notches),
        allowances=dressing.allowances,
        fold=dressing.fold,
        grain=dressing.grain,
        cut=dressing.cut,
        marks=tuple(dressing.marks),
        title=dressing.title,
        when=when.node if isinstance(when, Value) else None,
        values=values,
    )


class _Dressing:
    """What is put on the outline: notches, allowances, fold, grain, cut, marks."""

    def __init__(self, scope: Scope) -> None:
        self.scope = scope
        self.notches: list[NotchLine] = []
        self.allowances: dict[str, int | None] = {}
        self.fold: tuple[str, Place] | None = None
        self.grain: int | None = None
        self.cut: CutLine | None = None
        self.marks: list[str] = []
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
            case tree.Fold() if self._is_edge(line.edge):
                self.fold = (line.edge.text, line.place)
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

    def _is_edge(self, name: tree.Word) -> bool:
        meaning = self.scope.meaning(name.text, name.place)
        base = self.scope.fixed.get("base")
        own = {(self.scope.title, name.text)}
        if isinstance(base, PieceMeaning):
            own.add((f"{base.block}.{base.name}", name.text))
        if isinstance(meaning, Value) and meaning.edge in own:
            return True
        if not isinstance(meaning, Broken):
            self.scope.session.report(
                problem(
                    "wrong-type",
                    name.place,
                    what="this",
                    wanted="an edge of this piece",
                    found=meaning,
                )
            )
        return False

    def _notch(self, line: tree.NotchAt) -> None:
        at = wanted(line.at, self.scope, POINT, "`notch`")
        if self._is_edge(line.edge) and isinstance(at, Value):
            name = line.at.name if isinstance(line.at, tree.Name) else ""
            self.notches.append(NotchLine(line.edge.text, at.node, line.place, name))

    def _allow(self, line: tree.Allow) -> None:
        amount: int | None = None
        if line.amount is not None:
            given = wanted(line.amount, self.scope, LENGTH, "`allow`")
            if isinstance(given, Broken):
                return
            amount = given.node
        for edge in line.edges:
            if not self._is_edge(edge):
                continue
            if edge.text in self.allowances:
                self.scope.session.report(problem("given-twice", edge.place, name=edge.text))
            self.allowances[edge.text] = amount

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
            self.scope.session.report(problem("cut-count", count.place))
            return
        self.cut = CutLine(int(value), line.cloth.text, line.mirrored, line.place)

    def _mark(self, line: tree.Mark) -> None:
        """Only a point that the piece names can be marked: a mark is printed with its name."""
        for name in line.names:
            meaning = self.scope.meaning(name.text, name.place)
            named = not isinstance(self.scope.statements.get(name.text), tree.Let)
            is_point = isinstance(meaning, Value) and meaning.type == POINT
            if is_point and named and name.text not in self.scope.fixed:
                self.marks.append(name.text)
            elif not isinstance(meaning, Broken):
                self.scope.session.report(
                    problem(
                        "wrong-type",
                        name.place,
                        what="`mark`",
                        wanted="a named point of the piece",
                        found=meaning,
                    )
                )
