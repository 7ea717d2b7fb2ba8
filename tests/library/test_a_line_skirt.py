"""The A-line made from the straight skirt. All figures come from the cubics of its pieces alone."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from drafts import LINEN, body, dense, drafts, inflections, length, path, point
from skirt_drafts import (
    HALVES,
    away_from,
    children,
    corners,
    dart,
    dart_angle,
    from_the_centre,
    geometry,
    sewn_waist,
    side_from_the_waist,
    turned,
)
from women import bdims_women, en_women

from godet.base.shipped import shipped

WOMEN = [
    *en_women(),
    *bdims_women()[::2],
    *children(),
    body("hips", bust_girth=108, waist_girth=95, hip_girth=130, waist_to_hip=22.5, height=165),
]


@pytest.fixture(scope="module")
def skirts():
    """The straight skirt and the A-line of each body, made of darts that take their whole part."""
    straight = geometry("straight_skirt", WOMEN)
    a_line = geometry("a_line_skirt", WOMEN, {"base.dart_share": 1.0})
    return list(zip(straight, a_line, strict=True))


def opening(straight, half: str) -> float:
    """Dart's width x (point to hem) / (point to waist), both along the cut (found)."""
    first, last, tip = dart(straight, half)
    to_hem = point(straight, half, "hem_centre")[1] - tip[1]
    return np.hypot(*(last - first)) * to_hem / np.hypot(*(first - tip))


def test_the_dart_is_closed_and_the_waist_as_long_as_it_was_sewn(skirts):
    for straight, a_line in skirts:
        for half in HALVES:
            assert not a_line["pieces"][half]["darts"]
            assert sewn_waist(a_line, half)[0] == pytest.approx(
                sum(sewn_waist(straight, half)), abs=0.02
            )


def test_the_side_seams_keep_their_length(skirts):
    for straight, a_line in skirts:
        for half in HALVES:
            was = length(path(straight, half, "side"))
            assert length(path(a_line, half, "side")) == pytest.approx(was, abs=0.05)


def test_the_side_seams_of_front_and_back_are_one_line(skirts):
    for _, a_line in skirts:
        sides = []
        for half in HALVES:
            side = side_from_the_waist(a_line, half) - point(a_line, half, "side_waist")
            way = side[-1, 3] - side[-1, 0]  # the straight end, below the hip
            lean = np.arctan2(way[0], way[1])
            sides.append(turned(side.reshape(-1, 2), np.zeros(2), -lean))
        assert sides[0] == pytest.approx(sides[1], abs=0.05)


def test_the_hem_opens_as_the_trade_reckons_and_by_half_as_much_at_the_side(skirts):
    # found in a teaching page, as the opening; half of the mean of front and back at each side, so
    # that the sides match. The arcs of the opened hem are a little longer than the rule's
    # straight way.
    for straight, a_line in skirts:
        added = 0.0
        reckoned = sum(1.5 * opening(straight, half) for half in HALVES)
        for half in HALVES:
            hem = from_the_centre(a_line, half, "bottom")
            added += length(hem) - length(path(straight, half, "bottom"))
        assert added == pytest.approx(reckoned, rel=0.03)


def test_the_hem_is_level(skirts):
    # as far below the hip line, as sewn, at the centre, behind the closed dart and at the
    # side; where it opened, as far from where the dart ended
    for straight, a_line in skirts:
        for half in HALVES:
            hem = dense(path(a_line, half, "bottom"))
            _, _, tip = dart(straight, half)
            angle = dart_angle(straight, half)
            centre, side = (point(straight, half, f"hem_{end}") for end in ("centre", "side"))
            down = centre[1]
            kept = np.array([[share * tip[0], down] for share in (0.0, 0.5, 1.0)])
            beyond = np.array([[tip[0] + s * (side[0] - tip[0]), down] for s in (0.0, 0.5, 1.0)])
            below = np.array([[tip[0], down]])
            gone = [turned(below, tip, share * angle)[0] for share in (0.25, 0.5, 0.75)]
            for place in [*kept, *gone, *turned(beyond, tip, angle)]:
                assert away_from(place, hem) < 2.0


def test_the_hem_and_the_waist_meet_centre_and_side_square(skirts):
    for _, a_line in skirts:
        for half in HALVES:
            for name, met in corners(a_line, half).items():
                assert met == pytest.approx(90.0, abs=0.5), name


