"""The measures of the vocabulary, as the readers of body files and size tables want them.

vocabulary(library)["hip_girth"].lowest   # 450.0, in mm
"""

from __future__ import annotations

from godet.graph.types import ANGLE, RATIO
from godet.language.library import Library
from godet.orders.records import MeasureKind, MeasureMeaning
from godet.program.modules import vocabulary_of
from godet.program.program import Measure
from godet.program.statements import described


def measures(library: Library) -> dict[str, Measure]:
    """Every measure there is, by name."""
    return {name: described(block) for name, block in vocabulary_of(library).items()}


def vocabulary(library: Library) -> dict[str, MeasureMeaning]:
    """The same, as a reader of files needs it."""
    return {
        name: MeasureMeaning(name, _kind(known), known.lowest, known.highest, known.take)
        for name, known in measures(library).items()
    }


def _kind(measure: Measure) -> MeasureKind:
    if measure.type == ANGLE:
        return "angle"
    return "ratio" if measure.type == RATIO else "length"
