"""A dart that is swung takes up as much elsewhere, and changes nothing of what the piece is sewn
to.

What is expected is geometry: only a part of the piece turns, about the dart's pivot.
"""

from __future__ import annotations

import numpy as np
import pytest
from darted_pieces import (
    BODICE,
    BODICES,
    FIRST,
    LAST,
    PIVOT,
    SKIRT,
    SKIRTS,
    TIP,
    Drawn,
    angle,
    apart,
    length,
    tried,
)
from hypothesis import Phase, example, given, settings
from hypothesis import strategies as st

TRIED = settings(
    max_examples=12, deadline=None, phases=[Phase.explicit, Phase.generate], derandomize=True
)
EDGES = ("neck", "shoulder", "armhole")
ALL_EDGES = ("neck", "shoulder", "armhole", "side", "bottom", "centre")
DARTS = st.sampled_from(("bust_dart", "waist_dart"))


def _start(edge: str) -> str:
    return {"neck": "centre_neck", "shoulder": "side_neck", "armhole": "shoulder_point"}[edge]


def _place(edge: str) -> str:
    return f"along {edge} from {_start(edge)} by place * length({edge})"


def _swung(dart: str, edge: str, rest: str = "") -> str:
    return f"piece swung from block\n  swing {dart} to {edge} at {_place(edge)}{rest}\nend\n"


def _size(one: np.ndarray, two: np.ndarray) -> float:
    return float(np.hypot(*(one - two)))


def _same(drawn: Drawn, one: str, two: str, tolerance: float = 1e-9) -> None:
    """Two pieces are the same: their points, their darts, their edges as they lie."""
    pieces = drawn.draft.pieces
    assert set(pieces[one].edges) == set(pieces[two].edges)
    for name in pieces[one].edges:
        assert apart(drawn.edge(one, name), drawn.edge(two, name)) < tolerance, name
    for name in pieces[one].points:
        np.testing.assert_allclose(
            drawn.point(one, name), drawn.point(two, name), rtol=0, atol=tolerance, err_msg=name
        )
    assert set(pieces[one].darts) == set(pieces[two].darts)
    for name in pieces[one].darts:
        np.testing.assert_allclose(
            drawn.dart(one, name), drawn.dart(two, name), rtol=0, atol=tolerance, err_msg=name
        )


# here where the closed dart lay, turned, falls on what stands of the side, by chance
BY_CHANCE = {
    "bust_girth": 1552.0125233930596,
    "bust_place": 0.2,
    "bust_width": 10.0,
    "waist_width": 10.0,
    "pivot_across": 0.4,
    "pivot_down": 0.45,
    "short": 5.0,
    "place": 0.4,
}


@given(BODICES, DARTS, st.sampled_from(EDGES))
@example(BY_CHANCE, "bust_dart", "neck")
@TRIED
def test_a_swung_dart_keeps_its_angle_and_all_that_is_sewn(how, dart, edge):
    drawn = tried(BODICE, _swung(dart, edge), how)
    old, new = drawn.dart("block", dart), drawn.dart("swung", dart)
    assert angle(new) == pytest.approx(angle(old), abs=1e-10)
    for end in (TIP, PIVOT):
        assert _size(new[FIRST], new[end]) == pytest.approx(_size(new[LAST], new[end]), abs=1e-9)
    assert _size(new[TIP], new[PIVOT]) == pytest.approx(how["short"], abs=1e-9)
    for name in ALL_EDGES:
        assert drawn.sewn("swung", name) == pytest.approx(drawn.sewn("block", name), abs=1e-8)
        told = drawn.told_length("swung", name)
        assert told == pytest.approx(drawn.sewn("swung", name), abs=1e-8)
    assert drawn.slashed("swung") == pytest.approx(drawn.slashed("block"), abs=1e-6)


@given(BODICES, DARTS, st.sampled_from(EDGES))
@TRIED
def test_widths_as_sewn_and_the_other_dart_do_not_change(how, dart, edge):
    drawn = tried(BODICE, _swung(dart, edge), how)
    other = "waist_dart" if dart == "bust_dart" else "bust_dart"
    old, new = drawn.dart("block", other), drawn.dart("swung", other)
    between = [np.linalg.norm(d[:, None] - d[None], axis=2) for d in (old, new)]
    np.testing.assert_allclose(between[1], between[0], atol=1e-9)
    for level in ("bust", "high"):
        assert drawn.width("swung", level) == drawn.width("block", level)


