"""The heading of a recipe: its edition, what it takes and what it makes.

In: a parsed file and the kinds there are. Out: the heading's statements, and the kinds they name as
this recipe sees them. A missing or unknown edition, a second recipe and an unknown kind are
problems.

    heading = heading_of(file, session);  takes = taken(heading, kinds, root)
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from godet.base.near_names import did_you_mean
from godet.base.problems import Problem, problem
from godet.language import tree
from godet.program.editions import check_edition
from godet.program.kinds import Kind
from godet.program.kinship import unknown_kind
from godet.program.program import Taken
from godet.program.scopes import Scope, Session
from godet.program.values import BlockMeaning, Broken

NAMED = (tree.Let, tree.Find, tree.Choose, tree.ChooseWords, tree.Definition)
IN_MODULES = (tree.Definition, tree.Kind, tree.DefineMeasure)
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
    tree.Match,
    tree.Check,
    tree.LeaveOut,
    tree.Kind,
    tree.Deprecated,
    tree.Set,
    *NAMED,
)


@dataclass(slots=True)
class Heading:
    recipe: tree.Recipe | None = None
    takes: list[tree.Takes] = field(default_factory=list)
    makes: tree.Makes | None = None


def heading_of(file: tree.File, session: Session) -> Heading:
    heading = Heading()
    check_edition(file, session)
    for statement in file.statements:
        match statement:
            case tree.Recipe():
                if heading.recipe is not None:
                    session.report(problem("second-recipe", statement.place))
                heading.recipe = heading.recipe or statement
            case tree.Takes():
                heading.takes.append(statement)
            case tree.Makes() if heading.makes is not None:
                session.report(problem("given-twice", statement.place, name="makes"))
            case tree.Makes():
                heading.makes = statement
    _tell_of_lines_without_heading(file, session)
    return heading


def _tell_of_lines_without_heading(file: tree.File, session: Session) -> None:
    """Lines of a piece or a kind that stand in none: told once of all that follow each other."""
    told = False
    for statement in file.statements:
        if isinstance(statement, _AT_TOP):
            told = told and isinstance(statement, tree.Let | tree.Find)  # may be lines of it too
            continue
        if not told:
            session.report(problem("not-at-top", statement.place))
        told = True
        if isinstance(statement, tree.PointIs | tree.CurveIs | tree.LevelIs):
            session.lost.add(statement.name.text)


def taken_blocks(heading: Heading, kinds: dict[str, Kind], root: Scope) -> tuple[Taken, ...]:
    taken: list[Taken] = []
    for takes in heading.takes:
        kind = _kind(takes.kind, kinds, root.session)
        if takes.name.text in root.fixed:
            root.session.report(problem("given-twice", takes.name.place, name=takes.name.text))
            continue
        if kind is None:
            root.fixed[takes.name.text] = Broken()
            continue
        optional = {m for p in kind.pieces.values() for m in p.members}
        for _, asked in takes.asked:
            if asked.text not in optional:
                hint, fix = did_you_mean(asked.text, optional, asked.place)
                root.session.report(
                    problem(
                        "no-such-member",
                        asked.place,
                        owner=f"kind {kind.name}",
                        name=asked.text,
                        hint=hint or f" It has {', '.join(sorted(optional)) or 'none such'}.",
                        fix=fix,
                    )
                )
        wanted_names = frozenset(w.text for how, w in takes.asked if how == "with")
        forbidden = frozenset(w.text for how, w in takes.asked if how == "without")
        view = kind.asking(wanted_names, forbidden)
        root.fixed[takes.name.text] = BlockMeaning(takes.name.text, view)
        taken.append(Taken(takes.name.text, view, takes.default, takes.place, forbidden))
    return tuple(taken)


def made_kind(heading: Heading, kinds: dict[str, Kind], session: Session) -> Kind | None:
    makes = heading.makes
    if makes is None:
        return None
    if not makes.kind_of:
        return _kind(makes.name, kinds, session)
    taken = {each.name.text: each.kind.text for each in heading.takes}
    if makes.name.text not in {*taken, *session.lost}:
        session.report(no_such_block(makes.name, taken))
    return kinds.get(taken.get(makes.name.text, ""))


def _kind(name: tree.Word, kinds: dict[str, Kind], session: Session) -> Kind | None:
    kind = kinds.get(name.text)
    if kind is None and name.text not in session.lost:
        session.report(unknown_kind(name, kinds))
    return kind


def no_such_block(name: tree.Word, taken: Iterable[str]) -> Problem:
    """The problem of a name under which the recipe takes nothing."""
    names = ", ".join(sorted(taken)) or "nothing"
    hint, fix = did_you_mean(name.text, taken, name.place)
    return problem("no-such-block", name.place, name=name.text, names=names, hint=hint, fix=fix)


def left_out(
    file: tree.File, takes: tuple[Taken, ...], session: Session
) -> tuple[tuple[str, str], ...]:
    """The pieces of taken blocks that the recipe leaves out, as (block, piece)."""
    kinds = {taken.name: taken.kind for taken in takes}
    pairs = []
    for line in (s for s in file.statements if isinstance(s, tree.LeaveOut)):
        block, piece = line.block.text, line.piece.text
        if block in session.lost:
            continue
        if block not in kinds:
            session.report(no_such_block(line.block, kinds))
        elif piece not in kinds[block].pieces:
            place, pieces = line.piece.place, kinds[block].pieces
            hint, fix = did_you_mean(piece, pieces, place)
            hint = hint or f" It has {', '.join(sorted(pieces))}."
            session.report(
                problem("no-such-member", place, owner=block, name=piece, hint=hint, fix=fix)
            )
        else:
            pairs.append((block, piece))
    return tuple(pairs)
