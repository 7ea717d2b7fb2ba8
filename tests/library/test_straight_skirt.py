"""The straight skirt with darts. All figures come from the cubics of its pieces alone."""

from __future__ import annotations

import numpy as np
import pytest
from drafts import LINEN, body, degrees_between, drafts, end_way, length, path, point, start_way
from skirt_drafts import (
    HALVES,
    children,
    corners,
    dart,
    dart_angle,
    dart_width,
    from_the_centre,
    geometry,
    girth_of,
    sewn_waist,
    side_from_the_waist,
    waist_parts,
)
from women import bdims_women, en_women

# extremes, invented: hardly any waist to speak of, and one much smaller than the hip
EXTREMES = [
    body("barrel", bust_girth=94, waist_girth=100, hip_girth=100, height=168),
    body("hourglass", bust_girth=94, waist_girth=60, hip_girth=130, waist_to_hip=17, height=150),
    body("large", bust_girth=152, waist_girth=136, hip_girth=158, height=168),
]
HANDBOOK_EASES = {"waist_ease": 10.0, "hip_ease": 30.0}
EASES = {"waist_ease": 12.0, "hip_ease": 50.0}  # mm, stated so that no rounding stands in between


def drafted(women):
    return list(zip(women, geometry("straight_skirt", women, EASES), strict=True))


@pytest.fixture(scope="module")
def usual():
    return drafted([*en_women(), *bdims_women()])


@pytest.fixture(scope="module")
def skirts(usual):
    return [*usual, *drafted([*children(), *EXTREMES])]


def shaping(woman) -> float:
    """All round, in mm: hip and ease less waist and ease."""
    return girth_of(woman, "hip_girth") + 50.0 - girth_of(woman, "waist_girth") - 12.0


def test_the_waist_as_sewn_is_the_waist_and_its_ease(skirts):
    for woman, draft in skirts:
        sewn = 2 * sum(sum(sewn_waist(draft, half)) for half in HALVES)
        assert sewn == pytest.approx(girth_of(woman, "waist_girth") + 12.0, abs=0.05)


def test_front_and_back_are_each_a_quarter_of_the_hip_and_its_ease(usual):
    for woman, draft in usual:
        for half in HALVES:
            quarter = (girth_of(woman, "hip_girth") + 50.0) / 4
            assert point(draft, half, "hip_side")[0] == pytest.approx(quarter, abs=0.01)


def test_all_round_the_hip_is_met_however_little_there_is_for_darts(skirts):
    for woman, draft in skirts:
        round_hip = 2 * sum(point(draft, half, "hip_side")[0] for half in HALVES)
        assert round_hip == pytest.approx(girth_of(woman, "hip_girth") + 50.0, abs=0.01)


def test_darts_and_sides_share_the_shaping_as_a_teaching_page_has_it(usual):
    # front dart 8 %, back dart 16 %, each side 13 % (found in a teaching page); on these women no
    # dart is at its least. A bent waist is longer by 2 mm or so
    # than what it spans, and the dart takes that up.
    for woman, draft in usual:
        if shaping(woman) < 80.0:
            continue
        for half, share in zip(HALVES, (0.08, 0.16), strict=True):
            assert dart_width(draft, half) == pytest.approx(
                share * shaping(woman), abs=0.01 * shaping(woman)
            )
            side = point(draft, half, "hip_side")[0] - point(draft, half, "side_waist")[0]
            assert side == pytest.approx(0.13 * shaping(woman), abs=0.01)


def test_no_dart_is_too_narrow_to_be_sewn(skirts):
    # 6 mm: ours
    for _, draft in skirts:
        for half in HALVES:
            assert dart_width(draft, half) >= 5.9


def test_the_darts_are_as_long_as_the_trade_has_them_and_end_above_the_hip(usual):
    # front 8 to 10 cm, back 12 to 14 (from memory)
    for _, draft in usual:
        for half, (least, most) in zip(HALVES, ((80, 100), (120, 140)), strict=True):
            *mouth, tip = dart(draft, half)
            legs = [np.hypot(*(end - tip)) for end in mouth]
            assert legs[0] == pytest.approx(legs[1], abs=0.01)
            assert least <= legs[0] <= most + 1.0
            assert tip[1] < point(draft, half, "hip_side")[1] - 30.0


