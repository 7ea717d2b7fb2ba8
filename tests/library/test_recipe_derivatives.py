"""Every named value and every check of the shipped recipes moves as its derivatives say.

The outside is numerical differentiation: central differences with two steps, extrapolated by
Richardson (1911), of drafts without any derivative in them; all the steps of all measures and
numeric choices are bodies of one batch.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from library_bodies import SHIPPED
from library_drafts import JERSEY, LINEN, Cloth, Floats, linked

from godet.graph.types import CURVE, LENGTH, LEVEL, POINT, Quantity
from godet.program.draft import Draft
from godet.solve.inputs import Inputs
from godet.solve.outcome import Outcome
from godet.solve.solver import solve
from godet.tools.causes import Cause, causes_of, changes

STEP = 0.4  # mm, or thousandths of a radian or of a ratio
BY_SIZE = sorted(SHIPPED, key=lambda label: SHIPPED[label]["bust_girth"])
CASES = [
    (recipe, label, cloth, choices)
    for recipe, prefix in (("knit_tee", ""), ("column_dress", "top."))
    for label in (BY_SIZE[0], BY_SIZE[-1])
    for cloth, choices in (
        # an armhole drop of nought, as of a close fit, is where the sleeve begins to widen
        (JERSEY, {"fit": "easy", f"{prefix}sleeve": "long"}),
        (LINEN, {"fit": "loose", f"{prefix}sleeve": "short"}),
    )
]


def asked_for(draft: Draft) -> dict[str, int]:
    """What is compared, by a name that a failing test can tell: every named value that is a number
    or a point, the length of every curve, every level with the width of its piece there, both
    sides of every check."""
    graph = draft.graph
    asked: dict[str, int] = {}
    for name, node in draft.names.items():
        if graph[node].type == CURVE:
            node = graph.add("length", (node,), type=LENGTH, place=None)
        if isinstance(graph[node].type, Quantity) or graph[node].type in (POINT, LEVEL):
            asked[name] = node
    for name, piece in draft.pieces.items():
        outline = tuple(edge.curve for _, edge in sorted(piece.edges.items()))
        whole = graph.add("together", outline, type=CURVE, place=None)
        for level, down in piece.levels.items():
            width = graph.add("width", (whole, down), type=LENGTH, place=None)
            asked[f"width of {name} at {level}"] = width
    for number, check in enumerate(draft.checks):
        if check.measured is not None and check.wanted is not None:
            asked |= {f"measured {number}": check.measured, f"wanted {number}": check.wanted}
    return asked


def given(draft: Draft, label: str, cloth: Cloth, choices: dict[str, Any]) -> Inputs:
    return Inputs(
        labels=(label,),
        measures={n: np.array([SHIPPED[label].get(n, np.nan)]) for n in draft.measures},
        choices={name: np.array([value]) for name, value in choices.items()},
        cloths={
            (name, key): np.array([value])
            for name in ("main", "rib")
            for key, value in cloth.items()
        },
    )


def stepped(draft: Draft, causes: tuple[Cause, ...], inputs: Inputs, targets: Any) -> Outcome:
    """The draft for four bodies a cause: with a step more and less, and half of it."""
    at = solve(draft.graph, draft.finds, [cause.node for cause in causes], inputs)
    ways = (1.0, -1.0, 0.5, -0.5)
    bodies = len(causes) * len(ways)
    # all measures stand still but one: what an estimate would do with it is another question
    measures = {
        cause.name: np.full(bodies, at.value(cause.node, 0))
        for cause in causes
        if cause.sort == "measure"
    }
    chosen: dict[str, Any] = dict(inputs.choices)
    for seed, cause in enumerate(causes):
        rows = slice(len(ways) * seed, len(ways) * (seed + 1))
        value = at.value(cause.node, 0) + np.array(ways) * size(cause)
        if cause.sort == "measure":
            measures[cause.name][rows] = value
        else:
            # the others are left to their defaults, as a maker leaves them
            chosen[cause.name] = np.full(bodies, np.nan)
            chosen[cause.name][rows] = value
    labels = tuple(f"{cause.name} {way}" for cause in causes for way in ways)
    return solve(
        draft.graph,
        draft.finds,
        targets,
        replace(inputs, labels=labels, measures={**inputs.measures, **measures}, choices=chosen),
    )


def size(cause: Cause) -> float:
    return STEP if cause.type == LENGTH else STEP / 1000.0


@pytest.mark.parametrize(
    ("recipe", "label", "cloth", "choices"),
    CASES,
    ids=[f"{recipe} {label} {choices['fit']}" for recipe, label, _, choices in CASES],
)
def test_every_value_of_a_shipped_recipe_moves_as_its_derivatives_say(
    recipe: str, label: str, cloth: Cloth, choices: dict[str, Any]
):
    draft = linked(recipe)
    asked = asked_for(draft)
    causes = causes_of(draft, asked.values())
    assert {cause.sort for cause in causes} == {"measure", "choice"}
    inputs = given(draft, label, cloth, choices)
    exact = changes(draft, causes, list(asked.values()), inputs)
    outcome = stepped(draft, causes, inputs, asked.values())
    assert outcome.failures == ()
    units = np.array([size(cause) for cause in causes])
    for name, node in asked.items():
        rows: Floats = np.array(
            [outcome.value(node, body) for body in range(4 * len(causes))], dtype=float
        ).reshape(len(causes), 4, -1)
        coarse = (rows[:, 0] - rows[:, 1]) / 2.0
        fine = rows[:, 2] - rows[:, 3]
        # what one step does, in mm: derivatives by lengths, shares and angles compare
        expected = (4.0 * fine - coarse) / 3.0
        got = exact[node][:, 0].reshape(len(causes), -1) * units[:, None]
        np.testing.assert_allclose(
            got, expected, rtol=1e-5, atol=1e-7 * STEP, err_msg=f"{name}: {causes}"
        )
