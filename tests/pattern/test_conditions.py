"""Lines that stand under a condition: on the fold or with a seam, notched or not, sewn or not."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from shapely import Polygon

from godet.base.places import Place
from godet.orders.records import Body, Fabric, Measured
from godet.pattern.pieces import Pattern
from godet.tools.compiling import compile_recipe
from godet.tools.drafting import draft_all, prepared_for

_HERE = Place("test", 1, 1, 1, 1)
LINEN = Fabric("linen", "woven", 0.0, 0.0, 1400.0, 0.0, 0.0, None, None, "none", "")
HIP = 1020.0

BACK = """\
edition 1

recipe wrap
measure hip_girth

choose opening = one of none, zip  "at the centre back"
choose slit    = 0cm from 0cm to 20cm "at the side"

piece back
  point upper_centre = origin
  point upper_side   = origin outward hip_girth / 4
  point lower_centre = upper_centre down 50cm
  point lower_side   = upper_side down 50cm
  point slit_top     = along side from lower_side by slit
  edge centre = line upper_centre to lower_centre
  edge waist  = line upper_centre to upper_side
  edge side   = line upper_side to lower_side
  edge bottom = line lower_centre to lower_side
  level hip = across at lower_side up 20cm
  notch side at slit_top when slit > 0cm
  allow 2cm on centre
  {fold}
  cut 1 of main
end

seam centre_back: back.centre to back.centre when opening is zip
"""
WHEN = "fold centre when opening is none"


def drawn(folder: Path, text: str, **choices: str | float) -> Pattern:
    file = folder / "wrap.godet"
    file.write_text(text)
    compiled = compile_recipe(str(file))
    assert compiled.draft is not None, [p.sentence for p in compiled.problems]
    body = Body("anyone", "cm", {"hip_girth": Measured(HIP, "102", _HERE)}, "test")
    prepared = prepared_for([body], {"main": LINEN}, choices, compiled.draft)
    (pattern,), problems = draft_all(prepared)
    assert pattern is not None, [p.sentence for p in problems]
    return pattern


def cutting_line(pattern: Pattern) -> Any:
    (back,) = pattern.pieces
    return Polygon([tuple(cubic[0]) for cubic in back.cut_line])


def test_on_the_fold_where_the_condition_holds(tmp_path: Path):
    pattern = drawn(tmp_path, BACK.format(fold=WHEN))
    (back,) = pattern.pieces
    assert (back.cut.count, back.cut.fold, back.cut.mirrored) == (1, "centre", False)
    assert cutting_line(pattern).bounds[0] == 0.0
    assert pattern.seams == ()


def test_cut_as_a_pair_with_its_own_allowance_where_it_does_not(tmp_path: Path):
    pattern = drawn(tmp_path, BACK.format(fold=WHEN), opening="zip")
    (back,) = pattern.pieces
    assert (back.cut.count, back.cut.fold, back.cut.mirrored) == (2, None, True)
    assert cutting_line(pattern).bounds[0] == pytest.approx(-20.0)
    assert [seam.name for seam in pattern.seams] == ["centre_back"]


@pytest.mark.parametrize("opening", ["none", "zip"])
def test_the_girth_is_the_same_either_way(tmp_path: Path, opening: str):
    # two halves of a quarter each
    pattern = drawn(tmp_path, BACK.format(fold=WHEN), opening=opening)
    assert pattern.girths["hip"] == pytest.approx(HIP / 2)


def test_a_notch_that_is_not_wanted_is_not_there(tmp_path: Path):
    text = BACK.format(fold=WHEN)
    assert drawn(tmp_path, text).pieces[0].notches == ()
    (notch,) = drawn(tmp_path, text, slit=100.0).pieces[0].notches
    assert notch.at == pytest.approx((HIP / 4, 400.0))


def test_a_fold_of_the_base_may_be_taken_away(tmp_path: Path):
    text = BACK.format(fold="fold centre") + "\npiece half from back\n  fold none\nend\n"
    back, half = drawn(tmp_path, text).pieces
    assert (back.cut.count, back.cut.fold) == (1, "centre")
    assert (half.cut.count, half.cut.fold, half.cut.mirrored) == (2, None, True)


def test_what_has_no_fold_is_not_cut_twice_for_saying_so(tmp_path: Path):
    text = BACK.format(fold='title "Back"') + "\npiece other from back\n  fold none\nend\n"
    _, other = drawn(tmp_path, text).pieces
    assert other.cut.count == 1
