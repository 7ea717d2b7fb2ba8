"""The types of values: quantities with dimensions, points, curves, words, conditions.

A quantity has a rational exponent of length and one of angle, so that the square root of an area
is a length, an angle is never taken for a ratio, and no unit is ever unknown.

    LENGTH.times(LENGTH) == AREA;  AREA.to_the(Fraction(1, 2)) == LENGTH
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Quantity:
    length: Fraction
    angle: Fraction

    def times(self, other: Quantity) -> Quantity:
        return Quantity(self.length + other.length, self.angle + other.angle)

    def over(self, other: Quantity) -> Quantity:
        return Quantity(self.length - other.length, self.angle - other.angle)

    def to_the(self, exponent: Fraction) -> Quantity:
        return Quantity(self.length * exponent, self.angle * exponent)

    def __str__(self) -> str:
        known = {
            RATIO: "a ratio", LENGTH: "a length", ANGLE: "an angle",
            AREA: "an area", ONE_OVER_LENGTH: "one over a length",
        }  # fmt: skip
        if self in known:
            return known[self]
        powers = [("length", self.length), ("angle", self.angle)]
        return " x ".join(f"{name}^{power}" for name, power in powers if power)


@dataclass(frozen=True, slots=True)
class Plain:
    """A type with no parts; its name is how a message says it."""

    name: str

    def __str__(self) -> str:
        return self.name


@dataclass(frozen=True, slots=True, eq=False)
class Words:
    """A closed list of words to choose from. Lists of the same words are one type, in whatever
    order: which word comes first, the default, is a matter of each choice."""

    words: tuple[str, ...]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Words) and set(self.words) == set(other.words)

    def __hash__(self) -> int:
        return hash(frozenset(self.words))

    def __str__(self) -> str:
        return f"one of {', '.join(self.words)}"


Type = Quantity | Plain | Words

RATIO = Quantity(Fraction(0), Fraction(0))
LENGTH = Quantity(Fraction(1), Fraction(0))
ANGLE = Quantity(Fraction(0), Fraction(1))
AREA = Quantity(Fraction(2), Fraction(0))
ONE_OVER_LENGTH = Quantity(Fraction(-1), Fraction(0))
POINT = Plain("a point")
OFFSET = Plain("an offset")
DIRECTION = Plain("a direction")
CURVE = Plain("a curve")
LEVEL = Plain("a level")
CONDITION = Plain("a condition")
TEXT = Plain("words in quotes")
FABRIC = Plain("a cloth")
DART = Plain("a dart")
DOUBLE_DART = Plain("a dart with two points")
GATHERS = Plain("gathers")

BY_NAME: dict[str, Type] = {
    "length": LENGTH,
    "angle": ANGLE,
    "ratio": RATIO,
    "area": AREA,
    "point": POINT,
    "curve": CURVE,
    "level": LEVEL,
    "dart": DART,
    "fabric": FABRIC,
    "condition": CONDITION,
}
