"""Scopes: which name means what, in any order of the text.

In: named statements. Out: `scope.meaning(name)`, worked out when first asked and remembered. A name
given twice, a name nobody gave, and a name that needs itself are problems; a cycle names its path.

    scope.meaning("hip_side", place)
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Note, Problem, problem
from godet.graph.node import Constant, Graph
from godet.graph.types import Type
from godet.language import tree
from godet.program.values import BROKEN, Broken, Meaning, PieceMeaning, Value

# so many names that need each other in turn can be followed
DEEPEST = 1000

Definer = Callable[["Scope", str, tree.Statement], Meaning]


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
    # names that lines which could not be read would have given: that they are missing is no news
    lost: set[str] = field(default_factory=set)
    # names that nobody gave, with what is wrong at each place that asks; told when all are known
    missed: dict[str, list[Problem]] = field(default_factory=dict)
    # where in `problems` it is told what is wrong with a name: (name, sentence)
    told_of: dict[tuple[str, str], int] = field(default_factory=dict)

    def report(self, found: Problem) -> Broken:
        """Keep a problem, once; hand back `BROKEN`."""
        same = any(p.code == found.code and p.place == found.place for p in self.problems)
        if not same:
            self.problems.append(found)
        return BROKEN

    def report_of(self, name: str, found: Problem) -> Broken:
        """Keep what is wrong with a name; where the same of it is told already, only note where."""
        at = self.told_of.setdefault((name, found.sentence), len(self.problems))
        if at == len(self.problems):
            self.problems.append(found)
            return BROKEN
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
    inherited: Callable[[str, Place, Scope], Meaning | None] = lambda _name, _place, _asking: None
    inherited_names: Callable[[], tuple[str, ...]] = tuple
    # (block.piece, member) inside `if .. has`
    known_members: frozenset[tuple[str, str]] = frozenset()
    found: dict[str, Meaning] = field(default_factory=dict)

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
        if meaning is None:
            meaning = self.inherited(name, place, asking)
        if meaning is None and self.parent is not None:
            meaning = self.parent.find(name, place, asking)
        return meaning

    def meaning(self, name: str, place: Place) -> Meaning:
        """As `find`; a name nobody gave is a problem."""
        meaning = self.find(name, place)
        if meaning is None and (name in self.session.lost or self.base_is_broken()):
            return BROKEN
        if meaning is None:
            return self.session.miss(name, self._unknown(name, place))
        return meaning

    def base_is_broken(self) -> bool:
        """Whether this is drafted from what is wrong itself, so that its names can't be known."""
        if isinstance(self.fixed.get("base"), Broken):
            return True
        return self.parent is not None and self.parent.base_is_broken()

    def knowing(self, piece: str, member: str) -> Scope:
        """This scope where an optional member is sure to be there."""
        inner = Scope(self.session, self.define, parent=self, title=self.title)
        inner.known_members = self.known_members | {(piece, member)}
        return inner

    def names(self) -> Iterator[str]:
        yield from self.fixed
        yield from self.statements
        yield from self.pieces
        yield from self.inherited_names()
        if self.parent is not None:
            yield from self.parent.names()

    def _unknown(self, name: str, place: Place) -> Problem:
        hint, fix = did_you_mean(name, self.names(), place, likeness=0.7)
        return problem("unknown-name", place, name=name, hint=hint, fix=fix)

    def _cycle(self, path: list[tuple[Scope, str, Place]]) -> Broken:
        names = [f"{s.title}.{n}" if s.title else n for s, n, _ in path]
        notes = [
            Note(f"`{name}` is given here", p) for name, (_, _, p) in zip(names, path, strict=True)
        ]
        way = " needs ".join([*names, names[0]])
        return self.session.report(problem("cycle", path[0][2], path=way, notes=notes))
