"""Names in and after alterations: what they mean, which are gone, and how that is told.

What is expected follows from the text of each recipe; nothing here is a fact of the trade.
"""

from __future__ import annotations

import numpy as np
import pytest
from small_recipes import (
    HEADING,
    MEASURES,
    TOP,
    WITH_TOP,
    compiled,
    draft,
    faults,
    inputs,
    told,
    value,
)

SKIRT = f"""{HEADING}piece front
  point waist_centre = origin
  point waist_side   = origin outward 20cm
  point hem_side     = origin down 60cm outward 24cm
  point hem_centre   = origin down 60cm
  point hip_point    = origin down 14cm outward 10cm
  edge centre = line waist_centre to hem_centre
  edge waist  = line waist_centre to waist_side
  edge side   = line waist_side to hem_side
  edge hem    = line hem_centre to hem_side
  dart waist_dart = on waist at along waist from waist_centre by 10cm by 3cm to hip_point
  level waist_line = across at waist_centre down 3cm
end
"""
FIRST = 17  # the line of the altered piece's first own line


def altered(*lines: str) -> str:
    own = "".join(f"  {line}\n" for line in lines)
    return f"{SKIRT}piece flared from front\n{own}end\n"


def length_of(text: str, curve: str) -> float:
    return float(value(f"{text}let asked = length({curve})\n", "asked"))


HALF = "swing 1/2 of waist_dart to side at along side from waist_side by 12cm called {}"
YOKE = (
    "curve yoke_line = line base.waist_centre down 9cm"
    " to along base.side from base.waist_side by 9cm"
)
DIVIDE = "divide along yoke_line from centre to side called yoke_seam, keeping waist"


@pytest.mark.parametrize("name", ["waist_dart", "hem", "hip_point", "flare"])
def test_what_an_alteration_makes_has_a_name_of_its_own(name: str):
    text = altered(HALF.format(name), "point flare = base.hip_point down 1cm")
    assert told(faults(compiled(text).problems)) == [("given-twice", FIRST)]


def test_a_dart_that_is_swung_whole_may_keep_its_name():
    text = altered(HALF.format("waist_dart").replace("1/2 of ", ""))
    assert faults(compiled(text).problems) == []


def test_an_edge_that_only_the_piece_itself_draws_is_no_edge_of_the_base():
    text = altered(
        "swing waist_dart to own_edge at hem_side",
        "edge own_edge = line base.waist_side to base.hem_side",
    )
    (problem,) = faults(compiled(text).problems)
    assert problem.sentence == (
        "`own_edge` is no edge of the piece that is altered, but drawn only here."
    )


def test_a_point_drawn_on_the_altered_edge_and_used_to_alter_it_says_what_base_is():
    text = altered(
        "swing waist_dart to side at place", "point place = along side from base.waist_side by 9cm"
    )
    (problem,) = faults(compiled(text).problems)
    assert problem.code == "cycle"
    assert "before it, it is `base.side`" in problem.notes[-1].words


def test_pieces_joined_to_each_other_are_a_circle_that_names_both():
    text = (
        f"{SKIRT}piece left from front\n  join right.side to side\nend\n"
        "piece right from front\n  join left.side to side\nend\n"
    )
    (problem,) = compiled(text).problems
    assert "left needs right needs left" in problem.sentence


@pytest.mark.parametrize(
    "line",
    ["allow 1cm on hem", "notch hem at yoke_middle", "fold hem", "mark hem_side",
     "point low = hem_side down 1cm", "let wide = width(flared, waist_line)"],
)  # fmt: skip
def test_what_lies_beyond_the_line_is_gone_and_told_where_it_is_named(line: str):
    middle = "point yoke_middle = base.waist_centre down 9cm"
    problems = faults(compiled(altered(YOKE, DIVIDE, middle, line)).problems)
    assert {problem.code for problem in problems} == {"altered-away"}
    told_at = {problem.place and problem.place.line for problem in problems}
    assert told_at <= {FIRST - 1, FIRST + 3}  # a mark is told of at its piece


def test_a_dart_that_was_turned_into_gathers_is_no_dart_any_more():
    text = altered("convert waist_dart into gathers over 12cm", "let wide = waist_dart.width")
    (problem,) = faults(compiled(text).problems)
    assert "`base.waist_dart` is what it was before" in problem.sentence


def test_a_step_finds_only_what_those_before_it_have_left():
    text = altered(YOKE, f"{DIVIDE}, then spread hem by 2cm in 2 places, hinged on waist")
    assert told(faults(compiled(text).problems)) == [("altered-away", FIRST + 1)]


def test_the_piece_that_is_divided_says_keeping_and_not_holding():
    text = altered(YOKE, DIVIDE.replace("keeping waist", "keeping side"))
    (problem,) = faults(compiled(text).problems)
    assert "`keeping` one of" in problem.sentence