def test_on_a_child_the_darts_end_above_the_hip_too():
    for draft in geometry("straight_skirt", children()):
        for half in HALVES:
            _, _, tip = dart(draft, half)
            assert tip[1] < 0.85 * point(draft, half, "hip_side")[1]


def test_the_side_seams_are_one_line(skirts):
    for _, draft in skirts:
        front, back = (
            side_from_the_waist(draft, half) - point(draft, half, "side_waist") for half in HALVES
        )
        assert front == pytest.approx(back, abs=0.01)


def test_the_sewn_waist_runs_on_over_the_dart_and_over_the_side(skirts):
    for _, draft in skirts:
        for half in HALVES:
            _, _, tip = dart(draft, half)
            inner, outer = waist_parts(draft, half)
            at_first = degrees_between(-end_way(inner), tip - inner[-1, 3])
            at_last = degrees_between(start_way(outer), tip - outer[0, 0])
            assert at_first + at_last == pytest.approx(180.0, abs=0.5)
            meets = corners(draft, half)
            assert meets["waist at side"] == pytest.approx(90.0, abs=0.5)
            assert meets["waist at centre"] == pytest.approx(90.0, abs=0.1)


def test_the_waist_is_raised_at_the_side_by_a_centimetre_and_a_quarter(skirts):
    # 1 to 1.25 cm (found)
    for _, draft in skirts:
        for half in HALVES:
            raised = point(draft, half, "centre_waist")[1] - point(draft, half, "side_waist")[1]
            assert raised == pytest.approx(12.5, abs=1e-3)


def test_the_dart_lies_where_it_is_asked_for():
    women = en_women()
    choices = {"front_dart_place": 70.0, "back_dart_place": 75.0}
    for draft in geometry("straight_skirt", women, choices):
        for half, place in zip(HALVES, (70.0, 75.0), strict=True):
            assert sewn_waist(draft, half)[0] == pytest.approx(place, abs=0.5)


def test_a_waist_asked_for_by_front_and_back_is_met():
    choices = {"front_waist": 190.0, "back_waist": 175.0, "hip_ease": 60.0}
    women = en_women()[3:6]
    for woman, draft in zip(women, geometry("straight_skirt", women, choices), strict=True):
        assert sum(sewn_waist(draft, "front")) == pytest.approx(190.0, abs=0.02)
        assert sum(sewn_waist(draft, "back")) == pytest.approx(175.0, abs=0.02)
        round_hip = 2 * sum(point(draft, half, "hip_side")[0] for half in HALVES)
        assert round_hip == pytest.approx(girth_of(woman, "hip_girth") + 60.0, abs=0.01)


def test_the_hem_is_level_and_square_to_every_seam(skirts):
    for _, draft in skirts:
        for half in HALVES:
            hem = from_the_centre(draft, half, "bottom")
            assert np.ptp(hem[:, :, 1]) == pytest.approx(0.0, abs=0.01)
            assert corners(draft, half)["hem at side"] == pytest.approx(90.0, abs=0.1)


def test_a_pencil_skirt_is_taken_in_by_two_centimetres_on_each_side_and_its_hem_stays_square():
    # 2 cm a side line (found)
    for draft in geometry("straight_skirt", en_women(), {"hem_taper": 20.0}):
        for half in HALVES:
            hip, hem = (point(draft, half, name) for name in ("hip_side", "hem_side"))
            assert hip[0] - hem[0] == pytest.approx(20.0, abs=1e-3)
            meets = corners(draft, half)
            assert meets["hem at side"] == pytest.approx(90.0, abs=0.1)
            assert meets["hem at centre"] == pytest.approx(90.0, abs=0.1)


def test_waist_and_hip_are_those_of_a_handbooks_skirt():
    # W. Aldrich, Metric Pattern Cutting, the tailored skirt block: for a waist of 68 and a hip
    # of 94 the finished waist is 69 and the skirt 97 wide at the hip (found as far as
    # the back waist)
    woman = body("handbook", bust_girth=88, waist_girth=68, hip_girth=94, waist_to_hip=20.6)
    (draft,) = geometry("straight_skirt", [woman], {**HANDBOOK_EASES, "skirt_length": 600.0})
    assert 2 * sum(sum(sewn_waist(draft, h)) for h in HALVES) == pytest.approx(690.0, abs=0.05)
    assert 2 * sum(point(draft, h, "hip_side")[0] for h in HALVES) == pytest.approx(970.0, abs=0.01)


