"""Own words and whole recipes put together: curves, pieces, modules, blocks on blocks.

What is expected is worked out by hand beside each test, or is that two ways of writing the same
draft give the same.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from small_recipes import (
    DRESS,
    HEADING,
    MEASURES,
    TOP,
    WITH_TOP,
    compiled,
    draft,
    faults,
    inputs,
    node_value,
    told,
    values,
)

from godet.tools.compiling import compile_recipe

# --- define curve ------------------------------------------------------------------------------

SQUARE = """\
piece flap
  point a = origin
  point b = a outward 10cm
  point c = b down 10cm
  edge top   = line a to b
  edge right = {right}
  edge left  = line a to c
end
"""


def test_a_defined_curve_is_drawn_as_if_its_line_stood_there():
    right = "curve b to c leaving outward arriving down"
    plain = draft(HEADING + SQUARE.format(right=right))
    defined = draft(
        f"{HEADING}define curve swung(start: point, finish: point) = "
        f"{right.replace('b to c', 'start to finish')}\n" + SQUARE.format(right="swung(b, c)")
    )
    assert defined.digest == plain.digest


def test_a_defined_curve_can_be_a_part_of_an_edge_and_measured():
    made = draft(
        f"{HEADING}define curve straight(start: point, finish: point) = line start to finish\n"
        + SQUARE.format(right="straight(b, c)")
        + "let long = length(straight(front_a, front_b))\n"
        "let front_a = flap.a\nlet front_b = flap.c\n"
    )
    # the diagonal of a square of 10 cm
    assert values(made, "long", inputs(made, MEASURES)) == pytest.approx([2**0.5 * 100])


def test_a_blend_in_a_defined_curve_still_says_what_it_takes():
    right = "line b to d, then line to c, blended at d over 2cm"
    text = HEADING + SQUARE.replace("point c", "point d = b down 5cm outward 2cm\n  point c")
    define = f"define curve bent(b: point, d: point, c: point) = {right}\n"
    plain = draft(text.format(right=right))
    made = draft(text.replace("piece flap", define + "piece flap").format(right="bent(b, d, c)"))
    (plain_note,) = plain.pieces["flap"].edges["right"].blends
    (note,) = made.pieces["flap"].edges["right"].blends
    at = inputs(made, MEASURES)
    assert node_value(made, note.gives, at) == node_value(plain, plain_note.gives, at)


# --- define piece ------------------------------------------------------------------------------

CARRIED_ON = """\
define piece carried_on(upper: bodice.front, side_out: length, long: length = 60cm) from upper
  "carried on below the waist"
  point hip_side   = centre_waist down 20cm outward side_out
  point hem_side   = hip_side down (long - 20cm)
  point hem_centre = centre_waist down long
  edge side   = base.side until side_waist, then line to hip_side, then line to hem_side
  edge centre = base.centre until centre_waist, then line to hem_centre
  edge bottom = line hem_centre to hem_side
  level hip = across at hip_side
  notch side at hip_side
  allow 3cm on bottom
