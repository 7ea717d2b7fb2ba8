"""What a piece says of how it is altered, with nodes in place of expressions.

Out of `altering_lines`, into `altering`. Names of edges and darts are those of the piece that is
altered; points lie on it as it was before the first alteration. Plain records.
"""

from __future__ import annotations

from dataclasses import dataclass

from godet.base.places import Place

MIRRORED = "other_"  # before the names of what unfolding adds


@dataclass(frozen=True, slots=True)
class Swing:
    place: Place
    dart: str
    share: int | None  # a node: how much of it; None: all
    edge: str | None
    at: int | None
    into: str | None
    name: str  # of the dart that is opened
    holding: str | None


@dataclass(frozen=True, slots=True)
class Convert:
    place: Place
    dart: str
    into: str  # flare, gathers, ease, pleat, tuck
    over: int | None
    edge: str | None
    at: int | None
    holding: str | None


@dataclass(frozen=True, slots=True)
class Spread:
    place: Place
    edge: str
    by: int
    at: int | None
    count: int
    other: str
    other_by: int | None  # None: hinged there
    other_at: int | None
    holding: str | None


@dataclass(frozen=True, slots=True)
class Divide:
    place: Place
    along: int
    first: str
    last: str
    name: str
    keeping: str


@dataclass(frozen=True, slots=True)
class Join:
    place: Place
    piece: str  # `back`, or `top.back`
    other: str  # its edge
    edge: str


@dataclass(frozen=True, slots=True)
class Unfold:
    place: Place
    edge: str


AlterationLine = Swing | Convert | Spread | Divide | Join | Unfold
