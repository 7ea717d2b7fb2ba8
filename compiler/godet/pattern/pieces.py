"""A finished pattern for one body: all that a backend may know.

Out of `finish` and `fit`, into `output`. Lengths in mm, angles in radians, points (across, down)
from the piece's own origin: across grows outward from the centre line, down towards the hem.
A path is an array of shape (cubics, 4, 2): the control points of each cubic, first to last.
Plain frozen records; nothing here fails.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from godet.base.places import Place
from godet.program.program import DartManner

Path: TypeAlias = NDArray[np.float64]  # (cubics, 4, 2)
Point: TypeAlias = tuple[float, float]  # across, down


@dataclass(frozen=True)
class Edge:
    """One named edge of the outline, in its own direction (first end by its kind)."""

    name: str
    path: Path
    length_cut: float
    length_sewn: float
    allowance: float  # 0 for none
    on_fold: bool
    place: Place  # the statement that drew it


@dataclass(frozen=True)
class OutlineStep:
    """An edge as the outline walks it; `turned` when it is walked against its own direction."""

    edge: str
    turned: bool


@dataclass(frozen=True)
class Level:
    """A line across the piece at a depth, from `left` to `right` (across, on the sewing line)."""

    name: str
    at: float
    left: float
    right: float
    sewn: float | None = None  # its width as sewn, where darts are closed on it

    @property
    def width(self) -> float:
        return self.right - self.left if self.sewn is None else self.sewn


@dataclass(frozen=True)
class Notch:
    """A notch on an edge: where it stands, the unit normal out of the piece, one or two cuts."""

    edge: str
    name: str
    at: Point
    outward: Point
    count: Literal[1, 2]
    along: float  # mm from the edge's first end, as sewn


@dataclass(frozen=True)
class Dart:
    """A dart, or what is taken up in another manner: a pleat, a tuck, gathers, ease."""

    name: str
    manner: DartManner
    edge: str | None  # None: it lies inside the piece
    first: Point  # the ends of the mouth, of the widest place, or of the stretch that is gathered
    last: Point
    cap: Point | None  # the mouth's point on the dart's fold
    tips: tuple[Point, ...]  # one; two of a dart inside the piece; none of gathers
    pivot: Point | None
    taken: float  # mm: how wide it is, or how much of the edge is gathered in
    angle: float | None  # radians at the pivot
    sewn_for: float | None = None  # mm: how far a tuck is stitched


@dataclass(frozen=True)
class Mark:
    """A point to transfer to the cloth, such as a bust point."""

    name: str
    at: Point


@dataclass(frozen=True)
class Cut:
    count: int
    cloth: str  # main, rib, lining, ...
    fold: str | None  # the edge laid on the fold
    mirrored: bool  # cut as left and right


@dataclass(frozen=True)
class Piece:
    name: str
    title: str  # printed: "Front"
    number: int  # printed, from 1
    drawn: Literal["half", "whole"]
    points: Mapping[str, Point]
    edges: Mapping[str, Edge]
    outline: tuple[OutlineStep, ...]  # the sewing line, closed, walked clockwise as printed
    cut_line: Path  # the cutting line, closed, with allowances; on the fold it is the fold itself
    levels: Mapping[str, Level]
    notches: tuple[Notch, ...]
    marks: tuple[Mark, ...]
    cut: Cut
    grain: tuple[Point, Point]  # from, to
    area_drawn: float
    area_cut: float
    darts: Mapping[str, Dart] = field(default_factory=dict)


@dataclass(frozen=True)
class SeamSide:
    edge: str  # "sleeve.cap"
    times: int  # 2 where the piece is on the fold and the seam runs over it


@dataclass(frozen=True)
class Seam:
    name: str
    sides: tuple[tuple[SeamSide, ...], tuple[SeamSide, ...]]
    lengths_sewn: tuple[float, float]
    manner: str | None  # easing, stretched, gathered: what is done with the first side
    ease: float  # the first side is longer by this; negative: it is stretched on
    order: int  # in the order of sewing, from 1

    @property
    def gathers_or_stretches(self) -> bool:
        """Whether its first side is so sewn, and by 1 mm or more: less no tape tells."""
        long, short = self.lengths_sewn
        return self.manner in ("gathered", "stretched") and abs(long - short) >= 1.0


@dataclass(frozen=True)
class Check:
    name: str
    level: Literal["require", "advise"]
    ok: bool
    measured: str  # "98.4 cm", already in the reader's unit
    wanted: str  # "at least 92.0 cm"
    words: str  # for the wearer
    place: Place


@dataclass(frozen=True)
class Report:
    """Something the draft did that the maker should know, such as what a blend took away."""

    words: str
    place: Place


@dataclass(frozen=True)
class Pattern:
    recipe: str
    title: str
    edition: int
    version: str  # of Godet
    digest: str  # of meaning: recipe, blocks, body, cloths, choices
    body: str  # a label, not a name
    date: str | None
    units: Literal["cm", "in"]  # the reader's
    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    girths: Mapping[str, float]  # finished, by level
    finished: Mapping[str, float]
    checks: tuple[Check, ...]
    reports: tuple[Report, ...] = ()
    estimated: Mapping[str, str] = field(default_factory=dict)  # measure: where its figure is from
    completed: tuple[str, ...] = ()  # measures that the body's size table completed by a rule
    measures: Mapping[str, float] = field(default_factory=dict)  # given and estimated, mm or rad
    choices: Mapping[str, str] = field(default_factory=dict)  # as text, for the label
