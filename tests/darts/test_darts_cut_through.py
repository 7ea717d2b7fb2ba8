"""Darts with two points that a line cuts through: a bodice cut off at the waist, and a skirt to it.

The crossings of the line with the sides of the dart are worked out by shapely; what else is
expected follows from the text of the recipes, and from the triangles that a dart is made of.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from darted_pieces import FIRST, LAST, TIP, Drawn, Floats, failing, length, outcome_of, tried
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from marked_examples import Example, run
from shapely.geometry import LineString
from small_recipes import SMALL_LIBRARY, TOP, WITH_TOP, compiled, draft, faults, told

TRIED = settings(
    max_examples=8, deadline=None, phases=[Phase.explicit, Phase.generate], derandomize=True
)

BLOUSE = """\
edition 1
recipe tried
measure bust_girth
choose waist_width = 3cm  from 5 mm to 10cm  "how wide the waist dart is"
choose bust_width  = 3cm  from 5 mm to 10cm  "how wide the bust dart is"
choose rise        = 1cm  from -4cm to 4cm   "the waist higher at the side than at the centre"
choose lowered     = 0cm  from -9cm to 20cm  "the middle of the dart below the waist"

let quarter = bust_girth / 4

piece block
  point centre_neck    = origin down 9cm
  point side_neck      = origin outward 30 % * quarter
  point shoulder_point = side_neck at 22deg by 48 % * quarter
  point underarm       = origin down 22cm outward quarter
  point centre_waist   = origin down 42cm
  point side_waist     = origin down (42cm - rise) outward 95 % * quarter
  point hem_centre     = origin down 60cm
  point hem_side       = origin down 60cm outward 105 % * quarter
  point bust_point     = origin down 26cm outward 42 % * quarter
  curve waist_line     = line centre_waist to side_waist
  point dart_place     = along waist_line from centre_waist by 42 % * quarter
  point dart_middle    = dart_place down lowered
  edge centre   = line centre_neck to hem_centre
  edge neck     = curve centre_neck to side_neck leaving outward arriving at -80deg
  edge shoulder = line side_neck to shoulder_point
  edge armhole  = curve shoulder_point to underarm leaving down arriving outward tension 11/10
  edge side     = line underarm to side_waist, then curve to hem_side arriving down
  edge bottom   = line hem_centre to hem_side
  dart bust_dart  = on side at along side from underarm by 6cm by bust_width to bust_point
  dart waist_dart = at dart_middle by waist_width from dart_middle up 14cm to dart_middle down 11cm
  level bust = across at underarm
  notch bottom at along bottom from hem_centre by 5cm
  allow 1cm on neck, shoulder, armhole, side
  allow 4cm on bottom
  fold centre
  cut 1 of main
end
"""
CUT = """\
piece bodice from block
  curve waist_line = line base.centre_waist to base.side_waist
  divide along waist_line from centre to side called bottom, keeping shoulder
  level bust = across at underarm
end

piece peplum from block
  curve waist_line = line base.centre_waist to base.side_waist
  divide along waist_line from centre to side called waist, keeping bottom
