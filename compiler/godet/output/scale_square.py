"""The 10 cm square against which a print is measured, with what holds for the whole pattern.

In: a finished pattern. Out: a `Drawing` or its elements. Nothing fails.

    scale_square(pattern).box.width  ->  100.0
"""

from __future__ import annotations

import numpy as np

from godet.output.elements import Drawing, Element, Layer, Line
from godet.output.label import estimates, failed_checks, stamp, wrapped
from godet.output.lettering import printable
from godet.output.placing import block_at, block_size
from godet.output.printed import printed
from godet.output.tracing import box_of
from godet.pattern.pieces import Pattern, Point

SIDE = 100.0  # mm
_SIZE = 3.2  # mm, letters
_NAME = "test-square"


def square_lines(id: str, layer: Layer, at: Point) -> tuple[Element, ...]:
    """The square with its upper left corner at `at`, and in it how to use it."""
    corners = np.array([(0, 0), (SIDE, 0), (SIDE, SIDE), (0, SIDE), (0, 0)]) + np.array(at)
    words = [
        printed(name) for name in ("square", "square-check", "square-check-sides", "square-cure")
    ]
    middle = (at[0] + SIDE / 2, at[1] + SIDE / 2)
    return (
        Line(f"{id}.outline", layer, corners),
        *block_at(f"{id}.words", layer, words, middle, _SIZE),
    )


def scale_square(pattern: Pattern) -> Drawing:
    """The square, and under it the pattern's title, body, date, failed checks and estimates."""
    lines = (
        printable(pattern.title),
        printed("body", body=pattern.body),
        stamp(pattern),
        *wrapped((*failed_checks(pattern), *estimates(pattern))),
    )
    width, height = block_size(lines, _SIZE)
    under = block_at(
        f"{_NAME}.pattern", "label", lines, (width / 2, SIDE + _SIZE * 2 + height / 2), _SIZE
    )
    elements = (*square_lines(_NAME, "test-square", (0.0, 0.0)), *under)
    return Drawing(_NAME, printed("square"), printed("square-cure"), box_of(elements), elements)
