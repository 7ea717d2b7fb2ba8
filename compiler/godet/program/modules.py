"""What a recipe has from elsewhere: the kinds and the measures of the library, the names it uses.

In: the library, and the `use` lines of a file. Out: kinds and definitions by name; used names enter
the recipe's scope. A module or a name that is not there is a problem.

    kinds, problems = kinds_of(library);  use_modules(file, library, root)
"""

from __future__ import annotations

from godet.base.problems import Problem, problem
from godet.language import tree
from godet.language.library import Library
from godet.program.headings import check_edition
from godet.program.kinds import Kind, kind_from
from godet.program.scopes import Scope
from godet.program.values import BROKEN, Broken


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


def use_modules(file: tree.File, library: Library, root: Scope) -> None:
    for use in (s for s in file.statements if isinstance(s, tree.Use)):
        module = library.module(use.module.text, use.module.place)
        if module is None:
            for name in use.names:
                root.fixed[name.text] = Broken()
            continue
        check_edition(module, root.session)
        root.session.lost |= {name for line in module.broken for name in line.names}
        outside = Scope(root.session, root.define)
        for statement in module.statements:
            if isinstance(statement, tree.Define | tree.Let):
                outside.give(statement.name, statement)
        for name in use.names:
            if name.text in root.fixed:
                root.session.report(problem("given-twice", name.place, name=name.text))
                continue
            meaning = outside.own(name.text)
            if meaning is None and name.text in root.session.lost:
                meaning = BROKEN
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
