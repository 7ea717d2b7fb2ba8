"""The SVG, read back with svgelements and as plain XML."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest
import svgelements  # type: ignore[import-untyped]
from fontTools.misc.bezierTools import (  # type: ignore[import-untyped]
    calcCubicArcLength,
    calcCubicBounds,
)
from invented_pattern import front, invented_pattern, straight

from godet.output.svg import svg
from godet.pattern.pieces import Level, Path

NAMESPACE = "{http://www.w3.org/2000/svg}"


def read_back(text: str) -> dict[str, svgelements.SVGElement]:
    """Every element by its id, in user units, which are mm here, placed on the sheet."""
    # 25.4 pixels to the inch make a user unit of svgelements one mm
    image = svgelements.SVG.parse(io.StringIO(text), ppi=25.4, reify=True)
    return {element.id: element for element in image.elements() if getattr(element, "id", None)}


def length_of(path: Path) -> float:
    # fontTools: arc length of a cubic
    return math.fsum(calcCubicArcLength(*map(tuple, cubic), 1e-6) for cubic in path)


def bounds_of(path: Path) -> np.ndarray:
    # fontTools: exact bounds of a cubic
    boxes = np.array([calcCubicBounds(*map(tuple, cubic)) for cubic in path])
    return np.array([*boxes[:, :2].min(axis=0), *boxes[:, 2:].max(axis=0)])


def test_sewing_and_cutting_lines_have_the_pattern_s_lengths_and_bounds() -> None:
    pattern = invented_pattern()
    elements = read_back(svg(pattern))
    for piece in pattern.pieces:
        paths = {name: edge.path for name, edge in piece.edges.items()}
        paths["cut-line"] = piece.cut_line
        # an element's place on the sheet less its place in the piece is the same for all of a piece
        offsets = []
        for name, path in paths.items():
            drawn = svgelements.Path(elements[f"{piece.name}.{name}"])
            assert drawn.length(error=1e-6) == pytest.approx(length_of(path), abs=0.01)
            offsets.append(np.array(drawn.bbox()) - bounds_of(path))
        assert np.ptp(offsets, axis=0).max() < 0.01
        assert offsets[0][:2] == pytest.approx(offsets[0][2:], abs=0.01)


def test_the_test_square_is_ten_centimetres_on_paper() -> None:
    text = svg(invented_pattern())
    root = ElementTree.fromstring(text)
    box = [float(part) for part in root.attrib["viewBox"].split()]
    assert box[:2] == [0, 0]
    assert root.attrib["width"] == f"{box[2]:g}mm"
    assert root.attrib["height"] == f"{box[3]:g}mm"
    left, top, right, bottom = svgelements.Path(read_back(text)["test-square.outline"]).bbox()
    # svgelements takes a mm for 0.0393701 in
    assert (right - left, bottom - top) == pytest.approx((100.0, 100.0), abs=1e-3)


def test_pieces_do_not_overlap_and_lie_on_the_sheet() -> None:
    pattern = invented_pattern()
    text = svg(pattern)
    elements = read_back(text)
    boxes = [
        svgelements.Path(elements[f"{piece.name}.cut-line"]).bbox() for piece in pattern.pieces
    ]
    boxes.append(svgelements.Path(elements["test-square.outline"]).bbox())
    width, height = (float(v) for v in ElementTree.fromstring(text).attrib["viewBox"].split()[2:])
    for index, (left, top, right, bottom) in enumerate(boxes):
        assert 0 < left < right < width
        assert 0 < top < bottom < height
        for other in boxes[:index]:
            apart = max(left - other[2], other[0] - right, top - other[3], other[1] - bottom)
            assert apart >= 20 - 1e-6


def test_each_piece_is_a_named_group_that_says_what_it_is() -> None:
    root = ElementTree.fromstring(svg(invented_pattern()))
    group = root.find(f"{NAMESPACE}g[@id='front']")
    assert group is not None
    assert group.findtext(f"{NAMESPACE}title") == "1 Front"
    assert group.findtext(f"{NAMESPACE}desc") == (
        "Cut 1 of main on the fold. Allowance 1 cm; bottom 3 cm."
    )
    texts = [text.text for text in group.iter(f"{NAMESPACE}text")]
    assert {"place on fold", "grain", "bust", "waist", "bust point"} <= set(texts)
    assert {"1 Front", "Invented tee", "For adult_a", "Godet 0.1.0, 2027-03-01"} <= set(texts)


def test_every_id_is_given_once() -> None:
    piece = front()
    twice = replace(piece, notches=(*piece.notches, *piece.notches))
    root = ElementTree.fromstring(svg(invented_pattern(twice)))
    ids = [element.attrib["id"] for element in root.iter() if "id" in element.attrib]
    assert len(ids) == len(set(ids))


def test_notches_run_square_from_the_sewing_line_to_the_cutting_line() -> None:
    elements = read_back(svg(invented_pattern()))
    single = svgelements.Path(elements["front.notch-armhole-sleeve-1"])
    assert single.length() == pytest.approx(10.0, abs=0.01)  # the edge's allowance
    assert "front.notch-armhole-sleeve-2" not in elements
    first, second = (
        svgelements.Path(elements[f"front.notch-side-waist-{number}"]) for number in (1, 2)
    )
    assert math.dist(first.first_point, second.first_point) == pytest.approx(6.0, abs=0.01)


def test_moving_a_piece_on_the_sheet_leaves_its_paths_as_they_are() -> None:
    def paths_of_sleeve(text: str) -> list[str]:
        return [line for line in text.splitlines() if 'id="sleeve.' in line]

    narrow = invented_pattern()
    grown = replace(narrow, pieces=(narrow.pieces[4], *narrow.pieces[:4]))
    assert paths_of_sleeve(svg(narrow)) == paths_of_sleeve(svg(grown))


def test_hostile_names_are_harmless_and_short() -> None:
    hostile = '</text><script>alert("x")</script>\x00\x1b[31m\u202e&amp; ' + "Ä" * 500
    piece = front()
    piece = replace(piece, title=hostile, levels={"a": Level(hostile, 225.0, 0.0, 238.0)})
    text = svg(replace(invented_pattern(piece), title=hostile, body=hostile, date=hostile))
    root = ElementTree.fromstring(text.encode())
    assert root.find(f".//{NAMESPACE}script") is None
    for element in root.iter():
        assert len(element.text or "") < 150
        assert not set(element.text or "") & set("\x00\x1b\u202e")
    assert "…" in text


def test_an_edge_with_cubics_without_length_is_drawn_without_them() -> None:
    piece = front()
    side = piece.edges["side"]
    path = np.concatenate([side.path, straight((245, 605), (245, 605))])
    edges = {**piece.edges, "side": replace(side, path=path)}
    assert svg(invented_pattern(replace(piece, edges=edges))) == svg(invented_pattern(piece))


def test_the_same_pattern_gives_the_same_bytes() -> None:
    assert svg(invented_pattern()) == svg(invented_pattern())


def test_a_pattern_that_does_not_pass_says_so_on_every_piece() -> None:
    pattern = invented_pattern()
    failed = replace(pattern.checks[0], ok=False, words="it is too narrow at the hip")
    root = ElementTree.fromstring(svg(replace(pattern, checks=(failed,))))
    for piece in pattern.pieces:
        group = root.find(f"{NAMESPACE}g[@id='{piece.name}']")
        assert group is not None
        said = " ".join(text.text or "" for text in group.iter(f"{NAMESPACE}text"))
        assert "Does not pass: it is too narrow at the hip" in said


def test_the_digest_stands_where_there_is_no_date() -> None:
    text = svg(replace(invented_pattern(), date=None))
    assert "Godet 0.1.0, 3f9a1c77<" in text
