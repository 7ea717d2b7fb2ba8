"""What a person asks to have drafted: a recipe with its body, cloths, blocks and choices.

In: command-line options or a docket. Out: a `Request`; whatever is wrong with a file is a problem.

    request, problems = request_from_docket(Path("order.yaml"))
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from godet.base.places import Place
from godet.base.problems import Problem
from godet.orders.dockets import read_docket


@dataclass(frozen=True, slots=True)
class Request:
    recipe: str
    body: Path | None = None
    fabrics: Mapping[str, Path] = field(default_factory=dict)
    blocks: Mapping[str, str] = field(default_factory=dict)
    choices: Mapping[str, tuple[str, Place | None]] = field(default_factory=dict)
    date: str | None = None


def request_from_docket(path: Path) -> tuple[Request | None, tuple[Problem, ...]]:
    """The request a docket makes; None when it can't be read."""
    docket, problems = read_docket(path)
    if docket is None:
        return None, problems
    beside = path.parent / docket.recipe
    named = [beside, beside.with_name(beside.name + ".godet")]
    recipe = next((str(p) for p in named if p.is_file()), docket.recipe)
    choices = {name: (c.text, c.place) for name, c in docket.choices.items()}
    request = Request(recipe, docket.body, docket.fabrics, docket.blocks, choices, docket.date)
    return request, problems


def is_docket(path: str) -> bool:
    return path.endswith((".yaml", ".yml"))