def test_neither_the_hem_nor_the_side_waves(skirts):
    for _, a_line in skirts:
        for half in HALVES:
            assert inflections(path(a_line, half, "bottom")) == 0
            assert inflections(path(a_line, half, "side")) == 0


def test_the_hip_stays_as_wide_or_gains_a_little(skirts):
    for straight, a_line in skirts:
        for half in HALVES:
            _, _, tip = dart(straight, half)
            hip = point(straight, half, "hip_side")[None]
            was = turned(hip, tip, dart_angle(straight, half))[0]
            gain = np.hypot(*(point(a_line, half, "hip_side") - was))
            assert gain <= 15.0


@pytest.mark.parametrize("long", [260.0, 700.0, 1000.0])
def test_short_and_long_ones_are_level_and_square_too(long):
    for a_line in geometry("a_line_skirt", en_women(), {"skirt_length": long}):
        for half in HALVES:
            for name, met in corners(a_line, half).items():
                assert met == pytest.approx(90.0, abs=0.5), name
            assert length(path(a_line, half, "side")) == pytest.approx(long, abs=5.0)
            assert inflections(path(a_line, half, "bottom")) == 0


def test_what_a_taker_sets_reaches_the_straight_skirt():
    women = en_women()[3:4]
    choices = {"front_waist": 190.0, "back_waist": 180.0, "finish": "facing", "opening": "zip"}
    for a_line in drafts("a_line_skirt", women, LINEN, choices):
        assert sewn_waist(a_line, "front")[0] == pytest.approx(190.0, abs=0.02)
        assert sewn_waist(a_line, "back")[0] == pytest.approx(180.0, abs=0.02)
        assert "front_waist_facing" in a_line["pieces"]
        assert "waistband" not in a_line["pieces"]


def test_no_dart_that_is_gone_is_advised_about():
    (a_line,) = drafts("a_line_skirt", WOMEN[-1:], LINEN)
    assert all(check["ok"] for check in a_line["checks"] if "dart" in check["words"])


def test_a_skirt_taken_in_at_the_hem_is_refused():
    (a_line,) = drafts("a_line_skirt", en_women()[:1], LINEN, {"base.hem_taper": 20.0})
    failing = [check["words"] for check in a_line["checks"] if not check["ok"]]
    assert any("take hem_taper away" in words for words in failing)


ASKING = """\
edition 1

recipe asking
  takes base: skirt with waist_dart = straight_skirt
  makes kind of base
  "A skirt that asks something of its dart."

piece front, back from base.front, base.back
end

advise front.waist_dart.width <= 1cm
  "a wide dart"
"""


def test_what_is_asked_of_a_dart_is_not_asked_of_a_skirt_that_has_none(tmp_path: Path):
    (tmp_path / "asking.godet").write_text(ASKING, encoding="utf-8")
    flared = tmp_path / "flared.godet"
    flared.write_text((shipped("stdlib") / "a_line_skirt.godet").read_text(encoding="utf-8"))
    (drawn,) = drafts(flared, en_women()[:1], LINEN, blocks={"base": "asking"})
    assert "a wide dart" not in [check["words"] for check in drawn["checks"]]
    (drawn,) = drafts(tmp_path / "asking.godet", en_women()[:1], LINEN)
    assert "a wide dart" in [check["words"] for check in drawn["checks"]]


def test_wide_hips_do_not_swing_the_side_out():
    # ours: no dart of more than 4 cm is closed; the sides of the straight skirt take the rest
    hips = WOMEN[-1:]
    leans = []
    for choices in ({}, {"base.dart_share": 1.0}):
        (draft,) = geometry("a_line_skirt", hips, choices)
        across, down = path(draft, "back", "side")[-1, 3] - path(draft, "back", "side")[-1, 2]
        leans.append(np.degrees(np.arctan2(abs(across), abs(down))))
    assert leans[0] < 30.0 < leans[1]
    (usual,) = geometry("a_line_skirt", en_women()[:1])
    (whole,) = geometry("a_line_skirt", en_women()[:1], {"base.dart_share": 1.0})
    for draft in (usual, whole):
        assert sewn_waist(draft, "back")[0] == pytest.approx(sewn_waist(whole, "back")[0], abs=0.02)
