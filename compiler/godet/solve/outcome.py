"""What solving gives: values for every body, and for each body that fails, where and by how much.

outcome.value(node, body=0);  outcome.failures
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from godet.base.places import Place
from godet.geometry.dual import Values, value_of


@dataclass(frozen=True, slots=True)
class Failure:
    """One statement that could not hold for one body."""

    body: int
    code: str
    node: int
    place: Place | None
    numbers: Mapping[str, float]  # mm, radians or plain, as the code says
    # further unknowns concerned, each with how far the sides of its equation are apart
    others: Mapping[int, float]


@dataclass(frozen=True, slots=True)
class Outcome:
    labels: tuple[str, ...]
    values: Mapping[int, Values]  # node: (bodies or 1, ...)
    failures: tuple[Failure, ...]
    faulty: Mapping[int, NDArray[np.intp]]  # node: for each body nought, or a fault it has met

    def value(self, node: int, body: int) -> Any:
        """The value of a node for one body: a float, an array, a word or a truth."""
        values = value_of(self.values[node])
        row = values[body if len(values) > 1 else 0]
        return row.item() if row.ndim == 0 else row

    def holds(self, node: int, body: int) -> bool:
        """Whether a node's value stands for this body: nothing that it needs has failed."""
        faults = self.faulty.get(node)
        return faults is None or not faults[body if len(faults) > 1 else 0]

    def failed(self, body: int) -> bool:
        return any(failure.body == body for failure in self.failures)
