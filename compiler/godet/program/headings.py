"""The heading of a recipe: its edition, what it takes and what it makes.

In: a parsed file and the kinds there are. Out: the heading's statements, and the kinds they name as
this recipe sees them. A missing or unknown edition, a second recipe and an unknown kind are
problems.

    heading = heading_of(file, session);  takes = taken(heading, kinds, root)
"""

from __future__ import annotations

from dataclasses import dataclass, field

from godet.base.problems import problem
from godet.language import tree
from godet.program.kinds import Kind
from godet.program.program import Taken
from godet.program.scopes import Scope, Session
from godet.program.values import BlockMeaning, Broken

EDITION = 1
NAMED = (tree.Let, tree.Find, tree.Choose, tree.ChooseWords, tree.Define)
IN_MODULES = (tree.Define, tree.Kind, tree.DefineMeasure)
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
    *NAMED,
)


@dataclass(slots=True)
class Heading:
    recipe: tree.Recipe | None = None
    takes: list[tree.Takes] = field(default_factory=list)
    makes: tree.Makes | None = None


def heading_of(file: tree.File, session: Session) -> Heading:
    heading = Heading()
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


def taken_blocks(heading: Heading, kinds: dict[str, Kind], root: Scope) -> tuple[Taken, ...]:
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


def made_kind(heading: Heading, kinds: dict[str, Kind], session: Session) -> Kind | None:
    if heading.makes is None:
        return None
    kind = kinds.get(heading.makes.kind.text)
    if kind is None:
        names = ", ".join(sorted(kinds))
        place = heading.makes.kind.place
        session.report(problem("unknown-kind", place, name=heading.makes.kind.text, names=names))
    return kind
