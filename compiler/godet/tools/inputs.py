"""Bodies, cloths and choices as the solver's arrays.

In: bodies and cloths as read from files, choices as read. Out: `Inputs`, bodies first. Nothing
fails: what a body does not give is NaN.

    inputs_of([body], {"main": jersey}, {"skirt_length": 620.0}, draft)
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from godet.orders.records import Body, Fabric
from godet.program.draft import Draft
from godet.solve.inputs import Inputs
from godet.tools.choosing import Chosen


def inputs_of(
    bodies: Sequence[Body], fabrics: Mapping[str, Fabric], choices: Chosen, draft: Draft
) -> Inputs:
    """One row a body; cloths and choices are the same for all."""
    measures = {
        name: np.array([b.measures[name].value if name in b.measures else np.nan for b in bodies])
        for name in draft.measures
    }
    cloths = {
        (cloth, name): np.array([value])
        for cloth, fabric in fabrics.items()
        for name, value in _properties(fabric).items()
    }
    picked = {name: np.array([value]) for name, value in choices.items()}
    return Inputs(tuple(body.label for body in bodies), measures, picked, cloths)


def _properties(fabric: Fabric) -> dict[str, float | str]:
    known: dict[str, float | str] = {
        "structure": fabric.structure,
        "stretch_across": fabric.stretch_across,
        "stretch_along": fabric.stretch_along,
    }
    if fabric.width is not None:
        known["width"] = fabric.width
    return known
