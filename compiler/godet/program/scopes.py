"""Scopes: which name means what, in any order of the text.

In: named statements. Out: `scope.meaning(name)`, worked out when first asked and remembered. A name
given twice, a name nobody gave, and a name that needs itself are problems; a cycle names its path.

    scope.meaning("hip_side", place)
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from typing import Protocol

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Fix, Note, Problem, problem
from godet.graph.node import Constant, Graph
from godet.graph.types import CURVE, DART, DOUBLE_DART, LEVEL, POINT, Type
from godet.language import tree
from godet.program.editions import on_its_way_out
from godet.program.kinds import Kind
from godet.program.values import (
    BROKEN,
    BlendNote,
    Broken,
    FunctionMeaning,
    Meaning,
    PieceMeaning,
    Value,
)

# so many names that need each other in turn can be followed
DEEPEST = 1000

Definer = Callable[["Scope", str, tree.Statement], Meaning]
Evaluate = Callable[[tree.Expression, "Scope"], Meaning]
# what a statement gives, told without working it out
_TYPES: dict[type[tree.Statement], Type] = {
    tree.PointIs: POINT,
    tree.LevelIs: LEVEL,
    tree.CurveIs: CURVE,
    tree.DartOn: DART,
    tree.DoubleDart: DOUBLE_DART,
    tree.MeetingDarts: DOUBLE_DART,
}


class Inheritance(Protocol):
    """The names a piece has from the one it is drafted from."""

    def find(self, name: str, place: Place, asking: Scope) -> Meaning | None: ...
    def names(self) -> tuple[str, ...]: ...
    def type_of(self, name: str) -> Type | None: ...


# different calls of a program's own functions; a large recipe makes a few hundred
MOST_CALLS = 5_000


@dataclass(slots=True)
class Session:
    """What all scopes of one program share: the graph, the problems, the names being worked out."""

    graph: Graph
    problems: list[Problem] = field(default_factory=list)
    working_on: list[tuple[Scope, str, Place]] = field(default_factory=list)
    # what functions gave for arguments met before: a function of functions of functions would
    # else be read twice as often with every step
    calls: dict[tuple[object, ...], Meaning] = field(default_factory=dict)
    # pieces drawn by a `define piece` on the way to others, by title
    steps: dict[str, tuple[tree.Piece, Scope]] = field(default_factory=dict)
    kinds: dict[str, Kind] = field(default_factory=dict)
    # the blends of a drawn curve, by its node
    blends: dict[int, tuple[BlendNote, ...]] = field(default_factory=dict)
    # names that lines which could not be read would have given: that they are missing is no news
    lost: set[str] = field(default_factory=set)
    # names that nobody gave, with what is wrong at each place that asks; told when all are known
    missed: dict[str, list[Problem]] = field(default_factory=dict)
    # where in `problems` it is told what is wrong with a name: (name, what)
    told_of: dict[tuple[str, str], int] = field(default_factory=dict)

    def report(self, found: Problem) -> Broken:
        """Keep a problem, once; hand back `BROKEN`."""
        same = any(p.code == found.code and p.place == found.place for p in self.problems)
        if not same:
            self.problems.append(found)
        return BROKEN

    def report_of(self, name: str, found: Problem, what: str = "") -> Broken:
        """Keep what is wrong with a name; where the same of it is told already, only note where.
        `what` is wrong, or else the sentence itself."""
        key, count = (name, what or found.sentence), len(self.problems)
        if key not in self.told_of:
            self.report(found)
            # else the line drafts several pieces, and it was told of the first
            if len(self.problems) > count:
                self.told_of[key] = count
            return BROKEN
        at = self.told_of[key]
        known = self.problems[at]
        if found.place not in (known.place, *(note.place for note in known.notes)):
            note = Note("the same shows here", found.place)
            self.problems[at] = replace(known, notes=(*known.notes, note))
        return BROKEN

    def miss(self, name: str, found: Problem) -> Broken:
        """Keep for later that a name is nowhere; hand back `BROKEN`."""
        places = self.missed.setdefault(name, [])
        if all(known.place != found.place for known in places):
            places.append(found)
        return BROKEN

    def too_many_calls(self) -> bool:
        """Whether functions have been worked out so often that the text must be at fault."""
        return len(self.calls) >= MOST_CALLS

    def node(
        self,
        operation: str,
        *inputs: Value | int,
        type: Type,
        place: Place | None,
        **constants: Constant,
    ) -> Value:
        """A new graph value."""
        numbers = tuple(i if isinstance(i, int) else i.node for i in inputs)
        return Value(type, self.graph.add(operation, numbers, type=type, place=place, **constants))


@dataclass(slots=True, eq=False)
class Scope:
    session: Session
    define: Definer
    parent: Scope | None = None
    title: str = ""  # "front" for a piece, "" for a recipe
    statements: dict[str, tree.Statement] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)
    fixed: dict[str, Meaning] = field(default_factory=dict)  # known from the start
    # names of their own, so that `sleeve` may be a piece and a choice
    pieces: dict[str, PieceMeaning] = field(default_factory=dict)
    inherits: Inheritance | None = None
    # (block.piece, member) inside `if .. has`
    known_members: frozenset[tuple[str, str]] = frozenset()
    # used names that are on their way out, with the edition of the file that uses them
    marks: dict[str, tuple[tree.Deprecated, int]] = field(default_factory=dict)
    found: dict[str, Meaning] = field(default_factory=dict)
    # what is done to the base of a piece before its own lines
    alterations: tuple[tree.Alteration, ...] = ()
    # the names that these add, with their types, once something asked for them
    added: dict[str, Type] | None = None
    # names that something asked for
    asked: set[str] = field(default_factory=set)

    def give(self, name: tree.Word, statement: tree.Statement) -> None:
        """Enter a named statement; a second one of the same name is a problem."""
        if name.text in self.statements:
            first = Note("it is given first here", self.places[name.text])
            self.session.report(problem("given-twice", name.place, name=name.text, notes=[first]))
            return
        if not isinstance(self.fixed.get(name.text, BROKEN), Broken):
            self.session.report(problem("given-twice", name.place, name=name.text))
            return
        self.statements[name.text] = statement
        self.places[name.text] = name.place

    def own(self, name: str) -> Meaning | None:
        """What this scope itself says of the name."""
        if name in self.fixed:
            return self.fixed[name]
        if name not in self.statements:
            return self.pieces.get(name)
        if name not in self.found:
            working = self.session.working_on
            for at, (scope, known, _) in enumerate(working):
                if scope is self and known == name:
                    return self._cycle(working[at:])
            if len(working) >= DEEPEST:
                place = self.places[name]
                return self.session.report(
                    problem("leans-too-deep", place, name=name, deepest=DEEPEST)
                )
            working.append((self, name, self.places[name]))
            try:
                self.found[name] = self.define(self, name, self.statements[name])
            finally:
                working.pop()
        return self.found[name]

    def piece(self, name: str) -> PieceMeaning | None:
        """The piece of that name, whatever else bears it; None when there is none."""
        if name in self.pieces or self.parent is None:
            return self.pieces.get(name)
        return self.parent.piece(name)

    def find(self, name: str, place: Place, asking: Scope | None = None) -> Meaning | None:
        """What the name means here: own, then inherited, then from outside."""
        asking = asking or self
        meaning = self.own(name)
        if meaning is not None:
            self.asked.add(name)
            self.told_if_marked(name, place)
        if meaning is None and self.inherits is not None:
            meaning = self.inherits.find(name, place, asking)
        if meaning is None and self.parent is not None:
            meaning = self.parent.find(name, place, asking)
        return meaning

    def type_of(self, name: str) -> Type | None:
        """The type of what a name means here, where it can be told without working it out."""
        known = self.fixed.get(name) or self.found.get(name)
        if isinstance(known, Value):
            return known.type
        if name in self.statements:
            return _TYPES.get(type(self.statements[name]))
        inherited = self.inherits.type_of(name) if self.inherits is not None else None
        if inherited is None and self.parent is not None:
            return self.parent.type_of(name)
        return inherited

    def told_if_marked(self, name: str, place: Place) -> None:
        """Report a used name that is on its way out."""
        if name in self.marks:
            found = on_its_way_out(tree.Word(name, place), *self.marks[name])
            if found is not None:
                self.session.report(found)

    def is_function(self, name: str) -> bool:
        """Whether a name that is defined here can be called."""
        if name in self.fixed:
            return isinstance(self.fixed[name], FunctionMeaning)
        if name in self.statements:
            return isinstance(self.statements[name], tree.Definition)
        return self.parent is not None and self.parent.is_function(name)

    def meaning(self, name: str, place: Place, wanted: Type | None = None) -> Meaning:
        """As `find`; a name nobody gave is a problem, and one of the wanted type may be meant."""
        meaning = self.find(name, place)
        if meaning is None and (name in self.session.lost or self.base_is_broken()):
            return BROKEN
        if meaning is None:
            hint, fix = self.near(name, place, wanted)
            unknown = problem("unknown-name", place, name=name, hint=hint, fix=fix)
            return self.session.miss(name, unknown)
        return meaning

    def knowing(self, members: frozenset[tuple[str, str]]) -> Scope:
        """This scope where optional members, as (piece, member), are sure to be there."""
        if not members:
            return self
        inner = Scope(self.session, self.define, parent=self, title=self.title)
        inner.known_members = self.known_members | members
        return inner

    def names(self) -> Iterator[str]:
        yield from self.fixed
        yield from self.statements
        yield from self.pieces
        yield from self.inherits.names() if self.inherits is not None else ()
        if self.parent is not None:
            yield from self.parent.names()

    def base_is_broken(self) -> bool:
        """Whether the name may be one of a base that could not be told."""
        if isinstance(self.own("base"), Broken):
            return True
        return self.parent is not None and self.parent.base_is_broken()

    def near(self, name: str, place: Place, wanted: Type | None) -> tuple[str, Fix | None]:
        """The question for a name that may have been meant: near in spelling, and not known to be
        of another type than the wanted one."""
        known = name in set(self.names())
        owners = [] if known else self._pieces_that_give(name)
        if len(owners) > 1:
            return f" {', '.join(owners)} have one; write `{owners[0]}.{name}` for that.", None
        if owners:
            whole = f"{owners[0]}.{name}"
            # inside another piece that may be a slip for one of its own names
            fix = Fix(f"write `{whole}`", place, whole) if not self.title else None
            return f" Write `{whole}`.", fix
        fitting = {n for n in self.names() if wanted is None or self.type_of(n) in (wanted, None)}
        # what is being worked out can't be meant by what it needs
        asking = {known for scope, known, _ in self.session.working_on if scope is self}
        return did_you_mean(name, fitting - asking - {name}, place, likeness=0.7)

    def _pieces_that_give(self, name: str) -> list[str]:
        """The recipe's pieces that give a name, where it is asked for outside of them."""
        root = self
        while root.parent is not None:
            root = root.parent
        return [
            title
            for title, piece in root.pieces.items()
            if piece.scope is not None and name in piece.scope.statements
        ]

    def _cycle(self, path: list[tuple[Scope, str, Place]]) -> Broken:
        names = [f"{s.title}.{n}" if s.title else n for s, n, _ in path]
        notes = [
            Note(f"`{name}` is given here", p) for name, (_, _, p) in zip(names, path, strict=True)
        ]
        way = " needs ".join([*names, names[0]])
        return self.session.report(problem("cycle", path[0][2], path=way, notes=notes))
