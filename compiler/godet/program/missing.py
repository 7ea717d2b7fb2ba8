"""Names that nobody gave, told once each.

In: a session in which all names have been asked for, the recipe's file and the vocabulary. Out: the
problems, in the session. A name is told where the text first asks for it, the other places being
noted. Measures that no `measure` line asks for are one mistake, and so are functions that no `use`
line brings from a module of the library. Nothing fails.

    tell_missing(session, file, vocabulary, library)   # "write `measure hip_girth`"
"""

from __future__ import annotations

from collections.abc import Container
from dataclasses import replace

from godet.base.places import Place
from godet.base.problems import Note, Problem, problem
from godet.base.shipped import shipped
from godet.language import tree
from godet.language.library import SUFFIX, Library
from godet.program.scopes import Session


def tell_missing(
    session: Session, file: tree.File, vocabulary: Container[str], library: Library
) -> None:
    """Report every name that was missed."""
    measures: dict[str, list[Problem]] = {}
    functions: dict[str, dict[str, list[Problem]]] = {}  # by the module that has them
    for name, found in session.missed.items():
        here = all(_place(each).file == file.name for each in found)
        module = _module_of(name, library) if found[0].code == "unknown-function" else None
        if here and name in vocabulary and found[0].code == "unknown-name":
            measures[name] = found
        elif here and module is not None and not file.name.endswith(f"{module}{SUFFIX}"):
            functions.setdefault(module, {})[name] = found
        else:
            first, *others = sorted(found, key=_place)
            notes = [Note("it is asked for here too", _place(each)) for each in others]
            session.report(replace(first, notes=(*first.notes, *notes)))
    if measures:
        session.report(_line_lacking("measure-not-asked", measures))
    for module, names in functions.items():
        session.report(_line_lacking("function-not-used", names, module=module))


def _line_lacking(code: str, missed: dict[str, list[Problem]], module: str = "") -> Problem:
    """The problem of a line that would give all these names."""
    places = sorted((_place(each), name) for name, found in missed.items() for each in found)
    notes = [Note(f"`{name}` is asked for here", place) for place, name in places[1:]]
    names = ", ".join(sorted(missed))
    return problem(code, places[0][0], names=names, module=module, notes=notes)


def _place(missed: Problem) -> Place:
    assert missed.place is not None  # it is where a name stands
    return missed.place


def _module_of(function: str, library: Library) -> str | None:
    """The module of the shipped library that defines a function."""
    for path in sorted(shipped("stdlib").glob(f"*{SUFFIX}")):
        module = library.file(path)
        for statement in module.statements if module is not None else ():
            if isinstance(statement, tree.Define) and statement.name.text == function:
                return path.stem
    return None
