"""Draws elements on a reportlab canvas, in mm from an upper left corner, down the page.

In: a canvas and drawings. Out: nothing but what is now on the canvas. Nothing fails; a letter that
the built-in faces of PDF do not hold loses its accent, or else is printed as a question mark.

    draw(canvas, drawing, top_left=(10.0, 10.2), page_height=279.4)
"""

from __future__ import annotations

import math
import unicodedata
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from godet.output.elements import Curve, Drawing, Line, Words
from godet.output.line_styles import line_style
from godet.pattern.pieces import Point

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

POINTS = 72 / 25.4  # PDF units to a mm


def draw(canvas: Canvas, drawing: Drawing, top_left: Point, page_height: float) -> None:
    """Draws all elements of a drawing, its `at` counted from `top_left` (mm from the page's)."""
    left = (top_left[0] + drawing.at[0]) * POINTS
    top = (page_height - top_left[1] - drawing.at[1]) * POINTS
    canvas.saveState()
    canvas.translate(left, top)
    for element in drawing.elements:
        if isinstance(element, Words):
            _draw_words(canvas, element)
        else:
            _draw_stroke(canvas, element)
    canvas.restoreState()


def built_in_letters(text: str) -> str:
    """The text in letters that every PDF reader has (Windows code page 1252)."""
    return "".join(_built_in(letter) for letter in text)


def _built_in(letter: str) -> str:
    for written in (letter, unicodedata.normalize("NFKD", letter)[0]):
        try:
            written.encode("cp1252")
        except UnicodeEncodeError:
            continue
        return written
    return "?"


def _draw_words(canvas: Canvas, words: Words) -> None:
    canvas.saveState()
    canvas.translate(words.at[0] * POINTS, -words.at[1] * POINTS)
    canvas.rotate(-math.degrees(words.turn))
    canvas.setFont("Helvetica-Bold" if words.bold else "Helvetica", words.size * POINTS)
    write = canvas.drawString if words.anchor == "start" else canvas.drawCentredString
    write(0, 0, built_in_letters(words.text))
    canvas.restoreState()


def _draw_stroke(canvas: Canvas, element: Curve | Line) -> None:
    style = line_style(element)
    canvas.setLineWidth(style.weight * POINTS)
    canvas.setDash([dash * POINTS for dash in style.dashes])
    path = canvas.beginPath()
    if isinstance(element, Line):
        first, *rest = (_place(point) for point in element.points)
        path.moveTo(*first)
        for point in rest:
            path.lineTo(*point)
    elif len(element.path):
        path.moveTo(*_place(element.path[0, 0]))
        for cubic in element.path:
            path.curveTo(*_place(cubic[1]), *_place(cubic[2]), *_place(cubic[3]))
        if element.closed:
            path.close()
    canvas.drawPath(path, stroke=1, fill=0)


def _place(point: NDArray[np.float64]) -> tuple[float, float]:
    across, down = float(point[0]), float(point[1])
    if not (math.isfinite(across) and math.isfinite(down)):
        raise ValueError(f"({across}, {down}) cannot be drawn")
    return across * POINTS, -down * POINTS
