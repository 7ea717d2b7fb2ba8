"""The pattern as a PDF to print at home, on A4 or US Letter alike, and join.

In: a finished pattern. Out: the bytes of a PDF: a map first, then one page for each tile. Fails
with `ValueError` on a coordinate that is not finite.

    tiled_pdf(pattern)[:5]  ->  b"%PDF-"

The page is 210 x 279.4 mm: the width of A4 and the height of US Letter, so it lies wholly within
both papers and at 100 % no printer has a reason to shrink it. The print area of 190 x 259 mm is in
its middle, so it keeps 10 mm from the edge of either paper wherever a printer sets the page.
"""

from __future__ import annotations

import io
from datetime import date

from godet.output.label import stamp
from godet.output.lettering import printable
from godet.output.pdf_canvas import POINTS, draw
from godet.output.printed import printed
from godet.output.tile_pages import tile_pages
from godet.output.tiles import PRINT_HEIGHT, PRINT_WIDTH
from godet.pattern.pieces import Pattern

PAGE_WIDTH, PAGE_HEIGHT = 210.0, 279.4  # mm
_TOP_LEFT = ((PAGE_WIDTH - PRINT_WIDTH) / 2, (PAGE_HEIGHT - PRINT_HEIGHT) / 2)


def tiled_pdf(pattern: Pattern) -> bytes:
    """The map and the tiles as PDF, the same bytes for the same pattern."""
    # loaded here, so that whoever only checks or writes other files need not wait for it
    from reportlab.pdfgen.canvas import Canvas

    file = io.BytesIO()
    canvas = Canvas(
        file, pagesize=(PAGE_WIDTH * POINTS, PAGE_HEIGHT * POINTS), invariant=1, pageCompression=1
    )
    canvas.setTitle(printable(pattern.title))
    canvas.setSubject(f"{printed('body', body=pattern.body)}. {stamp(pattern)}")
    canvas.setAuthor("")
    canvas.setCreator(f"Godet {printable(pattern.version)}")
    dated = _pdf_date(pattern.date)
    canvas.setDateFormatter(lambda *now: dated)
    # a reader that honours it offers no scaling when it prints
    canvas.setViewerPreference("PrintScaling", "None")
    for page in tile_pages(pattern):
        canvas.bookmarkPage(page.name)
        canvas.addOutlineEntry(page.name, page.name)
        canvas.saveState()
        area = canvas.beginPath()
        bottom = PAGE_HEIGHT - _TOP_LEFT[1] - PRINT_HEIGHT
        area.rect(*(side * POINTS for side in (_TOP_LEFT[0], bottom, PRINT_WIDTH, PRINT_HEIGHT)))
        canvas.clipPath(area, stroke=0, fill=0)
        for drawing in page.drawings:
            draw(canvas, drawing, _TOP_LEFT, PAGE_HEIGHT)
        canvas.restoreState()
        canvas.showPage()
    canvas.save()
    return file.getvalue()


def _pdf_date(text: str | None) -> str:
    """The pattern's date in PDF's form; empty without one, for no other date belongs in it."""
    try:
        return date.fromisoformat(text or "").strftime("D:%Y%m%d")
    except ValueError:
        return ""
