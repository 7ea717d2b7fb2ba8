"""Pieces unfolded, divided and joined: nothing is lost on the way, and nothing added."""

from __future__ import annotations

import numpy as np
import pytest
from darted_pieces import BODICE, BODICES, SKIRT, SKIRTS, Drawn, apart, length, tried
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

TRIED = settings(
    max_examples=8, deadline=None, phases=[Phase.explicit, Phase.generate], derandomize=True
)
UNFOLDED = "piece whole_front from block\n  unfold on centre\nend\n"


@given(BODICES)
@TRIED
def test_unfolded_on_a_straight_fold_a_piece_is_twice_as_large(how):
    drawn = tried(BODICE, UNFOLDED, how)
    assert drawn.area("whole_front") == pytest.approx(2.0 * drawn.area("block"), rel=1e-12)
    for edge in ("neck", "bottom"):
        told = drawn.told_length("whole_front", edge)
        assert told == pytest.approx(2.0 * drawn.sewn("block", edge), abs=1e-7)
    for edge in ("shoulder", "armhole", "side"):
        both = [drawn.told_length("whole_front", name) for name in (edge, f"other_{edge}")]
        assert both == pytest.approx([drawn.sewn("block", edge)] * 2, abs=1e-7)
    for level in ("bust", "high"):
        wide = drawn.width("whole_front", level)
        assert wide == pytest.approx(2.0 * drawn.width("block", level), abs=1e-8)


@given(BODICES)
@TRIED
def test_the_other_half_is_the_image_of_the_first(how):
    drawn = tried(BODICE, UNFOLDED, how)
    for dart in ("bust_dart", "waist_dart"):
        own, other = (drawn.dart("whole_front", name) for name in (dart, f"other_{dart}"))
        # the fold runs down at nought
        np.testing.assert_allclose(other, own * np.array([-1.0, 1.0]), atol=1e-10)
    for point in ("underarm", "bust_point", "side_neck"):
        own, other = (drawn.point("whole_front", name) for name in (point, f"other_{point}"))
        np.testing.assert_allclose(other, own * np.array([-1.0, 1.0]), atol=1e-10)


DIVIDED = """\
piece upper from block
  {line}
  divide along seam_line from centre to {edge} called yoke_seam, keeping shoulder
end
piece lower from block
  {line}
  divide along seam_line from centre to {edge} called yoke_seam, keeping bottom
end
piece again from {first}
  join {second}.yoke_seam to yoke_seam
end
"""
LINE = (
    "curve seam_line = {} base.centre_neck down 8cm to along base.{} by place * length(base.{}){}"
)
LINES = (
    LINE.format("line", "armhole from base.shoulder_point", "armhole", ""),
    LINE.format("curve", "armhole from base.shoulder_point", "armhole", " leaving outward"),
)
SIDES = ("neck", "shoulder", "armhole", "side", "bottom", "centre")


@given(BODICES, st.sampled_from(LINES), st.sampled_from((("upper", "lower"), ("lower", "upper"))))
@TRIED
def test_divided_and_joined_a_piece_is_as_before(how, line, order):
    text = DIVIDED.format(line=line, edge="armhole", first=order[0], second=order[1])
    drawn = tried(BODICE, text, how)
    assert drawn.area("upper") + drawn.area("lower") == pytest.approx(drawn.area("block"), rel=1e-9)
    seams = [length(drawn.edge(piece, "yoke_seam")) for piece in ("upper", "lower")]
    assert seams[0] == pytest.approx(seams[1], abs=1e-9)
    _same_as_block(drawn, "again")


def _same_as_block(drawn: Drawn, piece: str) -> None:
    assert set(drawn.draft.pieces[piece].edges) == set(SIDES)
    for edge in SIDES:
        assert apart(drawn.edge(piece, edge), drawn.edge("block", edge)) < 2e-8, edge
        told = drawn.told_length(piece, edge)
        assert told == pytest.approx(drawn.sewn("block", edge), abs=1e-7)
    for name in ("bust_dart", "waist_dart"):
        np.testing.assert_allclose(
            drawn.dart(piece, name), drawn.dart("block", name), atol=1e-9, rtol=0
        )


@given(BODICES)
@TRIED
def test_a_part_that_was_cut_off_has_only_the_darts_that_lie_on_it(how):
    text = DIVIDED.format(line=LINES[0], edge="armhole", first="upper", second="lower")
    drawn = tried(BODICE, text, how)
    assert not drawn.draft.pieces["upper"].darts
    assert set(drawn.draft.pieces["lower"].darts) == {"bust_dart", "waist_dart"}


@given(SKIRTS)
@TRIED
def test_a_waist_dart_of_both_sides_is_one_dart_with_two_points(how):
    text = """\
piece top
  point centre_top   = origin
  point centre_waist = origin down 30cm
  point side_top     = origin outward (90 % * quarter)
  point side_waist   = block.side_waist
  point bust_point   = origin outward (dart_place * quarter) down 10cm
  edge upper  = line centre_top to side_top
  edge centre = line centre_top to centre_waist
  edge side   = line side_top to lower_side
  edge waist  = line centre_waist to lower_side
  point lower_side = centre_waist outward (90 % * quarter) down 1cm
  dart waist_dart = on waist at WHERE by 2cm to bust_point stopping 1cm
end
piece straight_skirt
  point centre_waist = origin
  point side_waist   = centre_waist outward (90 % * quarter) down 1cm
  point hem_centre   = origin down long
  point hem_side     = hem_centre outward quarter
  point deep         = origin outward (dart_place * quarter) down 10cm
  edge centre = line centre_waist to hem_centre
  edge waist  = line centre_waist to side_waist
  edge side   = line side_waist to hem_side
  edge hem    = line hem_centre to hem_side
  dart waist_dart = on waist at WHERE by 2cm to deep
end
piece dress from top
  join straight_skirt.waist to waist
end
""".replace("WHERE", "along waist from centre_waist by dart_place * length(waist)")
    drawn = tried(SKIRT, text.replace("  point side_waist   = block.side_waist\n", ""), how)
    made = drawn.dart("dress", "waist_dart")
    assert made.shape == (4, 2)
    top, skirt = drawn.dart("top", "waist_dart"), drawn.dart("straight_skirt", "waist_dart")
    np.testing.assert_allclose(made[1], top[3], atol=1e-9)
    wide = np.hypot(*(made[2] - made[0]))
    assert wide == pytest.approx(np.hypot(*(top[2] - top[0])), abs=1e-9)
    below = np.hypot(*(made[3] - (made[0] + made[2]) / 2))
    assert below == pytest.approx(np.hypot(*(skirt[3] - (skirt[0] + skirt[2]) / 2)), abs=1e-6)
    assert drawn.told_length("dress", "side") == pytest.approx(
        drawn.sewn("top", "side") + drawn.sewn("straight_skirt", "side"), abs=1e-7
    )
