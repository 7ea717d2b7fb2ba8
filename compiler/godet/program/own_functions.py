"""What a recipe or a module defines: functions, curves and ways of drafting a piece, called.

In: a call, the definition and the scope it stands in. Out: its `Meaning`; the body is read in a
scope of its own that holds the arguments. Arguments that do not fit, and a definition that needs
itself, are problems; so are more calls than a text that ends could need.

    usable_stretch(fabric), hip_curve(side_waist, hip_side), flared(top.front, by: 3cm)
"""

from __future__ import annotations

from collections.abc import Mapping

from godet.base.near_names import did_you_mean
from godet.base.problems import Problem, problem
from godet.graph.types import BY_NAME, FABRIC, Type, Words
from godet.language import tree
from godet.program.bare_numbers import bare_number
from godet.program.kinds import Kind, KindPiece
from godet.program.members import lineage, names_passed_on
from godet.program.scopes import MOST_CALLS, Evaluate, Scope, Session
from godet.program.type_names import type_named
from godet.program.values import (
    BROKEN,
    Broken,
    ClothMeaning,
    FunctionMeaning,
    Meaning,
    PieceMeaning,
    Value,
    wrong_type,
)


def parameter_type(written: tree.TypeName, scope: Scope) -> Type | KindPiece | None:
    """The type a parameter is declared with, or a kind's piece; an unknown one is a problem."""
    type = type_named(written)
    if type is not None:
        return type
    session = scope.session
    kind = session.kinds.get(written.name)
    if written.piece is None or kind is None:
        session.report(_no_type(written, session.kinds))
        return None
    if written.piece not in kind.pieces:
        whole = [f"{kind.name}.{piece}" for piece in kind.pieces]
        hint, fix = did_you_mean(f"{kind.name}.{written.piece}", whole, written.place, 0.8)
        hint = hint or f" It has {', '.join(kind.pieces)}."
        session.report(
            problem(
                "no-such-member",
                written.place,
                owner=f"kind {kind.name}",
                name=written.piece,
                hint=hint,
                fix=fix,
            )
        )
        return None
    return kind.pieces[written.piece]


def _no_type(written: tree.TypeName, kinds: Mapping[str, Kind]) -> Problem:
    """The problem of a type that there is none of; one of a kind's pieces may be meant."""
    pieces = [f"{kind}.{piece}" for kind in sorted(kinds) for piece in kinds[kind].pieces]
    name = written.name if written.piece is None else f"{written.name}.{written.piece}"
    hint, fix = did_you_mean(name, [*BY_NAME, *pieces], written.place)
    listed = f" The types are {', '.join(BY_NAME)}, one of (..), and pieces of a kind"
    listed += f", as {pieces[0]}." if pieces else "."
    return problem("unknown-type", written.place, name=name, hint=hint or listed, fix=fix)


def call_own(
    expression: tree.Call, function: FunctionMeaning, scope: Scope, evaluate: Evaluate
) -> Meaning:
    """What a defined function, curve or piece gives for these arguments."""
    define, session = function.define, scope.session
    if session.too_many_calls():
        # told once, of what called the first of them, not of every call that is still to come
        if all(found.code != "too-many-calls" for found in session.problems):
            called_in = [
                place
                for known, name, place in session.working_on
                if not isinstance(known.statements.get(name), tree.Definition)
            ]
            place = called_in[-1] if called_in else expression.place
            session.report(problem("too-many-calls", place, most=MOST_CALLS))
        return BROKEN
    inner = _with_arguments(expression, function, scope, evaluate)
    if inner is None:
        return BROKEN
    call_made = (id(define), inner.title, *inner.fixed.values())
    if call_made in session.calls:
        return session.calls[call_made]
    working = session.working_on
    for at, (known, name, _) in enumerate(working):
        if known is function.scope and name == define.name.text:
            # told of the first in the text of all that call each other, and so once
            place, first = min((place, name) for _, name, place in working[at:])
            return session.report(problem("function-needs-itself", place, name=first))
    working.append((function.scope, define.name.text, define.name.place))
    try:
        meaning = body(define, inner, evaluate)
    finally:
        working.pop()
    session.calls[call_made] = meaning
    return meaning


def body(define: tree.Definition, inner: Scope, evaluate: Evaluate) -> Meaning:
    """What a definition gives, read in a scope that holds its arguments."""
    match define:
        case tree.Define():
            return evaluate(define.value, inner)
        case tree.DefineCurve():
            drawn = tree.CurveIs(define.place, define.name, define.chain, edge=False)
            return inner.define(inner, define.name.text, drawn)
        case tree.DefinePiece():
            return inner.define(inner, inner.title, _as_piece(define))


def _as_piece(define: tree.DefinePiece) -> tree.Piece:
    """The piece that a definition drafts, to be read in a scope that holds its parameters."""
    return tree.Piece(
        define.place,
        body=define.body,
        names=(define.name,),
        bases=(define.base,) if define.base is not None else (),
        follows=(),
        when=None,
        optional=False,
    )


