"""How a dart is drawn, and what else is taken up on an edge.

In: a finished piece and one of its darts. Out: its lines and words, in the piece's own coordinates.
The legs are sewing lines; the fold between them is dotted; the dart point is marked with a cross.
Of a pleat the folds are drawn, on from the mouth; what is gathered lies between its notches.
Nothing fails.

    dart_lines(front, front.darts["bust_dart"])
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from godet.output.elements import Line
from godet.output.printed import length_words, name_words, printed
from godet.pattern.pieces import Dart, Pattern, Piece, Point

_CROSS = 2.5  # mm, half the width of the mark at a dart point
_PLEAT = 60.0  # mm: how far the folds of a pleat are drawn; less on a short dart


def dart_lines(piece: Piece, dart: Dart) -> Iterator[Line]:
    """Its legs, its fold, and a mark at each of its points."""
    id = f"{piece.name}.dart-{dart.name}"
    first, last = np.array(dart.first), np.array(dart.last)
    if dart.manner in ("pleat", "tuck"):
        yield from _folds(id, dart)
        return
    for number, tip in enumerate(np.array(each) for each in dart.tips):
        yield Line(f"{id}-legs-{number + 1}", "dart", np.array([first, tip, last]))
        for way in ("across", "down"):
            reach = np.array((_CROSS, 0.0) if way == "across" else (0.0, _CROSS))
            ends = np.array([tip - reach, tip + reach])
            yield Line(f"{id}-point-{number + 1}-{way}", "mark", ends)
    if dart.tips:
        ends = np.array(dart_axis(dart))
        yield Line(f"{id}-fold", "dart", ends, dotted=True)


def _folds(id: str, dart: Dart) -> Iterator[Line]:
    """The folds of a pleat or tuck: both sides of the mouth and its middle, side by side."""
    start, end = (np.array(each) for each in dart_axis(dart))
    whole = math.hypot(*(end - start))
    way = (end - start) / whole
    reach = dart.sewn_for if dart.sewn_for is not None else min(_PLEAT, whole)
    if dart.manner == "tuck" and dart.sewn_for is None:
        reach = whole
    for name, at in (("first", dart.first), ("last", dart.last)):
        ends = np.array([np.array(at), np.array(at) + reach * way])
        yield Line(f"{id}-{name}", "dart", ends)
    yield Line(f"{id}-fold", "dart", np.array([start, start + reach * way]), dotted=True)


def dart_axis(dart: Dart) -> tuple[Point, Point]:
    """From the middle of the mouth to the dart point; from point to point of a dart inside the
    piece; from end to end of what is gathered."""
    if not dart.tips:
        return dart.first, dart.last
    if len(dart.tips) > 1:
        return dart.tips[0], dart.tips[1]
    return dart.cap or _middle(dart), dart.tips[0]


def dart_side(dart: Dart) -> tuple[Point, Point]:
    """The leg beside which its words stand; from end to end of what is gathered."""
    return (dart.tips[0], dart.last) if dart.tips else (dart.first, dart.last)


def _middle(dart: Dart) -> Point:
    middle: NDArray[np.float64] = (np.array(dart.first) + np.array(dart.last)) / 2.0
    return float(middle[0]), float(middle[1])


def dart_words(dart: Dart, pattern: Pattern) -> str:
    """What is printed beside it."""
    name, width = name_words(dart.name), length_words(dart.taken, pattern.units)
    if dart.manner == "tuck":
        if dart.sewn_for is None:
            return printed("tuck-whole", name=name, width=width)
        length = length_words(dart.sewn_for, pattern.units)
        return printed("tuck", name=name, width=width, length=length)
    return printed("dart" if dart.manner == "double" else dart.manner, name=name, width=width)