end
"""
STATEMENTS = CARRIED_ON.split("\n", 2)[2].replace("end\n", "")


def test_a_defined_piece_drafts_front_and_back_as_if_its_lines_stood_there():
    written_out = STATEMENTS.replace("long", "60cm").replace("side_out", "24cm")
    plain = draft(
        f"{WITH_TOP}  makes dress\npiece front, back from top.front, top.back\n{written_out}end\n"
    )
    made = draft(
        f"{WITH_TOP}  makes dress\n{CARRIED_ON}"
        "piece front, back from carried_on(top.front, 24cm), carried_on(top.back, 24cm)\nend\n"
    )
    assert made.digest == plain.digest
    assert set(made.pieces) == {"front", "back", "sleeve", "pocket"}
    # the seams of the top hold for the new pieces
    assert [seam.name for seam in made.seams] == [seam.name for seam in plain.seams]


def test_a_defined_piece_has_default_arguments_and_what_is_drafted_from_it_may_say_more():
    made = draft(
        f"{WITH_TOP}{CARRIED_ON}"
        "piece front from carried_on(top.front, side_out: 24cm, long: 70cm)\n"
        "  allow 5cm on bottom\n  point pocket = hip_side inward 4cm\nend\n"
        "let far = down_from(front.hem_centre, front.centre_waist)\n"
        "let deep = down_from(front.pocket, front.centre_waist)\n"
    )
    at = inputs(made, MEASURES)
    assert abs(values(made, "far", at)[0]) == pytest.approx(700)
    assert abs(values(made, "deep", at)[0]) == pytest.approx(200)
    allowance = made.pieces["front"].allowances["bottom"]
    assert allowance is not None
    assert node_value(made, allowance, at) == 50.0


def test_a_way_of_drafting_may_be_used_upon_itself_and_upon_other_pieces_of_the_recipe():
    made = draft(
        f"{WITH_TOP}"
        "define piece longer(upper: bodice.front, by_much: length) from upper\n"
        "  point hem_centre = base.centre_waist down by_much\n"
        "  point centre_waist = hem_centre\nend\n"
        "piece front from longer(longer(top.front, 10cm), 5cm)\nend\n"
        "piece facing from front\n  point lowest_point = centre_waist down 1cm\nend\n"
        "let far = down_from(facing.lowest_point, top.front.centre_waist)\n"
    )
    assert abs(values(made, "far", inputs(made, MEASURES))[0]) == pytest.approx(160)


def test_an_unknown_in_a_defined_piece_is_found_for_each_piece_it_drafts():
    lines = (
        "  point end_point = centre_waist down deep\n"
        "  find deep from 1cm to 90cm so that distance(end_point, centre_waist) = how_long\n"
    )
    made = draft(
        f"{WITH_TOP}define piece found(upper: bodice.front, how_long: length) from upper\n"
        f"{lines}end\n"
        "piece front, back from found(top.front, 30cm), found(top.back, 40cm)\nend\n"
        "let a = down_from(front.end_point, front.centre_waist)\n"
        "let b = down_from(back.end_point, back.centre_waist)\n"
    )
    at = inputs(made, MEASURES)
    assert [abs(values(made, n, at)[0]) for n in "ab"] == pytest.approx([300, 400], abs=1e-6)


def test_values_that_only_help_to_draw_are_not_passed_on():
    made = compiled(
        f"{WITH_TOP}define piece helped(upper: bodice.front) from upper\n"
        "  let helper = 3cm\n  point there = centre_waist down helper\nend\n"
        "piece front from helped(top.front)\n  point p = there down helper\nend\n"
    )
    assert told(faults(made.problems)) == [("unknown-name", 9)]


def test_a_piece_that_lacks_what_the_definition_needs_is_refused_by_name():
    text = (
        f"{WITH_TOP}without top.front\n{CARRIED_ON}piece flap\n  point a = origin\nend\n"
        "piece front from carried_on(flap, 24cm)\nend\n"
    )
    (problem,) = faults(compiled(text).problems)
    assert problem.code == "piece-lacks"
    assert "flap" in problem.sentence
    assert "centre_waist" in problem.sentence


def test_a_mistake_in_a_definition_is_told_though_nothing_uses_it():
    text = f"{WITH_TOP}{CARRIED_ON.replace('hip_side down', 'hip_sid down')}"
    (problem,) = faults(compiled(text).problems)
    assert (problem.code, problem.place and problem.place.line) == ("unknown-name", 7)
    assert problem.fix is not None
    assert problem.fix.replacement == "hip_side"


def test_an_optional_member_is_asked_for_by_way_of_the_block_behind():
    made = draft(
        f"{WITH_TOP}piece front from top.front\n  let depth = if base has bust_point then "
        "distance(base.bust_point, origin) else 7cm\n  point p = origin down depth\nend\n"
        "let a = front.depth\n"
    )
    assert values(made, "a", inputs(made, MEASURES)) == [70.0]


@pytest.mark.parametrize(
    ("condition", "expected"),
    [
        ("top.front has bust_point and distance(top.front.bust_point, MIDDLE) > 1cm", 2),
        ("not top.front has bust_point or distance(top.front.bust_point, MIDDLE) > 1cm", 1),
        ("top.front has shoulder_point and distance(top.front.shoulder_point, MIDDLE) > 1cm", 1),
    ],
)  # fmt: skip
def test_a_member_is_sure_behind_and_and_or_too(condition: str, expected: int):
    asked = condition.replace("MIDDLE", "top.front.underarm")
    made = draft(f"{WITH_TOP}let a = if {asked} then 1 else 2\n")
    assert values(made, "a", inputs(made, MEASURES)) == [expected]


@pytest.mark.parametrize(
    "pieces", ["piece one from two\nend\npiece two from one\nend\n", "piece one from one\nend\n"]
)
def test_pieces_drafted_from_each_other_go_in_a_circle(pieces: str):
    (problem,) = compiled(HEADING + pieces.replace("one", "upper").replace("two", "lower")).problems
    assert problem.code == "cycle"
    assert "upper.base needs" in problem.sentence


def test_a_base_that_does_not_fit_is_told_once():
    text = f"{WITH_TOP}{CARRIED_ON}piece front from carried_on(top.sleeve, 2cm)\nend\n"
    assert [p.code for p in faults(compiled(text).problems)] == ["piece-lacks"]


# --- modules -----------------------------------------------------------------------------------


def test_a_module_may_use_another_and_lie_in_a_folder_below():
    made = draft(
        f"{HEADING}use twice from own_words\nlet a = twice(2cm)\n",
        beside={
            "own_words.godet": "edition 1\nuse doubling from deeper\n"
            "define twice(a: length) = a * doubling()\n",
            "deeper.godet": "edition 1\ndefine doubling() = 2\n",
        },
    )
    assert values(made, "a", inputs(made, MEASURES)) == [40.0]


def test_modules_that_use_each_other_are_named():
    made = compiled(
        f"{HEADING}use outer from one_side\nlet b = outer()\n",
        beside={
            "one_side.godet": "edition 1\nuse inner from other_side\ndefine outer() = inner()\n",
            "other_side.godet": "edition 1\nuse outer from one_side\ndefine inner() = outer()\n",
        },
    )
    codes = [problem.code for problem in faults(made.problems)]
    assert codes == ["modules-in-circle"]
    assert "one_side uses other_side uses one_side" in made.problems[0].sentence


def test_a_module_asks_for_its_own_measures():
    made = draft(
        f"{HEADING}use half_bust from own_words\nlet a = half_bust()\n",
        beside={
            "own_words.godet": "edition 1\nmeasure bust_girth\n"
            "define half_bust() = bust_girth / 2\n"
        },
    )
    assert "bust_girth" in made.measures
    assert values(made, "a", inputs(made, {"bust_girth": 900.0})) == [450.0]


def test_a_measure_that_a_module_misspells_is_told_in_the_module():
    made = compiled(
        f"{HEADING}use half_bust from own_words\nlet a = half_bust()\n",
        beside={
            "own_words.godet": "edition 1\nmeasure bust_grith\n"
            "define half_bust() = bust_girth / 2\n"
        },
    )
    (only,) = faults(made.problems)
    assert only.code == "unknown-measure"
    assert only.place is not None
    assert (Path(only.place.file).name, only.place.line) == ("own_words.godet", 2)


def test_a_kind_may_come_from_a_module():
    made = draft(
        f"{HEADING}  makes pocket_kind\nuse pocket_kind from own_kinds\n"
        "piece pocket\n  point a = origin\n  point b = a outward 9cm\n  point c = b down 9cm\n"
        "  edge top = line a to b\n  edge right = line b to c\n  edge left = line a to c\nend\n",
        beside={
            "own_kinds.godet": "edition 1\n"
            "kind pocket_kind\n"
            "  piece pocket\n"
            "    point a\n"
            "  end\n"
            "end\n"},
    )  # fmt: skip
    assert made.kind == "pocket_kind"


def test_a_module_behind_a_link_out_of_the_folder_is_not_read(tmp_path: Path):
    outside = tmp_path / "outside.godet"
    outside.write_text("edition 1\ndefine a() = 1cm\n")
    folder = tmp_path / "recipes"
    folder.mkdir()
    (folder / "mine.godet").symlink_to(outside)
    (folder / "tried.godet").write_text("edition 1\nrecipe tried\nuse a from mine\nlet b = a()\n")
    made = compile_recipe(str(folder / "tried.godet"))
    assert [p.code for p in made.problems] == ["file-outside"]


# --- names on their way out ----------------------------------------------------------------------

OLD = (
    "edition 1\ndefine old() = 1cm\ndefine new() = 1cm\ndeprecated old since {} until {}, now new\n"
)


def test_a_name_on_its_way_out_is_told_at_each_use_with_the_cure():
    text = f"{HEADING}use old from words\nlet a = old()\n"
    made = compiled(text, beside={"words.godet": OLD.format(1, 3)})
    marked = [p for p in made.problems if p.code == "deprecated"]
    assert [p.place and p.place.line for p in marked] == [3, 4]
    assert {p.fix and p.fix.replacement for p in marked} == {"new"}
    assert made.draft is not None


def test_a_name_that_goes_with_a_later_edition_is_not_told_yet():
    text = f"{HEADING}use old from words\nlet a = old()\n"
    made = compiled(text, beside={"words.godet": OLD.format(2, 3)})
    assert faults(made.problems) == []


def test_a_name_that_is_gone_is_an_error():
    text = f"{HEADING}use old from words\nlet a = old()\n"
    made = compiled(text, beside={"words.godet": OLD.format(0, 1)})
    assert {p.code for p in faults(made.problems)} == {"deprecated-gone"}
    assert made.draft is None


# --- blocks on blocks ----------------------------------------------------------------------------

RAISED = """\
edition 1

