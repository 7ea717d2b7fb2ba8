"""What is drawn, said once for every backend: lines, curves and words in mm, sorted into layers.

Out of `piece_drawing`, `scale_square`, `sheet` and `tile_pages`; into `svg` and `pdf`. An element
says what it is (its layer) and never how it looks: that is the table in `line_styles`. Elements
stand in the coordinates of their drawing, which for a piece are the piece's own, so a path reads
the same in every file; `Drawing.at` says where that origin lies on the sheet. Nothing fails.

    Line("front.grain-line", "grain", points=np.array([[80, 100], [80, 400]]))
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from godet.pattern.pieces import Path, Point

Layer: TypeAlias = Literal[
    "cut", "sew", "dart", "fold", "grain", "notch", "level", "mark", "label", "test-square", "tile"
]


@dataclass(frozen=True)
class Curve:
    """A chain of cubics, each beginning where the one before it ends."""

    id: str
    layer: Layer
    path: Path  # (cubics, 4, 2)
    closed: bool = False


@dataclass(frozen=True)
class Line:
    """Straight stretches from point to point."""

    id: str
    layer: Layer
    points: NDArray[np.float64]  # (points, 2)
    dotted: bool = False


@dataclass(frozen=True)
class Words:
    """One line of text; `at` is on the baseline, at the start or the middle of the text."""

    id: str
    layer: Layer
    text: str
    at: Point
    size: float  # of the letters, mm
    anchor: Literal["start", "middle"] = "middle"
    turn: float = 0.0  # radians, clockwise as printed
    bold: bool = False


Element: TypeAlias = Curve | Line | Words


@dataclass(frozen=True)
class Box:
    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top


@dataclass(frozen=True)
class Drawing:
    """Elements that belong together, such as a piece, and where they lie."""

    id: str
    title: str
    description: str
    box: Box  # of all its elements, in its own coordinates
    elements: tuple[Element, ...]
    at: Point = (0.0, 0.0)  # where its origin lies


@dataclass(frozen=True)
class Sheet:
    """Drawings side by side on one large sheet, from its upper left corner, across and down."""

    title: str
    width: float
    height: float
    drawings: tuple[Drawing, ...]
