"""Kinds that are other kinds, kinds with darts of two points, and recipes that make the kind they
take.

What is expected is worked out by hand beside each test, or is that two ways of writing the same
draft give the same.
"""

from __future__ import annotations

import pytest
from small_recipes import (
    HEADING,
    MEASURES,
    SMALL_LIBRARY,
    TOP,
    compiled,
    draft,
    faults,
    inputs,
    values,
)

NECKED = """\
kind necked
  piece front, back
    point centre_neck, side_neck
    edge centre         from the top
    edge neck, shoulder from the centre
  end
  choose bust_ease: length optional
end

kind bodice is necked
"""
KINDS = (SMALL_LIBRARY / "kinds.godet").read_text(encoding="utf-8").replace("kind bodice\n", NECKED)
OPERATION = """\
edition 1
recipe lowered
  takes garment: necked = plain_top
  makes kind of garment
choose drop = 3cm from 0cm to 9cm "of the neck"
piece front from garment.front
  point centre_neck = base.centre_neck down drop
  edge neck   = line centre_neck to side_neck
  edge centre = base.centre from centre_neck
end
"""
BESIDE = {"kinds.godet": KINDS, "lowered.godet": OPERATION}


def own_kinds(*lines: str) -> str:
    return HEADING + "".join(f"{line}\n" for line in lines)


def told_of(text: str) -> list[tuple[str, str]]:
    return [(p.code, p.sentence) for p in faults(compiled(text).problems)]


# --- a kind that is another ----------------------------------------------------------------------


def test_a_block_serves_where_a_kind_that_it_is_by_way_of_another_is_wanted():
    kinds = KINDS.replace(
        "kind necked\n", "kind worn\n  piece front\n  end\nend\nkind necked is worn\n"
    )
    plain = draft(f"{HEADING}  takes top: bodice = plain_top\n")
    for kind in ("necked", "worn"):
        text = f"{HEADING}  takes top: {kind} = plain_top\n"
        assert draft(text, beside={"kinds.godet": kinds}).digest == plain.digest


def test_a_block_does_not_serve_where_a_kind_that_is_its_own_is_wanted():
    beside = {"kinds.godet": KINDS, "bib.godet": TOP.replace("makes bodice", "makes necked")}
    text = f"{HEADING}  takes top: bodice = bib\n"
    (problem,) = faults(compiled(text, beside=beside).problems)
    assert problem.code == "wrong-kind"
    assert "it makes a necked" in problem.sentence


def test_a_used_kind_knows_what_it_is_though_that_is_not_used():
    studio = (
        "edition 1\nkind tied\n  piece bib\n    point a\n  end\nend\n"
        "kind apron is tied\n  piece bib\n    point a\n  end\nend\n"
    )
    apron = (
        "edition 1\nrecipe apron_of_linen\n  makes apron\nuse apron from studio\n"
        "piece bib\n  point a = origin\nend\n"
    )
    beside = {"studio.godet": studio, "apron_of_linen.godet": apron}
    text = "edition 1\nuse tied from studio\nrecipe tried\n  takes it: tied = apron_of_linen\n"
    assert set(draft(text, beside=beside).pieces) == {"bib"}


@pytest.mark.parametrize(
    ("mine", "missing"),
    [
        ("  piece other optional\n", "piece bib."),
        ("  piece bib optional\n", "point bib.a, edge bib.top from the centre, piece bib (there"),
        ("  piece bib\n    edge top from the centre\n  end\n", "point bib.a."),
        ("  piece bib\n    point a optional\n    edge top from the centre\n  end\n",
         "point bib.a (there not optional)."),
        ("  piece bib\n    point a\n    edge top from the top\n  end\n",
         "edge bib.top from the centre."),
        ("  piece bib\n    level a\n    edge top from the centre\n  end\n", "point bib.a."),
        ("  piece bib\n    point a\n    edge top from the centre\n    dart d\n  end\n",
         "double dart bib.d."),
    ],
)  # fmt: skip
def test_a_kind_that_promises_less_than_it_says_it_is_is_told_what_it_lacks(
    mine: str, missing: str
):
    tied = (
        "kind tied\n  piece bib\n    point a\n    edge top from the centre\n"
        "    double dart d optional\n  end\nend\n"
    )
    ((code, sentence),) = told_of(f"{HEADING}{tied}kind apron is tied\n{mine}end\n")
    assert code == "kind-is-not"
    assert f"which promises what `apron` does not: {missing}" in sentence