recipe raised
  takes lower: bodice = plain_top
  makes bodice
  "A top with its neck raised."

choose by_much = 2cm from 0cm to 5cm "how much higher the neck is"

piece front, back from lower.front, lower.back
  point centre_neck = base.centre_neck up by_much
  edge neck   = line centre_neck to side_neck
  edge centre = line centre_neck to hem
  point hem = base.centre_waist down 16cm
end
"""
BESIDE = {"raised.godet": RAISED}
HIGH = "let high = down_from({}.centre_neck, {}.centre_waist)\n"


@pytest.mark.parametrize(
    ("block", "expected"),
    [
        ("plain_top", 340),  # 42 cm less 8 cm
        ("raised", 360),
        ("raised(plain_top)", 360),
        ("raised(raised(plain_top))", 380),
        ("raised(lower: raised(lower: plain_top))", 380),
    ],
)
def test_a_block_on_a_block_stands_wherever_a_block_may(block: str, expected: int):
    text = (
        f"{HEADING}  takes top: bodice = {block}\n"
        f"let a = abs(down_from(top.front.centre_neck, top.front.centre_waist))\n"
    )
    made = draft(text, beside=BESIDE)
    assert values(made, "a", inputs(made, MEASURES)) == pytest.approx([expected])
    given = draft(text.replace(f" = {block}\n", "\n"), {"top": block}, BESIDE)
    assert given.digest == made.digest


def test_the_choices_of_each_block_are_known_by_the_way_to_it():
    made = draft(f"{WITH_TOP}", {"top": "raised(raised)"}, BESIDE)
    assert {"top.by_much", "top.lower.by_much", "top.lower.lower.bust_ease"} <= set(made.choices)


@pytest.mark.parametrize(
    ("block", "code"),
    [
        ("raised(plain_top, plain_top)", "blocks-do-not-fit"),
        ("raised(upper: plain_top)", "blocks-do-not-fit"),
        ("raised(", "block-not-read"),
        ("raised(plain_dress)", "wrong-kind"),
    ],
)
def test_blocks_that_do_not_fit_are_refused(block: str, code: str):
    made = compiled(f"{WITH_TOP}", {"top": block}, BESIDE)
    assert [p.code for p in faults(made.problems)] == [code]


def test_blocks_whose_own_blocks_go_in_a_circle_are_named():
    circle = {
        "upper.godet": RAISED.replace("raised\n", "upper\n").replace("plain_top", "under"),
        "under.godet": RAISED.replace("raised\n", "under\n").replace("plain_top", "upper(under)"),
    }
    made = compiled(f"{WITH_TOP}", {"top": "upper"}, circle)
    assert [p.code for p in faults(made.problems)] == ["blocks-in-circle"]


def test_there_is_an_end_to_blocks_on_blocks():
    block = "raised(" * 120 + "plain_top" + ")" * 120
    made = compiled(f"{WITH_TOP}", {"top": block}, BESIDE)
    assert [p.code for p in faults(made.problems)] == ["block-not-read"]  # nested too deep to read
    block = "raised(" * 45 + "plain_top" + ")" * 45
    assert compiled(f"{WITH_TOP}", {"top": block}, BESIDE).draft is not None


def test_so_many_blocks_that_no_garment_needs_them_are_refused():
    two = RAISED.replace("raised\n", "doubled\n").replace(
        "takes lower: bodice = plain_top",
        "takes lower: bodice = plain_top\n  takes other: bodice\n"
        "  without other.front\n  without other.back",
    )
    block = "plain_top"
    for _ in range(7):
        block = f"doubled({block}, {block})"
    made = compiled(f"{WITH_TOP}", {"top": block}, {"doubled.godet": two})
    assert [p.code for p in faults(made.problems)] == ["too-many-blocks"]


# --- set -----------------------------------------------------------------------------------------

SETTABLE = f"""\
{HEADING}  takes top: long_bodice = settable_top

