"""Lines with `when`: drafted from their text for bodies and choices where it holds and fails."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

import pytest
from small_recipes import HEADING, TOP, compiled, faults, told

from godet.base.places import Place
from godet.orders.records import Body, Measured
from godet.output.draft_json import draft_json
from godet.output.svg import svg
from godet.pattern.pieces import Pattern
from godet.proof.verdicts import FailsOn, NotProved
from godet.tools.drafting import draft_all, prepared_for
from godet.tools.proofs import proofs

HERE = Place("test", 1, 1, 1, 1)
OPENING = """\
choose opening = one of none, zip "at the centre back"

piece back
  point neck    = origin
  point side    = origin outward 20cm
  point hem     = origin down waist_girth
  point corner  = side down waist_girth
  point zip_end = neck down 30cm
  edge centre = line neck to hem
  edge upper  = line neck to side
  edge outer  = line side to corner
  edge lower  = line hem to corner
  fold centre when opening is not zip
  notch centre at zip_end when opening is zip
  mark side
  mark zip_end when opening is zip
  allow 2cm on centre
  level waist = across at side down 10cm
  cut 1 of main
end

let all_round = length(whole(back.upper))
require girth(waist) >= all_round

seam sides: back.outer to back.outer
seam centre_back: back.centre to back.centre when opening is zip after sides
seam hem: whole(back.lower) to whole(back.upper) from back.hem and back.neck after centre_back
match centre_back at back.zip_end
match hem at back.corner when opening is zip
"""
ONE = f"{HEADING}measure waist_girth\n{OPENING}"


def patterns(
    text: str,
    choices: Mapping[str, float | str] | None = None,
    waists: tuple[float, ...] = (700.0,),
    beside: Mapping[str, str] | None = None,
) -> list[Pattern]:
    """The patterns of bodies with these waist girths in mm."""
    found = compiled(text, beside=beside)
    assert found.draft is not None, [p.sentence for p in found.problems]
    assert faults(found.problems) == []
    bodies = [
        Body(
            f"body_{number}",
            "cm",
            {
                "waist_girth": Measured(waist, "", HERE),
                "bust_girth": Measured(waist + 200.0, "", HERE),
                "shoulder_slope": Measured(0.35, "", HERE),
            },
            "test",
        )
        for number, waist in enumerate(waists)
    ]
    made, problems = draft_all(prepared_for(bodies, {}, choices or {}, found.draft))
    assert faults(problems) == []
    assert all(each is not None for each in made)
    return [each for each in made if each is not None]


def read(pattern: Pattern) -> dict[str, Any]:
    record: dict[str, Any] = json.loads(draft_json(pattern))
    return record


def test_an_opening_is_a_choice_of_one_recipe() -> None:
    (shut,), (opened,) = patterns(ONE), patterns(ONE, {"opening": "zip"})
    one, other = read(shut)["pieces"]["back"], read(opened)["pieces"]["back"]
    assert one["cut"] == {"count": 1, "cloth": "main", "fold": "centre", "mirrored": False}
    assert other["cut"] == {"count": 2, "cloth": "main", "fold": None, "mirrored": True}
    assert (one["drawn"], other["drawn"]) == ("half", "whole")
    # a rectangle of 20 by 70 cm: 2 cm more in breadth, with 1 cm above and below
    assert other["area_cut"] - one["area_cut"] == pytest.approx(20.0 * 720.0)
    assert [seam.name for seam in shut.seams] == ["sides", "hem"]
    assert [seam.name for seam in opened.seams] == ["sides", "centre_back", "hem"]
    assert set(one["marks"]) == {"side"}
    assert set(other["marks"]) == {"side", "zip_end"}
    assert [n["name"] for n in one["notches"]] == []
    assert {(n["edge"], n["name"]) for n in other["notches"] if n["edge"] == "centre"} == {
        ("centre", "zip_end")
    }


def test_what_is_measured_of_the_whole_is_the_same_with_a_fold_and_without() -> None:
    (shut,), (opened,) = patterns(ONE), patterns(ONE, {"opening": "zip"})
    for key in ("girths", "finished", "checks"):
        assert read(shut)[key] == read(opened)[key]
    assert shut.girths == {"waist": pytest.approx(400.0)}
    hems = [seam for each in (shut, opened) for seam in each.seams if seam.name == "hem"]
    assert hems[0].lengths_sewn == hems[1].lengths_sewn == pytest.approx((400.0, 400.0))
    assert hems[0].sides == hems[1].sides


def test_the_drawing_says_which_of_both_it_is() -> None:
    words = {}
    for opening in ("none", "zip"):
        (pattern,) = patterns(ONE, {"opening": opening})
        words[opening] = re.findall(r">([^<>\n]+)<", svg(pattern))
    assert "place on fold" in words["none"]
    assert "Cut 1 of main on the fold" in words["none"]
    assert "place on fold" not in words["zip"]
    assert "Cut 2 of main, mirrored" in words["zip"]
    assert "Allowance 1 cm; centre 2 cm" in words["zip"]


def test_a_condition_is_worked_out_for_each_body() -> None:
    text = ONE.replace("opening is not zip", "waist_girth < 80cm")
    small, large = patterns(text, waists=(700.0, 900.0))
    assert [pattern.pieces[0].cut.fold for pattern in (small, large)] == ["centre", None]


ZIPPED = (
    TOP.replace("recipe plain_top", "recipe zipped_top")
    .replace(
        "piece front, back\n",
        'choose opening = one of none, zip "at the centre"\n\npiece front, back\n',
    )
    .replace("  fold centre\n", "  fold centre when opening is not zip\n")
)
ZIPPED = ZIPPED.replace("seam pocket: pocket.inside to pocket.below\n", "")
ZIPPED += "seam centre_back: back.centre to back.centre when opening is zip after shoulder\n"
TAKING = f"{HEADING}  takes top: bodice = zipped_top\n"
REDRAWN = "piece back from top.back\n  allow 2cm on centre\n{}end\n"


@pytest.mark.parametrize("own", ["", REDRAWN.format("")])
def test_a_fold_comes_through_from_a_block_with_its_condition(own: str) -> None:
    for opening, cut in (("none", (1, "centre", False)), ("zip", (2, None, True))):
        (pattern,) = patterns(
            TAKING + own, {"top.opening": opening}, beside={"zipped_top.godet": ZIPPED}
        )
        back = next(piece for piece in pattern.pieces if piece.name == "back")
        assert (back.cut.count, back.cut.fold, back.cut.mirrored) == cut
        sewn = {seam.name for seam in pattern.seams}
        assert ("centre_back" in sewn) == (opening == "zip")


def test_a_fold_given_anew_replaces_that_of_the_block_and_its_condition() -> None:
    own = REDRAWN.format("  fold centre\n")
    (pattern,) = patterns(TAKING + own, {"top.opening": "zip"}, beside={"zipped_top.godet": ZIPPED})
    cuts = {piece.name: piece.cut.fold for piece in pattern.pieces}
    assert (cuts["back"], cuts["front"]) == ("centre", None)


@pytest.mark.parametrize(
    ("line", "instead"),
    [
        ("  fold centre when opening is not zip", "  fold centre when 3cm"),
        ("  mark zip_end when opening is zip", "  mark zip_end when zip_end"),
        ("  notch centre at zip_end when opening is zip", "  notch centre at zip_end when 2"),
        ("match hem at back.corner when opening is zip", "match hem at back.corner when 2cm"),
        (
            "seam centre_back: back.centre to back.centre when opening is zip after sides",
            "seam centre_back: back.centre to back.centre when 4cm after sides",
        ),
    ],
)
def test_what_stands_behind_when_must_be_a_condition(line: str, instead: str) -> None:
    text = ONE.replace(line, instead)
    number = text.split("\n").index(instead) + 1
    assert told(faults(compiled(text).problems)) == [("wrong-type", number)]


def test_the_condition_of_each_line_is_part_of_what_a_draft_means() -> None:
    conditions = list(re.finditer(r" when opening is (not )?zip", ONE))
    assert len(conditions) == 5
    texts = [ONE, *(ONE[: each.start()] + ONE[each.end() :] for each in conditions)]
    digests = {found.draft.digest for found in map(compiled, texts) if found.draft is not None}
    assert len(digests) == len(texts)


YOKE = f"""{ONE}
piece lower_back from back
  curve yoke_line = line base.neck down 20cm to base.side down 20cm
  {{}}
