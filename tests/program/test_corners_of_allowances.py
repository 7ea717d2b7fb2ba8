"""What an `allow` line says of corners: kept with the line, replaced with it."""

from __future__ import annotations

import pytest
from small_recipes import WITH_TOP, compiled, draft

MITRED = "  allow 1cm on side, mitred at underarm\n"


def _with(lines: str) -> str:
    return f"{WITH_TOP}piece front from top.front\n{lines}end\n"


def _said(text: str, piece: str, edge: str) -> list[tuple[str, bool]]:
    lines = draft(text).pieces[piece].corners.get(edge, ())
    return [(line.shape, line.inherited) for line in lines]


def test_a_line_says_it_of_each_of_its_edges():
    text = _with("  allow 1cm on side, neck, rounded at underarm\n")
    assert _said(text, "front", "side") == _said(text, "front", "neck") == [("rounded", False)]
    assert _said(text, "front", "shoulder") == []


def test_a_piece_keeps_what_its_base_says_of_corners():
    text = f"{_with(MITRED)}piece slip from front\nend\n"
    assert _said(text, "slip", "side") == [("mitred", True)]


def test_a_line_drawn_anew_says_of_corners_what_it_says():
    text = _with(MITRED)
    again = f"{text}piece slip from front\n  allow 2cm on side\nend\n"
    assert _said(again, "slip", "side") == []


def test_an_edge_that_begins_with_part_of_another_ends_as_that_one():
    text = (
        f"{_with(MITRED)}piece slip from front\n"
        "  edge upper_side = base.side until side_waist\nend\n"
    )
    assert _said(text, "slip", "upper_side") == [("mitred", True)]


def test_a_shape_is_part_of_the_meaning():
    digests = {
        draft(_with(f"  allow 1cm on side{said}\n")).digest
        for said in ("", ", square at underarm", ", rounded at underarm", ", rounded at side_waist")
    }
    assert len(digests) == 4


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        ("  allow 1cm on side, rounded at 3cm\n", "wrong-type"),
        ("  allow 1cm on side, rounded at nowhere\n", "unknown-name"),
        ("  allow 1cm on side, round at underarm\n", "unexpected"),
        ("  allow 1cm on side, rounded\n", "line-stops-short"),
    ],
)
def test_a_corner_wants_a_point(lines: str, code: str):
    assert code in [problem.code for problem in compiled(_with(lines)).problems]