@given(BODICES)
@TRIED
def test_the_edge_that_holds_and_what_hangs_on_it_stay_to_the_bit(how):
    drawn = tried(BODICE, _swung("bust_dart", "shoulder"), how)
    for edge in ("centre", "neck"):
        np.testing.assert_array_equal(drawn.edge("swung", edge), drawn.edge("block", edge))
    for point in ("centre_neck", "side_neck", "centre_waist"):
        np.testing.assert_array_equal(drawn.point("swung", point), drawn.point("block", point))


@given(BODICES, st.sampled_from(("neck", "shoulder")))
@TRIED
def test_to_hold_another_edge_gives_the_same_piece_laid_otherwise(how, edge):
    held = _swung("bust_dart", edge, " holding armhole").replace("swung", "held", 1)
    drawn = tried(BODICE, _swung("bust_dart", edge) + held, how)
    assert not np.array_equal(drawn.point("held", "side_waist"), drawn.point("swung", "side_waist"))
    np.testing.assert_array_equal(drawn.edge("held", "armhole"), drawn.edge("block", "armhole"))
    assert drawn.area("held") == pytest.approx(drawn.area("swung"), abs=1e-6)
    for name in ALL_EDGES:
        assert drawn.sewn("held", name) == pytest.approx(drawn.sewn("swung", name), abs=1e-8)


@given(BODICES, st.sampled_from(EDGES))
@TRIED
def test_there_and_back_is_as_before(how, edge):
    back = ",\n      then swing bust_dart to side at along side from underarm by back_at"
    block = tried(BODICE, "", how)
    # as sewn, a dart's own place is that at which its mouth begins
    back_at = length(block.edge("block", "side")[:1])
    drawn = tried(BODICE, _swung("bust_dart", edge, back), {**how, "back_at": back_at})
    _same(drawn, "block", "swung", 2e-8)


@given(BODICES)
@TRIED
def test_a_share_and_the_rest_make_the_whole(how):
    place = _place("shoulder")
    text = f"""\
piece shared from block
  swing portion of bust_dart to shoulder at {place} called new_dart
end
piece rest_too from block
  swing portion of bust_dart to shoulder at {place} called new_dart,
      then swing bust_dart into new_dart
end
piece whole from block
  swing bust_dart to shoulder at {place} called new_dart
end
"""
    drawn = tried(BODICE, text, how)
    part, rest = drawn.dart("shared", "new_dart"), drawn.dart("shared", "bust_dart")
    whole = angle(drawn.dart("block", "bust_dart"))
    assert angle(part) == pytest.approx(how["portion"] * whole, abs=1e-10)
    assert angle(part) + angle(rest) == pytest.approx(whole, abs=1e-10)
    for name in ALL_EDGES:
        assert drawn.sewn("shared", name) == pytest.approx(drawn.sewn("block", name), abs=1e-8)
    _same(drawn, "rest_too", "whole", 2e-8)


@given(BODICES)
@TRIED
def test_darts_of_one_pivot_that_are_merged_add_their_angles(how):
    text = "piece merged from block\n  swing bust_dart into waist_dart\nend\n"
    drawn = tried(BODICE, text, how)
    angles = [angle(drawn.dart("block", name)) for name in ("bust_dart", "waist_dart")]
    assert angle(drawn.dart("merged", "waist_dart")) == pytest.approx(sum(angles), abs=1e-10)
    assert drawn.strays("merged", "waist_dart") == pytest.approx(0.0, abs=1e-9)
    for name in ALL_EDGES:
        assert drawn.sewn("merged", name) == pytest.approx(drawn.sewn("block", name), abs=1e-8)


