"""The statements of one piece.

In: a piece's tree, the name it stands for (one text may draft front and back), and its base.
Out: its scope, and the `PieceLines` that keep what the piece says of itself.

    scope = piece_scope("front", piece, base, root);  piece_lines(piece, scope, yields)
"""

from __future__ import annotations

from fractions import Fraction

from godet.base.problems import problem
from godet.graph.types import CURVE, LENGTH, POINT
from godet.language import tree
from godet.program.alterations import AlterationLine
from godet.program.altering_lines import altering_lines
from godet.program.dressing import Dressing
from godet.program.expressions import condition, evaluate, wanted
from godet.program.inheriting import FromAltered, FromBase
from godet.program.laying import met
from godet.program.members import (
    lineage,
)
from godet.program.program import DartLine, EdgeLine, PieceLines
from godet.program.scopes import Scope
from godet.program.values import (
    BROKEN,
    BlockMeaning,
    Broken,
    Meaning,
    PieceMeaning,
    Value,
)
from godet.program.yields import Yield

_NAMED = (
    tree.PointIs,
    tree.CurveIs,
    tree.LevelIs,
    tree.DartOn,
    tree.DoubleDart,
    tree.MeetingDarts,
    tree.Let,
    tree.Find,
)
_DRESSING = (
    tree.NotchAt,
    tree.Allow,
    tree.Fold,
    tree.Grain,
    tree.CutOf,
    tree.Mark,
    tree.Title,
)


_OF_A_MEASURE = "it says something of a measure, between `define measure` and `end`"
# where what is no line of a piece belongs, if not at the recipe's level
_BELONGS: dict[type[tree.Statement], str] = {
    tree.KindMembers: "it is a line of a kind, and a piece draws what it names",
    tree.KindChoices: "it is a line of a kind",
    tree.Means: _OF_A_MEASURE,
    tree.Take: _OF_A_MEASURE,
    tree.Range: _OF_A_MEASURE,
    tree.Estimate: _OF_A_MEASURE,
}


def piece_scope(name: str, piece: tree.Piece, base: tree.Expression | None, root: Scope) -> Scope:
    """The scope in which one piece is drafted; names it does not give come from its base."""
    scope = Scope(root.session, root.define, parent=root, title=name)
    scope.fixed["origin"] = _origin(scope)
    if base is not None:
        scope.give(tree.Word("base", base.place), tree.Base(base.place, base))
        scope.inherits = FromBase(scope)
    misplaced = False
    for statement in piece.body:
        if isinstance(statement, tree.Alter):
            _enter_alterations(scope, statement, base)
            continue
        # told of the first of such lines: they have one heading too few
        if not isinstance(statement, _NAMED + _DRESSING) and not misplaced:
            where = _BELONGS.get(type(statement), "put it at the recipe's level, behind `end`")
            root.session.report(problem("not-in-a-piece", statement.place, where=where))
        misplaced = not isinstance(statement, _NAMED + _DRESSING)
        if isinstance(statement, _NAMED):
            scope.give(statement.name, statement)
    if base is not None:
        _edges_for_darts(scope)
    return scope


def _enter_alterations(scope: Scope, statement: tree.Alter, base: tree.Expression | None) -> None:
    session = scope.session
    if base is None:
        session.report(problem("alters-nothing", statement.place))
    elif scope.alterations:
        session.report(problem("altered-twice", statement.place))
    else:
        scope.alterations = statement.steps
        scope.inherits = FromAltered(scope, FromBase(scope))


def _edges_for_darts(scope: Scope) -> None:
    """An edge that the piece only puts a dart on is its base's, once altered, with that dart."""
    for statement in list(scope.statements.values()):
        if isinstance(statement, tree.DartOn) and statement.edge.text not in scope.statements:
            edge = statement.edge
            inherited = tree.Inherited(edge.place, edge)
            whole = tree.Part(edge.place, inherited, None, None, False, None, None)
            chain = tree.Chain(edge.place, (whole,), ())
            scope.give(edge, tree.CurveIs(statement.place, edge, chain, edge=True))


def _origin(scope: Scope) -> Value:
    session = scope.session
    nought = session.node("number", type=LENGTH, place=None, value=Fraction(0))
    return session.node("point_at", nought, nought, type=POINT, place=None)


def step(title: str, piece: tree.Piece, root: Scope) -> PieceMeaning:
    """A piece drawn by a `define piece` on the way to another; `root` holds its parameters."""
    base = piece.bases[0] if piece.bases else None
    scope = piece_scope(title, piece, base, root)
    root.session.steps[title] = (piece, scope)
    return PieceMeaning(title, scope=scope)


