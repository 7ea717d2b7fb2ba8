"""The draft as JSON: its form, its numbers, its bytes."""

from __future__ import annotations

import json
import math
from dataclasses import replace

import numpy as np
import pytest
from fontTools.misc.bezierTools import calcCubicArcLength  # type: ignore[import-untyped]
from invented_pattern import front, invented_pattern

from godet.output.draft_json import draft_json


def test_has_the_keys_that_readers_of_a_draft_look_for() -> None:
    draft = json.loads(draft_json(invented_pattern()))
    front_piece = draft["pieces"]["front"]
    # the form as documented for readers of draft.json
    assert list(draft) == [
        *("godet", "edition", "recipe", "digest", "body", "units", "pieces", "seams", "girths"),
        *("finished", "checks", "estimated", "completed", "reports", "measures", "choices"),
    ]
    assert list(front_piece) == [
        *("drawn", "points", "levels", "edges", "outline", "cut_line", "darts", "marks"),
        *("notches", "cut", "grain", "area_drawn", "area_cut"),
    ]
    assert draft["units"] == "mm"
    assert front_piece["outline"] == ["centre", "neck", "shoulder", "armhole", "side", "bottom"]
    assert front_piece["edges"]["side"]["from_line"] == 12
    assert front_piece["cut"] == {"count": 1, "cloth": "main", "fold": "centre", "mirrored": False}
    assert draft["pieces"]["sleeve"]["cut"]["fold"] is None
    assert draft["reports"] == [
        {"words": "the blend at the waist takes away 2 mm", "from_line": 12}
    ]
    assert draft["seams"][0]["sides"][0] == [{"edge": "neckband.lower", "times": 2}]


def test_paths_read_back_are_as_long_as_the_edges() -> None:
    pattern = invented_pattern()
    draft = json.loads(draft_json(pattern))
    for piece in pattern.pieces:
        for name, edge in piece.edges.items():
            path = draft["pieces"][piece.name]["edges"][name]["path"]
            points = [[(c[i], c[i + 1]) for i in range(0, 8, 2)] for c in path]
            # fontTools: arc length of a cubic
            length = sum(calcCubicArcLength(*cubic, 1e-6) for cubic in points)
            own = sum(calcCubicArcLength(*map(tuple, cubic), 1e-6) for cubic in edge.path)
            assert length == pytest.approx(own, abs=1e-5)


def test_numbers_are_rounded_to_a_millionth_and_never_minus_nought() -> None:
    text = draft_json(invented_pattern())
    draft = json.loads(text, parse_float=str, parse_int=str)
    assert draft["seams"][0]["ease"] == "0"  # -1e-7 in the pattern
    assert draft["measures"]["shoulder_slope"] == f"{math.radians(22):.6f}"
    assert "-0," not in text
    assert "-0]" not in text


def test_a_cubic_stands_on_one_line_so_that_a_comparison_shows_only_what_changed() -> None:
    piece = front()
    path = piece.edges["side"].path.copy()
    path[0, 1, 0] += 1.0
    edges = {**piece.edges, "side": replace(piece.edges["side"], path=path)}
    before = draft_json(invented_pattern(piece)).splitlines()
    after = draft_json(invented_pattern(replace(piece, edges=edges))).splitlines()
    changed = [line for line, other in zip(before, after, strict=True) if line != other]
    assert [line.strip() for line in changed] == ["[240, 210, 225, 340, 215, 440, 245, 605]"]


def test_cubics_without_length_are_left_out() -> None:
    piece = front()
    side = piece.edges["side"]
    path = np.concatenate([np.full((1, 4, 2), side.path[0, 0]), side.path])
    edges = {**piece.edges, "side": replace(side, path=path)}
    longer = invented_pattern(replace(piece, edges=edges))
    assert draft_json(longer) == draft_json(invented_pattern(piece))


def test_the_same_pattern_gives_the_same_bytes_and_ends_in_a_line_end() -> None:
    assert draft_json(invented_pattern()) == draft_json(invented_pattern())
    assert draft_json(invented_pattern()).endswith("}\n")


def test_hostile_text_stays_text() -> None:
    hostile = 'x", "godet": "\x00\u202e\ud800 </script>\n'
    text = draft_json(replace(invented_pattern(), body=hostile))
    draft = json.loads(text.encode("utf-8"))
    assert draft["godet"] == "0.1.0"
    assert draft["body"] == hostile.replace("\ud800", "?")


def test_a_number_that_is_not_finite_is_refused() -> None:
    with pytest.raises(ValueError, match="nan"):
        draft_json(replace(invented_pattern(), girths={"bust": math.nan}))