def _with_arguments(
    expression: tree.Call, function: FunctionMeaning, scope: Scope, evaluate: Evaluate
) -> Scope | None:
    """The scope of the body with every parameter filled in; None when one can't be."""
    define, called = function.define, expression.function.text
    given = _arguments(expression, define, scope)
    if given is None:
        return None
    title, asking = "", scope
    if isinstance(define, tree.DefinePiece):
        # a piece drawn on the way is known by the piece it is drawn for
        title = f"{scope.title} {called}".strip()
        asking = Scope(scope.session, scope.define, parent=scope, title=title)
    inner = Scope(scope.session, scope.define, parent=function.scope, title=title)
    for parameter in define.parameters:
        type = parameter_type(parameter.type, scope)
        written = given.get(parameter.name.text)
        if type is None:
            return None
        if written is None:
            assert parameter.default is not None
            meaning = _argument(parameter.default, type, function.scope, evaluate, called)
        else:
            meaning = _argument(written, type, asking, evaluate, called)
        if isinstance(meaning, Broken):
            return None
        inner.fixed[parameter.name.text] = meaning
    return inner


def _argument(
    expression: tree.Expression,
    type: Type | KindPiece,
    scope: Scope,
    evaluate: Evaluate,
    called: str,
) -> Meaning:
    if isinstance(type, KindPiece):
        return _piece(expression, type, scope, evaluate, called)
    word = word_for_itself(expression, type, scope)
    if word is not None:
        return word
    meaning = evaluate(expression, scope)
    if type == FABRIC and isinstance(meaning, ClothMeaning):
        return meaning
    return of_type(expression, meaning, type, scope, f"`{called}`")


def word_for_itself(expression: tree.Expression, type: Type, scope: Scope) -> Value | Broken | None:
    """A word of a closed list, where the name means nothing else here; None where it is no bare
    word. One that is not in the list is a problem."""
    if not isinstance(type, Words) or not isinstance(expression, tree.Name):
        return None
    word = tree.Word(expression.name, expression.place)
    if scope.find(word.text, word.place) is not None or word.text in scope.session.lost:
        return None
    if word.text not in type.words:
        return scope.session.report_of(word.text, no_such_word(word, type))
    return scope.session.node("word", type=type, place=word.place, word=word.text)


def no_such_word(word: tree.Word, type: Words) -> Problem:
    """The problem of a word that is not in a closed list."""
    hint, fix = did_you_mean(word.text, type.words, word.place)
    words = ", ".join(type.words)
    return problem("no-such-word", word.place, word=word.text, words=words, hint=hint, fix=fix)


def _piece(
    expression: tree.Expression,
    promise: KindPiece,
    scope: Scope,
    evaluate: Evaluate,
    called: str,
) -> Meaning:
    """A piece that has all that the kind's piece is sure to have."""
    named = expression.name if isinstance(expression, tree.Name) else ""
    piece = scope.piece(named) or evaluate(expression, scope)
    if isinstance(piece, Broken):
        return BROKEN
    session, place = scope.session, expression.place
    if not isinstance(piece, PieceMeaning):
        return session.report(wrong_type(place, f"`{called}`", "a piece", piece))
    bases = (each.scope.own("base") for each in lineage(piece) if each.scope is not None)
    if any(isinstance(base, Broken) for base in bases):
        return BROKEN  # what it would have from there is not known
    has = set(names_passed_on(piece)) | session.lost
    missing = [m.name for m in promise.members.values() if not m.optional and m.name not in has]
    if missing:
        return session.report(
            problem(
                "piece-lacks",
                place,
                name=called,
                piece=piece.title,
                missing=", ".join(missing),
            )
        )
    return piece


def of_type(
    expression: tree.Expression, meaning: Meaning, type: Type | str, scope: Scope, what: str
) -> Value | Broken:
    """The meaning as a value of this type; `what` says for what it is wanted."""
    if isinstance(meaning, Value) and meaning.type == type:
        return meaning
    if isinstance(meaning, Broken):
        return BROKEN
    hint, fix = "", None
    if isinstance(expression, tree.Name) and not isinstance(type, str):
        hint, fix = scope.near(expression.name, expression.place, type)
    wrong = wrong_type(expression.place, what, type, meaning, hint, fix)
    bare = bare_number(expression, type)
    if bare is None and isinstance(expression, tree.Name):
        # given elsewhere: wrong in every place that uses it
        return scope.session.report_of(expression.name, wrong, f"{meaning}, not {type}")
    return scope.session.report(bare or wrong)


def parameter_given_twice(define: tree.Definition, session: Session) -> bool:
    """Whether two parameters have one name, which is told once, at the definition."""
    names: set[str] = set()
    for parameter in define.parameters:
        word = parameter.name
        if word.text in names:
            twice = problem("given-twice", word.place, name=word.text)
            if twice not in session.problems:
                session.report(twice)
            return True
        names.add(word.text)
    return False


def _arguments(
    expression: tree.Call, define: tree.Definition, scope: Scope
) -> dict[str, tree.Expression] | None:
    """The written arguments by parameter; None when they don't fit, which is reported."""
    names = [parameter.name.text for parameter in define.parameters]
    if parameter_given_twice(define, scope.session):
        return None
    given: dict[str, tree.Expression] = {}
    for position, argument in enumerate(expression.arguments):
        if argument.name is not None:
            name = argument.name.text
        else:
            name = names[position] if position < len(names) else ""
        if name not in names or name in given:
            break
        given[name] = argument.value
    else:
        missing = [p for p in define.parameters if p.default is None and p.name.text not in given]
        if not missing:
            return given
    scope.session.report(
        problem(
            "arguments-do-not-fit",
            expression.place,
            name=define.name.text,
            names=_asked_for(define),
        )
    )
    return None


def _asked_for(define: tree.Definition) -> str:
    """The parameters in the words of the definition: `cloth, width (need not be given)`."""
    return ", ".join(
        p.name.text if p.default is None else f"{p.name.text} (need not be given)"
        for p in define.parameters
    )
