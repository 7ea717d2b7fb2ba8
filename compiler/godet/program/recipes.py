"""A recipe's tree to a typed program.

In: a parsed file and the library. Out: a `Program`, with every problem of names, types and kinds;
None when the file holds no recipe. No block and no body is needed: members of taken blocks are
placeholders that their kind promises.

    program, problems = typed_program(file, library, Graph())
"""

from __future__ import annotations

import difflib
from dataclasses import dataclass, field, replace

from godet.base.problems import Fix, Note, Problem, problem
from godet.graph.node import Graph
from godet.graph.types import CONDITION, FABRIC, LENGTH
from godet.language import tree
from godet.language.library import Library
from godet.program.expressions import evaluate, wanted
from godet.program.functions import parameter_type
from godet.program.kinds import Kind, kind_from
from godet.program.pieces import piece_lines, piece_scope
from godet.program.program import CheckLine, PieceLines, Program, SeamLine, Taken
from godet.program.scopes import Scope, Session
from godet.program.statements import Yield, definer, find_line
from godet.program.values import (
    BlockMeaning,
    Broken,
    ClothMeaning,
    PieceMeaning,
    Value,
    WholeEdge,
)

EDITION = 1
_NAMED = (tree.Let, tree.Find, tree.Choose, tree.ChooseWords, tree.Define)
_IN_MODULES = (tree.Define, tree.Kind, tree.DefineMeasure)
_AT_TOP = (
    tree.Edition,
    tree.DefineMeasure,
    tree.Recipe,
    tree.Takes,
    tree.Makes,
    tree.Use,
    tree.Measures,
    tree.Piece,
    tree.Seam,
    tree.Check,
    tree.LeaveOut,
    tree.Kind,
    *_NAMED,
)


@dataclass(slots=True)
class _Heading:
    recipe: tree.Recipe | None = None
    takes: list[tree.Takes] = field(default_factory=list)
    makes: tree.Makes | None = None


def kinds_of(library: Library) -> tuple[dict[str, Kind], list[Problem]]:
    """The kinds of the shipped library, by name."""
    kinds: dict[str, Kind] = {}
    problems: list[Problem] = []
    file = library.module("kinds", None)
    for statement in file.statements if file is not None else ():
        if isinstance(statement, tree.Kind):
            kinds[statement.name.text], found = kind_from(statement)
            problems.extend(found)
    return kinds, problems


def vocabulary_of(library: Library) -> dict[str, tree.DefineMeasure]:
    """The measures of the shipped vocabulary, by name."""
    file = library.module("measures", None)
    statements = file.statements if file is not None else ()
    return {s.name.text: s for s in statements if isinstance(s, tree.DefineMeasure)}


def typed_program(
    file: tree.File, library: Library, graph: Graph
) -> tuple[Program | None, tuple[Problem, ...]]:
    """The program of a recipe file, and what is wrong with it."""
    session = Session(graph)
    heading = _heading(file, session)
    is_module = heading.recipe is None and any(isinstance(s, _IN_MODULES) for s in file.statements)
    if heading.recipe is None and not is_module:
        session.report(problem("no-recipe", None, file=file.name))
        return None, tuple(session.problems)
    kinds, kind_problems = kinds_of(library)
    session.problems.extend(kind_problems)
    for own_kind in (s for s in file.statements if isinstance(s, tree.Kind)):
        kinds[own_kind.name.text], kind_problems = kind_from(own_kind)
        session.problems.extend(kind_problems)
    vocabulary = Scope(session, define=lambda _scope, _name, _statement: Broken())
    yields = Yield(vocabulary, vocabulary_of(library))
    root = Scope(session, definer(yields))
    vocabulary.define = root.define
    for definition in yields.definitions.values():
        vocabulary.give(definition.name, definition)
    root.fixed["fabric"] = ClothMeaning("main")
    takes = _taken(heading, kinds, root)
    makes = _made(heading, kinds, session)
    yields.makes = makes
    _use_modules(file, library, root)
    _enter(file, root, yields)
    pieces = _piece_scopes(file, root)
    lines = {name: piece_lines(piece, scope, yields) for name, (piece, scope) in pieces.items()}
    for name in [*root.statements, *root.fixed]:
        root.own(name)
    _try_functions(root)
    if heading.recipe is None:
        for definition in (s for s in file.statements if isinstance(s, tree.DefineMeasure)):
            vocabulary.own(definition.name.text)
        return None, tuple(session.problems)
    program = Program(
        name=heading.recipe.name.text,
        doc=file.doc,
        edition=EDITION,
        file=file.name,
        graph=graph,
        takes=takes,
        makes=makes,
        makes_place=heading.makes.place if heading.makes is not None else None,
        left_out=tuple(
            (s.block.text, s.piece.text) for s in file.statements if isinstance(s, tree.LeaveOut)
        ),
        measures={},
        choices={},
        lets={
            name: value.node
            for name, value in root.found.items()
            if isinstance(root.statements[name], tree.Let) and isinstance(value, Value)
        },
        finds=(),
        pieces=lines,
        seams=_seams(file, root),
        checks=_checks(file, root),
        place=heading.recipe.place,
    )
    finds = [find_line(name, yields) for name in sorted(yields.finds)]
    _keeps_its_kind(program, session)
    # equations may be the first to ask for a measure or a choice, so these are gathered last
    whole = replace(
        program,
        measures=dict(sorted(yields.measures.items())),
        choices=dict(yields.choices),
        finds=tuple(line for line in finds if line is not None),
    )
    return whole, tuple(session.problems)


