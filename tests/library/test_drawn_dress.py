"""The drawings of a real dress, measured by programs that are not ours."""

from __future__ import annotations

import io

import numpy as np
import pypdfium2
import pytest
from drafts import JERSEY, at, drafts, length, path
from shapely import Polygon
from svgelements import SVG, Path
from women import en_women

from godet.output.pdf import tiled_pdf
from godet.output.svg import svg
from godet.pattern.pieces import Pattern
from godet.tools.compiling import compile_recipe
from godet.tools.drafting import draft_all, prepared_for

# CSS pixels in an inch, which svgelements counts in; 25.4 mm in an inch
PIXELS_PER_MM = 96 / 25.4


@pytest.fixture(scope="module")
def pattern() -> Pattern:
    compiled = compile_recipe("column_dress")
    assert compiled.draft is not None
    prepared = prepared_for(en_women()[4:5], {"main": JERSEY}, {}, compiled.draft)
    (drawn,), _ = draft_all(prepared)
    assert drawn is not None
    return drawn


def polyline(draft, name: str, finely: int = 400) -> np.ndarray:
    """The outline as many short straight lines, walked edge by edge."""
    piece = draft["pieces"][name]
    points: list[np.ndarray] = []
    for edge in piece["outline"]:
        cubics = path(draft, name, edge)
        walked = np.array([at(c, t) for c in cubics for t in np.linspace(0, 1, finely)])
        if points and np.hypot(*(walked[0] - points[-1][-1])) > 1e-3:
            walked = walked[::-1]
        if len(points) == 1 and np.hypot(*(walked[0] - points[0][-1])) > 1e-3:
            points[0] = points[0][::-1]
            if np.hypot(*(walked[0] - points[0][-1])) > 1e-3:
                walked = walked[::-1]
        points.append(walked)
    return np.concatenate(points)


def test_the_area_of_every_piece_is_shapelys():
    # within 0.001 %, on a fine polyline
    women = [en_women()[0], en_women()[-1]]
    for draft in drafts("column_dress", women):
        for name, piece in draft["pieces"].items():
            fine = Polygon(polyline(draft, name))
            assert fine.is_valid
            assert piece["area_drawn"] == pytest.approx(fine.area, rel=1e-5)


def test_the_svg_has_every_seam_at_true_length(pattern: Pattern):
    # svgelements reads the file as a drawing program would
    (draft,) = drafts("column_dress", en_women()[4:5])
    drawn = {
        e.id: e for e in SVG.parse(io.StringIO(svg(pattern))).elements() if isinstance(e, Path)
    }
    for piece in ("front", "back", "sleeve"):
        for edge in draft["pieces"][piece]["edges"]:
            line = drawn[f"{piece}.{edge}"]
            told = line.length(error=1e-7) / PIXELS_PER_MM
            assert told == pytest.approx(length(path(draft, piece, edge)), abs=0.05)


def test_the_square_on_paper_is_ten_centimetres(pattern: Pattern):
    # rasterised by pypdfium2 at 300 dpi: 100.0 mm within one pixel
    page = pypdfium2.PdfDocument(tiled_pdf(pattern))[0]
    dark = np.asarray(page.render(scale=300 / 72).to_pil().convert("L")) < 128
    pixels = round(100.0 / 25.4 * 300)
    # the square's four sides are the only lines on the page that long
    across = np.nonzero(dark.sum(axis=1) >= pixels)[0]
    down = np.nonzero(dark.sum(axis=0) >= pixels)[0]
    for lines in (across, down):
        groups = np.split(lines, np.nonzero(np.diff(lines) > 3)[0] + 1)
        middles = [group.mean() for group in groups]
        assert any(
            abs(b - a - 100.0 / 25.4 * 300) <= 1.0 for a in middles for b in middles if b > a
        )
