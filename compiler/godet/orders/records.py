"""What the files beside a recipe say, once read: bodies, fabrics, dockets.

In: nothing but values already read. Out: frozen records, each value with its place in its file, so
that a problem found much later can still point at the line. Nothing fails.

    Measured(940.0, "94", Place("adult_a.yaml", 3, 24, 3, 26))
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from godet.base.places import Place
from godet.base.quantities import LengthUnit

MeasureKind = Literal["length", "angle", "ratio", "mass"]


@dataclass(frozen=True, slots=True)
class MeasureMeaning:
    """What a measure of the body is.

    `lowest` and `highest` bound what is plausible, in mm, radians or kg; `take` says how it is
    taken, as a part of a sentence.
    """

    name: str
    kind: MeasureKind
    lowest: float | None
    highest: float | None
    take: str


@dataclass(frozen=True, slots=True)
class Measured:
    """One measure of one body: mm, radians, a ratio or kg, and the text as it was typed.

    `completed` says that nobody measured or published it: a size table filled it in by a rule.
    """

    value: float
    typed: str
    place: Place
    completed: bool = False


@dataclass(frozen=True, slots=True)
class Body:
    """One person or one size.

    `units` is how this file's bare numbers are read, and so how lengths are told to its reader.
    """

    label: str
    units: LengthUnit
    measures: Mapping[str, Measured]
    file: str


@dataclass(frozen=True, slots=True)
class Fabric:
    """One cloth. Stretch, shrinkage and recovery are ratios, width is in mm, weight in g/m2.

    A stretch or shrinkage that the file leaves out is 0, the careful answer for a stretch.
    """

    name: str
    structure: Literal["knit", "woven"]
    stretch_across: float
    stretch_along: float
    width: float | None
    shrinkage_across: float
    shrinkage_along: float
    recovery: float | None
    weight: float | None
    nap: Literal["none", "one_way"]
    file: str


@dataclass(frozen=True, slots=True)
class Chosen:
    """A choice set by a docket, still as text: only its recipe knows what it may be."""

    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Docket:
    """One order: everything that a draft depends on.

    `blocks` is what stands under `with`, `choices` what stands under `choose` (`top.sleeve` sets a
    choice of the block `top`). `places` gives each entry's place by its path in the file:
    `recipe`, `date`, `body`, `fabrics.main`, `with.top`.
    """

    recipe: str
    date: str | None
    body: Path | None
    fabrics: Mapping[str, Path]
    blocks: Mapping[str, str]
    choices: Mapping[str, Chosen]
    file: str
    places: Mapping[str, Place]