end
"""
BLOUSES = st.fixed_dictionaries(
    {
        "bust_girth": st.floats(760.0, 1300.0),
        "waist_width": st.floats(8.0, 45.0),
        "bust_width": st.floats(10.0, 45.0),
        "rise": st.floats(-15.0, 15.0),
    }
)


def _crossings(drawn: Drawn) -> Floats:
    """Where the waist line crosses the sides of the whole dart, from the centre, by shapely."""
    waist = LineString([drawn.point("block", n) for n in ("centre_waist", "side_waist")])
    one, upper, other, lower = drawn.dart("block", "waist_dart")
    both = [LineString([upper, side, lower]).intersection(waist) for side in (one, other)]
    return np.array(sorted((point.x, point.y) for point in both))


@given(BLOUSES)
@TRIED
def test_cut_through_its_middle_a_dart_is_an_ordinary_one_on_either_side(how):
    drawn = tried(BLOUSE, CUT, how)
    whole, crossed = drawn.dart("block", "waist_dart"), _crossings(drawn)
    for piece, edge, tip in (("bodice", "bottom", 1), ("peplum", "waist", 3)):
        line = drawn.draft.pieces[piece].darts["waist_dart"]
        assert (line.manner, line.edge) == ("dart", edge)
        dart = drawn.dart(piece, "waist_dart")
        np.testing.assert_array_equal(dart[TIP], whole[tip])
        # the leg that was the longer one ends on the line, the other one is lengthened to it
        ends = np.array(sorted(dart[[FIRST, LAST]].tolist()))
        legs = np.hypot(*(crossed - whole[tip]).T)
        longer = int(np.argmax(legs))
        np.testing.assert_allclose(ends[longer], crossed[longer], atol=1e-7)
        apart = np.hypot(*(ends[1 - longer] - crossed[1 - longer]))
        assert apart == pytest.approx(abs(legs[0] - legs[1]), abs=1e-7)
        assert drawn.strays(piece, "waist_dart") == pytest.approx(apart, abs=1e-3)
        assert np.hypot(*(dart[LAST] - dart[FIRST])) == pytest.approx(how["waist_width"], rel=0.01)


@given(BLOUSES)
@TRIED
def test_both_parts_are_equally_long_where_they_are_sewn_together_again(how):
    drawn = tried(BLOUSE, CUT, how)
    bodice = drawn.told_length("bodice", "bottom")
    assert bodice == pytest.approx(drawn.told_length("peplum", "waist"), abs=1.0)
    waist = length(drawn.edge("peplum", "waist"))
    assert waist - bodice > 0.9 * how["waist_width"]
    # and the dart of each lies as far from the centre, so that both meet
    places = []
    for piece in ("bodice", "peplum"):
        dart = drawn.dart(piece, "waist_dart")
        from_centre = min(dart[[FIRST, LAST]].tolist()) - drawn.point("block", "centre_waist")
        places.append(np.hypot(*from_centre))
    assert places[0] == pytest.approx(places[1], abs=1.0)


@given(BLOUSES)
@TRIED
def test_the_new_corners_are_the_points_that_the_line_is_drawn_between(how):
    """Though a leg of the bust dart was lengthened, and the side led to it."""
    drawn = tried(BLOUSE, CUT, how)
    for piece, edge in (("bodice", "bottom"), ("peplum", "waist")):
        ends = drawn.edge(piece, edge)[[0, -1], [0, 3]]
        for point, end in zip(("centre_waist", "side_waist"), ends, strict=True):
            np.testing.assert_array_equal(end, drawn.point("block", point))
            np.testing.assert_array_equal(end, drawn.point(piece, point))
    assert "hem_side" not in drawn.draft.pieces["bodice"].points


@given(BLOUSES)
@TRIED
def test_an_edge_is_led_to_a_lengthened_leg_no_farther_than_to_its_next_joint(how):
    drawn = tried(BLOUSE, "", how)
    below = drawn.edge("block", "side")[-1]
    np.testing.assert_array_equal(below[0], drawn.point("block", "side_waist"))
    np.testing.assert_array_equal(below[3], drawn.point("block", "hem_side"))


@given(BLOUSES, st.floats(5.0, 90.0))
@TRIED
def test_above_its_middle_what_is_left_of_a_dart_is_narrower_by_so_much_of_its_depth(how, lowered):
    made = tried(BLOUSE, CUT.partition("\n\n")[0], how | {"rise": 0.0, "lowered": lowered})
    dart = made.dart("bodice", "waist_dart")
    wide = how["waist_width"] * (140.0 - lowered) / 140.0
    assert np.hypot(*(dart[LAST] - dart[FIRST])) == pytest.approx(wide, abs=1e-7)


SOUND = {"bust_girth": 920.0, "rise": 0.0}


@pytest.mark.parametrize(
    ("lowered", "code"),
    [(200.0, "dart-not-cut"), (-60.0, "dart-cut-beyond"), (139.0, None), (-2.0, None)],
)
def test_a_line_beside_a_dart_or_beyond_its_middle_is_told(lowered: float, code: str | None):
    text = CUT.partition("\n\n")[0]
    _, found = failing(BLOUSE, text, SOUND | {"lowered": lowered})
    assert found == ({code} if code else set())


def test_what_is_said_of_the_edge_that_is_gone_is_not_said_of_the_new_one():
    (again,) = (CUT.partition("\n\n")[0].replace("piece bodice", "piece again"),)
    hemmed = again.replace("level bust", "allow 2cm on bottom\n  level bust")
    made = draft(BLOUSE + CUT + hemmed)
    bodice, again_lines = made.pieces["bodice"], made.pieces["again"]
    assert set(bodice.allowances) == {"neck", "shoulder", "armhole", "side"}
    assert "bottom" in again_lines.allowances
    assert not bodice.notches
    assert set(bodice.edges) == {"centre", "neck", "shoulder", "armhole", "side", "bottom"}
    assert made.pieces["peplum"].allowances.keys() == {"side", "bottom"}


@pytest.mark.parametrize(
    ("name", "own"), [("armhole", ""), ("side", ""), ("bottom", "edge bottom = base.bottom"),
     ("bust_point", ""), ("waist_dart", "")],
)  # fmt: skip
def test_the_new_edge_has_no_name_of_what_stays(name: str, own: str):
    text = CUT.partition("\n\n")[0].replace("called bottom", f"called {name}")
    text = text.replace("  level bust", f"  {own}\n  level bust") if own else text
    assert [code for code, _ in told(faults(compiled(BLOUSE + text).problems))] == ["given-twice"]


def test_a_dart_that_was_cut_has_the_members_of_an_ordinary_one():
    sound = "let deep = bodice.waist_dart.leg\nadvise deep > 0cm\n"
    assert faults(compiled(BLOUSE + CUT + sound).problems) == []
    gone = sound.replace("leg", "upper_tip").replace("let deep = ", "let deep = 0cm * distance(")
    gone = gone.replace("upper_tip", "upper_tip, block.origin)")
    codes = {code for code, _ in told(faults(compiled(BLOUSE + CUT + gone).problems))}
    assert "no-such-member" in codes


BLOCK = f"""{TOP}
require girth(bust) >= bust_girth
  "too narrow"
