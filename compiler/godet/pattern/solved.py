"""The solved values of one body, as finishing asks for them.

In: whatever can tell the value of a node for a body, and the body's number. Out: numbers, points,
paths and truths. A node that was not solved for fails as its source does.

    BodyValues(outcome, 0).number(allowance)             # 10.0 mm
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from godet.pattern.paths import with_length
from godet.pattern.pieces import Path, Point


class Solved(Protocol):
    def value(self, node: int, body: int) -> Any:
        """A float, a point (2,), a curve (n, 4, 2), a word or a truth."""
        ...


@dataclass(frozen=True, slots=True)
class BodyValues:
    solved: Solved
    body: int

    def number(self, node: int) -> float:
        """A quantity: mm, radians or a plain number."""
        return float(self.solved.value(node, self.body))

    def point(self, node: int) -> Point:
        """A point or a direction, (across, down)."""
        across, down = self.solved.value(node, self.body)
        return float(across), float(down)

    def path(self, node: int) -> Path:
        """A curve without its cubics of no length; empty when none has a length."""
        return with_length(np.asarray(self.solved.value(node, self.body), dtype=np.float64))

    def rows(self, node: int) -> NDArray[np.float64]:
        """The points of a dart or of gathers, one a row."""
        return np.asarray(self.solved.value(node, self.body), dtype=np.float64)

    def holds(self, node: int) -> bool:
        return bool(self.solved.value(node, self.body))
