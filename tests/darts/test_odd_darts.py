"""Darts that can't be, and bodies that a block was not drawn for: a problem with numbers or a right
answer, never no number at all."""

from __future__ import annotations

import numpy as np
import pytest
from darted_pieces import BODICE, FIRST, LAST, PIVOT, SKIRT, angle, failing
from hypothesis import HealthCheck, Phase, example, given, settings
from hypothesis import strategies as st

TRIED = settings(
    max_examples=25,
    deadline=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=[HealthCheck.filter_too_much],
)
ANY_BODICE = st.fixed_dictionaries(
    {
        "bust_girth": st.sampled_from((500.0, 800.0, 1200.0, 2000.0)),
        "bust_place": st.sampled_from((0.0, 0.001, 0.3, 0.5, 0.999, 1.0)),
        "bust_width": st.sampled_from((0.0, 0.01, 30.0, 150.0, 900.0)),
        "waist_width": st.sampled_from((0.0, 0.01, 30.0, 150.0, 900.0)),
        "pivot_across": st.sampled_from((0.0, 0.3, 0.5, 0.92, 1.0, 1.5)),
        "pivot_down": st.sampled_from((0.0, 0.5, 1.0, 1.5)),
        "short": st.sampled_from((0.0, 10.0, 400.0)),
        "place": st.sampled_from((0.0, 0.001, 0.5, 1.0)),
        "portion": st.sampled_from((0.0, 0.3, 1.0)),
    }
)
ALTERATIONS = (
    "swing bust_dart to shoulder at along shoulder from side_neck by place * length(shoulder)",
    "swing portion of bust_dart to neck at along neck from centre_neck by place * length(neck) "
    "called new",
    "swing bust_dart into waist_dart",
    "convert waist_dart into flare on neck at along neck from centre_neck by place * length(neck)",
    "convert bust_dart into gathers over 8cm",
    "convert waist_dart into pleat",
    "spread bottom by bust_width in 3 places, hinged on shoulder",
    "unfold on centre",
)
SOUND = {
    "bust_girth": 900.0,
    "bust_place": 0.3,
    "bust_width": 30.0,
    "waist_width": 25.0,
    "pivot_across": 0.5,
    "pivot_down": 0.5,
    "short": 10.0,
    "place": 0.5,
    "portion": 0.3,
}


@pytest.mark.parametrize("alteration", ALTERATIONS)
@given(how=ANY_BODICE)
@example(how=SOUND | {"place": 0.0})
@example(how=SOUND | {"place": 1.0})
@example(how=SOUND | {"pivot_across": 0.96, "pivot_down": 0.6})
@TRIED
def test_whatever_is_asked_there_is_a_draft_or_a_problem_with_its_numbers(alteration, how):
    text = f"piece altered from block\n  {alteration}\nend\n"
    drawn, _ = failing(BODICE, text, how)
    for failure in drawn.outcome.failures:
        assert failure.code != "not-a-number", (failure.place, failure.node)
        assert all(np.isfinite(number) for number in failure.numbers.values()), failure
    if not drawn.outcome.failures:
        for edge in drawn.edges("altered").values():
            assert np.isfinite(edge).all()


@pytest.mark.parametrize(
    ("wrong", "code"),
    [
        ({"bust_width": 900.0}, "dart-past-edge"),
        ({"bust_place": 0.0}, "dart-past-edge"),
        ({"bust_place": 1.0}, "dart-past-edge"),
        ({"bust_width": 0.0}, "not-positive"),
        ({"short": 450.0}, "dart-too-short"),
    ],
)
def test_what_no_dart_can_be_is_told(wrong, code):
    _, found = failing(BODICE, "", SOUND | wrong)
    assert found == {code}


def test_a_dart_as_wide_as_half_a_turn_is_told_or_right():
    block = BODICE.replace("by bust_width to", "by 179.9deg to")
    _, found = failing(block, "", SOUND)
    assert "dart-misses-edge" in found


# at 60 degrees the longer leg is 25 mm longer than the edge makes the other, which, lengthened,
# lies nearer to the end of the edge than to where it comes from it
@pytest.mark.parametrize("wide", [1.0, 5.0, 20.0, 60.0])
def test_an_angle_in_degrees_is_that_of_the_dart(wide):
    drawn, found = failing(BODICE.replace("by bust_width to", f"by {wide}deg to"), "", SOUND)
    assert not found
    dart = drawn.dart("block", "bust_dart")
    assert np.degrees(angle(dart)) == pytest.approx(wide, abs=1e-9)
    legs = [np.hypot(*(dart[end] - dart[PIVOT])) for end in (FIRST, LAST)]
    assert legs[0] == pytest.approx(legs[1], abs=1e-9)
    side = drawn.edge("block", "side")
    np.testing.assert_array_equal(side[0, 0], drawn.point("block", "underarm"))
    np.testing.assert_array_equal(side[-1, 3], drawn.point("block", "side_waist"))


@pytest.mark.parametrize("girth", [500.0, 700.0, 1200.0, 1600.0, 2000.0])
def test_a_skirt_of_any_girth_flares(girth):
    place = "along hem from hem_centre by hem_place * length(hem)"
    text = f"piece flared from block\n  convert waist_dart into flare on hem at {place}\nend\n"
    drawn, found = failing(SKIRT, text, {"hip_girth": girth})
    assert not found
    assert drawn.told_length("flared", "waist") == pytest.approx(
        drawn.sewn("block", "waist"), abs=1e-8
    )


def test_flare_at_the_very_end_of_an_edge_leaves_the_corner_where_it_was():
    text = "piece flared from block\n  convert waist_dart into flare on hem at hem_centre\nend\n"
    drawn, found = failing(SKIRT, text, {"hip_girth": 1000.0})
    assert not found
    hem = drawn.edge("flared", "hem")
    ends = sorted((tuple(hem[0, 0]), tuple(hem[-1, 3])))
    np.testing.assert_allclose(ends[0], drawn.point("block", "hem_centre"), atol=1e-9)
