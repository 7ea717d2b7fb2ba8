"""What the statements of one program give besides their values: choices, unknowns, blends.

Filled while names are worked out, read when the program is put together. Nothing fails.

    yields.choices["fit"], yields.drawn[("front", "side")].blends
"""

from __future__ import annotations

from dataclasses import dataclass, field

from godet.language import tree
from godet.program.curves import Drawn
from godet.program.kinds import Kind
from godet.program.program import Choice, Measure
from godet.program.scopes import Scope
from godet.program.values import Value


@dataclass(slots=True)
class Yield:
    vocabulary: Scope
    definitions: dict[str, tree.DefineMeasure]
    makes: Kind | None = None
    choices: dict[str, Choice] = field(default_factory=dict)
    measures: dict[str, Measure] = field(default_factory=dict)
    finds: dict[str, tuple[tree.Find, Scope, Value]] = field(default_factory=dict)
    drawn: dict[tuple[str, str], Drawn] = field(default_factory=dict)  # (piece, edge)
