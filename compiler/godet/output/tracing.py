"""Where the ink of an element lies, as points close together.

In: paths and elements in mm. Out: arrays of points (n, 2), neighbours no farther apart than asked.
Nothing fails; an empty path gives no points.

    traced(element, spacing=1.5)
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from godet.output.elements import Box, Curve, Element, Line, Words
from godet.output.lettering import text_width
from godet.pattern.pieces import Path, Point

Points = NDArray[np.float64]  # (n, 2)

LETTER_BOX = 1.0  # height kept for a line of letters, of their size: from below a g to above a k
_BASELINE = 0.35  # from the middle of that height down to the baseline, of the size


def without_empty_cubics(path: Path) -> Path:
    """The path without the cubics whose four points are one point to a millionth of a mm."""
    spread = np.abs(path - path[:, :1, :]).max(axis=(1, 2))
    kept: Path = path[spread > 1e-6]
    return kept


def traced_path(path: Path, spacing: float) -> Points:
    """Points on the curve, no farther apart than `spacing` mm, ends of every cubic included."""
    parts = []
    for cubic in path:
        # a cubic moves at most three times its longest leg for a whole step of its parameter
        legs = np.hypot(*np.diff(cubic, axis=0).T)
        count = max(1, math.ceil(3 * legs.max() / spacing))
        t = np.linspace(0.0, 1.0, count + 1)[:, None]
        s = 1.0 - t
        parts.append(
            s**3 * cubic[0] + 3 * s**2 * t * cubic[1] + 3 * s * t**2 * cubic[2] + t**3 * cubic[3]
        )
    return np.concatenate(parts) if parts else np.empty((0, 2))


def traced_line(points: Points, spacing: float) -> Points:
    """Points on straight stretches, no farther apart than `spacing` mm."""
    parts = [points[:1]]
    for start, end in pairwise(points):
        count = max(1, math.ceil(math.dist(start, end) / spacing))
        share = np.linspace(0.0, 1.0, count + 1)[1:, None]
        parts.append(start + share * (end - start))
    return np.concatenate(parts)


def filled_box(centre: Point, width: float, height: float, turn: float, spacing: float) -> Points:
    """Points all over a box with this centre, turned clockwise by `turn` radians."""
    across = np.linspace(-width / 2, width / 2, max(2, math.ceil(width / spacing) + 1))
    down = np.linspace(-height / 2, height / 2, max(2, math.ceil(height / spacing) + 1))
    x, y = (grid.ravel() for grid in np.meshgrid(across, down))
    cos, sin = math.cos(turn), math.sin(turn)
    return np.column_stack([centre[0] + cos * x - sin * y, centre[1] + sin * x + cos * y])


def words_size(words: Words) -> tuple[float, float]:
    """Width and height in mm of the box that the words need, before they are turned."""
    return text_width(words.text, words.size, words.bold), LETTER_BOX * words.size


def words_centre(words: Words) -> Point:
    """The middle of the box of the words."""
    along = text_width(words.text, words.size, words.bold) / 2 if words.anchor == "start" else 0.0
    return _from(words.at, along, -_BASELINE * words.size, words.turn)


def baseline_at(centre: Point, along: float, down: float, size: float, turn: float) -> Point:
    """Where the baseline stands for words whose middle line passes a place of a turned block.

    The place is `along` and `down` mm from the block's `centre`, in the block's own directions.
    """
    return _from(centre, along, down + _BASELINE * size, turn)


def traced(element: Element, spacing: float) -> Points:
    """Points wherever the element has ink; for words, all over their box."""
    match element:
        case Curve():
            return traced_path(element.path, spacing)
        case Line():
            return traced_line(element.points, spacing)
        case Words():
            width, height = words_size(element)
            return filled_box(words_centre(element), width, height, element.turn, spacing)


def box_of(elements: Iterable[Element]) -> Box:
    """The box around all the elements, to a few hundredths of a mm."""
    points = np.concatenate([traced(element, 1.0) for element in elements])
    left, top = points.min(axis=0)
    right, bottom = points.max(axis=0)
    return Box(float(left), float(top), float(right), float(bottom))


def _from(origin: Point, along: float, down: float, turn: float) -> Point:
    cos, sin = math.cos(turn), math.sin(turn)
    return origin[0] + cos * along - sin * down, origin[1] + sin * along + cos * down