require girth(waist) >= waist_girth
  "too narrow at the waist"
"""
DARTED = BLOCK.replace(
    "  level bust ",
    "  point dart_middle = midway centre_waist and side_waist\n"
    "  dart waist_dart = at dart_middle by 2cm from dart_middle up 12cm to dart_middle down 3cm\n"
    "  level bust ",
)
KINDS = (
    (SMALL_LIBRARY / "kinds.godet")
    .read_text(encoding="utf-8")
    .replace(
        "dart bust_dart, waist_dart  optional",
        "dart bust_dart optional\n    double dart waist_dart optional",
        1,
    )
)
SHORTENED = f"""{WITH_TOP}piece front, back from top.front, top.back
  curve waist_line = line base.centre_waist to base.side_waist
  divide along waist_line from centre to side called bottom, keeping shoulder
  level bust  = across at underarm up 3cm
  level waist = across at side_waist
end

let mouth = if front has waist_dart then front.waist_dart.width else 0cm
"""


@pytest.mark.parametrize("top", [BLOCK, DARTED], ids=["without darts", "with darts"])
def test_one_recipe_cuts_off_a_top_with_darts_and_one_without(top: str):
    made = draft(SHORTENED, beside={"plain_top.godet": top, "kinds.godet": KINDS})
    front = made.pieces["front"]
    darted = "dart waist_dart" in top
    assert {n: d.manner for n, d in front.darts.items()} == (
        {"waist_dart": "dart"} if darted else {}
    )
    outcome = outcome_of(made, {"bust_girth": 920.0, "waist_girth": 740.0, "shoulder_slope": 0.38})
    assert not outcome.failures
    # a quarter is told of as sewn, with its dart closed
    drawn = Drawn(made, outcome)
    waist = np.hypot(*(drawn.point("front", "side_waist") - drawn.point("front", "centre_waist")))
    assert drawn.number("mouth") == pytest.approx(20.0 if darted else 0.0, abs=1e-6)
    told_waist = drawn.told_length("front", "bottom")
    assert told_waist == pytest.approx(waist - (20.0 if darted else 0.0), abs=1e-6)


def test_the_requirements_of_a_block_hold_for_the_levels_that_are_said_anew():
    made = draft(SHORTENED, beside={"plain_top.godet": BLOCK})
    outcome = outcome_of(made, {"bust_girth": 920.0, "waist_girth": 740.0, "shoulder_slope": 0.38})
    drawn = Drawn(made, outcome)
    words = {check.words: check for check in made.checks}
    for words_of, level in (("too narrow", "bust"), ("too narrow at the waist", "waist")):
        measured = words[words_of].measured
        assert measured is not None
        nodes = made.graph.reached_from([measured])
        widths = [made.pieces[piece].widths[level] for piece in ("front", "back")]
        assert set(widths) <= set(nodes)
    quarter = drawn.width("front", "bust")
    # 3 cm above the underarm the armhole has come in
    assert quarter < (920.0 + 40.0) / 4 - 1.0


SKIRT = """\
piece skirt
  point centre_waist = origin
  point side_waist   = origin outward (length(bodice.bottom) + 2cm)
  point hip_side     = side_waist down 20cm outward 2cm
  point hem_centre   = origin down 60cm
  point hem_side     = hip_side down 40cm
  curve flat         = line centre_waist to side_waist
  point dart_place   = along flat from centre_waist by DART
  edge centre = line centre_waist to hem_centre
  edge waist  = line centre_waist to side_waist
  edge side   = curve side_waist to hip_side leaving down arriving down, then line to hem_side
  edge hem    = line hem_centre to hem_side
  dart waist_dart = on waist at dart_place by 2cm to (dart_place down 10cm)
  allow 1cm on centre, waist, side, hem
  cut 1 of main
