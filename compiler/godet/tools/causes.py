"""What a draft can be moved by, and how fast its values move: every measure, every numeric choice.

In: a linked draft, inputs, and the values asked for. Out: the causes among what the values need,
and the derivative of each value by each. A measure is taken as if it were measured, the other
measures kept; a choice is taken as if the maker chose it, and a choice left to its default follows
what the default is made of. Nothing fails that the draft itself does not fail in.

    causes = causes_of(draft, [hip_side])
    changes(draft, causes, [hip_side], inputs)[hip_side]     # (causes, bodies, 2), per mm
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from godet.geometry.dual import Dual, tangent_of, value_of
from godet.graph.node import Graph
from godet.graph.types import Quantity
from godet.program.draft import Draft
from godet.program.unknowns import needs
from godet.solve.inputs import Inputs
from godet.solve.solver import solve

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Cause:
    """A measure of the body, or a numeric choice of the maker."""

    name: str
    sort: Literal["measure", "choice"]
    type: Quantity
    node: int  # its value: given, or by estimate or default
    default: int | None  # of a choice: the node of what it is when it is left out


def causes_of(draft: Draft, targets: Iterable[int]) -> tuple[Cause, ...]:
    """What the targets depend on, through equations of unknowns too; measures first, by name."""
    found = []
    for number in reached(draft, targets):
        cause = _cause(draft.graph, number)
        if cause is not None:
            found.append(cause)
    return tuple(sorted(found, key=lambda cause: (cause.sort != "measure", cause.name)))


def reached(draft: Draft, targets: Iterable[int]) -> list[int]:
    """Every node that the targets need, those of the unknowns' equations among them, in order."""
    lines = {line.unknown: line for line in draft.finds}

    def inputs(number: int) -> tuple[int, ...]:
        more = needs(lines[number]) if number in lines else ()
        return (*draft.graph[number].inputs, *more)

    return draft.graph.reached_from(targets, inputs)


def _cause(graph: Graph, number: int) -> Cause | None:
    node = graph[number]
    if node.operation not in ("known", "given") or not isinstance(node.type, Quantity):
        return None
    leaf = graph[node.inputs[0]]
    if leaf.operation == "measure":
        return Cause(str(leaf.constant("name")), "measure", node.type, number, None)
    if leaf.operation == "choice":
        return Cause(str(leaf.constant("name")), "choice", node.type, number, node.inputs[1])
    return None


def changes(
    draft: Draft, causes: Sequence[Cause], targets: Sequence[int], inputs: Inputs
) -> Mapping[int, Floats]:
    """The derivative (causes, bodies, ...) of each target by each cause, in mm, radians and plain
    numbers. Rows of a body for which a target fails hold anything."""
    bodies = len(inputs.labels)
    defaults = {
        number: cause.default
        for number, cause in enumerate(causes)
        if cause.default is not None and cause.name not in inputs.choices
    }
    solved = solve(
        draft.graph,
        draft.finds,
        [*targets, *defaults.values()],
        _seeded(draft, causes, inputs),
    )

    def slopes(number: int) -> Floats:
        value = solved.values[number]
        tangent = tangent_of(value, len(causes))
        shape = (len(causes), bodies, *value_of(value).shape[1:])
        return np.array(np.broadcast_to(tangent, shape))

    by_default = {number: slopes(default) for number, default in defaults.items()}
    # how a choice moves with each cause when it is left to its default, through other defaults too:
    # a default needs only choices whose nodes come before its own
    for number in sorted(by_default, key=lambda number: causes[number].node):
        by_default[number] = _followed(by_default[number], by_default, causes, number)
    return {target: _followed(slopes(target), by_default, causes, None) for target in targets}


def _followed(
    slopes: Floats, by_default: Mapping[int, Floats], causes: Sequence[Cause], before: int | None
) -> Floats:
    """Slopes by the causes once choices left to their defaults follow these."""
    total = slopes.copy()
    for number, moved in by_default.items():
        if before is None or causes[number].node < causes[before].node:
            spread = moved.reshape(*moved.shape, *(1,) * (slopes.ndim - 2))
            # term by term: what a choice does not move it would else turn to no number
            share = spread * slopes[number][None]
            total += np.where(spread == 0.0, 0.0, share)
    return total


def _seeded(draft: Draft, causes: Sequence[Cause], inputs: Inputs) -> Inputs:
    """The same inputs, every cause given and carrying its own derivative."""
    bodies = len(inputs.labels)
    values = solve(draft.graph, draft.finds, [cause.node for cause in causes], inputs)
    tables: dict[str, dict[str, Any]] = {
        "measure": dict(inputs.measures),
        "choice": dict(inputs.choices),
    }
    for seed, cause in enumerate(causes):
        tangent = np.zeros((len(causes), bodies))
        tangent[seed] = 1.0
        value = np.broadcast_to(value_of(values.values[cause.node]), (bodies,))
        tables[cause.sort][cause.name] = Dual(np.array(value), tangent)
    return replace(inputs, measures=tables["measure"], choices=tables["choice"])
