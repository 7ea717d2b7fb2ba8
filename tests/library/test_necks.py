"""Necks and armholes drawn anew: what a patternmaker checks before cutting them."""

from __future__ import annotations

import numpy as np
import pytest
from drafts import JERSEY as JERSEY_CLOTH
from drafts import LINEN as LINEN_CLOTH
from drafts import drafts
from library_bodies import ADULTS, CHILDREN, EVERYBODY, SHIPPED
from library_drafts import (
    JERSEY,
    LINEN,
    Solved,
    degrees_between,
    first_direction,
    inflections,
    last_direction,
    length_of,
    solved,
    traced,
)
from shapely import LineString
from women import en_women

OUTWARD = np.array([1.0, 0.0])
WOMEN = {name: body for name, body in ADULTS.items() if body["bust_girth"] <= 1220.0}
ROUND = ("round_neck", "scoop_neck", "turtleneck")
NECKS = (*ROUND, "v_neck")


def on_tee(neck: str, **choices: float | str) -> Solved:
    return solved(neck, EVERYBODY, choices, JERSEY, garment="knit_tee")


def on_blouse(neck: str, **choices: float | str) -> Solved:
    return solved(neck, WOMEN, choices, LINEN, garment="darted_blouse")


def neck_of(drawn: Solved) -> np.ndarray:
    return 2 * (length_of(drawn.curve("front.neck")) + length_of(drawn.curve("back.neck")))


@pytest.fixture(scope="module", params=[(n, on) for n in NECKS for on in (on_tee, on_blouse)])
def drawn(request: pytest.FixtureRequest) -> Solved:
    neck, on = request.param
    made: Solved = on(neck)
    return made


def test_every_body_gets_a_neck(drawn: Solved) -> None:
    assert drawn.outcome.failures == ()
    assert [words for words in drawn.failing("require") if "neck" in words] == []


def test_the_neck_runs_smoothly_over_the_shoulder(drawn: Solved) -> None:
    total = 0.0
    for piece in ("front", "back"):
        neck, shoulder = drawn.curve(f"{piece}.neck"), drawn.curve(f"{piece}.shoulder")
        assert np.allclose(neck[:, -1, 3], drawn.point(f"{piece}.side_neck"), atol=1e-9)
        total = total + degrees_between(-last_direction(neck), first_direction(shoulder))
    # common practice, no source: together a straight angle, give or take 2 degrees
    assert np.abs(total - 180.0).max() < 2.0


def test_the_neck_bends_one_way_and_stays_inside_the_shoulder(drawn: Solved) -> None:
    for piece in ("front", "back"):
        side = drawn.point(f"{piece}.side_neck")[:, 0]
        assert [inflections(curve) for curve in drawn.curve(f"{piece}.neck")] == [0] * len(side)
        widest = np.array([traced(c)[:, 0].max() for c in drawn.curve(f"{piece}.neck")])
        # an arc that meets the shoulder steeply swells by a few mm beyond its end
        assert (widest < side + 4.0).all()
        for neck, armhole in zip(
            drawn.curve(f"{piece}.neck"), drawn.curve(f"{piece}.armhole"), strict=True
        ):
            # shapely, polylines of chords
            assert LineString(traced(neck)).distance(LineString(traced(armhole))) > 15.0


def test_armhole_side_and_sleeve_stay_what_they_were(drawn: Solved) -> None:
    for name in ("front.armhole", "back.armhole", "front.side", "back.side", "sleeve.cap"):
        assert np.array_equal(drawn.curve(name), drawn.curve(f"garment.{name}"))


@pytest.mark.parametrize("neck", ROUND)
def test_a_round_neck_is_square_to_the_centre(neck: str) -> None:
    for made in (on_tee(neck), on_blouse(neck)):
        for piece in ("front", "back"):
            across = first_direction(made.curve(f"{piece}.neck"))
            # numpy, on the handles; common practice, no source
            assert degrees_between(across, OUTWARD).max() < 1e-6


def test_a_neck_is_as_much_wider_and_deeper_as_is_chosen() -> None:
    made = on_tee("round_neck", widening=15.0, front_drop=30.0, back_drop=10.0)
    for piece, drop in (("front", 30.0), ("back", 10.0)):
        moved = made.point(f"{piece}.side_neck") - made.point(f"garment.{piece}.side_neck")
        assert np.allclose(np.hypot(*moved.T), 15.0)
        lower = made.point(f"{piece}.centre_neck") - made.point(f"garment.{piece}.centre_neck")
        assert np.allclose(lower, [0.0, drop])
        before = length_of(made.curve(f"garment.{piece}.shoulder"))
        assert np.allclose(before - length_of(made.curve(f"{piece}.shoulder")), 15.0)


def test_the_v_is_hollowed_by_no_more_than_1_cm() -> None:
    made = on_tee("v_neck")
    for neck in made.curve("front.neck"):
        line = LineString([neck[0, 0], neck[-1, 3]])
        # common practice, no source; shapely
        assert line.hausdorff_distance(LineString(traced(neck))) < 10.0


def test_the_mitre_of_the_v_fits_its_angle() -> None:
    made = on_tee("v_neck", band_width=20.0)
    begins = first_direction(made.curve("front.neck"))
    half_angle = np.arctan2(begins[:, 0], -begins[:, 1])
    shorter = made.point("neckband.fold_first") - made.point("neckband.upper_first")
    # on the centre line, the inner edge of a band 2 cm wide begins so far up the V
    assert np.allclose(shorter[:, 0], 20.0 / np.tan(half_angle))