@given(BODICES, st.floats(2.0, 30.0))
@TRIED
def test_darts_of_two_pivots_tell_by_how_much_a_leg_is_lengthened(how, away):
    # the waist dart's pivot lies lower: the part between turns about the other
    lower = "point lower = bust_point down 1 cm\n  ".replace("1 cm", f"{away / 10:.4f}cm")
    block = BODICE.replace("edge centre ", lower + "edge centre ", 1)
    block = block.replace("by waist_width to bust_point", "by waist_width to lower")
    drawn = tried(block, "piece merged from block\n  swing bust_dart into waist_dart\nend\n", how)
    bust, waist = (drawn.dart("block", name) for name in ("bust_dart", "waist_dart"))
    turn = angle(bust)
    # the outer leg's end is laid about the bust point until the bust dart is closed
    outer = max((waist[FIRST], waist[LAST]), key=lambda end: end[0])
    cosine, sine = np.cos(turn), np.sin(turn)
    offsets = [
        np.array([[cosine, -s * sine], [s * sine, cosine]]) @ (outer - bust[PIVOT]) for s in (1, -1)
    ]
    legs = [_size(bust[PIVOT] + each, waist[PIVOT]) for each in offsets]
    standing = _size(min((waist[FIRST], waist[LAST]), key=lambda end: end[0]), waist[PIVOT])
    expected = [abs(each - standing) for each in legs]
    told = drawn.strays("merged", "waist_dart")
    assert min(abs(told - each) for each in expected) < 1e-9
    # a chord of the circle about the one pivot on which the other goes round
    pivots = _size(waist[PIVOT], bust[PIVOT])
    assert told <= 2.0 * pivots * np.sin(turn / 2.0) + 1e-9


@given(BODICES)
@TRIED
def test_a_dart_is_as_wide_as_the_chord_of_its_angle(how):
    drawn = tried(BODICE, "", how)
    for name in ("bust_dart", "waist_dart"):
        dart = drawn.dart("block", name)
        reach = _size(dart[FIRST], dart[PIVOT])
        wide = _size(dart[FIRST], dart[LAST])
        # w = 2 r sin(a / 2)
        assert wide == pytest.approx(2.0 * reach * np.sin(angle(dart) / 2.0), abs=1e-9)


TWO = """\
piece both from block
  dart second = on waist at along waist from centre_waist by {at} % by 1cm to deep
end
"""


@given(SKIRTS, st.sampled_from((12, 88)), st.booleans())
@TRIED
def test_darts_of_one_edge_and_one_pivot_are_merged_into_the_sum_of_their_angles(how, at, back):
    names = ("second", "waist_dart") if back else ("waist_dart", "second")
    text = TWO.format(at=at)
    text += f"piece merged from both\n  swing {names[0]} into {names[1]}\nend\n"
    drawn = tried(SKIRT, text, how)
    angles = [angle(drawn.dart("both", name)) for name in names]
    made = drawn.dart("merged", names[1])
    assert angle(made) == pytest.approx(sum(angles), abs=1e-10)
    assert np.hypot(*(made[FIRST] - made[TIP])) == pytest.approx(
        np.hypot(*(made[LAST] - made[TIP])), abs=1e-9
    )
    for edge in ("waist", "side", "hem", "centre"):
        told = drawn.told_length("merged", edge)
        assert told == pytest.approx(drawn.told_length("both", edge), abs=1e-7)
    assert names[0] not in drawn.draft.pieces["merged"].darts


@given(SKIRTS, st.sampled_from((10, 90)))
@TRIED
def test_part_of_a_dart_swung_along_its_own_edge_leaves_the_rest(how, at):
    text = (
        "piece moved from block\n"
        f"  swing 1/3 of waist_dart to waist at along waist from centre_waist by {at} % "
        "called third\nend\n"
    )
    drawn = tried(SKIRT, text, how)
    all_of_it = angle(drawn.dart("block", "waist_dart"))
    assert angle(drawn.dart("moved", "third")) == pytest.approx(all_of_it / 3.0, abs=1e-10)
    rest = angle(drawn.dart("moved", "waist_dart"))
    assert rest == pytest.approx(all_of_it * 2.0 / 3.0, abs=1e-10)
    told = drawn.told_length("moved", "waist")
    assert told == pytest.approx(drawn.told_length("block", "waist"), abs=1e-7)
    for point in ("centre_waist", "side_waist", "hem_side", "deep"):
        np.testing.assert_allclose(
            drawn.point("moved", point), drawn.point("block", point), atol=1e-9
        )