kind long_bodice
  piece front
    point centre_waist
  end
  choose length: one of (cropped, long)
  choose bust_ease: length optional
end
"""
SETTABLE_TOP = TOP.replace("plain_top", "settable_top").replace("makes bodice", "makes long_bodice")
SETTABLE_BESIDE = {
    "settable_top.godet": SETTABLE_TOP.replace(
        "edition 1\n", "edition 1\nuse long_bodice from own_kinds\n"
    ),
    "own_kinds.godet": "edition 1\n\n" + SETTABLE.split("\n\n", 1)[1],
}


def settable(lines: str) -> str:
    return SETTABLE.split("\n\n", 1)[0] + "\nuse long_bodice from own_kinds\n" + lines


def test_a_recipe_sets_the_choices_of_its_block_and_the_maker_still_may():
    text = settable("set top.bust_ease = ease\nlet ease = 8cm\nlet a = top_width\n"

                        "let top_width = width(top.front, bust)\n"
                        "").replace("piece front", "piece front")  # fmt: skip
    beside = dict(SETTABLE_BESIDE)
    beside["own_kinds.godet"] = beside["own_kinds.godet"].replace(
        "    point centre_waist\n", "    point centre_waist\n    level bust\n"
    )
    made = draft(text, beside=beside)
    # a quarter of bust and ease
    assert values(made, "a", inputs(made, MEASURES)) == pytest.approx([(920 + 80) / 4], abs=1e-6)
    chosen = inputs(made, MEASURES, choices={"top.bust_ease": 40.0})
    assert values(made, "a", chosen) == pytest.approx([(920 + 40) / 4], abs=1e-6)


def test_a_word_of_the_list_stands_for_itself():
    made = draft(settable("set top.length = long\n"), beside=SETTABLE_BESIDE)
    default = made.graph[made.choices["top.length"].default]
    assert default.constant("word") == "long"


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("set top.lenght = long\n", "no-such-kind-choice"),
        ("set low.length = long\n", "no-such-block"),
        ("set top.bust_ease = 20deg\n", "wrong-type"),
        ("set top.bust_ease = 2\n", "bare-number"),
        ("set top.length = long\nset top.length = cropped\n", "given-twice"),
    ],
)
def test_what_cannot_be_set_is_refused(line: str, code: str):
    made = compiled(settable(line), beside=SETTABLE_BESIDE)
    assert [p.code for p in faults(made.problems)] == [code]


def test_a_choice_of_another_type_than_the_kind_says_is_refused():
    beside = dict(SETTABLE_BESIDE)
    beside["settable_top.godet"] = beside["settable_top.godet"].replace(
        "one of cropped, long", "one of cropped, long, longest"
    )
    made = compiled(settable("set top.length = long\n"), beside=beside)
    assert [p.code for p in faults(made.problems)] == ["kind-choice-differs"]


def test_a_block_may_have_another_default_than_its_kind_names_first():
    beside = dict(SETTABLE_BESIDE)
    beside["settable_top.godet"] = beside["settable_top.godet"].replace(
        "one of cropped, long", "one of long, cropped"
    )
    unset = draft(settable(""), beside=beside)
    assert unset.graph[unset.choices["top.length"].default].constant("word") == "long"
    made = draft(settable("set top.length = cropped\n"), beside=beside)
    assert made.graph[made.choices["top.length"].default].constant("word") == "cropped"


def test_a_choice_set_by_way_of_its_own_block_goes_in_a_circle():
    beside = dict(SETTABLE_BESIDE)
    line = (
        "set top.bust_ease = distance(top.front.centre_waist, origin_of)\n"
        "let origin_of = top.front.centre_waist\n"
    )
    made = compiled(settable(line), beside=beside)
    assert [p.code for p in faults(made.problems)] == ["cycle"]


# --- pieces that follow --------------------------------------------------------------------------

FOLLOWING_TOP = (
    TOP.replace("plain_top", "following_top").split("piece sleeve")[0]
    + """
