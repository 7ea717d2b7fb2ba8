"""What is known of a line that must hold: proved, held where it was tried, fails, or none of these.

Plain records, of which a line gets exactly one; nothing here fails.

    HeldOn(("adult_a", "adult_small"))
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Proved:
    """For every body whose measures are plausible, given or estimated, and every choice."""


@dataclass(frozen=True, slots=True)
class NotProved:
    """Nothing is known: algebra finds no proof, or none within the steps it is given."""

    why: Literal["open", "steps"]


@dataclass(frozen=True, slots=True)
class HeldOn:
    """Not proved, but it holds for these bodies."""

    bodies: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FailsOn:
    """It does not hold for these bodies, of those tried."""

    bodies: tuple[str, ...]
    tried: int


Verdict = Proved | NotProved | HeldOn | FailsOn
