"""What a dart is converted into takes up as much, or opens another edge by the dart's angle."""

from __future__ import annotations

import numpy as np
import pytest
from darted_pieces import (
    BODICE,
    BODICES,
    CAP,
    FIRST,
    LAST,
    PIVOT,
    SKIRT,
    SKIRTS,
    angle,
    length,
    tried,
)
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

TRIED = settings(
    max_examples=8, deadline=None, phases=[Phase.explicit, Phase.generate], derandomize=True
)
SIDES = ("neck", "shoulder", "armhole", "side", "bottom", "centre")


@given(
    BODICES,
    st.sampled_from(("bust_dart", "waist_dart")),
    st.sampled_from(("gathers over 7cm", "ease over 7cm", "pleat", "tuck", "tuck over 3cm")),
)
@TRIED
def test_in_another_manner_an_edge_keeps_its_length_as_sewn(how, dart, into):
    text = f"piece changed from block\n  convert {dart} into {into}\nend\n"
    drawn = tried(BODICE, text, how)
    for edge in SIDES:
        told = drawn.told_length("changed", edge)
        assert told == pytest.approx(drawn.sewn("block", edge), abs=1e-7)


@given(BODICES)
@TRIED
def test_gathers_take_up_what_the_dart_did(how):
    text = "piece changed from block\n  convert bust_dart into gathers over 7cm\nend\n"
    drawn = tried(BODICE, text, how)
    first, last, taken = drawn.dart("changed", "bust_dart")
    share = np.hypot(*(taken - first)) / np.hypot(*(last - first))
    # over 7 cm of the edge as it is cut
    cut = length(drawn.edge("changed", "side"))
    assert share * 70.0 == pytest.approx(cut - drawn.sewn("block", "side"), abs=1e-6)
    dart = drawn.dart("block", "bust_dart")
    assert share * 70.0 >= np.hypot(*(dart[FIRST] - dart[LAST])) - 1e-6


@given(BODICES, st.sampled_from(("pleat", "tuck")))
@TRIED
def test_a_pleat_is_cut_as_the_dart_it_was(how, into):
    drawn = tried(BODICE, f"piece changed from block\n  convert bust_dart into {into}\nend\n", how)
    np.testing.assert_allclose(
        drawn.edge("changed", "side"), drawn.edge("block", "side"), rtol=0, atol=1e-9
    )


AT_HEM = "along hem from hem_centre by 50 % * length(hem)"
FLARED = """\
piece flared from block
  convert waist_dart into flare on hem at along hem from hem_centre by hem_place * length(hem)
end
"""


@given(SKIRTS)
@TRIED
def test_a_dart_closed_into_flare_opens_the_hem_as_the_trade_reckons(how):
    drawn = tried(SKIRT, FLARED, how)
    dart = drawn.dart("block", "waist_dart")
    wide = np.hypot(*(dart[FIRST] - dart[LAST]))
    leg = np.hypot(*(dart[FIRST] - dart[PIVOT]))
    cut = np.array([how["hem_place"] * how["hip_girth"] / 4.0, how["long"]])
    to_hem = np.hypot(*(cut - dart[PIVOT]))
    opened = np.hypot(*(drawn.laid("flared", ("side_waist", "hem_side"), cut) - cut))
    # width x (point to hem) / (point to waist): trade rule, found
    assert opened == pytest.approx(wide * to_hem / leg, rel=1e-9)
    # faired over the opening the hem is a little shorter than with a straight step there
    hem = length(drawn.edge("flared", "hem"))
    assert hem == pytest.approx(how["hip_girth"] / 4.0 + opened, rel=2e-2)
    for edge in ("side", "centre"):
        assert length(drawn.edge("flared", edge)) == pytest.approx(
            length(drawn.edge("block", edge)), abs=1e-9
        )
    assert drawn.told_length("flared", "waist") == pytest.approx(
        drawn.sewn("block", "waist"), abs=1e-8
    )
    assert "waist_dart" not in drawn.draft.pieces["flared"].darts


@given(SKIRTS, st.floats(0.1, 0.9))
@TRIED
def test_a_dart_swung_to_the_hem_and_on_into_flare_keeps_nothing_of_it(how, portion):
    text = f"""\
piece half from block
  swing {portion:.4f} of waist_dart to hem at {AT_HEM} called low
end
"""
    drawn = tried(SKIRT, text, how)
    low, rest = drawn.dart("half", "low"), drawn.dart("half", "waist_dart")
    whole = angle(drawn.dart("block", "waist_dart"))
    assert angle(low) + angle(rest) == pytest.approx(whole, abs=1e-10)
    mouths = [np.hypot(*(d[CAP] - d[FIRST])) for d in (low, rest)]
    assert min(mouths) > 0.0
