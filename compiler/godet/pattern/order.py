"""What a finished pattern says of its making: for whom, when, by which version, from what.

Into `finish`, which copies it onto the pattern. A plain frozen record; nothing fails.

    Order("adult_a", None, "cm", "0.1.0", "5c30..", {"hip_girth": 1020.0}, {}, {"fit": "close"})
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Order:
    body: str  # a label, not a name
    date: str | None
    units: Literal["cm", "in"]  # the reader's
    version: str  # of Godet
    digest: str  # of meaning: recipe, blocks, body, cloths, choices
    measures: Mapping[str, float]  # given and estimated, mm or radians
    estimated: Mapping[str, str]  # measure: where its figure is from
    choices: Mapping[str, str]  # as text
    completed: tuple[str, ...] = ()  # measures that the body's size table completed by a rule