def _heading(file: tree.File, session: Session) -> _Heading:
    heading = _Heading()
    first = file.statements[0] if file.statements else None
    if not isinstance(first, tree.Edition):
        place = first.place if first is not None else None
        session.report(problem("no-edition", place, edition=EDITION))
    for statement in file.statements:
        match statement:
            case tree.Edition() if statement.number.text != str(EDITION):
                session.report(
                    problem(
                        "unknown-edition",
                        statement.number.place,
                        edition=statement.number.text,
                        known=EDITION,
                    )
                )
            case tree.Recipe():
                if heading.recipe is not None:
                    session.report(problem("second-recipe", statement.place))
                heading.recipe = heading.recipe or statement
            case tree.Takes():
                heading.takes.append(statement)
            case tree.Makes():
                heading.makes = statement
            case _ if not isinstance(statement, _AT_TOP):
                session.report(problem("not-at-top", statement.place))
    return heading


def _taken(heading: _Heading, kinds: dict[str, Kind], root: Scope) -> tuple[Taken, ...]:
    taken: list[Taken] = []
    for takes in heading.takes:
        kind = kinds.get(takes.kind.text)
        if kind is None:
            names = ", ".join(sorted(kinds))
            root.session.report(
                problem("unknown-kind", takes.kind.place, name=takes.kind.text, names=names)
            )
            root.fixed[takes.name.text] = Broken()
            continue
        optional = {m for p in kind.pieces.values() for m in p.members}
        for _, asked in takes.asked:
            if asked.text not in optional:
                root.session.report(
                    problem(
                        "no-such-member",
                        asked.place,
                        owner=f"kind {kind.name}",
                        name=asked.text,
                        hint=f" It has {', '.join(sorted(optional))}.",
                    )
                )
        wanted_names = frozenset(w.text for how, w in takes.asked if how == "with")
        forbidden = frozenset(w.text for how, w in takes.asked if how == "without")
        view = kind.asking(wanted_names, forbidden)
        root.fixed[takes.name.text] = BlockMeaning(takes.name.text, view)
        default = takes.default.text if takes.default is not None else None
        taken.append(Taken(takes.name.text, view, default, takes.place, forbidden))
    return tuple(taken)


def _made(heading: _Heading, kinds: dict[str, Kind], session: Session) -> Kind | None:
    if heading.makes is None:
        return None
    kind = kinds.get(heading.makes.kind.text)
    if kind is None:
        names = ", ".join(sorted(kinds))
        place = heading.makes.kind.place
        session.report(problem("unknown-kind", place, name=heading.makes.kind.text, names=names))
    return kind


def _use_modules(file: tree.File, library: Library, root: Scope) -> None:
    for use in (s for s in file.statements if isinstance(s, tree.Use)):
        module = library.module(use.module.text, use.module.place)
        if module is None:
            for name in use.names:
                root.fixed[name.text] = Broken()
            continue
        outside = Scope(root.session, root.define)
        for statement in module.statements:
            if isinstance(statement, tree.Define | tree.Let):
                outside.give(statement.name, statement)
        for name in use.names:
            meaning = outside.own(name.text)
            if meaning is None:
                meaning = root.session.report(
                    problem(
                        "not-in-module",
                        name.place,
                        name=name.text,
                        module=use.module.text,
                        names=", ".join(outside.statements),
                    )
                )
            root.fixed[name.text] = meaning


def _enter(file: tree.File, root: Scope, yields: Yield) -> None:
    for statement in file.statements:
        if isinstance(statement, tree.Measures):
            for name in statement.names:
                if name.text in yields.definitions:
                    root.give(name, statement)
                    continue
                root.fixed[name.text] = root.session.report(_no_measure(name, yields))
        elif isinstance(statement, _NAMED):
            root.give(statement.name, statement)


def _no_measure(name: tree.Word, yields: Yield) -> Problem:
    near = difflib.get_close_matches(name.text, sorted(yields.definitions), n=1, cutoff=0.6)
    fix = Fix(f"write `{near[0]}`", name.place, near[0]) if near else None
    hint = f" Did you mean `{near[0]}`?" if near else ""
    return problem("unknown-measure", name.place, name=name.text, hint=hint, fix=fix)


