"""Recipes on a library small enough to read at one sitting, typed, linked and solved.

The library is tests/small_library; a text is written beside a copy of it, since modules are looked
for beside the recipe first.
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from godet.base.problems import Problem
from godet.base.words import Severity
from godet.program.draft import Draft
from godet.solve.inputs import Inputs
from godet.solve.outcome import Outcome
from godet.solve.solver import solve
from godet.tools.compiling import Compiled, compile_recipe

SMALL_LIBRARY = Path(__file__).with_name("small_library")
DRESS = (SMALL_LIBRARY / "plain_dress.godet").read_text(encoding="utf-8")
TOP = (SMALL_LIBRARY / "plain_top.godet").read_text(encoding="utf-8")
HEADING = "edition 1\nrecipe tried\n"
WITH_TOP = f"{HEADING}  takes top: bodice = plain_top\n"

# mm and radians, but for `body` in cm and degrees
MEASURES = {"bust_girth": 920.0, "waist_girth": 740.0, "hip_girth": 980.0, "height": 1680.0}
KNIT = {
    ("main", "structure"): np.array(["knit"]),
    ("main", "stretch_across"): np.array([0.4]),
    ("main", "stretch_along"): np.array([0.1]),
}


def compiled(
    text: str, blocks: Mapping[str, str] | None = None, beside: Mapping[str, str] | None = None
) -> Compiled:
    """The text compiled as `tried.godet`; `beside` are further files (name: text)."""
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(SMALL_LIBRARY, folder, dirs_exist_ok=True)
        for name, content in {**(beside or {}), "tried.godet": text}.items():
            (Path(folder) / name).write_text(content, encoding="utf-8")
        return compile_recipe(str(Path(folder) / "tried.godet"), blocks)


def faults(problems: Sequence[Problem]) -> list[Problem]:
    """The problems that are more than advice: a text for trying out names what it never uses."""
    return [found for found in problems if found.severity is not Severity.ADVICE]


def told(problems: Sequence[Problem]) -> list[tuple[str, int | None]]:
    """Code and line of each problem."""
    return [(p.code, p.place.line if p.place is not None else None) for p in problems]


def draft(
    text: str, blocks: Mapping[str, str] | None = None, beside: Mapping[str, str] | None = None
) -> Draft:
    """The linked draft of a text that is right."""
    made = compiled(text, blocks, beside)
    assert made.draft is not None, [(p.code, p.sentence) for p in made.problems]
    return made.draft


def inputs(
    draft: Draft,
    measures: Mapping[str, Any],
    choices: Mapping[str, Any] | None = None,
    cloths: Mapping[tuple[str, str], Any] | None = None,
) -> Inputs:
    """Measures as numbers (one body) or arrays (many), in mm and radians; not given is NaN."""
    count = max([len(np.atleast_1d(m)) for m in measures.values()], default=1)
    rows = {
        name: np.broadcast_to(np.asarray(measures.get(name, np.nan), dtype=float), (count,))
        for name in draft.measures
    }
    picked = {name: np.array([value]) for name, value in (choices or {}).items()}
    labels = tuple(f"body_{number}" for number in range(count))
    return Inputs(labels, rows, picked, KNIT if cloths is None else cloths)


def solved(draft: Draft, names: Sequence[str], given: Inputs) -> Outcome:
    """The draft's values of these names for the bodies given."""
    return solve(draft.graph, draft.finds, [draft.names[name] for name in names], given)


def values(draft: Draft, name: str, given: Inputs) -> list[Any]:
    """The values of one name, a body each; nothing may fail."""
    outcome = solved(draft, [name], given)
    assert not outcome.failures, outcome.failures
    return [outcome.value(draft.names[name], body) for body in range(len(given.labels))]


def node_value(draft: Draft, node: int, given: Inputs) -> Any:
    """The value of a node for the first body; nothing may fail."""
    outcome = solve(draft.graph, draft.finds, [node], given)
    assert not outcome.failures, outcome.failures
    return outcome.value(node, 0)


def value(text: str, name: str, **measures: float) -> Any:
    """The value of a name in a text, for one body."""
    made = draft(text)
    (only,) = values(made, name, inputs(made, {**MEASURES, **measures}))
    return only
