"""The whole pattern as one SVG at true scale.

In: a finished pattern. Out: the text of an SVG file whose units are mm. Each piece is a group
named after it, moved to its place, so that its paths are written in the piece's own coordinates and
a comparison of two files shows only what changed. Fails with `ValueError` on a coordinate that is
not finite.

    svg(pattern)
"""

from __future__ import annotations

import io
import math

import numpy as np
import svgwrite
from numpy.typing import NDArray
from svgwrite.base import BaseElement

from godet.output.decimals import decimal_text
from godet.output.elements import Curve, Drawing, Element, Line, Words
from godet.output.line_styles import line_style
from godet.output.sheet import arranged
from godet.pattern.pieces import Pattern

_PLACES = 3  # decimals of a mm
_FACES = "Helvetica, Arial, Liberation Sans, sans-serif"


def svg(pattern: Pattern) -> str:
    """The pattern's sheet as SVG text, the same bytes for the same pattern."""
    sheet = arranged(pattern)
    width, height = _number(sheet.width), _number(sheet.height)
    # svgwrite's own validation takes most of the time and finds nothing in generated elements
    image = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False
    )
    image.set_desc(title=sheet.title)
    for drawing in sheet.drawings:
        image.add(_group(image, drawing))
    text = io.StringIO()
    image.write(text, pretty=True, indent=1)
    return text.getvalue()


def _group(image: svgwrite.Drawing, drawing: Drawing) -> BaseElement:
    across, down = (_number(place) for place in drawing.at)
    group = image.g(id=drawing.id, transform=f"translate({across} {down})")
    group.set_desc(title=drawing.title, desc=drawing.description)
    for element in drawing.elements:
        group.add(_element(image, element))
    return group


def _element(image: svgwrite.Drawing, element: Element) -> BaseElement:
    if isinstance(element, Words):
        return _text(image, element)
    style = line_style(element)
    path = image.path(
        d=_curve(element) if isinstance(element, Curve) else _line(element),
        id=element.id,
        class_=element.layer,
        fill="none",
        stroke="black",
        stroke_width=_number(style.weight),
    )
    if style.dashes:
        path["stroke-dasharray"] = " ".join(_number(dash) for dash in style.dashes)
    return path


def _text(image: svgwrite.Drawing, words: Words) -> BaseElement:
    across, down = (_number(place) for place in words.at)
    text = image.text(
        words.text,
        insert=(across, down),
        id=words.id,
        class_=words.layer,
        font_family=_FACES,
        font_size=_number(words.size),
        text_anchor=words.anchor,
        fill="black",
    )
    if words.bold:
        text["font-weight"] = "bold"
    if words.turn:
        text["transform"] = f"rotate({_number(math.degrees(words.turn))} {across} {down})"
    return text


def _curve(curve: Curve) -> str:
    commands = [f"M {_pair(curve.path[0, 0])}"] if len(curve.path) else []
    commands += [f"C {' '.join(_pair(point) for point in cubic[1:])}" for cubic in curve.path]
    return " ".join([*commands, "Z"] if curve.closed and commands else commands)


def _line(line: Line) -> str:
    first, *rest = (_pair(point) for point in line.points)
    return " ".join([f"M {first}", *(f"L {point}" for point in rest)])


def _pair(point: NDArray[np.float64]) -> str:
    return f"{_number(point[0])},{_number(point[1])}"


def _number(value: float) -> str:
    return decimal_text(value, _PLACES)