def _piece_scopes(file: tree.File, root: Scope) -> dict[str, tuple[tree.Piece, Scope]]:
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
            _fresh(name, root)
            scope = piece_scope(name.text, piece, base, root)
            pieces[name.text] = (piece, scope)
            root.pieces[name.text] = PieceMeaning(name.text, scope=scope)
    return pieces


def _fresh(name: tree.Word, root: Scope) -> None:
    """A piece may not be called like anything else at the recipe's level but a choice: the choice
    of a sleeve and the sleeve itself are both the sleeve."""
    statement = root.statements.get(name.text)
    if isinstance(statement, tree.Choose | tree.ChooseWords):
        return
    if statement is not None or name.text in root.fixed:
        first = root.places.get(name.text)
        notes = [Note("it is given first here", first)] if first is not None else []
        root.session.report(problem("given-twice", name.place, name=name.text, notes=notes))


def _try_functions(root: Scope) -> None:
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


def _checks(file: tree.File, root: Scope) -> tuple[CheckLine, ...]:
    lines = []
    for check in (s for s in file.statements if isinstance(s, tree.Check)):
        condition = wanted(check.condition, root, CONDITION, f"`{check.level}`")
        if isinstance(condition, Broken):
            continue
        measured = aim = None
        sign = ""
        if isinstance(check.condition, tree.Compared):
            left, right = (
                evaluate(check.condition.left, root),
                evaluate(check.condition.right, root),
            )
            if isinstance(left, Value) and isinstance(right, Value):
                measured, aim, sign = left.node, right.node, check.condition.sign
        lines.append(
            CheckLine(check.level, condition.node, measured, aim, sign, check.words, check.place)
        )
    return tuple(lines)


def _seams(file: tree.File, root: Scope) -> tuple[SeamLine, ...]:
    lines = []
    seams = [s for s in file.statements if isinstance(s, tree.Seam)]
    names = {seam.name.text for seam in seams}
    for seam in seams:
        first, second = _side(seam.first, root), _side(seam.second, root)
        easing = wanted(seam.easing, root, LENGTH, "`easing`") if seam.easing is not None else None
        for after in seam.after:
            if after.text not in names:
                root.session.report(problem("no-such-seam", after.place, name=after.text))
        if first is None or second is None or isinstance(easing, Broken):
            continue
        lines.append(
            SeamLine(
                seam.name.text,
                first,
                second,
                seam.manner,
                easing.node if easing is not None else None,
                tuple(word.text for word in seam.after),
                seam.place,
            )
        )
    return tuple(lines)


def _side(
    edges: tuple[tree.Expression, ...], root: Scope
) -> tuple[tuple[str, str, bool], ...] | None:
    side = []
    for written in edges:
        whole = isinstance(written, tree.Call) and written.function.text == "whole"
        edge = written
        if isinstance(written, tree.Call) and whole and len(written.arguments) == 1:
            edge = written.arguments[0].value
        meaning = evaluate(written, root)
        if isinstance(meaning, Broken):
            return None
        named = isinstance(edge, tree.Dotted) and isinstance(edge.owner, tree.Name)
        if not named or not isinstance(meaning, Value | WholeEdge):
            root.session.report(problem("seam-needs-edge", written.place))
            return None
        assert isinstance(edge, tree.Dotted)
        assert isinstance(edge.owner, tree.Name)
        side.append((edge.owner.name, edge.member.text, whole))
    return tuple(side)


def _keeps_its_kind(program: Program, session: Session) -> None:
    """Whether the recipe has all that the kind it makes promises."""
    if program.makes is None:
        return
    taken = {t.name: t.kind for t in program.takes}
    missing: list[str] = []
    for promise in program.makes.pieces.values():
        if promise.optional:
            continue
        piece = program.pieces.get(promise.name)
        if piece is None:
            if not any(promise.name in kind.pieces for kind in taken.values()):
                missing.append(f"piece {promise.name}")
            continue
        have = _members(piece, taken)
        missing.extend(
            f"{m.sort} {promise.name}.{m.name}"
            for m in promise.members.values()
            if not m.optional and m.name not in have
        )
    if missing:
        session.report(
            problem(
                "kind-not-kept",
                program.makes_place,
                kind=program.makes.name,
                missing=", ".join(missing),
            )
        )


def _members(piece: PieceLines, taken: dict[str, Kind]) -> set[str]:
    have = {*piece.points, *piece.edges, *piece.levels}
    if piece.base is not None and piece.base[0] in taken:
        promise = taken[piece.base[0]].pieces.get(piece.base[1])
        have |= set(promise.members) if promise is not None else set()
    return have
