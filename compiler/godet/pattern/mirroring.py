"""The mirror image of a path across another, curved or straight, as cloth folds along it.

In: two paths in mm. Out: the image: each point lies as far beyond the line as its original lies
before it, on the same square to the line. Nothing fails; a point that lies farther from a hollow
line than the line's radius has an image, though no cloth could be folded so.

    mirrored(side_cut, hem_line)                         # a straight line of a straight hem

A cubic is halved until its image is true at the middle, so across a straight line it stays one.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.geometry.cubics import derivative, evaluate, first_part, point_on
from godet.geometry.dual import Dual
from godet.geometry.locating import closest_place
from godet.geometry.points import norm
from godet.pattern.paths import turned
from godet.pattern.pieces import Path

_TOLERANCE = 0.002  # mm
_HALVINGS = 8

Points = NDArray[np.float64]  # (m, 2)


def mirrored(path: Path, line: Path) -> Path:
    """The image of the path, point by point, in the path's own direction."""
    return np.concatenate([_image(cubic, line, _HALVINGS) for cubic in path])


def _image(cubic: Path, line: Path, halvings: int) -> Path:
    shares = np.array([0.0, 0.5, 1.0])
    points, ways = _beyond(evaluate(cubic[None], shares), derivative(cubic[None], shares), line)
    start, middle, end = points
    image: Path = np.stack([start, start + ways[0] / 3.0, end - ways[2] / 3.0, end])[None]
    stray = float(norm(evaluate(image[0], np.array(0.5)) - middle))
    if halvings == 0 or stray <= _TOLERANCE:
        return image
    half = np.array([0.5])
    halves = [first_part(cubic[None], half), turned(first_part(turned(cubic[None]), half))]
    return np.concatenate([_image(each[0], line, halvings - 1) for each in halves])


def _beyond(points: Points, ways: Points, line: Path) -> tuple[Points, Points]:
    """The images of points, and of the ways in which they move."""
    moving = Dual(points, ways[None])
    lines = np.broadcast_to(line, (len(points), *line.shape))
    image = 2.0 * point_on(lines, closest_place(lines, moving)) - moving
    assert isinstance(image, Dual)
    return image.value, image.tangent[0]
