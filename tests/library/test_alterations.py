"""Fitting alterations: what each of them changes, and what it must leave alone.

Where nothing else is said, what an alteration keeps is common practice, no source.
"""

from __future__ import annotations

import numpy as np
import pytest
from drafts import JERSEY as JERSEY_CLOTH
from drafts import LINEN as LINEN_CLOTH
from drafts import body, drafts
from library_bodies import ADULTS, EVERYBODY, SHIPPED
from library_drafts import JERSEY, LINEN, Solved, last_direction, length_of, solved
from women import en_women

from godet.orders.records import Fabric

WOMEN = {name: body for name, body in ADULTS.items() if body["bust_girth"] <= 1220.0}


def cap_over_armhole(made: Solved) -> np.ndarray:
    armhole = length_of(made.curve("front.armhole")) + length_of(made.curve("back.armhole"))
    return length_of(made.curve("sleeve.cap")) - armhole


# --- full bust ------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def full() -> Solved:
    return solved("full_bust", WOMEN, {"amount": 20.0}, LINEN, top="darted_blouse")


def test_a_full_bust_leaves_neck_shoulder_and_back_as_they_were(full: Solved) -> None:
    assert full.outcome.failures == ()
    for name in ("front.neck", "front.shoulder", "back.armhole", "back.side", "back.bottom"):
        assert np.array_equal(full.curve(name), full.curve(f"top.{name}"))


def test_a_full_bust_keeps_the_length_of_the_armhole_and_the_sleeve_fits_it(full: Solved) -> None:
    before, now = (length_of(full.curve(f"{of}front.armhole")) for of in ("top.", ""))
    # the cut's end is rounded over 2 cm to either side
    assert np.abs(now - before).max() < 1.0
    ease = cap_over_armhole(solved("darted_blouse", WOMEN, {}, LINEN))
    assert np.allclose(cap_over_armhole(full), ease, atol=1e-6)


def test_a_full_bust_is_wider_by_the_amount_and_longer_at_the_centre(full: Solved) -> None:
    # the lower front is moved aside, not turned
    aside = full.point("front.side_waist") - full.point("top.front.side_waist")
    assert np.allclose(aside[:, 0], 20.0, atol=0.1)
    assert (aside[:, 1] > 5.0).all()
    lower = full.point("front.centre_waist") - full.point("top.front.centre_waist")
    assert np.allclose(lower[:, 0], 0.0, atol=1e-9)
    assert np.allclose(lower[:, 1], aside[:, 1], atol=1e-6)


def test_with_a_full_bust_the_hem_stays_level(full: Solved) -> None:
    bottom = full.curve("front.bottom")
    assert np.abs(bottom[:, 0, 0, 1] - bottom[:, -1, 3, 1]).max() < 1e-6


def test_with_a_full_bust_the_sides_are_equal_as_sewn_and_the_dart_is_larger() -> None:
    bodies = en_women()
    before = drafts("darted_blouse", bodies, LINEN_CLOTH)
    after = drafts("full_bust", bodies, LINEN_CLOTH, {"amount": 20.0})
    for old, new in zip(before, after, strict=True):
        sides = [new["pieces"][p]["edges"]["side"]["length_sewn"] for p in ("front", "back")]
        # trade rule: within 1 mm
        assert abs(sides[0] - sides[1]) < 1.0
        darts = [draft["pieces"]["front"]["darts"]["bust_dart"]["angle"] for draft in (old, new)]
        assert darts[1] > darts[0] + np.radians(5)


@pytest.fixture(scope="module")
def small() -> Solved:
    return solved("small_bust", WOMEN, {"amount": 5.0}, LINEN, top="darted_blouse")


def test_a_small_bust_is_narrower_by_the_amount_and_shorter_at_the_centre(small: Solved) -> None:
    aside = small.point("front.side_waist") - small.point("top.front.side_waist")
    assert np.allclose(aside[:, 0], -5.0, atol=0.1)
    assert (aside[:, 1] < 0.0).all()
    higher = small.point("front.centre_waist") - small.point("top.front.centre_waist")
    assert np.allclose(higher, aside * (0.0, 1.0), atol=1e-6)
    bottom = small.curve("front.bottom")
    assert np.abs(bottom[:, 0, 0, 1] - bottom[:, -1, 3, 1]).max() < 1e-6


def test_a_small_bust_leaves_what_other_pieces_are_sewn_to(small: Solved) -> None:
    for name in ("front.neck", "front.shoulder", "back.armhole", "back.side"):
        assert np.array_equal(small.curve(name), small.curve(f"top.{name}"))
    before, now = (length_of(small.curve(f"{of}front.armhole")) for of in ("top.", ""))
    # the end of the cut is rounded over 2 cm to either side
    assert np.abs(now - before).max() < 1.0
    ease = cap_over_armhole(solved("darted_blouse", WOMEN, {}, LINEN))
    assert np.allclose(cap_over_armhole(small), ease, atol=1e-6)