@pytest.mark.parametrize(
    ("mine", "missing"),
    [
        ("", "choice fit."),
        ("  choose fit: one of (close, loose) optional\n", "choice fit (there not optional)."),
        ("  choose fit: length\n", "choice fit, one of close, loose."),
    ],
)
def test_a_kind_must_let_choices_be_set_as_the_kind_that_it_is(mine: str, missing: str):
    tied = "kind tied\n  choose fit: one of (close, loose)\nend\n"
    ((code, sentence),) = told_of(f"{HEADING}{tied}kind apron is tied\n{mine}end\n")
    assert code == "kind-is-not"
    assert sentence.endswith(missing)


def test_what_the_other_kind_calls_optional_is_known_of_this_one():
    text = (
        f"{HEADING}  takes it: apron\nkind tied\n  piece bib\n    point a\n"
        "    point b optional\n  end\nend\n"
        "kind apron is tied\n  piece bib\n    point a\n  end\nend\n"
        "piece bib from it.bib\n  point c = if it.bib has b then it.bib.b else a\nend\n"
    )
    assert [code for code, _ in told_of(text)] == ["block-missing"]


def test_a_kind_that_there_is_none_of_may_be_a_slip():
    ((code, sentence),) = told_of(f"{HEADING}kind apron is bodise\n  piece bib optional\nend\n")
    assert code == "unknown-kind"
    assert "bodice" in sentence


def test_kinds_that_are_each_other_are_told_once():
    text = own_kinds("kind a is c", "end", "kind b is a", "end", "kind c is b", "end")
    ((code, sentence),) = told_of(text)
    assert (code, "a is c is b is a" in sentence) == ("kinds-in-circle", True)


# --- darts with two points -----------------------------------------------------------------------

DOUBLE_KINDS = KINDS.replace("bust_dart, waist_dart  optional", "bust_dart optional").replace(
    "    level bust, waist\n", "    level bust, waist\n    double dart waist_dart optional\n", 1
)
DOUBLE = "dart waist_dart = at middle by 2cm from middle up 12cm to middle down 4cm"
DARTED = TOP.replace("recipe plain_top", "recipe darted_top").replace(
    "  level bust", f"  point middle = centre_waist outward 9cm\n  {DOUBLE}\n  level bust"
)


def test_a_dart_with_two_points_has_both_where_its_kind_says_so():
    text = (
        f"{HEADING}  takes top: bodice with waist_dart = darted_top\n"
        "let long = distance(top.front.waist_dart.upper_tip, top.front.waist_dart.lower_tip)\n"
    )
    made = draft(text, beside={"kinds.godet": DOUBLE_KINDS, "darted_top.godet": DARTED})
    # from 12 cm above its middle to 4 cm below
    assert values(made, "long", inputs(made, MEASURES)) == pytest.approx([160.0])


def test_a_dart_with_two_points_has_no_legs():
    text = (
        f"{HEADING}  takes top: bodice with waist_dart = darted_top\n"
        "let long = top.front.waist_dart.leg\n"
    )
    beside = {"kinds.godet": DOUBLE_KINDS, "darted_top.godet": DARTED}
    assert "no-such-member" in [p.code for p in compiled(text, beside=beside).problems]


def test_a_block_whose_dart_is_of_the_other_sort_can_not_serve():
    # either text reads its own kind of the name
    wanting = "kind narrow\n  piece front\n    {}dart waist_dart optional\n  end\nend\n"
    top = DARTED.replace("makes bodice", "makes narrow") + wanting.format("double ")
    beside = {"kinds.godet": KINDS, "darted_top.godet": top}
    text = f"{HEADING}  takes top: narrow = darted_top\n{wanting.format('')}"
    (problem,) = faults(compiled(text, beside=beside).problems)
    assert problem.code == "wrong-kind"
    assert "its front.waist_dart has two points" in problem.sentence


# --- making the kind that is taken ---------------------------------------------------------------


