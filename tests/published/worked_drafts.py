"""Drafts a recipe of this folder for one body, and measures it in the unit of its source.

In: the recipe's name, measures and choices in that unit (words as they are, `radians` for angles).
Out: a `Worked`, whose numbers, points and edges are in the unit. Fails where the recipe, the draft
or a finished piece has anything to tell, be it only advice.

    worked("circle_skirt", INCH, waist_girth=26).number("front.radius")
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from fontTools.misc.bezierTools import calcCubicArcLength
from numpy.typing import NDArray

from godet.base.places import Place
from godet.orders.records import Body, Measured
from godet.program.draft import Draft
from godet.solve.outcome import Outcome
from godet.solve.solver import solve
from godet.tools.compiling import compile_recipe
from godet.tools.drafting import draft_all, prepared_for

FOLDER = Path(__file__).parent
INCH, CM = 25.4, 10.0  # mm
Floats = NDArray[np.float64]
_HERE = Place("test", 1, 1, 1, 1)


@dataclass(frozen=True)
class Worked:
    draft: Draft
    outcome: Outcome
    unit: float

    def number(self, name: str) -> float:
        """A length in the unit."""
        return float(self._value(name)) / self.unit

    def degrees(self, name: str) -> float:
        return float(np.degrees(self._value(name)))

    def point(self, name: str) -> Floats:
        """How far outward and how far down a point lies."""
        return np.asarray(self._value(name)) / self.unit

    def way(self, start: str, end: str) -> float:
        """The straight way from one point to another."""
        return float(np.hypot(*(self.point(end) - self.point(start))))

    def edge(self, name: str) -> Floats:
        """The cubics (n, 4, 2) of an edge or curve."""
        return np.asarray(self._value(name)) / self.unit

    def along(self, name: str) -> float:
        """The length of an edge or curve, by fontTools."""
        cubics = self.edge(name)
        return sum(calcCubicArcLength(*map(tuple, cubic), tolerance=1e-9) for cubic in cubics)

    def _value(self, name: str) -> Any:
        return self.outcome.value(self.draft.names[name], 0)


@cache
def _draft(recipe: str) -> Draft:
    compiled = compile_recipe(str(FOLDER / f"{recipe}.godet"))
    assert not compiled.problems, [p.sentence for p in compiled.problems]
    assert compiled.draft is not None
    return compiled.draft


def worked(
    recipe: str,
    unit: float,
    choices: Mapping[str, float | str] | None = None,
    radians: Mapping[str, float] | None = None,
    **measures: float,
) -> Worked:
    """The recipe for a body of these measures."""
    draft = _draft(recipe)
    body = Body(
        "as published",
        "in" if unit == INCH else "cm",
        {name: Measured(value * unit, str(value), _HERE) for name, value in measures.items()},
        "test",
    )
    chosen = {
        name: value if isinstance(value, str) else value * unit
        for name, value in (choices or {}).items()
    }
    prepared = prepared_for([body], {}, {**chosen, **(radians or {})}, draft)
    (pattern,), problems = draft_all(prepared)
    assert pattern is not None, [p.sentence for p in problems]
    # what the page itself draws is not to be mended: a neck with a corner over the shoulder
    others = [p.sentence for p in problems if p.code != "corner-over-seam"]
    assert not others, others
    # a dart drawn straight down from a slanting waist has one leg shorter than the other
    told = [r.words for r in pattern.reports if not r.words.startswith("the shorter leg of")]
    assert not told, told
    outcome = solve(draft.graph, draft.finds, list(draft.names.values()), prepared.inputs)
    return Worked(draft, outcome, unit)