piece sleeve follows front.armhole
  point a = origin
  point b = a outward around
  point c = b down deep
  find deep from 1cm to 90cm so that distance(a, c) = around * 1.25
  let around = length(front.armhole)
  edge cap = line a to b
  edge right = line b to c
  edge left = line a to c
  cut 2 of main
end
"""
)
HOLLOWED = """\
piece front from top.front
  point shoulder_point = base.shoulder_point inward 3cm
  edge shoulder = line side_neck to shoulder_point
  edge armhole = line shoulder_point to underarm
end
"""


def test_a_piece_that_follows_an_edge_is_drafted_to_the_new_one():
    text = f"{HEADING}  takes top: bodice with shoulder_point = following_top\n{HOLLOWED}"
    ends = "let a = distance(front.shoulder_point, front.underarm)\n"
    made = draft(text + ends, beside={"following_top.godet": FOLLOWING_TOP})
    at = inputs(made, MEASURES)
    (around,) = values(made, "a", at)
    sleeve = made.pieces["sleeve"]
    assert node_value(made, sleeve.values["around"], at) == pytest.approx(around)
    # a right angle with sides 4, 3 and 5: the unknown was found anew
    assert node_value(made, sleeve.values["deep"], at) == pytest.approx(around * 0.75, abs=1e-6)


def test_a_piece_that_follows_nothing_redrawn_stays_the_very_same():
    text = f"{HEADING}  takes top: bodice = following_top\n"
    same = text + "piece front from top.front\n  allow 2cm on neck\nend\n"
    beside = {"following_top.godet": FOLLOWING_TOP}
    first, second = draft(text, beside=beside), draft(same, beside=beside)
    nodes = [
        made.graph.digest(made.pieces["sleeve"].edges["cap"].curve) for made in (first, second)
    ]
    assert nodes[0] == nodes[1]


def test_what_a_recipe_takes_of_a_following_piece_is_the_new_one():
    text = (
        f"{HEADING}  takes top: bodice with shoulder_point = following_top\n{HOLLOWED}"
        "piece cuff from top.sleeve\n  point d = base_b down 1cm\n  let base_b = origin\nend\n"
        "let a = length(front.armhole)\n"
    )
    made = draft(text, beside={"following_top.godet": FOLLOWING_TOP})
    at = inputs(made, MEASURES)
    cap = made.graph.add("length", (made.pieces["cuff"].edges["cap"].curve,),
                         type=made.graph[made.names["a"]].type, place=None)  # fmt: skip
    assert node_value(made, cap, at) == pytest.approx(values(made, "a", at)[0])


def test_a_piece_that_follows_no_edge_of_another_is_refused():
    text = TOP.replace("piece sleeve\n", "piece sleeve follows sleeve.cap\n")
    (problem,) = faults(compiled(text).problems)
    assert problem.code == "follows-no-edge"


# --- what comes through --------------------------------------------------------------------------


def test_a_seam_may_join_a_piece_that_comes_through():
    made = draft(
        f"{WITH_TOP}piece front from top.front\nend\n"
        "seam sides: front.side to top.back.side\n"
    )  # fmt: skip
    (seam,) = [seam for seam in made.seams if seam.name == "sides"]
    assert seam.second == (("back", "side", False),)


def test_a_seam_to_a_piece_that_is_drafted_anew_says_what_to_write():
    made = compiled(
        f"{WITH_TOP}piece front, back from top.front, top.back\nend\n"
        "seam sides: front.side to top.back.side\n"
    )
    (problem,) = faults(made.problems)
    assert problem.code == "seam-of-redrawn"
    assert problem.fix is not None
    assert problem.fix.replacement == "back.side"


def test_a_piece_that_takes_the_place_of_a_blocks_without_a_word_is_warned_of():
    text = f"{WITH_TOP}piece front\n  point a = origin\nend\n"
    (problem,) = faults(compiled(text).problems)
    assert problem.code == "piece-in-place"
    said = compiled(text.replace("piece front", "without top.front\npiece front"))
    assert faults(said.problems) == []


def test_an_edge_that_begins_with_part_of_another_has_its_allowance_and_notches():
    made = draft(
        f"{WITH_TOP}piece front from top.front\n"
        "  edge upper_side = base.side until side_waist\n"
        "  edge slanted = line origin to side_waist\n"
        "  allow none on side\nend\n"
    )
    front = made.pieces["front"]
    allowance = front.allowances["upper_side"]
    assert allowance is not None
    assert node_value(made, allowance, inputs(made, MEASURES)) == 10.0
    assert "slanted" not in front.allowances
    assert front.allowances["side"] is None
    assert [n.edge for n in front.notches] == ["side", "upper_side"]


# --- names that nothing uses ---------------------------------------------------------------------


def test_what_nothing_uses_is_advised():
    text = (
        f"{HEADING}use usable_stretch from ease\nmeasure hip_girth, bust_girth\n"
        "choose long = 3cm from 1cm to 9cm\nlet a = bust_girth / 2\n"
        "piece flap\n  point p = origin down a\n  let b = 2cm\nend\n"
    )
    assert told(compiled(text).problems) == [
        ("not-used", 3),
        ("not-used", 4),
        ("not-used", 5),
        ("not-used", 9),
    ]


def test_the_dress_of_the_small_library_uses_all_its_names():
    assert compiled(DRESS).problems == ()


# --- did you mean, by type -----------------------------------------------------------------------


def test_the_name_that_is_meant_is_of_the_type_that_is_needed():
    text = (
        f"{WITH_TOP}let waist_side = 3cm\n"
        f"let a = distance(front.p, front.p)\n"
        f"piece front from top.front\n"
        f"  point p = side_wast down 2cm\n"
        f"end\n"
    )
    (problem,) = faults(compiled(text).problems)
    assert problem.fix is not None
    assert problem.fix.replacement == "side_waist"


def test_a_name_of_the_wrong_type_may_have_been_meant_as_its_neighbour():
    text = (
        f"{HEADING}measure hip_girth\n"
        f"piece p\n"
        f"  point hip_girt = origin\n"
        f"  point q = hip_girth down 2cm\n"
        f"end\n"
    )
    (problem,) = faults(compiled(text).problems)
    assert problem.code == "wrong-type"
    assert "Did you mean `hip_girt`?" in problem.sentence
