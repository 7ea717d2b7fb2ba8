"""Names that a file gives and nothing asks for: most likely a slip, or left from before.

In: a parsed file and its scope, with all else worked out. Out: an advice for each. Points, edges
and levels are landmarks and may stand for themselves; so may what a module gives to others.

    names_not_used(file, root, session)
"""

from __future__ import annotations

from godet.base.places import Place
from godet.base.problems import problem
from godet.language import tree
from godet.program.scopes import Scope, Session

_WHAT: dict[type[tree.Statement], str] = {
    tree.Let: "value",
    tree.Find: "unknown",
    tree.Choose: "choice",
    tree.ChooseWords: "choice",
    tree.Measures: "measure",
    tree.Define: "function",
    tree.DefineCurve: "curve",
    tree.DefinePiece: "piece",
    tree.CurveIs: "curve",
}


def names_not_used(file: tree.File, root: Scope, session: Session) -> None:
    """Advise each name that is given at the recipe's level or in a piece and not used."""
    for word in (word for s in file.statements if isinstance(s, tree.Use) for word in s.names):
        if word.text not in root.asked and word.text not in session.kinds:
            _advise("used name", word.text, word.place, session)
    scopes = [root, *(piece.scope for piece in root.pieces.values() if piece.scope is not None)]
    # one text may draft several pieces: what one of them uses is used
    asked = {scope.places[name] for scope in scopes for name in scope.asked & set(scope.places)}
    for scope in scopes:
        for name, statement in scope.statements.items():
            what = _WHAT.get(type(statement))
            drawn = isinstance(statement, tree.CurveIs) and statement.edge
            if what is not None and not drawn and scope.places[name] not in asked:
                _advise(what, name, scope.places[name], session)


def _advise(what: str, name: str, place: Place, session: Session) -> None:
    session.report(problem("not-used", place, what=what, name=name))
