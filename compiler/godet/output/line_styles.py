"""How each layer looks on paper: black only, told apart by weight and dash.

In: the name of a layer. Out: its line weight and dashes in mm. Nothing fails.

    LINE_STYLES["sew"].dashes  ->  (4.0, 2.0)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from godet.output.elements import Element, Layer, Line


@dataclass(frozen=True)
class LineStyle:
    weight: float  # mm
    dashes: tuple[float, ...] = ()  # mm drawn, mm left out, and so on; none: solid


LINE_STYLES: Mapping[Layer, LineStyle] = MappingProxyType(
    {
        "cut": LineStyle(0.35),
        "sew": LineStyle(0.25, (4.0, 2.0)),
        "dart": LineStyle(0.25, (4.0, 2.0)),
        "fold": LineStyle(0.25),
        "grain": LineStyle(0.25),
        "notch": LineStyle(0.35),
        "level": LineStyle(0.18, (8.0, 1.5, 0.8, 1.5)),
        "mark": LineStyle(0.25),
        "label": LineStyle(0.25),
        "test-square": LineStyle(0.25),
        "tile": LineStyle(0.18),
    }
)

_DOTS = (0.6, 1.4)


def line_style(element: Element) -> LineStyle:
    """The style of an element's layer, dotted where the element asks for it."""
    style = LINE_STYLES[element.layer]
    if isinstance(element, Line) and element.dotted:
        return LineStyle(style.weight, _DOTS)
    return style
