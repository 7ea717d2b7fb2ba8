"""How badly a statement fails, so that of many bodies the worst can be told.

In: the code and the numbers of a failure. Out: a number, larger being worse; NaN where a failure
has no more and less. Nothing fails.

    how_badly("past-the-end", {"distance": 120.0, "length": 100.0})    # 20.0
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

Numbers = Mapping[str, float]

_HOW_BADLY: Mapping[str, Callable[[Numbers], float]] = {
    "choice-out-of-range": lambda n: max(n["lowest"] - n["value"], n["value"] - n["highest"]),
    "root-of-negative": lambda n: -n["base"],
    "past-the-end": lambda n: max(n["distance"] - n["length"], -n["distance"]),
    "not-an-end": lambda n: n["gap"],
    "ends-do-not-meet": lambda n: n["gap"],
    "off-edge": lambda n: n["distance"],
    "blend-too-long": lambda n: n["half"] - min(n["before"], n["after"]),
    "not-positive": lambda n: -n["distance"],
    "no-crossing": lambda n: n["closest"],
    "many-crossings": lambda n: n["count"],
    "tie": lambda n: -n["difference"],
    "tangent-crossing": lambda n: -n["angle"],
    "overlap": lambda n: n["length"],
    "tension-too-low": lambda n: -n["tension"],
    "shorter-than-chord": lambda n: n["chord"] - n["wanted"],
    "out-of-reach": lambda n: max(n["shortest"] - n["wanted"], n["wanted"] - n["longest"]),
    "arc-leads-away": lambda n: n["angle"],
    "level-misses": lambda n: max(n["highest"] - n["down"], n["down"] - n["lowest"]),
    "radius-too-small": lambda n: n["distance"] - n["radius"],
    "no-answer-in-range": lambda n: n["closest"],
    "range-upside-down": lambda n: n["lowest"] - n["highest"],
    "many-answers": lambda n: n["count"],
}


def how_badly(code: str, numbers: Numbers) -> float:
    """How far the failure is from none, in the unit of its numbers."""
    return _HOW_BADLY[code](numbers) if code in _HOW_BADLY else math.nan
