"""The tiled PDF, measured with pypdf and rasterised by pypdfium2."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pypdfium2  # type: ignore[import-untyped]
import pytest
from invented_pattern import front, invented_pattern, long_skirt, sleeve
from numpy.typing import NDArray
from pypdf import PdfReader
from pypdf.generic import Destination
from shapely import LineString, Polygon, box  # type: ignore[import-untyped]

from godet.output.elements import Drawing
from godet.output.pdf import tiled_pdf
from godet.output.sheet import arranged
from godet.output.tiles import ACROSS, DOWN, tile_name, tiles
from godet.pattern.pieces import Pattern

MM = 25.4 / 72  # to a PDF unit
DPI = 300


@pytest.fixture(scope="module")
def whole() -> bytes:
    return tiled_pdf(invented_pattern())


def dark(file: bytes, page: int, dpi: int = DPI) -> NDArray[np.bool_]:
    image = pypdfium2.PdfDocument(file)[page].render(scale=dpi / 72).to_pil().convert("L")
    ink: NDArray[np.bool_] = np.asarray(image) < 128
    return ink


def longest_run(row: NDArray[np.bool_]) -> int:
    edges = np.flatnonzero(np.diff(np.concatenate([[0], row.astype(int), [0]])))
    return int((edges[1::2] - edges[::2]).max(initial=0))


def test_the_page_lies_within_both_papers() -> None:
    for page in PdfReader(io.BytesIO(tiled_pdf(invented_pattern(front())))).pages:
        width, height = float(page.mediabox.width) * MM, float(page.mediabox.height) * MM
        # ISO 216: A4 is 210 x 297 mm; ANSI: Letter is 8 1/2 x 11 in
        assert width == pytest.approx(min(210.0, 8.5 * 25.4), abs=0.001)
        assert height == pytest.approx(min(297.0, 11 * 25.4), abs=0.001)


@pytest.mark.parametrize("page", [0, 1])
def test_the_test_square_is_ten_centimetres_within_a_pixel(whole: bytes, page: int) -> None:
    ink = dark(whole, page)
    runs = [longest_run(row) for row in ink]
    columns = [longest_run(column) for column in ink.T]
    pixel = 25.4 / DPI
    # the square's sides, with the line's own weight of 0.25 mm
    for side in (runs, columns):
        assert min(abs(run * pixel - 100.25) for run in side) <= pixel
    tops = [index for index, run in enumerate(runs) if abs(run * pixel - 100.25) <= 2 * pixel]
    assert (max(tops) - min(tops) + 1) * pixel == pytest.approx(100.25, abs=pixel)


def test_nothing_is_printed_outside_the_area_that_both_papers_hold(whole: bytes) -> None:
    for page in range(len(pypdfium2.PdfDocument(whole))):
        ink = dark(whole, page, dpi=100)
        rows, columns = np.flatnonzero(ink.any(axis=1)), np.flatnonzero(ink.any(axis=0))
        pixel = 25.4 / 100
        assert columns[0] * pixel >= 10.0 - pixel
        assert (columns[-1] + 1) * pixel <= 200.0 + pixel
        assert rows[0] * pixel >= 10.2 - pixel
        assert (rows[-1] + 1) * pixel <= 269.2 + pixel


def test_neighbouring_pages_show_the_same_in_the_strip_they_share() -> None:
    pattern = invented_pattern(front(), sleeve())
    file = tiled_pdf(pattern)
    names = pages_of(file)
    left, right = (dark(file, names.index(name)) for name in ("B2", "B3"))
    # grid lines stand 15 mm and 195 mm from the page's left; the shared strip is 5 mm either side.
    # Left of the line: right of it the left page says where to cut. 20 mm of crosses are left out.
    pixels = DPI / 25.4
    rows, width = slice(round(35 * pixels), round(245 * pixels)), round(3.5 * pixels)
    one = left[rows, round(191 * pixels) :][:, :width]
    other = right[rows, round(11 * pixels) :][:, :width]
    assert one.any()
    assert not (one & ~thickened(other)).any()
    # the right page alone says in the strip which page joins there
    extra = (other & ~thickened(one)).any(axis=1)
    assert np.count_nonzero(extra) < 30 * pixels


def thickened(ink: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """The ink with one pixel more on each side: two pages round to pixels each in its own way."""
    padded = np.pad(ink, 1)
    height, width = ink.shape
    thick = np.zeros_like(ink)
    for down in range(3):
        for across in range(3):
            thick |= padded[down : down + height, across : across + width]
    return thick


def pages_of(file: bytes) -> list[str]:
    """The names of the pages, from the PDF's own outline."""
    outline = PdfReader(io.BytesIO(file)).outline
    return [str(item.title) for item in outline if isinstance(item, Destination)]


