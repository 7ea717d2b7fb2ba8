"""What a numeric function says when its answer does not hold for some of the bodies.

A function returns its plain value, or `Guarded(value, breaches)`. A breach names its code (the
sentence is elsewhere), the bodies that fail, and the numbers of the failure, one per body.
Failing rows of the value may hold anything; the solver forgets them.

    Guarded(curve, (Breach("blend-too-long", over / 2 > length, {"half": over / 2, "has":
    length}),))
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Breach:
    code: str
    failed: NDArray[np.bool_]  # (bodies,)
    numbers: Mapping[str, NDArray[np.float64]]  # (bodies,) each, mm or radians


@dataclass(frozen=True, slots=True)
class Guarded:
    value: Any
    breaches: tuple[Breach, ...]
