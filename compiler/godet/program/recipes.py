"""A recipe's tree to a typed program.

In: a parsed file and the library. Out: a `Program`, with every problem of names, types and kinds;
None when the file holds no recipe. No block and no body is needed: members of taken blocks are
placeholders that their kind promises.

    program, problems = typed_program(file, library, Graph())
"""

from __future__ import annotations

from godet.base.problems import Problem, has_errors, problem
from godet.base.recursion import room_to_recurse
from godet.graph.node import Graph
from godet.language import tree
from godet.language.library import Library
from godet.program.conformity import keeps_its_kind, pieces_in_place
from godet.program.editions import edition_of
from godet.program.headings import IN_MODULES, heading_of, left_out, made_kind, taken_blocks
from godet.program.kinship import kinds_in
from godet.program.missing import tell_missing
from godet.program.modules import kinds_of, use_modules, vocabulary_of
from godet.program.not_used import names_not_used
from godet.program.pieces import piece_lines
from godet.program.program import FindLine, PieceLines, Program
from godet.program.scopes import Scope, Session
from godet.program.seams_and_checks import check_lines, match_lines, seam_lines
from godet.program.settings import set_lines
from godet.program.statements import definer, find_line
from godet.program.top_names import enter, piece_scopes, try_definitions
from godet.program.unknowns import unused
from godet.program.values import Broken, ClothMeaning, Value
from godet.program.yields import Yield


def typed_program(
    file: tree.File, library: Library, graph: Graph
) -> tuple[Program | None, tuple[Problem, ...]]:
    """The program of a recipe file, and what is wrong with it."""
    with room_to_recurse():
        return _typed(file, library, graph)


def _typed(
    file: tree.File, library: Library, graph: Graph
) -> tuple[Program | None, tuple[Problem, ...]]:
    session = Session(graph, lost={name for line in file.broken for name in line.names})
    heading = heading_of(file, session)
    is_module = heading.recipe is None and any(isinstance(s, IN_MODULES) for s in file.statements)
    if heading.recipe is None and not is_module:
        if all(line.opening != "recipe" for line in file.broken):
            first = next((s for s in file.statements if not isinstance(s, tree.Edition)), None)
            place = first.place if first is not None else None
            session.report(problem("no-recipe", place, file=file.name))
        return None, tuple(session.problems)
    session.kinds, kind_problems = kinds_of(library)
    session.problems.extend(kind_problems)
    vocabulary = Scope(session, define=lambda _scope, _name, _statement: Broken())
    yields = Yield(vocabulary, vocabulary_of(library))
    root = Scope(session, definer(yields))
    vocabulary.define = root.define
    for definition in yields.definitions.values():
        vocabulary.give(definition.name, definition)
    root.fixed["fabric"] = ClothMeaning("main")
    use_modules(file, library, root, yields.definitions)
    own_kinds, kind_problems = kinds_in(file, session.kinds)
    session.kinds |= own_kinds
    for found in kind_problems:  # the library's own file of kinds has told of them already
        session.report(found)
    takes = taken_blocks(heading, session.kinds, root)
    makes = made_kind(heading, session.kinds, session)
    yields.makes = makes
    enter(file, root, yields)
    pieces = piece_scopes(file, root)
    lines = {name: piece_lines(piece, scope, yields) for name, (piece, scope) in pieces.items()}
    for name in [*root.statements, *root.fixed]:
        root.own(name)
    try_definitions(root, yields)
    if heading.recipe is None:
        for definition in (s for s in file.statements if isinstance(s, tree.DefineMeasure)):
            vocabulary.own(definition.name.text)
        tell_missing(session, file, yields.definitions, library)
        return None, tuple(session.problems)
    seams, matches = seam_lines(file, root), match_lines(file, root)
    checks = check_lines(file, root)
    settings = set_lines(file, takes, root)
    steps, finds = _steps_and_finds(yields, session)
    for wrong in unused(graph, finds) if len(finds) == len(yields.finds) else ():
        # where an equation is broken, it may be the one that its unknowns need
        session.report(wrong)
    program = Program(
        name=heading.recipe.name.text,
        doc=file.doc,
        edition=edition_of(file),
        file=file.name,
        graph=graph,
        takes=takes,
        makes=makes,
        makes_kind_of=heading.makes.name.text
        if heading.makes is not None and heading.makes.kind_of
        else None,
        makes_place=heading.makes.place if heading.makes is not None else None,
        left_out=left_out(file, takes, session),
        settings=settings,
        # seams, checks and equations may be the first to ask for one of these
        measures=dict(sorted(yields.measures.items())),
        choices=dict(yields.choices),
        lets={
            name: value.node
            for name, value in root.found.items()
            if isinstance(root.statements[name], tree.Let) and isinstance(value, Value)
        },
        finds=finds,
        pieces={**lines, **steps},
        seams=seams,
        matches=matches,
        checks=checks,
        place=heading.recipe.place,
    )
    choices = {
        s.name.text for s in file.statements if isinstance(s, tree.Choose | tree.ChooseWords)
    }
    keeps_its_kind(program, choices, session)
    pieces_in_place(program, session)
    tell_missing(session, file, yields.definitions, library)
    if not has_errors([*session.problems, *library.problems]):
        # what is not understood may well use what nothing else does
        names_not_used(file, root, session)
    return program, tuple(session.problems)


def _steps_and_finds(
    yields: Yield, session: Session
) -> tuple[dict[str, PieceLines], tuple[FindLine, ...]]:
    """The pieces drawn on the way, and the unknowns. Either may bring more of the other."""
    steps: dict[str, PieceLines] = {}
    finds: dict[str, FindLine | None] = {}
    while len(steps) < len(session.steps) or len(finds) < len(yields.finds):
        for title, (piece, scope) in list(session.steps.items()):
            steps[title] = steps.get(title) or piece_lines(piece, scope, yields)
        for name in sorted(set(yields.finds) - set(finds)):
            finds[name] = find_line(name, yields)
    lines = (line for _, line in sorted(finds.items()))
    return dict(sorted(steps.items())), tuple(line for line in lines if line is not None)
