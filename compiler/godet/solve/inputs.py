"""What the bodies, the cloths and the maker's choices bring into a draft, as arrays over bodies.

Missing measures and choices are NaN (words: empty text); the draft then takes its estimate or its
default. Plain records; nothing here fails.

    Inputs(("adult_a",), {"hip_girth": np.array([1020.0])}, {}, {})
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Inputs:
    labels: tuple[str, ...]  # of the bodies
    measures: Mapping[str, NDArray[Any]]  # (bodies,) mm or radians, NaN where not given
    choices: Mapping[str, NDArray[Any]]  # (bodies,) mm, ratio or radians, or words
    cloths: Mapping[tuple[str, str], NDArray[Any]]  # (cloth, property): (bodies,)