def test_what_makes_the_kind_it_takes_serves_where_its_block_would():
    made = draft(f"{HEADING}  takes top: bodice = lowered(plain_top)\n", beside=BESIDE)
    assert made.blocks == ("top = lowered(plain_top)",)
    # the sleeve and the pocket are none of the kind that the operation knows
    assert set(made.pieces) == {"front", "back", "sleeve", "pocket"}
    plain = draft(f"{HEADING}  takes top: bodice = plain_top\n")
    (lower,) = values(made, "front.centre_neck", inputs(made, MEASURES))
    (upper,) = values(plain, "front.centre_neck", inputs(plain, MEASURES))
    assert list(lower - upper) == pytest.approx([0.0, 30.0])


def test_what_makes_the_kind_it_takes_makes_no_other():
    text = f"{HEADING}  takes top: dress = lowered(plain_top)\n"
    (problem,) = faults(compiled(text, beside=BESIDE).problems)
    assert problem.code == "wrong-kind"
    assert "it makes a bodice" in problem.sentence


def test_what_the_taker_sets_reaches_the_block_inside_through_several():
    beside = BESIDE | {"twice.godet": OPERATION.replace("lowered", "twice")}
    text = "{}  takes top: bodice = {}\nset top.bust_ease = 12cm\n"
    kinds = KINDS.replace("kind dress\n", "kind dress\n  choose bust_ease: length optional\n")
    beside["kinds.godet"] = kinds
    plain = draft(text.format(HEADING, "plain_top"), beside=beside)
    made = draft(text.format(HEADING, "twice(lowered(plain_top))"), beside=beside)
    (wide,) = values(plain, "front.underarm", inputs(plain, MEASURES))
    (through,) = values(made, "front.underarm", inputs(made, MEASURES))
    assert list(through) == list(wide)
    # (920 mm + 120 mm) / 4
    assert through[0] == pytest.approx(260.0)
    assert "top.garment.garment.bust_ease" in made.choices


def test_what_the_operation_itself_sets_or_chooses_is_not_passed_on():
    taker = f"{HEADING}  takes top: bodice = lowered(plain_top)\nset top.bust_ease = 12cm\n"
    own = OPERATION + 'choose bust_ease = 1cm from 0cm to 20cm "of its own"\n'
    for operation in (own, OPERATION + "set garment.bust_ease = 4cm\n"):
        made = draft(taker, beside=BESIDE | {"lowered.godet": operation})
        # as the top has it by itself: (920 mm + 40 mm) / 4
        (at,) = values(made, "front.underarm", inputs(made, MEASURES))
        assert at[0] == pytest.approx(240.0)


def test_a_choice_that_the_taker_counts_on_and_the_operation_sets_is_told():
    kinds = KINDS.replace("bust_ease: length optional", "bust_ease: length").replace(
        "kind bodice is necked\n", "kind bodice is necked\n  choose bust_ease: length\n"
    )
    operation = OPERATION + "set garment.bust_ease = 4cm\n"
    beside = {"kinds.godet": kinds}
    (problem,) = faults(compiled(operation, beside=beside).problems)
    assert problem.code == "kind-not-kept"
    assert "choice bust_ease" in problem.sentence


def test_a_choice_of_another_type_than_the_kind_of_the_block_promises_is_told():
    kinds = KINDS.replace("  choose bust_ease: length optional\n", "").replace(
        "kind bodice is necked\n",
        "kind bodice is necked\n  choose bust_ease: length optional\n",
    )
    operation = OPERATION + 'choose bust_ease = one of little, much "of its own"\n'
    beside = {"kinds.godet": kinds, "lowered.godet": operation}
    text = f"{HEADING}  takes top: bodice = lowered(plain_top)\n"
    (problem,) = faults(compiled(text, beside=beside).problems)
    assert problem.code == "wrong-kind"
    assert "its choice bust_ease is one of little, much, not a length" in problem.sentence


def test_leaving_out_what_the_kind_is_sure_to_have_is_told():
    text = OPERATION.replace("\npiece front", "\nwithout garment.back\npiece front")
    (problem,) = faults(compiled(text, beside=BESIDE).problems)
    assert (problem.code, "piece back" in problem.sentence) == ("kind-not-kept", True)


def test_the_kind_of_what_is_not_taken_can_not_be_made():
    text = OPERATION.replace("kind of garment", "kind of garmnet")
    (problem,) = faults(compiled(text, beside=BESIDE).problems)
    assert problem.code == "no-such-block"
    assert "garment" in problem.sentence