def base_meaning(base: tree.Base, scope: Scope) -> Meaning:
    """The piece that a piece is drafted from; `scope` is the piece's own."""
    outside = scope.parent
    assert outside is not None
    named = base.value.name if isinstance(base.value, tree.Name) else ""
    # whatever is drawn on the way is known by the piece it is drawn for
    asking = Scope(scope.session, scope.define, parent=outside, title=scope.title)
    meaning = outside.fixed.get(named) or outside.piece(named) or evaluate(base.value, asking)
    if isinstance(meaning, PieceMeaning) and meaning.scope is not None:
        # asked for here, so that pieces drafted from each other are found where the circle closes
        deeper = meaning.scope.own("base")
        return BROKEN if isinstance(deeper, Broken) else meaning
    if isinstance(meaning, PieceMeaning | Broken):
        return meaning
    hint = ""
    if isinstance(meaning, BlockMeaning):
        hint = f" It has {', '.join(f'`{meaning.name}.{piece}`' for piece in meaning.kind.pieces)}."
    return scope.session.report(problem("base-is-no-piece", base.place, found=meaning, hint=hint))


def piece_lines(piece: tree.Piece, scope: Scope, yields: Yield) -> PieceLines:
    """All that the piece says of itself, as nodes."""
    base = scope.own("base")
    if isinstance(base, Broken):
        scope.session.lost.add(scope.title)
    points: dict[str, int] = {}
    levels: dict[str, int] = {}
    edges: dict[str, EdgeLine] = {}
    values: dict[str, int] = {}
    darts: dict[str, DartLine] = {}
    for name, statement in scope.statements.items():
        meaning = scope.own(name)
        if isinstance(statement, tree.Base):
            continue
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
            begins_with = _begins_with(statement, scope)
            edges[name] = EdgeLine(meaning.node, statement.place, blends, begins_with)
        elif isinstance(statement, tree.DartOn):
            darts[name] = _dart_on(meaning, statement, scope)
        elif isinstance(statement, tree.DoubleDart):
            darts[name] = DartLine(meaning.node, "double", statement.place)
        elif isinstance(statement, tree.MeetingDarts):
            graph = scope.session.graph
            upper, lower = graph[meaning.node].inputs
            darts[name] = met(upper, lower, graph, statement.place)
        else:
            values[name] = meaning.node
    dressing = Dressing(scope)
    for line in piece.body:
        dressing.read(line)
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
        allowed_at=dressing.allowed_at,
        corners=dressing.corners,
        fold=dressing.fold,
        grain=dressing.grain,
        cut=dressing.cut,
        marks=tuple(dressing.marks),
        title=dressing.title,
        when=condition(piece.when, scope),
        values=values,
        follows=_followed(piece, scope),
        step=scope.title in scope.session.steps,
        darts=darts,
        alterations=_alterations(scope),
    )


def _alterations(scope: Scope) -> tuple[AlterationLine, ...]:
    inherits = scope.inherits
    if not isinstance(inherits, FromAltered):
        return ()
    return altering_lines(scope.alterations, scope, inherits.base)


def _dart_on(dart: Value, statement: tree.DartOn, scope: Scope) -> DartLine:
    edge = scope.session.graph[dart.node].inputs[0]
    strays = scope.session.node("dart_strays", edge, dart, type=LENGTH, place=statement.place)
    return DartLine(dart.node, "dart", statement.place, statement.edge.text, strays.node)


def _begins_with(statement: tree.CurveIs, scope: Scope) -> str | None:
    """The edge of the base that an edge of another name begins with a part of."""
    first = statement.chain.parts[0]
    if not isinstance(first, tree.Part):
        return None
    part = evaluate(first.curve, scope)
    titles = {piece.title for piece in lineage(PieceMeaning(scope.title, scope=scope))}
    if not isinstance(part, Value) or part.edge is None:
        return None
    piece, name = part.edge
    of_base = piece in titles - {scope.title}
    return name if of_base and name != statement.name.text else None


def _followed(piece: tree.Piece, scope: Scope) -> tuple[tuple[str, str], ...]:
    """The edges of other pieces that the piece is drafted to."""
    root = scope.parent
    assert root is not None
    followed = []
    for written in piece.follows:
        edge = wanted(written, root, CURVE, "`follows`")
        if isinstance(edge, Broken):
            continue
        if edge.edge is None or edge.edge[0] not in root.pieces or edge.edge[0] == scope.title:
            root.session.report(problem("follows-no-edge", written.place))
            continue
        followed.append(edge.edge)
    return tuple(followed)
