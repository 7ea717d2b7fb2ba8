"""What a search for several unknowns gives.

Answers(values, hopeless, blames); plain records, nothing fails.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from godet.solve.blaming import Blame
from godet.solve.trials import Floats


@dataclass(frozen=True, slots=True)
class Answers:
    values: Floats  # (unknowns, bodies tried); any number for a body that is blamed or hopeless
    hopeless: NDArray[np.bool_]  # (bodies tried,): the first trial gave no number
    blames: tuple[Blame, ...]
