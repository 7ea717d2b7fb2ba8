"""A cell solved for all its bodies and pairs of choices in one batch.

In: a cell and bodies. Out: a `Trial`: one row for each body under each set of choices, values as
arrays with the rows first. Closed choices are covered pairwise by allpairspy: every word of every
choice meets every word of every other; the first set is the defaults. Fails on a recipe that does
not compile.

    tried(Cell("column_dress", "knit_tee"), women).value("front.side")    # (rows, n, 4, 2)
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import product
from typing import Any

import numpy as np
from allpairspy import AllPairs
from cells import Cell
from library_drafts import JERSEY, LINEN
from numpy.typing import NDArray

from godet.geometry.dual import value_of
from godet.graph.types import Words
from godet.orders.records import Body
from godet.pattern.finish import targets
from godet.program.draft import Draft
from godet.program.program import CheckLine
from godet.solve.inputs import Inputs
from godet.solve.outcome import Outcome
from godet.solve.solver import solve
from godet.tools.compiling import Compiled, compile_recipe

Floats = NDArray[np.float64]
Truths = NDArray[np.bool_]
CLOTHS = {"jersey": JERSEY, "linen": LINEN}


@dataclass(frozen=True)
class Choosing:
    """Words for the closed choices, by name, and the main cloth."""

    cloth: str
    words: Mapping[str, str]
    plain: bool  # the defaults, and what a person must choose who takes these blocks

    def __str__(self) -> str:
        return ", ".join([self.cloth, *(f"{name}={word}" for name, word in self.words.items())])


# choices of what is advised; nothing is drawn or refused by them
_ADVISED = ("steps_by",)


@cache
def compiled(recipe: str, blocks: tuple[tuple[str, str], ...] = ()) -> Compiled:
    made = compile_recipe(recipe, dict(blocks))
    assert made.draft is not None, [found.sentence for found in made.problems]
    return made


def draft_of(cell: Cell) -> Draft:
    draft = compiled(cell.dress, tuple(cell.blocks.items())).draft
    assert draft is not None
    return draft


def closed_choices(cell: Cell) -> dict[str, tuple[str, ...]]:
    """The words of each choice that a person is free to make, the default first; but what is only
    advised by."""
    set_already = set(_set_by(cell.dress, cell.blocks))
    return {
        name: choice.type.words
        for name, choice in sorted(draft_of(cell).choices.items())
        if isinstance(choice.type, Words)
        and name not in set_already
        and name.split(".")[-1] not in _ADVISED
    }


def _set_by(recipe: str, blocks: Mapping[str, str], within: str = "") -> Iterator[str]:
    """The choices of its blocks that a recipe sets, and of theirs in turn."""
    program = compiled(recipe, tuple(blocks.items())).program
    assert program is not None
    yield from (f"{within}{line.block}.{line.choice}" for line in program.settings)
    for taken in program.takes:
        named = blocks.get(taken.name) or (taken.default.name.text if taken.default else None)
        assert named is not None
        outer, _, inner = named.partition("(")
        below = compiled(outer).program
        assert below is not None
        given = {below.takes[0].name: inner.rstrip(")")} if inner else {}
        yield from _set_by(outer, given, f"{within}{taken.name}.")


def choosings(cell: Cell) -> tuple[Choosing, ...]:
    """The defaults in each cloth, and then a set for every pair of words."""
    closed = closed_choices(cell)
    plain = {name: words[0] for name, words in closed.items()} | dict(cell.usual)
    rows = [Choosing(cloth, plain, True) for cloth in cell.cloths]
    axes = [list(cell.cloths), *(list(words) for words in closed.values())]
    if len(axes) > 1:
        for cloth, *words in AllPairs(axes):
            rows.append(Choosing(cloth, dict(zip(closed, words, strict=True)), False))
    return tuple(rows)


def whole_product(cell: Cell) -> Iterator[Choosing]:
    """Every word of every closed choice with all words of all the others."""
    closed = closed_choices(cell)
    for cloth, *words in product(cell.cloths, *closed.values()):
        yield Choosing(cloth, dict(zip(closed, words, strict=True)), False)


@dataclass(frozen=True)
class Trial:
    cell: Cell
    draft: Draft
    outcome: Outcome
    bodies: tuple[Body, ...]
    choosings: tuple[Choosing, ...]

    @property
    def rows(self) -> int:
        return len(self.bodies) * len(self.choosings)

    def body(self, row: int) -> Body:
        return self.bodies[row % len(self.bodies)]

    def choosing(self, row: int) -> Choosing:
        return self.choosings[row // len(self.bodies)]

    def said(self, row: int) -> str:
        """A row as a person would type it again."""
        return f"{self.cell.name}, {self.body(row).label}: {self.choosing(row)}"

    def first(self, wrong: Truths) -> str:
        """The first row where something is wrong, and how many there are."""
        found = np.flatnonzero(wrong)
        return f"{len(found)} of {self.rows}; {self.said(int(found[0]))}" if len(found) else "none"

    def of(self, node: int) -> NDArray[Any]:
        values = np.asarray(value_of(self.outcome.values[node]))
        return np.broadcast_to(values, (self.rows, *values.shape[1:]))

    def value(self, name: str) -> NDArray[Any]:
        """A curve (rows, n, 4, 2), a point (rows, 2), a length (rows,) in mm."""
        return self.of(self.draft.names[name])

    def chosen(self, name: str) -> NDArray[Any]:
        return self.of(self.draft.choices[name].node)

    def has(self, name: str) -> bool:
        return name in self.draft.names

    def there(self, piece: str) -> Truths:
        """Where a piece is cut."""
        lines = self.draft.pieces.get(piece)
        if lines is None:
            return np.zeros(self.rows, dtype=bool)
        return self.sound if lines.when is None else self.of(lines.when).astype(bool) & self.sound

    def measured(self, name: str) -> Floats:
        """What was measured of the body, NaN where it was not, or a table completed it."""
        given = [b.measures.get(name) for b in self.bodies]
        known = [m.value if m is not None and not m.completed else np.nan for m in given]
        return np.tile(np.array(known), len(self.choosings))

    @cached_property
    def in_woven(self) -> Truths:
        return np.repeat([c.cloth == "linen" for c in self.choosings], len(self.bodies))

    @cached_property
    def sound(self) -> Truths:
        """Where every statement could be worked out."""
        fine = np.ones(self.rows, dtype=bool)
        fine[[failure.body for failure in self.outcome.failures]] = False
        return fine

    def unmet(self, check: CheckLine) -> Truths:
        """Where a check does not hold."""
        return ~self.of(check.condition).astype(bool) & self.sound

    @cached_property
    def accepted(self) -> Truths:
        """Where every statement and every requirement holds."""
        fine = self.sound.copy()
        for check in self.draft.checks:
            if check.level == "require":
                fine &= ~self.unmet(check)
        return fine


def tried(cell: Cell, bodies: Sequence[Body], choosing: Sequence[Choosing] | None = None) -> Trial:
    """Every body under every set of choices."""
    draft = draft_of(cell)
    sets = tuple(choosings(cell) if choosing is None else choosing)
    measures = {
        name: np.tile([b.measures[name].value if name in b.measures else np.nan for b in bodies],
                      len(sets))
        for name in draft.measures
    }  # fmt: skip
    names = sets[0].words
    choices = {n: np.repeat([c.words[n] for c in sets], len(bodies)) for n in names}
    cloths = {
        ("main", fact): np.repeat([CLOTHS[c.cloth][fact] for c in sets], len(bodies))
        for fact in LINEN
    }
    labels = tuple(body.label for _ in sets for body in bodies)
    inputs = Inputs(labels, measures, choices, cloths)
    wanted = dict.fromkeys([*targets(draft), *draft.names.values()])
    outcome = solve(draft.graph, draft.finds, list(wanted), inputs)
    return Trial(cell, draft, outcome, tuple(bodies), sets)
