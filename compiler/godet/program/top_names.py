"""The names at a recipe's level: measures, choices, values, functions, pieces.

In: a parsed file and the recipe's scope, which the names enter. Out: the scope of each piece. A
measure that no vocabulary has, a name given twice, and pieces that do not match their bases are
problems.

    enter(file, root, yields);  pieces = piece_scopes(file, root)
"""

from __future__ import annotations

from collections.abc import Mapping

from godet.base.near_names import did_you_mean
from godet.base.problems import Note, Problem, problem
from godet.graph.types import FABRIC
from godet.language import tree
from godet.program.expressions import evaluate
from godet.program.headings import NAMED
from godet.program.kinds import KindPiece
from godet.program.own_functions import body, parameter_given_twice, parameter_type
from godet.program.pieces import piece_lines, piece_scope
from godet.program.scopes import Scope
from godet.program.statements import find_line
from godet.program.values import BROKEN, ClothMeaning, Meaning, PieceMeaning
from godet.program.yields import Yield


def enter(file: tree.File, root: Scope, yields: Yield) -> None:
    for statement in file.statements:
        if isinstance(statement, tree.Measures):
            enter_measures(statement, root, yields.definitions)
        elif isinstance(statement, NAMED):
            root.give(statement.name, statement)


def enter_measures(
    line: tree.Measures, scope: Scope, definitions: Mapping[str, tree.DefineMeasure]
) -> None:
    """Enter what a `measure` line asks for, of a recipe or of a module."""
    for name in line.names:
        if name.text in definitions:
            scope.give(name, line)
            continue
        unknown = _no_measure(name, definitions)
        scope.fixed[name.text] = scope.session.report(unknown)
        if unknown.fix is not None:
            scope.session.lost.add(unknown.fix.replacement)  # asked for in all but spelling


def _no_measure(name: tree.Word, definitions: Mapping[str, tree.DefineMeasure]) -> Problem:
    hint, fix = did_you_mean(name.text, definitions, name.place)
    return problem("unknown-measure", name.place, name=name.text, hint=hint, fix=fix)


def piece_scopes(file: tree.File, root: Scope) -> dict[str, tuple[tree.Piece, Scope]]:
    pieces: dict[str, tuple[tree.Piece, Scope]] = {}
    for piece in (s for s in file.statements if isinstance(s, tree.Piece)):
        if piece.bases and len(piece.bases) != len(piece.names):
            root.session.report(
                problem(
                    "bases-do-not-match",
                    piece.place,
                    pieces=len(piece.names),
                    bases=len(piece.bases),
                )
            )
            continue
        for position, name in enumerate(piece.names):
            if name.text in pieces:
                root.session.report(problem("given-twice", name.place, name=name.text))
                continue
            base = piece.bases[position] if piece.bases else None
            fresh = _fresh(name, root)
            scope = piece_scope(name.text, piece, base, root)
            pieces[name.text] = (piece, scope)
            if fresh:
                root.pieces[name.text] = PieceMeaning(name.text, scope=scope)
    return pieces


def _fresh(name: tree.Word, root: Scope) -> bool:
    """Whether a piece's name is free; else it is reported. A piece may not be called like anything
    else at the recipe's level but a choice: the choice of a sleeve and the sleeve itself are both
    the sleeve."""
    statement = root.statements.get(name.text)
    if isinstance(statement, tree.Choose | tree.ChooseWords):
        return True
    if statement is not None or name.text in root.fixed:
        first = root.places.get(name.text)
        notes = [Note("it is given first here", first)] if first is not None else []
        root.session.report(problem("given-twice", name.place, name=name.text, notes=notes))
        return False
    return True


def try_definitions(root: Scope, yields: Yield) -> None:
    """Type the body of each definition, called or not, and leave nothing of it behind."""
    session = root.session
    steps, finds, calls = dict(session.steps), dict(yields.finds), dict(session.calls)
    for name, statement in list(root.statements.items()):
        if not isinstance(statement, tree.Definition):
            continue
        title = name if isinstance(statement, tree.DefinePiece) else ""
        inner = Scope(session, root.define, parent=root, title=title)
        parameter_given_twice(statement, session)
        for parameter in statement.parameters:
            inner.fixed[parameter.name.text] = _any_argument(parameter, root)
        body(statement, inner, evaluate)
        for piece, scope in [each for title, each in session.steps.items() if title not in steps]:
            piece_lines(piece, scope, yields)
            for found in [full for full in yields.finds if full not in finds]:
                find_line(found, yields)
        session.steps, yields.finds, session.calls = dict(steps), dict(finds), dict(calls)


def _any_argument(parameter: tree.Parameter, root: Scope) -> Meaning:
    """What stands for an argument while a definition is only read."""
    type, name = parameter_type(parameter.type, root), parameter.name
    if type is None:
        return BROKEN
    if isinstance(type, KindPiece):
        return PieceMeaning(type.name, block=name.text, promise=type)
    if type == FABRIC:
        return ClothMeaning("main")
    return root.session.node("parameter", type=type, place=name.place, name=name.text)