end
""".replace("DART", "(distance(bodice.centre_waist, bodice.waist_dart.first_leg) + 1cm)")
JOINED = "piece dress from bodice\n  join skirt.waist to bottom\nend\n"


@pytest.mark.parametrize("body", ["adult_a", "adult_small", "adult_hips", "adult_tall_bust"])
def test_a_bodice_cut_off_at_the_waist_is_sewn_to_a_darted_skirt(body: str, tmp_path: Path):
    """Nothing is told: the seam is equally long on both sides, and no outline crosses itself."""
    named = "level bust = across at underarm\n  point dart_seam = waist_dart.first_leg\nend"
    cut = CUT.replace("level bust = across at underarm\nend", named, 1)
    sewn = "seam waist: bodice.bottom to skirt.waist\nmatch waist at bodice.dart_seam\n"
    found = run(
        Example.of(f"godet draft={body} choose=rise:0cm", BLOUSE + cut + SKIRT + sewn), {}, tmp_path
    )
    assert [problem.sentence for problem in found.problems] == []
    (pattern,) = found.patterns
    skirt = next(piece for piece in pattern.pieces if piece.name == "skirt")
    matched = next(notch for notch in skirt.notches if notch.name == "dart_seam")
    dart = skirt.darts["waist_dart"]
    assert min(np.hypot(*np.subtract(matched.at, end)) for end in (dart.first, dart.last)) < 1.0


@given(BLOUSES)
@TRIED
def test_the_darts_of_bodice_and_skirt_meet_at_the_waist(how):
    drawn = tried(BLOUSE, CUT + SKIRT, how)
    assert drawn.sewn("bodice", "bottom") == pytest.approx(drawn.sewn("skirt", "waist"), abs=1.0)
    places = []
    for piece in ("bodice", "skirt"):
        dart, centre = drawn.dart(piece, "waist_dart"), drawn.point(piece, "centre_waist")
        places.append(min(np.hypot(*(dart[row] - centre)) for row in (FIRST, LAST)))
    assert places[0] == pytest.approx(places[1], abs=1.0)


@given(BLOUSES)
@TRIED
def test_the_skirt_joined_to_the_bodice_its_dart_has_two_points_again(how):
    how = how | {"waist_width": 20.0, "rise": 0.0}
    drawn = tried(BLOUSE, CUT + SKIRT + JOINED, how)
    dress = drawn.draft.pieces["dress"]
    assert dress.darts["waist_dart"].manner == "double"
    one, upper, other, lower = drawn.dart("dress", "waist_dart")
    np.testing.assert_allclose(upper, drawn.dart("bodice", "waist_dart")[TIP], atol=1e-7)
    assert np.hypot(*(other - one)) == pytest.approx(20.0, abs=0.01)
    assert lower[1] - (one[1] + other[1]) / 2 == pytest.approx(100.0, abs=0.5)