def test_with_a_small_bust_the_sides_are_equal_as_sewn_and_the_dart_is_smaller() -> None:
    bodies = en_women()
    before = drafts("darted_blouse", bodies, LINEN_CLOTH)
    after = drafts("small_bust", bodies, LINEN_CLOTH, {"amount": 5.0})
    for old, new in zip(before, after, strict=True):
        sides = [new["pieces"][p]["edges"]["side"]["length_sewn"] for p in ("front", "back")]
        # trade rule: within 1 mm
        assert abs(sides[0] - sides[1]) < 1.0
        darts = [draft["pieces"]["front"]["darts"]["bust_dart"]["angle"] for draft in (old, new)]
        assert darts[1] < darts[0]


@pytest.mark.parametrize("altered", ["full_bust", "small_bust"])
def test_the_waist_dart_lies_on_the_waist_again(altered: str) -> None:
    made = solved(altered, WOMEN, {"amount": 5.0}, LINEN, top="darted_blouse")
    waist = made.point("front.centre_waist")[:, 1]
    dart = made.curve("front.waist_dart")  # both sides and both tips
    assert np.allclose((dart[:, 0, 1] + dart[:, 2, 1]) / 2, waist, atol=1e-6)


@pytest.mark.parametrize("altered", ["full_bust", "small_bust"])
def test_the_altered_front_its_back_and_their_sleeve_keep_their_notches(altered: str) -> None:
    for draft in drafts(altered, en_women(), LINEN_CLOTH, {"amount": 5.0}):
        marked = {
            (piece, notch["name"])
            for piece, edge in (("front", "armhole"), ("back", "armhole"), ("sleeve", "cap"))
            for notch in draft["pieces"][piece]["notches"]
            if notch["edge"] == edge
        }
        assert {("front", "front_notch"), ("back", "back_notch")} < marked
        on_cap = {name for piece, name in marked if piece == "sleeve"}
        assert on_cap == {"front_notch", "shoulder_point", "back_notch"}


def test_more_taken_out_than_the_bust_dart_takes_up_is_refused_in_words_alone() -> None:
    small = {"adult_small": SHIPPED["adult_small"]}
    made = solved("small_bust", small, {"amount": 10.0}, LINEN, top="darted_blouse")
    assert made.outcome.failures == ()
    assert any("bust dart is too narrow" in words for words in made.failing("require"))


# --- shoulders ------------------------------------------------------------------------------------


@pytest.mark.parametrize("amount", [-15.0, 15.0])
@pytest.mark.parametrize("top", ["knit_tee", "darted_blouse"])
def test_the_sleeve_follows_a_broad_or_narrow_shoulder(amount: float, top: str) -> None:
    bodies, cloth = (EVERYBODY, JERSEY) if top == "knit_tee" else (WOMEN, LINEN)
    if amount > 0:  # broad shoulders on the narrowest of chests would reach beyond the side
        tried = solved("shoulder_width", bodies, {"amount": amount}, cloth, top=top)
        refused = {name for words, names in tried.failing("require").items()
                   if "beyond the side" in words for name in names}  # fmt: skip
        assert len(refused) <= 2
        bodies = {name: given for name, given in bodies.items() if name not in refused}
    made = solved("shoulder_width", bodies, {"amount": amount}, cloth, top=top)
    # the facings of armholes without sleeves, which are not drawn, are another matter
    armholes = ("front.armhole", "back.armhole", "sleeve.cap")
    everywhere = range(len(bodies))
    assert all(made.outcome.holds(made.nodes[name], n) for name in armholes for n in everywhere)
    for piece in ("front", "back"):
        longer = length_of(made.curve(f"{piece}.shoulder"))
        longer = longer - length_of(made.curve(f"top.{piece}.shoulder"))
        assert np.allclose(longer, amount, atol=1e-6)
        assert np.array_equal(made.point(f"{piece}.underarm"), made.point(f"top.{piece}.underarm"))
        assert np.array_equal(made.curve(f"{piece}.neck"), made.curve(f"top.{piece}.neck"))
        arriving = last_direction(made.curve(f"{piece}.armhole"))
        was = last_direction(made.curve(f"top.{piece}.armhole"))
        assert np.allclose(arriving, was, atol=1e-6)
    ease = cap_over_armhole(solved(top, bodies, {}, cloth))
    assert np.allclose(cap_over_armhole(made), ease, atol=1e-6)


# --- length ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("amount", [-25.0, 0.0, 40.0])
def test_a_longer_or_shorter_top_is_so_at_centre_and_side(amount: float) -> None:
    asked = {"above_waist": amount, "below_waist": -amount / 2}
    made = solved("lengthened", EVERYBODY, asked, JERSEY, top="knit_tee")
    assert made.outcome.failures == ()
    sides = []
    for piece in ("front", "back"):
        down = made.point(f"{piece}.centre_waist") - made.point(f"top.{piece}.centre_waist")
        assert np.allclose(down, [0.0, amount], atol=1e-9)
        centre, was = (length_of(made.curve(f"{of}{piece}.centre")) for of in ("", "top."))
        assert np.allclose(centre - was, amount / 2, atol=1e-6)
        sides.append(length_of(made.curve(f"{piece}.side")))
        assert np.array_equal(made.curve(f"{piece}.armhole"), made.curve(f"top.{piece}.armhole"))
    assert np.abs(sides[0] - sides[1]).max() < 1.0  # trade rule


