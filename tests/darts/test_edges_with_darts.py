"""What is drawn on from an edge with a dart keeps the dart, and what the edge is dressed with."""

from __future__ import annotations

import numpy as np
import pytest
from darted_pieces import BODICE, BODICES, CAP, FIRST, LAST, failing, length, tried
from hypothesis import Phase, given, settings

TRIED = settings(
    max_examples=8, deadline=None, phases=[Phase.explicit, Phase.generate], derandomize=True
)

# The back's side is drawn from the front's as sewn; both are carried on below the waist alike, as a
# top is into a dress.
CARRIED_ON = """\
piece back
  point centre_neck    = origin down 3cm
  point side_neck      = block.side_neck
  point shoulder_point = block.shoulder_point
  point underarm       = side_waist up length(block.side)
  point centre_waist   = origin down 43cm
  point side_waist     = block.side_waist
  edge centre   = line centre_neck to centre_waist
  edge neck     = curve centre_neck to side_neck leaving outward
  edge shoulder = line side_neck to shoulder_point
  edge armhole  = curve shoulder_point to underarm leaving down arriving outward
  edge side     = line underarm to side_waist
  edge bottom   = line centre_waist to side_waist
end
piece front_dress, back_dress from block, back
  point hip_side   = side_waist down 20cm outward 3cm
  point hem_side   = hip_side down 40cm
  point hem_centre = origin down (42cm + 62cm)
  edge side   = base.side until side_waist, then curve to hip_side arriving down,
      then line to hem_side, blended at side_waist over 4cm
  edge centre = base.centre until centre_waist, then line to hem_centre
  edge bottom = line hem_centre to hem_side
end
"""
# without the waist dart, which would end at an edge that is no more
BUST_ONLY = "\n".join(line for line in BODICE.splitlines() if "waist_dart" not in line) + "\n"


@given(BODICES)
@TRIED
def test_a_front_with_a_bust_dart_is_carried_on_into_a_dress(how):
    drawn = tried(BUST_ONLY, CARRIED_ON, how)
    sides = [drawn.told_length(piece, "side") for piece in ("front_dress", "back_dress")]
    # the blend takes a little off either corner, which are not quite alike
    assert sides[0] == pytest.approx(sides[1], abs=0.5)
    assert drawn.told_length("block", "side") == pytest.approx(
        drawn.told_length("back", "side"), abs=1e-9
    )
    dart, edge = drawn.dart("front_dress", "bust_dart"), drawn.edge("front_dress", "side")
    np.testing.assert_array_equal(dart, drawn.dart("block", "bust_dart"))
    corners = [cubic[0] for cubic in edge]
    for row in (FIRST, CAP, LAST):
        assert any(np.array_equal(corner, dart[row]) for corner in corners)
    piece = drawn.draft.pieces["front_dress"]
    assert piece.darts["bust_dart"].edge == "side"
    assert "side" in piece.allowances
    assert [notch.edge for notch in piece.notches] == ["side"]


@given(BODICES)
@TRIED
def test_parts_of_an_edge_have_their_lengths_as_sewn(how):
    text = """\
piece cut_off from block
  point below = along side from side_waist by 3cm
  point above = along side from underarm by 2cm
  point again = along side from side_waist by length(side) - 2cm
  curve upper = side until below
  curve lower = side from above
  curve round = side until below, then line to bust_point, blended at below over 1cm
end
let upper = length(cut_off.upper)
let lower = length(cut_off.lower)
let round = length(cut_off.round)
"""
    drawn = tried(BODICE, text, how)
    sewn = drawn.sewn("block", "side")
    assert drawn.number("upper") == pytest.approx(sewn - 30.0, abs=1e-8)
    assert drawn.number("lower") == pytest.approx(sewn - 20.0, abs=1e-8)
    # from either end it is the same place
    np.testing.assert_allclose(
        drawn.point("cut_off", "again"), drawn.point("cut_off", "above"), atol=1e-8
    )
    beyond = np.hypot(*(drawn.point("cut_off", "below") - drawn.point("block", "bust_point")))
    assert drawn.number("upper") + beyond - 10.0 < drawn.number("round")
    assert drawn.number("round") < drawn.number("upper") + beyond


@given(BODICES)
@TRIED
def test_a_place_inside_a_mouth_is_told(how):
    text = """\
piece cut_off from block
  point inside = along base.side as cut from underarm by back_at
  edge side    = base.side until inside, then line to side_waist
end
"""
    block = tried(BODICE, "", how)
    # 2 mm into it
    back_at = length(block.edge("block", "side")[:1])
    _, found = failing(BODICE, text, {**how, "back_at": back_at + 2.0})
    assert found == {"in-dart-mouth"}


@given(BODICES)
@TRIED
def test_an_edge_of_another_name_that_begins_with_part_of_one_keeps_its_dart_when_altered(how):
    text = """\
piece parted from block
  point half_way  = along base.side from underarm by 90 %
  edge upper_side = base.side until half_way
  edge side       = base.side from half_way
end
piece spread_out from parted
  spread bottom by 2cm at along bottom from centre_waist by 90 %, hinged on neck at side_neck
end
"""
    drawn = tried(BODICE, text, how)
    whole = drawn.told_length("block", "side")
    for piece in ("parted", "spread_out"):
        assert drawn.told_length(piece, "upper_side") == pytest.approx(0.9 * whole, abs=1e-7)
        assert drawn.told_length(piece, "side") == pytest.approx(0.1 * whole, abs=1e-7)
