"""Editions of the language: which a file is written in, and which names are on their way out.

In: a parsed file. Out: its edition; the `deprecated` marks of a module by name, and the problem of
using such a name. The first line of every file says its edition, which governs the syntax and the
defaults of that file alone, so that files of different editions work together. A name marked
`deprecated x since 2 until 4, now y` is advised against from edition 2 on, and is an error for a
file of edition 4 or later.

    check_edition(file, session);  on_its_way_out(word, mark, 2)
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Fix, Note, Problem, problem
from godet.language import tree

if TYPE_CHECKING:
    from godet.program.scopes import Session

# the editions this Godet reads, the newest last
EDITIONS = (1,)
NEWEST = EDITIONS[-1]


def edition_of(file: tree.File) -> int:
    """The edition a file says it is written in; the newest where it says none that there is."""
    first = file.statements[0] if file.statements else None
    if isinstance(first, tree.Edition) and first.number.text.isdecimal():
        number = int(first.number.text)
        return number if number in EDITIONS else NEWEST
    return NEWEST


def check_edition(file: tree.File, session: Session) -> None:
    """Whether the first line of a file, recipe or module, names an edition there is."""
    first = file.statements[0] if file.statements else None
    unread = {line.opening for line in file.broken}
    if not isinstance(first, tree.Edition) and "edition" not in unread:
        place = first.place if first is not None else None
        line = f"edition {NEWEST}"
        fix = Fix(f"write `{line}` above it", Place(file.name, 1, 1, 1, 1), f"{line}\n\n")
        session.report(problem("no-edition", place, edition=NEWEST, fix=fix))
    for statement in file.statements:
        if isinstance(statement, tree.Edition) and statement is not first:
            cure = Fix("take it out", statement.place, "")
            session.report(problem("edition-not-first", statement.place, fix=cure))
        elif isinstance(statement, tree.Edition):
            number = statement.number
            if not (number.text.isdecimal() and int(number.text) in EDITIONS):
                known = ", ".join(str(each) for each in EDITIONS)
                session.report(
                    problem("unknown-edition", number.place, edition=number.text, known=known)
                )
        elif isinstance(statement, tree.Deprecated):
            _check_mark(statement, file, session)


def _check_mark(mark: tree.Deprecated, file: tree.File, session: Session) -> None:
    """Whether a mark stands on a name of its own file, and its editions come in order."""
    given = {s.name.text for s in file.statements if isinstance(s, _MARKED)}
    for name in (mark.name, mark.now):
        if name is not None and name.text not in given | session.lost:
            hint, fix = did_you_mean(name.text, given, name.place)
            session.report(
                problem("deprecates-nothing", name.place, name=name.text, hint=hint, fix=fix)
            )
    since, until = mark.since, mark.until
    if not (since.text.isdecimal() and until.text.isdecimal()):
        wrong = since if not since.text.isdecimal() else until
        session.report(problem("no-edition-number", wrong.place, typed=wrong.text))
    elif int(since.text) >= int(until.text):
        session.report(
            problem("deprecated-backwards", until.place, since=since.text, until=until.text)
        )


_MARKED = tree.Definition | tree.Let | tree.Kind


def deprecated_names(file: tree.File) -> dict[str, tree.Deprecated]:
    """The marks of a module by the name they stand on."""
    return {s.name.text: s for s in file.statements if isinstance(s, tree.Deprecated)}


def on_its_way_out(name: tree.Word, mark: tree.Deprecated, edition: int) -> Problem | None:
    """The problem of using a marked name in a file of an edition; None before its time comes."""
    since, until = int(mark.since.text), int(mark.until.text)
    if edition < since:
        return None
    fix, hint = None, ""
    if mark.now is not None:
        hint = f" Write `{mark.now.text}`."
        fix = Fix(f"write `{mark.now.text}`", name.place, mark.now.text)
    notes = [Note("it is marked here", mark.place)]
    code = "deprecated" if edition < until else "deprecated-gone"
    return problem(
        code, name.place, name=name.text, since=since, until=until, hint=hint, fix=fix, notes=notes
    )
