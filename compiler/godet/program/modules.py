"""What a recipe has from elsewhere: the kinds and the measures of the library, the names it uses.

In: the library, and the `use` lines of a file. Out: kinds and definitions by name; used names enter
the recipe's scope. A module may use others. A module or a name that is not there is a problem, and
so are modules that use each other in a circle.

    kinds, problems = kinds_of(library);  use_modules(file, library, root, definitions)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from godet.base.near_names import did_you_mean
from godet.base.problems import Note, Problem, problem
from godet.language import tree
from godet.language.library import Library
from godet.program.editions import check_edition, deprecated_names, edition_of
from godet.program.kinds import Kind
from godet.program.kinship import kinds_in
from godet.program.scopes import Scope, Session
from godet.program.top_names import enter_measures
from godet.program.values import BROKEN, Meaning


def kinds_of(library: Library) -> tuple[dict[str, Kind], list[Problem]]:
    """The kinds of the shipped library, by name."""
    file = library.module("kinds", None)
    return kinds_in(file, {}) if file is not None else ({}, [])


def vocabulary_of(library: Library) -> dict[str, tree.DefineMeasure]:
    """The measures of the shipped vocabulary, by name."""
    file = library.module("measures", None)
    statements = file.statements if file is not None else ()
    return {s.name.text: s for s in statements if isinstance(s, tree.DefineMeasure)}


def use_modules(
    file: tree.File,
    library: Library,
    root: Scope,
    definitions: Mapping[str, tree.DefineMeasure],
) -> None:
    """Enter the names that a file uses into its scope, and the kinds among them. `definitions` are
    the measures that the modules may ask for."""
    _Using(library, root.session, definitions, {}).names(file, root, ())


@dataclass(frozen=True, slots=True)
class _Module:
    scope: Scope
    kinds: dict[str, Kind]
    marks: dict[str, tree.Deprecated]


@dataclass(slots=True)
class _Using:
    library: Library
    session: Session
    definitions: Mapping[str, tree.DefineMeasure]
    modules: dict[str, _Module]  # by file name

    def names(self, file: tree.File, into: Scope, way: tuple[tree.Use, ...]) -> None:
        """Enter what a file uses. `way` holds the `use` lines by which it was come to itself."""
        for use in (s for s in file.statements if isinstance(s, tree.Use)):
            module = self._module(use, into, way)
            for name in use.names:
                if name.text in into.fixed:
                    self.session.report(problem("given-twice", name.place, name=name.text))
                    continue
                into.fixed[name.text] = self._meaning(name, use, module) if module else BROKEN
                mark = module.marks.get(name.text) if module else None
                if mark is not None:
                    into.marks[name.text] = (mark, edition_of(file))
                    into.told_if_marked(name.text, name.place)

    def _module(self, use: tree.Use, into: Scope, way: tuple[tree.Use, ...]) -> _Module | None:
        file = self.library.module(use.module.text, use.module.place)
        if file is None:
            return None
        if file.name in {each.place.file for each in (*way, use)}:
            self._circle(file, (*way, use))
            return None
        if file.name not in self.modules:
            self.modules[file.name] = self._opened(file, into, (*way, use))
        return self.modules[file.name]

    def _circle(self, file: tree.File, way: tuple[tree.Use, ...]) -> None:
        """Modules that use each other: the way from the file and back to it."""
        files = [use.place.file for use in way]
        round_ = way[files.index(file.name) :]
        names = [Path(use.place.file).stem for use in round_]
        path = " uses ".join([*names, names[0]])
        notes = [Note(f"`{use.module.text}` is used here", use.place) for use in round_[1:]]
        self.session.report(problem("modules-in-circle", round_[0].place, path=path, notes=notes))

    def _opened(self, file: tree.File, into: Scope, way: tuple[tree.Use, ...]) -> _Module:
        """What a module gives, in a scope of its own."""
        check_edition(file, self.session)
        self.session.lost |= {name for line in file.broken for name in line.names}
        scope = Scope(self.session, into.define)
        self.names(file, scope, way)
        for statement in file.statements:
            if isinstance(statement, tree.Definition | tree.Let):
                scope.give(statement.name, statement)
            elif isinstance(statement, tree.Measures):
                enter_measures(statement, scope, self.definitions)
        kinds, problems = kinds_in(file, self.session.kinds)
        for found in problems:
            self.session.report(found)
        return _Module(scope, kinds, deprecated_names(file))

    def _meaning(self, name: tree.Word, use: tree.Use, module: _Module) -> Meaning:
        """What a used name means; a kind enters among the kinds, and means nothing by itself."""
        session = self.session
        if name.text in module.kinds:
            session.kinds[name.text] = module.kinds[name.text]
            return BROKEN
        statements = module.scope.statements
        if name.text in statements:
            return module.scope.own(name.text) or BROKEN
        if name.text in session.lost:
            return BROKEN
        hint, fix = did_you_mean(name.text, [*statements, *module.kinds], name.place)
        names = ", ".join([*statements, *module.kinds]) or "nothing to use"
        listed = f" It has {names}."
        return session.report(
            problem(
                "not-in-module",
                name.place,
                name=name.text,
                module=use.module.text,
                hint=hint or listed,
                fix=fix,
            )
        )
