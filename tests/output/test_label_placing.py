"""Words keep clear of lines, whichever face a viewer draws them in."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from invented_pattern import (
    dense,
    front,
    invented_pattern,
    long_skirt,
    loop,
    neckband,
    sleeve,
    waistband,
)
from reportlab.pdfbase.pdfmetrics import stringWidth
from shapely import LineString, MultiPoint, Polygon  # type: ignore[import-untyped]

from godet.output.elements import Drawing, Words
from godet.output.label import allowance_words
from godet.output.lettering import printable, text_width
from godet.output.piece_drawing import piece_drawing
from godet.output.printed import length_words
from godet.output.tracing import traced, words_size
from godet.pattern.pieces import Piece


def drawing_of(piece: Piece) -> Drawing:
    return piece_drawing(invented_pattern(piece), piece)


def strokes(drawing: Drawing) -> list[LineString]:
    # shapely: distances and containment
    return [
        LineString(traced(element, 0.5))
        for element in drawing.elements
        if not isinstance(element, Words)
    ]


def box_of_words(words: Words) -> Polygon:
    return MultiPoint(traced(words, 0.5)).convex_hull


@pytest.mark.parametrize("piece", [front(), sleeve(), neckband(), long_skirt()])
def test_the_label_stands_inside_the_sewing_line_and_over_no_line(piece: Piece) -> None:
    drawing = drawing_of(piece)
    inside = Polygon([point for edge in piece.edges.values() for point in dense(edge.path)])
    lines = strokes(drawing)
    for words in drawing.elements:
        if isinstance(words, Words) and words.layer == "label":
            box = box_of_words(words)
            assert inside.contains(box)
            assert min(line.distance(box) for line in lines) > 1.0


def test_a_label_too_large_for_its_piece_stands_below_it() -> None:
    drawing = drawing_of(loop())
    label = [w for w in drawing.elements if isinstance(w, Words) and w.layer == "label"]
    assert min(box_of_words(words).bounds[1] for words in label) > 45 + 6  # piece and allowance
    assert max(box_of_words(words).bounds[3] for words in label) <= drawing.box.bottom


@pytest.mark.parametrize("piece", [front(), sleeve(), neckband(), waistband(), long_skirt()])
def test_no_words_overlap_other_words(piece: Piece) -> None:
    boxes = [box_of_words(w) for w in drawing_of(piece).elements if isinstance(w, Words)]
    for index, box in enumerate(boxes):
        # neighbours in the label may touch where a tail and a stem meet
        assert all(box.intersection(other).area < 0.01 for other in boxes[:index])


@pytest.mark.parametrize(
    "piece", [front(), sleeve(), neckband(), waistband(), loop(), long_skirt()]
)
def test_no_words_stand_on_a_line(piece: Piece) -> None:
    drawing = drawing_of(piece)
    lines = strokes(drawing)
    for words in drawing.elements:
        if isinstance(words, Words):
            assert not any(line.intersects(box_of_words(words)) for line in lines)


@pytest.mark.parametrize("bold", [False, True])
def test_the_room_kept_for_words_is_enough_in_helvetica(bold: bool) -> None:
    face = "Helvetica-Bold" if bold else "Helvetica"
    for text in ("place on fold", "Cut 1 of main on the fold", "1 Front", "MWmw 100 %", "ÄÖÜß"):
        # reportlab: the published widths of the face
        assert text_width(text, 4.0, bold) >= stringWidth(text, face, 4.0)


DEJAVU = Path("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf")


@pytest.mark.skipif(not DEJAVU.exists(), reason="the face is not installed")
def test_the_room_kept_for_words_is_enough_in_a_wide_face() -> None:
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    font = TTFont(DEJAVU)
    widths, letters = font["hmtx"].metrics, font.getBestCmap()
    for text in ("place on fold", "Cut 1 of main on the fold", "Allowance 1 cm; bottom 3 cm"):
        # fontTools: the widths in the font's own table
        wide = sum(widths[letters[ord(c)]][0] for c in text) / font["head"].unitsPerEm
        assert text_width(text, 1.0) >= wide


def test_words_are_measured_from_end_to_end() -> None:
    words = Words("a", "label", "Front", (10.0, 20.0), 4.0, "start")
    left, _, right, _ = box_of_words(words).bounds
    assert left == pytest.approx(10.0)
    assert right - left == pytest.approx(words_size(words)[0])


def test_text_is_cut_with_an_ellipsis_and_loses_what_cannot_be_printed() -> None:
    assert printable("a\x00b \x00 c\n\u202ed") == "ab c d"
    assert printable("x" * 500) == "x" * 59 + "…"
    assert len(printable("x" * 10_000_000)) == 60


@pytest.mark.parametrize(
    ("length", "units", "words"),
    [
        # 1 in = 25.4 mm exactly
        (15.875, "in", "5/8 in"),
        (38.1, "in", "1 1/2 in"),
        (25.4, "in", "1 in"),
        (10.0, "in", "0.39 in"),
        (15.0, "cm", "1.5 cm"),
    ],
)
def test_allowances_are_said_in_the_reader_s_unit(length: float, units: str, words: str) -> None:
    assert length_words(length, "in" if units == "in" else "cm") == words


def test_a_piece_without_allowance_says_to_add_it_only_where_no_piece_has_any() -> None:
    band = waistband()
    bare_edges = {name: replace(each, allowance=0.0) for name, each in band.edges.items()}
    bare = replace(band, name="interfacing", edges=bare_edges)
    assert allowance_words(invented_pattern(bare), bare) == "No allowance: add it when cutting"
    assert allowance_words(invented_pattern(band, bare), bare) == "Cut without allowance"
