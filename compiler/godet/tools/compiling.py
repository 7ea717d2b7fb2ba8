"""From a recipe's file to a linked draft.

In: the recipe (a path, or the name of a shipped one) and the blocks to take. Out: the `Draft` with
every problem met on the way; None when there is an error among them. No body is needed.

    compiled = compile_recipe("column_dress", {"top": "knit_tee"})
    compiled.draft.pieces["front"]
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Problem, Problems, has_errors, problem
from godet.base.shipped import shipped
from godet.graph.node import Graph
from godet.language.block_text import block_named
from godet.language.library import SUFFIX, Library
from godet.language.tree import BlockNamed, Word
from godet.program.blocks import Assembly
from godet.program.draft import Draft
from godet.program.linking import link
from godet.program.program import Program
from godet.program.recipes import typed_program
from godet.solve.refusing import unsolvable

# blocks in blocks in blocks; a garment has a handful
MOST_BLOCKS = 100

Way = tuple[Path, ...]  # the recipes whose own blocks led to where one is
Given = tuple[tuple[Word | None, BlockNamed], ...]  # blocks, and what they are to be taken as


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
    hint, _ = did_you_mean(given.stem, _recipes_near(given), None)
    raise Problems([problem("no-such-recipe", None, file=recipe, hint=hint)])


def _recipes_near(given: Path) -> list[str]:
    """The names that might have been meant: of files beside the one named, and of shipped ones."""
    folders = [given.parent, shipped("recipes"), shipped("stdlib")]
    return [file.stem for folder in folders for file in folder.glob(f"*{SUFFIX}")]


def compile_recipe(
    recipe: str,
    blocks: Mapping[str, str] | None = None,
    needs_blocks: bool = True,
    instead: Mapping[str, str] | None = None,
) -> Compiled:
    """The recipe, typed and linked with its blocks (by name; the recipe's own where not given).

    With `needs_blocks` false a recipe that takes a block and names none is typed and not linked.
    `instead` are texts, by file name, to read in place of what the files hold.
    """
    try:
        path = recipe_path(recipe)
    except Problems as found:
        return Compiled(None, None, found.problems, Library(Path(recipe).parent))
    library = Library(path.parent, instead=instead or {})
    compiling = _Compiling(library, Graph(), [])
    program = compiling.program(path)
    draft = None
    sound = program is not None and not has_errors([*compiling.problems, *library.problems])
    open_ended = program is not None and any(taken.default is None for taken in program.takes)
    if program is not None and sound and (needs_blocks or not open_ended):
        draft = compiling.linked(program, blocks or {}, path)
        compiling.problems.extend(unsolvable(draft.graph, draft.finds) if draft else ())
    told = [*library.problems, *compiling.problems]
    if needs_blocks and program is None and not told:
        # a module is right by itself, but nothing that could be drafted
        told.append(problem("no-recipe", None, file=path))
    problems = _in_order(told, str(path))
    if has_errors(problems):
        draft = None
    return Compiled(draft, program, problems, library)


def _in_order(problems: list[Problem], file: str) -> tuple[Problem, ...]:
    """Problems as a reader meets them: the recipe from its top, then the other files."""

    def order(found: Problem) -> tuple[bool, str, int, int]:
        place = found.place or Place("", 0, 0, 0, 0)
        return (place.file not in ("", file), place.file, place.line, place.column)

    return tuple(sorted(problems, key=order))


@dataclass(slots=True)
class _Compiling:
    library: Library
    graph: Graph
    problems: list[Problem]
    programs: dict[Path, Program | None] = field(default_factory=dict)
    count: int = 0  # of blocks in blocks

    def program(self, path: Path) -> Program | None:
        """The typed program of a file, once however often it is taken."""
        if path not in self.programs:
            file = self.library.file(path)
            self.programs[path] = None
            if file is not None:
                self.programs[path], problems = typed_program(file, self.library, self.graph)
                self.problems.extend(problems)
        return self.programs[path]

    def linked(self, program: Program, given: Mapping[str, str], path: Path) -> Draft | None:
        """The draft of the recipe on the blocks that are given by name, and else its own."""
        taken = {each.name: each for each in program.takes}
        named: list[tuple[Word, BlockNamed]] = []
        for name, text in given.items():
            if name not in taken:
                names = ", ".join(sorted(taken)) or "nothing"
                hint, _ = did_you_mean(name, taken, None)
                self.problems.append(
                    problem("no-such-block", None, name=name, names=names, hint=hint)
                )
                return None
            place = taken[name].place
            block = block_named(text, place)
            if block is None:
                self.problems.append(problem("block-not-read", place, text=text, name=name))
                return None
            named.append((Word(name, place), block))
        assembly = self._assembly(program, tuple(named), (), (path,))
        if assembly is None:
            return None
        draft, problems = link(assembly)
        self.problems.extend(problems)
        return draft

    def _assembly(
        self, program: Program, given: Given, given_way: Way, way: Way
    ) -> Assembly | None:
        """The program with the blocks given to it, and else its own; each comes with the way by
        which whoever names it was come to."""
        assigned = self._assigned(program, given)
        if assigned is None:
            return None
        blocks: dict[str, Assembly] = {}
        for each in program.takes:
            named = assigned.get(each.name)
            block = None
            if named is not None:
                block = self._block(named, given_way)
            elif each.default is not None:
                block = self._block(each.default, way)
            else:
                continue
            if block is None:
                return None
            blocks[each.name] = block
        return Assembly(program, blocks)

    def _assigned(self, program: Program, given: Given) -> dict[str, BlockNamed] | None:
        """The given blocks by what the program calls them; None when they don't fit."""
        names = [each.name for each in program.takes]
        assigned: dict[str, BlockNamed] = {}
        for position, (word, block) in enumerate(given):
            name = (
                word.text if word is not None else names[position] if position < len(names) else ""
            )
            if name not in names or name in assigned:
                self.problems.append(
                    problem(
                        "blocks-do-not-fit",
                        block.place,
                        name=program.name,
                        names=f"{', '.join(names)}, each once" if names else "no block",
                    )
                )
                return None
            assigned[name] = block
        return assigned

    def _block(self, named: BlockNamed, way: Way) -> Assembly | None:
        self.count += 1
        if self.count > MOST_BLOCKS:
            self.problems.append(problem("too-many-blocks", named.place, most=MOST_BLOCKS))
            return None
        name, place = named.name.text, named.place
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
        return self._assembly(program, named.given, way, (*way, path))