def test_the_waistband_is_as_long_as_the_sewn_waist_and_has_its_underlap(usual):
    for _, draft in usual:
        sewn = 2 * sum(sum(sewn_waist(draft, half)) for half in HALVES)
        assert length(path(draft, "waistband", "sewn")) == pytest.approx(sewn, abs=0.05)
        upper = length(path(draft, "waistband", "upper"))
        assert upper == pytest.approx(sewn + 30.0, abs=0.05)


def test_the_facing_lies_as_the_waist_does_once_its_dart_is_sewn():
    women = [*en_women(), *children()]
    for draft in geometry("straight_skirt", women, {"finish": "facing"}):
        for half in HALVES:
            facing = f"{half}_waist_facing"
            assert length(path(draft, facing, "waist")) == pytest.approx(
                sum(sewn_waist(draft, half)), abs=0.5
            )
            # turned back by the dart, the side of the skirt lies on that of the facing
            skirt_side = start_way(side_from_the_waist(draft, half))
            facing_side = point(draft, facing, "lower_side") - point(draft, facing, "waist_side")
            turn = degrees_between(skirt_side, facing_side)
            assert turn == pytest.approx(np.degrees(dart_angle(draft, half)), abs=0.2)


def words_of_failing(woman, **choices) -> str:
    (draft,) = drafts("straight_skirt", [woman], LINEN, choices)
    return "; ".join(check["words"] for check in draft["checks"] if not check["ok"])


def test_what_can_not_be_worn_or_sewn_is_told_with_its_cure():
    woman = en_women()[4]
    assert "take a waistband" in words_of_failing(woman, finish="casing")
    assert "choose opening=zip" in words_of_failing(woman, opening="none")
    assert "gather it" in words_of_failing(woman, front_waist=280.0, back_waist=280.0)
    assert "below the hip line" in words_of_failing(woman, skirt_length=210.0)
    assert "smaller front_dart_place" in words_of_failing(woman, front_dart_place=190.0)


def test_a_dart_of_more_than_four_centimetres_is_advised_to_be_split():
    # 2 to 4 cm, more is split in two (from memory)
    hourglass = EXTREMES[1]
    assert "make two of it" in words_of_failing(hourglass)
    assert "make two of it" not in words_of_failing(EXTREMES[0])


def test_a_hem_to_the_floor_is_warned_of():
    assert "trodden on" in words_of_failing(en_women()[4], skirt_length=1050.0)


def test_a_woven_skirt_has_room_to_sit_where_the_hip_was_measured_sitting():
    # the growth of the seated hip is the least ease (Rudolf and others, Materials 14:5124, 2021)
    measures = {"bust_girth": 94, "waist_girth": 76, "hip_girth": 102, "height": 168}
    (draft,) = geometry("straight_skirt", [body("sits", **measures, seated_hip_girth=111)])
    around = 2 * sum(point(draft, half, "hip_side")[0] for half in HALVES)
    assert around == pytest.approx(1110.0, abs=0.01)
    sits = body("sits", **measures, seated_hip_girth=111)
    assert "when sitting" in words_of_failing(sits, hip_ease=50.0)


@pytest.mark.parametrize(
    "recipe", ["straight_skirt", "a_line_skirt", "gathered_skirt", "circle_skirt"]
)
def test_a_zip_opens_the_centre_back_and_nothing_else_does(recipe):
    woman = en_women()[4:5]
    (opened,) = drafts(recipe, woman, LINEN)
    assert (opened["pieces"]["back"]["drawn"], opened["pieces"]["front"]["drawn"]) == (
        "whole",
        "half",
    )
    assert "centre_back" in [seam["name"] for seam in opened["seams"]]
    (closed,) = drafts(recipe, woman, LINEN, {"finish": "none", "opening": "none"})
    assert closed["pieces"]["back"]["drawn"] == "half"
    assert "centre_back" not in [seam["name"] for seam in closed["seams"]]
    assert set(closed["pieces"]) == {"front", "back"}
