"""All pieces side by side on one large sheet: what every printed backend draws.

In: a finished pattern. Out: a `Sheet` of drawings in mm, in rows, the test square first, 20 mm
apart and never over one another. Nothing fails; a pattern without pieces gives the square alone.

    arranged(pattern).width
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import replace
from itertools import count

from godet.output.elements import Drawing, Sheet
from godet.output.lettering import printable
from godet.output.piece_drawing import piece_drawing
from godet.output.scale_square import scale_square
from godet.pattern.pieces import Pattern

GAP = 20.0  # mm between drawings
MARGIN = 10.0  # mm around them
ROW = 900.0  # mm: five pages across, and within a 36 inch (914 mm) roll; wider pieces stand alone


def arranged(pattern: Pattern) -> Sheet:
    """The pattern's drawings in the order of its pieces, each placed; ids are the sheet's own."""
    drawings = [scale_square(pattern), *(piece_drawing(pattern, p) for p in pattern.pieces)]
    placed = []
    left = top = MARGIN
    lowest = right = MARGIN
    for drawing in drawings:
        # whole mm, so that a piece that grows by a little leaves its neighbours where they were;
        # one more, because its own place is rounded up too
        width, height = math.ceil(drawing.box.width) + 1, math.ceil(drawing.box.height) + 1
        if left > MARGIN and left + width > ROW - MARGIN:
            left, top = MARGIN, lowest + GAP
        at = (left + math.ceil(-drawing.box.left), top + math.ceil(-drawing.box.top))
        placed.append(replace(drawing, at=at))
        lowest, right = max(lowest, top + height), max(right, left + width)
        left += width + GAP
    return Sheet(
        printable(pattern.title), right + MARGIN, lowest + MARGIN, tuple(_with_own_ids(placed))
    )


def _with_own_ids(drawings: Iterable[Drawing]) -> Iterable[Drawing]:
    """The drawings with ids that any file can hold, each given once on the sheet."""
    seen: set[str] = set()

    def own(id: str) -> str:
        plain = re.sub(r"[^\w.-]", "_", printable(id, 200)) or "_"
        numbered = (f"{plain}-{number}" for number in count(2))
        free = plain if plain not in seen else next(id for id in numbered if id not in seen)
        seen.add(free)
        return free

    for drawing in drawings:
        yield replace(
            drawing,
            id=own(drawing.id),
            elements=tuple(replace(element, id=own(element.id)) for element in drawing.elements),
        )
