"""The names at a recipe's level: measures, choices, values, functions, pieces.

In: a parsed file and the recipe's scope, which the names enter. Out: the scope of each piece. A
measure that no vocabulary has, a name given twice, and pieces that do not match their bases are
problems.

    enter(file, root, yields);  pieces = piece_scopes(file, root)
"""

from __future__ import annotations

from godet.base.near_names import did_you_mean
from godet.base.problems import Note, Problem, problem
from godet.graph.types import FABRIC
from godet.language import tree
from godet.program.expressions import evaluate
from godet.program.functions import parameter_type
from godet.program.headings import NAMED
from godet.program.pieces import piece_scope
from godet.program.scopes import Scope
from godet.program.statements import Yield
from godet.program.values import Broken, ClothMeaning, PieceMeaning


def enter(file: tree.File, root: Scope, yields: Yield) -> None:
    for statement in file.statements:
        if isinstance(statement, tree.Measures):
            for name in statement.names:
                if name.text in yields.definitions:
                    root.give(name, statement)
                    continue
                root.fixed[name.text] = root.session.report(_no_measure(name, yields))
        elif isinstance(statement, NAMED):
            root.give(statement.name, statement)


def _no_measure(name: tree.Word, yields: Yield) -> Problem:
    hint, fix = did_you_mean(name.text, yields.definitions, name.place)
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


def try_functions(root: Scope) -> None:
    """Type the body of each function of the recipe, called or not."""
    for statement in list(root.statements.values()):
        if not isinstance(statement, tree.Define):
            continue
        inner = Scope(root.session, root.define, parent=root)
        for parameter in statement.parameters:
            type = parameter_type(parameter.type, root)
            if type is None:
                inner.fixed[parameter.name.text] = Broken()
            elif type == FABRIC:
                inner.fixed[parameter.name.text] = ClothMeaning("main")
            else:
                inner.fixed[parameter.name.text] = root.session.node(
                    "parameter", type=type, place=parameter.name.place, name=parameter.name.text
                )
        evaluate(statement.value, inner)
