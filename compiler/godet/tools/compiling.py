"""From a recipe's file to a linked draft.

In: the recipe (a path, or the name of a shipped one) and the blocks to take. Out: the `Draft` with
every problem met on the way; None when there is an error among them. No body is needed.

    compiled = compile_recipe("column_dress", {"top": "knit_tee"})
    compiled.draft.pieces["front"]
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from godet.base.places import Place
from godet.base.problems import Problem, Problems, has_errors, problem
from godet.base.shipped import shipped
from godet.graph.node import Graph
from godet.language.library import SUFFIX, Library
from godet.program.linking import Draft, link
from godet.program.program import Program
from godet.program.recipes import typed_program
from godet.solve.schedule import schedule


@dataclass(frozen=True, slots=True)
class Compiled:
    draft: Draft | None
    program: Program | None
    problems: tuple[Problem, ...]
    library: Library  # through which it was read, with the texts to show lines from

    @property
    def texts(self) -> Mapping[str, str]:
        """The text of every file read, by name."""
        return self.library.texts


def recipe_path(recipe: str) -> Path:
    """The file of a recipe: as given, or a shipped recipe or block of that name.

    Raises `Problems` when there is none.
    """
    given = Path(recipe)
    candidates = [given, Path(f"{recipe}{SUFFIX}")]
    if given.name == recipe:
        candidates += [shipped(room) / f"{recipe}{SUFFIX}" for room in ("recipes", "stdlib")]
    for path in candidates:
        if path.is_file():
            return path
    raise Problems([problem("no-such-recipe", None, file=recipe)])


def compile_recipe(
    recipe: str, blocks: Mapping[str, str] | None = None, needs_blocks: bool = True
) -> Compiled:
    """The recipe, typed and linked with its blocks (by name; the recipe's own where not given).

    With `needs_blocks` false a recipe that takes a block and names none is typed and not linked.
    """
    try:
        path = recipe_path(recipe)
    except Problems as found:
        return Compiled(None, None, found.problems, Library(Path(recipe).parent))
    library = Library(path.parent)
    compiling = _Compiling(library, Graph(), [])
    program = compiling.program(path)
    draft = None
    sound = program is not None and not has_errors([*compiling.problems, *library.problems])
    open_ended = program is not None and any(taken.default is None for taken in program.takes)
    if program is not None and sound and (needs_blocks or not open_ended):
        draft = compiling.linked(program, blocks or {}, "", (path,))
        compiling.problems.extend(_unsolvable(draft) if draft is not None else ())
    problems = _in_order([*library.problems, *compiling.problems], str(path))
    if has_errors(problems):
        draft = None
    return Compiled(draft, program, problems, library)


def _in_order(problems: list[Problem], file: str) -> tuple[Problem, ...]:
    """Problems as a reader meets them: the recipe from its top, then the other files."""

    def order(found: Problem) -> tuple[bool, str, int, int]:
        place = found.place or Place("", 0, 0, 0, 0)
        return (place.file not in ("", file), place.file, place.line, place.column)

    return tuple(sorted(problems, key=order))


def _unsolvable(draft: Draft) -> tuple[Problem, ...]:
    """Unknowns that need each other: known without a body, whatever its measures."""
    finds = {line.unknown: line for line in draft.finds}
    try:
        schedule(draft.graph, finds, finds)
    except Problems as found:
        return found.problems
    return ()


@dataclass(slots=True)
class _Compiling:
    library: Library
    graph: Graph
    problems: list[Problem]

    def program(self, path: Path) -> Program | None:
        file = self.library.file(path)
        if file is None:
            return None
        program, problems = typed_program(file, self.library, self.graph)
        self.problems.extend(problems)
        return program

    def linked(
        self, program: Program, given: Mapping[str, str], prefix: str, way: tuple[Path, ...]
    ) -> Draft | None:
        taken = {each.name for each in program.takes}
        for name in given:
            if name not in taken:
                names = ", ".join(sorted(taken)) or "nothing"
                self.problems.append(problem("no-such-block", None, name=name, names=names))
                return None
        blocks: dict[str, Draft] = {}
        for each in program.takes:
            wanted = given.get(each.name, each.default)
            if wanted is None:
                continue
            block = self._block(wanted, f"{prefix}{each.name}.", way, each.place)
            if block is None:
                return None
            blocks[each.name] = block
        draft, problems = link(program, blocks, prefix)
        self.problems.extend(problems)
        return draft

    def _block(self, name: str, prefix: str, way: tuple[Path, ...], place: Place) -> Draft | None:
        beside = self.library.root / f"{name}{SUFFIX}"
        try:
            path = beside if beside.is_file() else recipe_path(name)
        except Problems as found:
            self.problems.extend(replace(missing, place=place) for missing in found.problems)
            return None
        if path in way:
            names = " takes ".join(p.stem for p in (*way[way.index(path) :], path))
            self.problems.append(problem("blocks-in-circle", place, path=names))
            return None
        program = self.program(path)
        if program is None or has_errors([*self.problems, *self.library.problems]):
            return None
        return self.linked(program, {}, prefix, (*way, path))