def words_on(file: bytes) -> Iterator[str]:
    for page in PdfReader(io.BytesIO(file)).pages:
        yield page.extract_text()


def test_every_page_says_its_name_and_how_to_print_it(whole: bytes) -> None:
    first, *rest = words_on(whole)
    assert "Do not fit" in first
    assert "10 cm test square" in first
    assert "Estimated, better measured: waist to hip" in first
    for name, words in zip(pages_of(whole)[1:], rest, strict=True):
        assert name in words.split()
        assert "Print at 100 %, do not fit to page" in words
        for fact in ("Invented tee", "For adult_a", "2027-03-01"):
            assert fact in words


def test_crosses_count_from_the_sheet_s_corner_not_from_the_page_before(whole: bytes) -> None:
    names, words = pages_of(whole), list(words_on(whole))
    numbers = set(re.findall(r"\d+ / \d+", words[names.index("B3")]))
    # column 3 lies 2 grid widths across, row B one height down
    assert numbers == {f"{x} / {y}" for x in (360, 540) for y in (249, 498)}


def test_blank_pages_are_left_out_and_the_inside_of_a_piece_is_not(whole: bytes) -> None:
    pattern = invented_pattern()
    sheet = arranged(pattern)
    # shapely: which cells a piece's paper touches
    papers = [Polygon(piece.cut_line[:, 0]).buffer(0) for piece in pattern.pieces]
    drawings = {drawing.id: drawing for drawing in sheet.drawings}
    names = set(pages_of(whole))
    for tile in tiles(sheet):
        cell = box(tile.left, tile.top, tile.left + ACROSS, tile.top + DOWN)
        touched = False
        for piece, paper in zip(pattern.pieces, papers, strict=True):
            across, down = drawings[piece.name].at
            moved = Polygon([(x + across, y + down) for x, y in paper.exterior.coords])
            touched |= moved.intersects(cell)
        if touched:
            assert tile.name in names
        else:
            held = [d for d in sheet.drawings if box_of_drawing(d).intersects(cell)]
            assert held or tile.name not in names
    assert {"D4", "E5", "H5"}.isdisjoint(names)
    assert "F2" in names  # shows only the inside of the skirt
    assert "crossed out on the map are blank" in " ".join(next(words_on(whole)).split())


def box_of_drawing(drawing: Drawing) -> Polygon:
    (x, y), size = drawing.at, drawing.box
    return box(x + size.left, y + size.top, x + size.right, y + size.bottom)


def test_the_same_pattern_gives_the_same_bytes_and_holds_no_date_but_its_own() -> None:
    pattern = invented_pattern(front())
    assert tiled_pdf(pattern) == tiled_pdf(pattern)
    for date, written in (("2027-03-01", "D:20270301"), (None, ""), ("some day", "")):
        metadata = PdfReader(io.BytesIO(tiled_pdf(replace(pattern, date=date)))).metadata
        assert metadata is not None
        assert str(metadata["/CreationDate"]) == written


def test_hostile_names_are_harmless() -> None:
    hostile = ") Tj ET /JavaScript (\x00\u202e\\ żółw 衣 " + "x" * 500
    pattern = replace(
        invented_pattern(replace(front(), title=hostile)), title=hostile, body=hostile, date=hostile
    )
    file = tiled_pdf(pattern)
    reader = PdfReader(io.BytesIO(file))
    assert "/Names" not in reader.root_object
    text = next(words_on(file))
    assert ") Tj ET /JavaScript (" in text
    assert "x" * 60 not in text


def test_a_pattern_that_does_not_pass_says_so_on_every_page() -> None:
    pattern = invented_pattern(front())
    failed = replace(pattern.checks[0], ok=False, words="too narrow")
    for words in words_on(tiled_pdf(replace(pattern, checks=(failed,)))):
        assert "Does not pass: too narrow" in words


def test_rows_past_z_go_on_with_two_letters() -> None:
    assert [tile_name(row, 0) for row in (0, 25, 26, 51, 52)] == ["A1", "Z1", "AA1", "AZ1", "BA1"]


def test_a_line_that_only_crosses_the_corner_of_a_tile_is_printed() -> None:
    pattern: Pattern = invented_pattern(long_skirt())
    sheet = arranged(pattern)
    drawing = sheet.drawings[1]
    side = LineString(
        [(x + drawing.at[0], y + drawing.at[1]) for x, y in drawing.elements[0].path[:, 0]]  # type: ignore[union-attr]
    )
    for tile in tiles(sheet):
        cell = box(tile.left, tile.top, tile.left + ACROSS, tile.top + DOWN)
        assert not (tile.blank and side.intersects(cell))