@pytest.mark.parametrize("neck", ["round_neck", "scoop_neck", "v_neck"])
def test_facings_are_as_long_as_what_they_are_sewn_to(neck: str) -> None:
    for made in (on_tee(neck, finish="facing"), on_blouse(neck, finish="facing")):
        assert made.outcome.failures == ()
        for piece in ("front", "back"):
            assert np.array_equal(made.curve(f"{piece}_facing.neck"), made.curve(f"{piece}.neck"))
        shoulders = [length_of(made.curve(f"{p}_facing.shoulder")) for p in ("front", "back")]
        # trade rule: within 1 mm
        assert np.abs(shoulders[0] - shoulders[1]).max() < 1.0


def test_the_band_is_a_share_of_the_neck() -> None:
    made = on_tee("scoop_neck", band_share=0.9)
    assert np.allclose(length_of(made.curve("neckband.lower")), 0.9 * neck_of(made))


def test_a_neck_wider_than_the_shoulder_or_down_to_the_waist_is_refused_in_words() -> None:
    child = {"child 92": CHILDREN["child 92"]}
    wide = solved("round_neck", child, {"widening": 110.0}, JERSEY, garment="knit_tee")
    assert wide.outcome.failures == ()
    assert any("widening" in words for words in wide.failing("require"))
    deep = solved("v_neck", child, {"depth": 400.0}, JERSEY, garment="knit_tee")
    assert deep.outcome.failures == ()
    assert any("depth" in words for words in deep.failing("require"))


def test_a_turtleneck_lies_at_the_root_of_the_neck_and_passes_the_head_where_it_can() -> None:
    made = on_tee("turtleneck")
    root = made.number("neck_base_girth")
    ease = made.number("neck_ease")
    # ours: as round as the root of the neck and the ease, give or take 2.5 cm
    assert np.abs(neck_of(made) - root - ease).max() < 25.0
    collar = length_of(made.curve("neckband.lower"))
    told = {label for words, labels in made.failing("advise").items() if "head" in words
            for label in labels}  # fmt: skip
    passes = collar * 1.4 >= made.number("head_girth")
    labels = np.array(made.outcome.labels)
    assert set(labels[~passes]) <= told


def test_a_standing_collar_is_folded_once_and_a_rolled_one_is_as_high_again() -> None:
    heights = {}
    for collar in ("standing", "rolled"):
        made = solved(
            "turtleneck", SHIPPED, {"collar": collar, "stand": 50.0}, JERSEY, garment="knit_tee"
        )
        heights[collar] = length_of(made.curve("neckband.first_side"))
    assert np.allclose(heights["standing"], 100.0)
    assert np.allclose(heights["rolled"], 210.0)


# --- armholes -------------------------------------------------------------------------------------


@pytest.mark.parametrize("top", ["knit_tee", "darted_blouse"])
def test_without_sleeves_the_armhole_is_higher_and_smooth_over_the_shoulder(top: str) -> None:
    bodies, cloth = (EVERYBODY, JERSEY) if top == "knit_tee" else (WOMEN, LINEN)
    made = solved("sleeveless", bodies, {"finish": "facing"}, cloth, top=top)
    assert made.outcome.failures == ()
    assert "sleeve" not in made.draft.pieces
    total = 0.0
    for piece in ("front", "back"):
        higher = made.point(f"top.{piece}.underarm") - made.point(f"{piece}.underarm")
        assert np.allclose(np.hypot(*higher.T), 15.0)
        armhole, shoulder = made.curve(f"{piece}.armhole"), made.curve(f"{piece}.shoulder")
        total = total + degrees_between(first_direction(armhole), -last_direction(shoulder))
        corner = degrees_between(
            -last_direction(armhole), first_direction(made.curve(f"{piece}.side"))
        )
        assert np.abs(corner - 90.0).max() < 1e-6
    assert np.abs(total - 180.0).max() < 2.0  # common practice, no source
    sides = [length_of(made.curve(f"{p}_armhole_facing.side")) for p in ("front", "back")]
    assert np.abs(sides[0] - sides[1]).max() < 1.0  # trade rule


def test_a_flutter_sleeve_fits_the_armhole_and_its_hem_is_wide() -> None:
    made = solved("flutter_sleeve", EVERYBODY, {"hem_spread": 240.0}, JERSEY, top="knit_tee")
    assert made.outcome.failures == ()
    armhole = length_of(made.curve("front.armhole")) + length_of(made.curve("back.armhole"))
    assert np.allclose(length_of(made.curve("sleeve.cap")), armhole, atol=1e-6)
    # ours: at least half of what it is opened by comes out at the hem, which is curved
    wider = length_of(made.curve("sleeve.bottom")) - made.number("biceps")
    assert (wider > 120.0).all()
    for seam in ("front_seam", "back_seam"):
        assert np.allclose(length_of(made.curve(f"sleeve.{seam}")), 25.0)


def test_a_facing_opens_where_the_back_of_the_garment_does() -> None:
    # common practice, no source: a zip at the centre back runs through the facing
    made = {}
    for block in ("darted_blouse", "knit_tee"):
        cloth = LINEN_CLOTH if block == "darted_blouse" else JERSEY_CLOTH
        (draft,) = drafts(
            "v_neck", en_women()[3:4], cloth, {"finish": "facing"}, {"garment": block}
        )
        made[block] = {name: piece["cut"] for name, piece in draft["pieces"].items()}
    for name in ("back", "back_facing", "back_facing_interfacing"):
        assert made["darted_blouse"][name]["fold"] is None
        assert made["darted_blouse"][name]["count"] == 2
        assert made["knit_tee"][name]["fold"] == "centre"
    assert made["darted_blouse"]["front_facing"]["fold"] == "centre"