end
"""


def test_a_condition_comes_through_an_alteration() -> None:
    text = YOKE.format(
        "divide along yoke_line from centre to outer called yoke_seam, keeping lower"
    )
    for opening, cut in (("none", (1, "centre", False)), ("zip", (2, None, True))):
        (pattern,) = patterns(text, {"opening": opening})
        lower = next(piece for piece in pattern.pieces if piece.name == "lower_back")
        assert (lower.cut.count, lower.cut.fold, lower.cut.mirrored) == cut
        assert {n.name for n in lower.notches if n.edge == "centre"} == (
            {"zip_end"} if opening == "zip" else set()
        )


def test_a_piece_unfolded_over_its_fold_has_none_in_any_case() -> None:
    for opening in ("none", "zip"):
        (pattern,) = patterns(YOKE.format("unfold on centre"), {"opening": opening})
        whole = next(piece for piece in pattern.pieces if piece.name == "lower_back")
        assert (whole.cut.count, whole.cut.fold, whole.cut.mirrored) == (1, None, False)


def test_where_a_seam_is_not_sewn_it_is_not_tried() -> None:
    text = ONE.replace(
        "seam centre_back: back.centre to back.centre",
        "seam centre_back: back.centre to back.upper",
    )
    found = compiled(text)
    assert found.draft is not None
    bodies = [Body("slim", "cm", {"waist_girth": Measured(700.0, "", HERE)}, "test")]
    verdicts = {}
    for opening in ("none", "zip"):
        prepared = prepared_for(bodies, {}, {"opening": opening}, found.draft)
        told_of = proofs(found.draft, found.texts, prepared)
        (verdicts[opening],) = (each.verdict for each in told_of if "centre_back:" in each.text)
    # the sides are 70 and 20 cm long
    assert isinstance(verdicts["none"], NotProved)
    assert isinstance(verdicts["zip"], FailsOn)


def test_fold_none_takes_away_the_fold_of_the_piece_it_is_drafted_from() -> None:
    text = ONE + "\npiece pair from back\n  fold none\nend\npiece copy from pair\nend\n"
    for opening in ("none", "zip"):
        (pattern,) = patterns(text, {"opening": opening})
        pieces = read(pattern)["pieces"]
        for name in ("pair", "copy"):
            assert pieces[name]["cut"] == {
                "count": 2, "cloth": "main", "fold": None, "mirrored": True
            }  # fmt: skip


def test_fold_none_leaves_a_piece_on_no_fold_as_it_is() -> None:
    plain = ONE.replace("  fold centre when opening is not zip\n", "  fold none\n")
    (pattern,) = patterns(f"{plain}\npiece copy from back\n  fold none\nend\n")
    pieces = read(pattern)["pieces"]
    assert [pieces[name]["cut"]["count"] for name in ("back", "copy")] == [1, 1]


def test_a_girth_does_not_count_a_lining() -> None:
    lining = "\npiece lining_back from back\n  cut 1 of lining\nend\n"
    text = ONE.replace("require girth(waist) >= all_round", "let lined = girth(waist)")
    (plain,) = patterns(ONE)
    (lined,) = patterns(text + lining + "require lined <= all_round + 1 mm\n")
    assert lined.girths["waist"] == pytest.approx(plain.girths["waist"])
    assert all(check["ok"] for check in read(lined)["checks"])


def test_a_girth_of_nothing_but_lining_is_that_of_the_lining() -> None:
    (plain,) = patterns(ONE)
    (slip,) = patterns(ONE.replace("cut 1 of main", "cut 1 of lining"))
    assert slip.girths == plain.girths
