"""Reads recipes and tells all that is wrong with them, without a body: behind `godet check`.

In: recipes (paths, or names of shipped ones), and texts to read in place of what files hold. Out:
`Checked`: every problem once, and the texts they stand in. Nothing fails.

    check(["dress.godet"]).problems
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from godet.base.problems import Problem
from godet.tools.compiling import compile_recipe


@dataclass(frozen=True, slots=True)
class Checked:
    problems: tuple[Problem, ...]
    texts: Mapping[str, str]  # of every file read, by name


def check(recipes: Sequence[str], instead: Mapping[str, str] | None = None) -> Checked:
    """Each recipe with the blocks it takes by default; what several share is told once."""
    problems: dict[Problem, None] = {}
    texts: dict[str, str] = {}
    for recipe in recipes:
        compiled = compile_recipe(recipe, needs_blocks=False, instead=instead)
        problems |= dict.fromkeys(compiled.problems)
        texts |= compiled.texts
    return Checked(tuple(problems), texts)