def test_a_dart_is_put_on_an_edge_as_the_alteration_left_it():
    swung = "swing waist_dart to side at along side from waist_side by 12cm"
    extra = "dart knee_dart = on side at along side from hem_side by 9cm by 1cm to knee"
    knee = "point knee = base.hem_side up 9cm inward 8cm"
    before = length_of(altered(swung), "flared.side as cut")
    after = length_of(altered(swung, knee, extra), "flared.side as cut")
    # in and out of one mouth, then of two
    assert length_of(SKIRT, "front.side") < before < after


def test_a_pleat_lies_as_the_dart_did_though_its_edge_is_walked_from_the_other_end():
    # the ring of edges walks one of the two from its last end
    sideways = SKIRT.replace(
        "on waist at along waist from waist_centre by 10cm",
        "on hem at along hem from hem_centre by 10cm",
    ).replace("to hip_point\n", "to hip_point stopping 30cm\n")
    for skirt, edge in ((SKIRT, "waist"), (sideways, "hem")):
        text = f"{skirt}piece flared from front\n  convert waist_dart into pleat\nend\n"
        for asked in (edge, f"{edge} as cut"):
            was, is_now = (length_of(text, f"{piece}.{asked}") for piece in ("front", "flared"))
            assert is_now == pytest.approx(was, abs=1e-9)


def test_what_unfolding_adds_is_known_by_other():
    text = (
        f"{altered('unfold on centre')}let a = distance(flared.hem_side, flared.other_hem_side)\n"
    )
    assert value(text, "a") == pytest.approx(480.0)


def test_what_is_joined_is_known_by_its_own_name_or_behind_that_of_its_piece():
    back = (
        SKIRT.removeprefix(HEADING)
        .replace("piece front", "piece back")
        .replace("down 14", "down 12")
    )
    back = back.replace("hip_point", "seat_point").replace("waist_dart", "seat_dart")
    text = f"{SKIRT}{back}piece whole from front\n  join back.side to side\nend\n"
    text += "let a = distance(whole.hem_centre, whole.back_hem_centre)\n"
    text += "let b = distance(whole.back_hem_centre, whole.seat_point)\n"
    text += "let c = distance(back.hem_centre, back.seat_point)\n"
    assert value(text, "b") == pytest.approx(value(text, "c"))
    assert value(text, "a") > 400.0


def test_a_seam_of_a_block_goes_with_its_edge():
    divided = (
        f"{WITH_TOP}piece front from top.front\n"
        "  curve slant = line base.centre_neck down 20cm"
        " to along base.side from base.underarm by 2cm\n"
        "  divide along slant from centre to side called cut_edge, keeping bottom\nend\n"
    )
    made = draft(divided)
    assert {seam.name for seam in made.seams} == {"side", "pocket"}


def test_a_parameter_of_a_definition_hides_a_piece_of_its_name():
    text = (
        f"{WITH_TOP}define piece longer(front: bodice.front) from front\n"
        '  "Longer."\n  spread bottom by 4cm in 2 places, hinged on shoulder\nend\n'
        "piece front from longer(top.front)\nend\n"
    )
    made = draft(text)
    given = inputs(made, MEASURES)
    assert np.isfinite(given.measures["bust_girth"]).all()
    assert "front" in made.pieces


@pytest.mark.parametrize(
    ("darts", "words"),
    [("dart waist_dart = at underarm by 1cm from underarm up 2cm to centre_waist",
      "In every bodice the dart `waist_dart` has one point; this has two."),
     ("dart hem_dart = on bottom at along bottom from hem_side by 6cm by 2cm to underarm",
      "it has no dart front.waist_dart")],
)  # fmt: skip
def test_only_a_dart_on_an_edge_serves_as_a_dart_with_one_point(darts: str, words: str):
    top = TOP.replace("recipe plain_top", "recipe darted_top").replace(
        "  level bust", f"  {darts}\n  level bust"
    )
    text = f"{HEADING}  takes top: bodice with waist_dart = darted_top\n"
    (problem,) = faults(compiled(text, beside={"darted_top.godet": top}).problems)
    assert words in problem.sentence
    on_edge = top.replace("dart hem_dart = on", "dart waist_dart = on")
    serves = compiled(text, beside={"darted_top.godet": on_edge}).draft is not None
    assert serves == (on_edge != top)


def test_edges_that_a_kind_has_turned_are_followed_round_when_part_of_them_is_left():
    cut_down = (
        "piece lower from top.front\n"
        "  point centre_neck = base.centre_neck down 3cm\n"
        "  point side_neck = along base.shoulder from base.side_neck by 3cm\n"
        "  edge centre = base.centre from centre_neck\n"
        "  edge shoulder = base.shoulder from side_neck\n"
        "  edge neck = curve centre_neck to side_neck leaving outward\n"
        "end\n"
        "piece whole_front from lower\n  unfold on centre\nend\n"
    )
    made = draft(f"{WITH_TOP}{cut_down}")
    assert {"other_side", "neck", "bottom"} <= set(made.pieces["whole_front"].edges)