def test_so_much_shorter_that_nothing_is_left_is_refused_in_words() -> None:
    child = {"child_116": SHIPPED["child_116"]}
    made = solved("lengthened", child, {"below_waist": -180.0}, JERSEY, top="knit_tee")
    assert any("below_waist" in words for words in made.failing("require"))


# --- a hollow back --------------------------------------------------------------------------------


def test_a_hollow_back_is_shorter_at_the_waist_and_its_hem_is_let_down_again() -> None:
    made = solved("sway_back", EVERYBODY, {"amount": 15.0}, JERSEY, top="knit_tee")
    assert made.outcome.failures == ()
    # as much as is lapped at the waist, the centre is longer below
    centre, was = (length_of(made.curve(f"{of}back.centre")) for of in ("", "top."))
    assert np.allclose(was, centre, atol=5.0)
    above = made.point("top.back.centre_waist") - made.point("back.centre_waist")
    assert np.allclose(above[:, 1], 15.0 / 2, atol=0.6)
    bottom = made.curve("back.bottom")
    assert np.abs(bottom[:, 0, 0, 1] - bottom[:, -1, 3, 1]).max() < 0.5  # level
    sides = [length_of(made.curve(f"{piece}.side")) for piece in ("front", "back")]
    assert np.abs(sides[0] - sides[1]).max() < 1.0  # trade rule
    for name in ("back.neck", "back.shoulder", "back.armhole"):
        assert np.array_equal(made.curve(name), made.curve(f"top.{name}"))


@pytest.mark.parametrize(("top", "cloth"), [("knit_tee", JERSEY_CLOTH),
                                            ("darted_blouse", LINEN_CLOTH)])  # fmt: skip
def test_a_bent_centre_back_is_a_seam_and_is_sewn_once(top: str, cloth: Fabric) -> None:
    # the blouse has a seam for its zip there already
    (draft,) = drafts("sway_back", en_women()[3:4], cloth, {}, {"top": top})
    assert draft["pieces"]["back"]["cut"] == {
        "count": 2, "cloth": "main", "fold": None, "mirrored": True
    }  # fmt: skip
    seams = [seam["name"] for seam in draft["seams"] if seam["name"].endswith("centre_back")]
    assert len(seams) == 1


# --- darts ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("recipe", ["shoulder_bust_dart", "french_dart"])
def test_a_dart_that_is_moved_keeps_its_angle_and_the_side_its_length(recipe: str) -> None:
    bodies = [body for body in en_women() if body.label in ("EN bust 84", "EN bust 96")]
    before, after = (drafts(name, bodies, LINEN_CLOTH) for name in ("darted_blouse", recipe))
    for old, new in zip(before, after, strict=True):
        fronts = [draft["pieces"]["front"] for draft in (old, new)]
        angles = [front["darts"]["bust_dart"]["angle"] for front in fronts]
        # the angle at the pivot is what a dart is (geometry)
        assert angles[0] == pytest.approx(angles[1], abs=1e-6)
        for edge in ("side", "shoulder", "armhole", "neck"):
            sewn = [front["edges"][edge]["length_sewn"] for front in fronts]
            assert sewn[0] == pytest.approx(sewn[1], abs=1.0)  # trade rule


def test_a_facing_that_is_not_drawn_stops_no_draft() -> None:
    # with the dart in the shoulder no armhole facing could be drawn; there is a sleeve
    given = SHIPPED["adult_tall_bust"]
    wearer = body("large", **{name: value / 10 for name, value in given.items()
                              if name != "shoulder_slope"})  # fmt: skip
    (draft,) = drafts("shoulder_bust_dart", [wearer], LINEN_CLOTH)
    assert "sleeve" in draft["pieces"]
    assert "front_armhole_facing" not in draft["pieces"]


# --- between two sizes ----------------------------------------------------------------------------


def test_the_waist_of_another_size_leaves_neck_shoulder_and_armhole_as_they_were() -> None:
    """A block is drafted from measures, so a blend of sizes is the body of both: the bust of one
    and the waist and hip of another."""
    smaller = {**SHIPPED["adult_small"], "shoulder_slope": np.radians(20)}
    larger = {**smaller, "waist_girth": smaller["waist_girth"] + 80.0,
              "hip_girth": smaller["hip_girth"] + 80.0}  # fmt: skip
    measured = {"upper_arm_girth": 280.0, "neck_base_girth": 360.0, "shoulder_length": 120.0,
                "scye_depth": 190.0, "back_waist_length": 400.0}  # fmt: skip
    bodies = {"one size": {**smaller, **measured}, "blended": {**larger, **measured}}
    for top, cloth in (("knit_tee", JERSEY), ("darted_blouse", LINEN)):
        made = solved(top, bodies, {}, cloth)
        for name in ("front.neck", "back.neck", "front.shoulder", "back.armhole"):
            one, blended = made.curve(name)
            assert np.array_equal(one, blended), (top, name)
        one, blended = made.point("front.side_waist")[:, 0]
        assert blended > one + 5.0
