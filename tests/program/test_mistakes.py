"""Every mistake of names and types, made once: one message, in its line.

The words themselves stand in base/words.py; here it is held that each is said, once, and where.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from small_recipes import DRESS, HEADING, TOP, WITH_TOP, compiled, faults, told

from godet.base import words
from godet.base.problems import Fix
from godet.graph.node import Graph
from godet.language.library import Library
from godet.language.parser import parse
from godet.program.recipes import typed_program

# a piece with two points, two edges and whatever is put in
PIECE = """\
piece flap
  point a = origin
  point b = a down 9cm
  point c = a outward 4cm
  edge long = line a to b
  edge wide = line a to c
  edge back = line b to c
{}
end
"""


def piece(*lines: str) -> str:
    return HEADING + PIECE.format("\n".join(f"  {line}" for line in lines))


def altered(*lines: str, extra: str = "dart d = on back at midway b and c by 5mm to a") -> str:
    """The piece with a dart in line 10, and one drafted from it, whose own lines begin in 13."""
    own = "".join(f"  {line}\n" for line in lines)
    return f"{piece(extra)}piece lap from flap\n{own}end\n"


def triangle(name: str, edges: tuple[str, str, str]) -> str:
    """As the piece, without a dart, its edges called otherwise; eight lines."""
    return (
        PIECE.format("")
        .replace("flap", name)
        .replace("\n\n", "\n")
        .replace("edge long", f"edge {edges[0]}")
        .replace("edge wide", f"edge {edges[1]}")
        .replace("edge back", f"edge {edges[2]}")
    )


# code: a text with the mistake, the line it is told in
MISTAKES: dict[str, tuple[str, int | None]] = {
    "no-edition": ("recipe a\n", 1),
    "unknown-edition": ("edition 2\nrecipe a\n", 1),
    "dart-needs-edge": (piece("dart d = on a at a by 1cm to c"), 10),
    "alters-nothing": (piece("unfold on long"), 10),
    "altered-twice": (altered("unfold on long", "unfold on wide"), 14),
    "alters-no-such": (altered("unfold on a"), 13),
    "altered-away": (altered("unfold on long", "allow 1cm on long"), 14),
    "swing-needs-name": (altered("swing 1/2 of d to long at midway a and b"), 13),
    "converts-into": (altered("convert d into frills"), 13),
    "convert-needs": (altered("convert d into gathers"), 13),
    "convert-needless": (altered("convert d into pleat over 3cm"), 13),
    "spread-count": (altered("spread long by 1cm in 0 places, hinged on wide"), 13),
    "spread-needs-place": (altered("spread long by 1cm at midway a and b, hinged on wide"), 13),
    "join-needs-edge": (altered("join lap.long to long"), 13),
    "join-corners": (altered("join lip.x to long") + triangle("lip", ("x", "y", "z")), 13),
    "join-darts": (
        altered("join lip.back to back") + triangle("lip", ("long", "wide", "back")),
        13,
    ),
    "corners-unknown": (
        f"{HEADING}piece flap\n  point a = origin\n  edge e = line a to a down 9cm\n"
        "  edge f = line a down 8cm down 1cm to a outward 1cm outward 3cm\n"
        "  edge g = line a outward 4cm to a\nend\n"
        "piece lap from flap\n  unfold on e\nend\n",
        10,
    ),
    "cuts-on-one-edge": (altered("spread long by 1cm in 2 places, hinged on long"), 13),
    "holding-is-cut": (altered("spread long by 1cm in 2 places, hinged on wide holding long"), 13),
    "holding-needed": (altered("spread long by 1cm in 2 places, hinged on wide"), 13),
    "no-such-dart": (altered("convert d into pleat, then convert d into tuck"), 13),
    "unfold-too-few": (
        f"{HEADING}piece flap\n  point a = origin\n  point b = a down 9cm\n"
        "  edge e = line a to b\n  edge f = curve a to b leaving outward\nend\n"
        "piece lap from flap\n  unfold on e\nend\n",
        10,
    ),
    "no-recipe": ("edition 1\n", None),
    "too-many-calls": (
        f"{HEADING}define f0(a: length) = a\n"
        + "".join(
            f"define f{n}(a: length) = f{n - 1}(a + 1cm) + f{n - 1}(2 * a)\n" for n in range(1, 24)
        )
        + "let a = f23(1cm)\n",
        27,
    ),
    "second-recipe": (f"{HEADING}recipe b\n", 3),
    "not-at-top": (f"{HEADING}title \"Front\"\n", 3),
    "not-in-a-piece": (f"{HEADING}piece a\n  dart bust_dart\nend\n", 4),
    "not-in-a-kind": (f"{HEADING}kind k\n  let a = 1cm\nend\n", 4),
    "no-such-end": (f"{HEADING}kind k\n  piece p\n    edge e from the hem\n  end\nend\n", 5),
    "no-such-module": (f"{HEADING}use a from nowhere\n", 3),
    "not-in-module": (f"{HEADING}use ease_at_knee from ease\n", 3),
    "unknown-kind": (f"{HEADING}makes trousers\n", 3),
    "kind-not-kept": (f"{HEADING}makes dress\n", 3),
    "given-twice": (f"{HEADING}let a = 1cm\nlet a = 2cm\n", 4),
    "unknown-name": (f"{HEADING}let a = 1cm + wide\n", 3),
    "unknown-measure": (f"{HEADING}measure hip_grith\n", 3),
    "measure-not-asked": (f"{HEADING}let a = hip_girth\nlet b = bust_girth + hip_girth\n", 3),
    "function-not-used": (f"{HEADING}let a = ease_at_hip(fabric, close)\n", 3),
    "unknown-function": (f"{HEADING}let a = round(1cm)\n", 3),
    "unknown-type": (f"{HEADING}define f(a: number) = 1cm\n", 3),
    "not-a-function": (f"{HEADING}let a = 1cm\nlet b = a(2cm)\n", 4),
    "function-needs-itself": (
        f"{HEADING}define f(a: length) = g(a)\ndefine g(a: length) = f(a)\nlet b = f(1cm)\n",
        3,
    ),
    "wrong-count": (f"{HEADING}let a = sqrt(1cm, 2cm)\n", 3),
    "arguments-do-not-fit": (
        f"{HEADING}define f(a: length) = a\nlet b = f(1cm, more: 2cm)\n",
        4,
    ),
    "cycle": (f"{HEADING}let a = b\nlet b = c\nlet c = a\n", 3),
    "leans-too-deep": (
        HEADING + "".join(f"let a{n} = a{n + 1}\n" for n in range(1001)) + "let a1001 = 1cm\n",
        3 + 1000,
    ),
    "no-such-member": (f"{WITH_TOP}let a = length(top.front.hem)\n", 4),
    "member-not-sure": (f"{WITH_TOP}let a = length(top.front.armhole)\n", 4),
    "no-members": (f"{HEADING}let a = 1cm\nlet b = a.c\n", 4),
    "no-such-property": (f"{HEADING}let a = fabric.colour\n", 3),
    "has-needs-piece": (f"{HEADING}let a = if fabric has nap then 1cm else 2cm\n", 3),
    "edition-not-first": (f"{HEADING}edition 1\n", 3),
    "no-edition-number": (f"{HEADING}define f() = 1cm\ndeprecated f since 1cm until 2\n", 4),
    "deprecates-nothing": (f"{HEADING}deprecated f since 1 until 2\n", 3),
    "deprecated-backwards": (f"{HEADING}define f() = 1cm\ndeprecated f since 2 until 1\n", 4),
    "kind-choice-type": (f"{HEADING}kind k\n  choose a: point\nend\n", 4),
    "kind-is-not": (f"{HEADING}kind a\n  piece p\n    point q\n  end\nend\n"
                    "kind b is a\n  piece p\n    point r\n  end\nend\n", 8),
    "kinds-in-circle": (f"{HEADING}kind a is b\nend\nkind b is a\nend\n", 5),
    "kind-dart-differs": (
        TOP.replace("  level bust",
                    "  dart waist_dart = at underarm by 1cm from underarm up 2cm to centre_waist\n"
                    "  level bust"), 32),
    "no-such-kind-choice": (f"{WITH_TOP}set top.fit = 2cm\n", 4),
    "seam-of-redrawn": (
        f"{WITH_TOP}piece front from top.front\nend\nseam s: front.side to top.front.side\n",
        6,
    ),
    "follows-no-edge": (piece("cut 1 of main").replace("flap\n", "flap follows flap.long\n"), 3),
    "piece-lacks": (
        f"{HEADING}define piece f(base_top: bodice.front) from base_top\nend\npiece q\nend\n"
        "piece p from f(q)\nend\n",
        7,
    ),
    "piece-in-place": (f"{WITH_TOP}piece front\nend\n", 4),
    "blocks-do-not-fit": (f"{HEADING}  takes top: bodice = plain_top(plain_top)\n", 3),
    "argument-named": (f"{HEADING}let a = sin(angle: 20deg)\n", 3),
    "base-is-no-piece": (f"{HEADING}let a = 1cm\npiece p from a\nend\n", 4),
    "bases-do-not-match": (f"{WITH_TOP}piece a, b, c from top.front, top.back\nend\n", 4),
    "not-a-value": (f'{HEADING}let a = "words"\n', 3),
    "let-needs-value": (f"{HEADING}let a = fabric\n", 3),
    "wrong-type": (piece("point d = long down 2cm"), 10),
    "bare-number": (f"{HEADING}measure hip_girth\nlet a = hip_girth / 4 + 2\n", 4),
    "different-dimensions": (f"{HEADING}let a = 1cm + 20deg\n", 3),
    "no-arithmetic": (piece("let d = 2 * a"), 10),
    "points-added": (piece("point d = a + b"), 10),
    "no-such-unit-here": (f"{HEADING}let a = 2 kg\n", 3),
    "exponent-has-unit": (f"{HEADING}let a = 2cm ^ 2cm\n", 3),
    "is-needs-words": (f"{HEADING}let a = if 1cm is close then 1cm else 2cm\n", 3),
    "no-such-word": (
        f"{HEADING}choose fit = one of close, loose\nlet a = if fit is snug then 1cm else 2cm\n",
        4,
    ),
    "branches-differ": (f"{HEADING}let a = if 1 > 2 then 1cm else 2deg\n", 3),
    "first-along-other": (piece("point d = crossing of long with wide first along back"), 10),
    "blend-not-at-joint": (
        piece("edge e = line a to b, then line to c, blended at c over 1cm"),
        10,
    ),
    "whole-needs-edge": (piece("curve e = line a to b", "let d = length(whole(e))"), 11),
    "seam-needs-edge": (f"{piece()}seam s: flap.a to flap.wide\n", 12),
    "match-needs-point": (f"{piece()}seam s: flap.long to flap.wide\nmatch s at flap.long\n", 13),
    "no-such-seam": (f"{piece()}seam s: flap.long to flap.wide after t\n", 12),
    "no-such-level": (f"{HEADING}let a = girth(hip)\n", 3),
    "grain-direction": (piece("grain toward b"), 10),
    "cut-count": (piece("cut 1/2 of main"), 10),
    "default-out-of-range": (f"{HEADING}choose a = 9cm from 1cm to 5cm\n", 3),
    "unknown-unused": (f"{HEADING}find a from 1cm to 5cm so that 2cm = 3cm\n", 3),
    "range-needs-unknown": (
        f"{HEADING}find a from 1cm to b so that a + b = 4cm\n"
        "find b from 1cm to 5cm so that a - b = 2cm\n",
        3,
    ),
    "near-alone": (f"{HEADING}find a from 1cm to 5cm so that a * a = 2cm * 2cm, near 2cm\n", 3),
    "choosing-together": (
        f"{HEADING}find a from 1cm to 5cm so that a * b = 4cm * 1cm\n"
        "find b from 1cm to 5cm so that a - b = 2cm, lowest\n",
        4,
    ),
    "block-missing": (f"{HEADING}takes top: bodice\n", 3),
    "wrong-kind": (f"{HEADING}takes top: bodice = plain_dress\n", 3),
    "pieces-share-name": (f"{WITH_TOP}takes low: bodice = plain_top\n  without low.front\n"
                          "  without low.back\n  without low.pocket\n", 4),
    "blocks-in-circle": (f"{HEADING}takes top: bodice = tried\n", 3),
}  # fmt: skip
# made with what no text can say: see the tests below, of files, and tests/tools/test_choosing.py
ELSEWHERE = {
    "not-text",
    "cannot-read",
    "no-such-block",
    "no-such-choice",
    "choice-not-read",
    # in test_composition.py
    "block-not-read",
    "deprecated",
    "deprecated-gone",
    "file-outside",
    "kind-choice-differs",
    "modules-in-circle",
    "not-used",
    "too-many-blocks",
}


@pytest.mark.parametrize("code", MISTAKES)
def test_a_mistake_is_told_once_and_in_its_line(code: str):
    text, line = MISTAKES[code]
    assert told(compiled(text).problems) == [(code, line)]


def test_no_mistake_of_names_and_types_is_left_out_here():
    source = Path(words.__file__).read_text(encoding="utf-8")
    section = source.split("# --- names and types")[1].split("# --- ")[0]
    codes = set(re.findall(r'^    "([a-z-]+)": \(', section, re.MULTILINE))
    assert codes == set(MISTAKES) | ELSEWHERE


def test_a_folder_in_the_place_of_a_file_is_no_text(tmp_path: Path):
    library = Library(tmp_path)
    assert library.file(tmp_path) is None
    assert [p.code for p in library.problems] == ["cannot-read"]


def test_what_cannot_be_read_is_told_once_however_often_it_is_asked_for(tmp_path: Path):
    library = Library(tmp_path)
    library.file(tmp_path)
    library.file(tmp_path)
    assert len(library.problems) == 1


def test_a_block_that_the_recipe_does_not_take_is_refused():
    made = compiled(WITH_TOP, blocks={"skirt": "plain_top"})
    assert [p.code for p in made.problems] == ["no-such-block"]
    assert "top" in made.problems[0].sentence


def test_a_default_block_that_is_not_there_is_told_where_it_is_named():
    made = compiled(f"{HEADING}takes top: bodice = plain_tpo\n")
    assert told(made.problems) == [("no-such-recipe", 3)]


def applied(text: str, fix: Fix) -> str:
    lines = text.split("\n")
    line, place = lines[fix.place.line - 1], fix.place
    lines[place.line - 1] = (
        line[: place.column - 1] + fix.replacement + line[place.end_column - 1 :]
    )
    return "\n".join(lines)


@pytest.mark.parametrize(
    ("text", "replacement"),
    [
        (f"{HEADING}measure hip_girth\nlet a = hip_girth / 4 + 2\n", "2cm"),
        (f"{HEADING}measure hip_girth\nlet a = hip_girth > 90\n", "90cm"),
        (f"{HEADING}measure hip_girth\nlet a = min(2, hip_girth)\n", "2cm"),
        (f"{HEADING}define f(a: length) = a\nlet b = f(2)\n", "2cm"),
        (f"{HEADING}choose a = 3 from 1cm to 5cm\n", "3cm"),
        (f"{HEADING}find a from 1 to 5cm so that a * a = 6cm * a\n", "1cm"),
        (f"{HEADING}find a from 1cm to 5cm so that 3 = a\n", "3cm"),
        (f"{HEADING}let a = sin(30)\n", "30deg"),
        (piece("point d = a down 3"), "3cm"),
        (piece("allow 1 1/2 on long"), "1 1/2cm"),
        (f"{HEADING}measure hip_girth\nlet wide = 1cm\nlet a = hip_grth + 1cm\n", "hip_girth"),
        (f"{HEADING}measure hip_grth\nlet a = 1cm\n", "hip_girth"),
        (f"{WITH_TOP}let a = length(top.front.sid)\n", "side"),
        (piece("point d = b down 1cm", "edge e = line bb to d", "point bbb = a"), "bbb"),
        (piece("edge e = line a to b, then line to c, blended at c over 1cm"), "b"),
        (f"{piece('level hem = across at b')}let a = girth(hemm)\n", "hem"),
        (f"{WITH_TOP}let a = girth(wasit)\n", "waist"),
        (
            f"{piece()}seam s: flap.long to flap.wide after tt\nseam t: flap.back to flap.wide\n",
            "t",
        ),
        (f"{WITH_TOP}  without topp.pocket\n", "top"),
        ("recipe tried\n", "edition 1\n\n"),
        (f"{HEADING}edition 1\n", ""),
        (f"{HEADING}use usable_stretch from eese\n", "ease"),
        (f"{HEADING}kind k\n  piece p\n    edge e from the centr\n  end\nend\n", "centre"),
        (f"{HEADING}define wide() = 1cm\ndeprecated wdie since 1 until 2\n", "wide"),
        (f"{HEADING}let a = fabric.stretch_accross\n", "stretch_across"),
        (f"{HEADING}kind k\n  choose a: lenght\nend\n", "length"),
        (f"{piece()}let a = length(long)\n", "flap.long"),
        (
            f"{HEADING}define f(a: one of (bound, turned)) = if a is bound then 1cm else 2cm\n"
            'let a = f("turned")\n',
            "turned",
        ),
        (f"{piece()}let a = flap.long.length\n", "length(flap.long)"),
        (f"{WITH_TOP}  without top.poket\n", "pocket"),
        (f"{HEADING}  takes top: bodic = plain_top\n", "bodice"),
        (f"{HEADING}  takes top: bodice without bust_dartt = plain_top\n", "bust_dart"),
        (f"{HEADING}define piece f(upper: bodice.frnt) from upper\nend\n", "bodice.front"),
    ],
)
def test_the_cure_that_is_offered_makes_the_text_right(text: str, replacement: str):
    (problem,) = compiled(text).problems
    assert problem.fix is not None
    assert problem.fix.replacement == replacement
    assert faults(compiled(applied(text, problem.fix)).problems) == []


def test_a_mistake_is_not_told_again_by_all_that_leans_on_it():
    text = f"{HEADING}let a = wide\nlet b = a + 1cm\nlet c = min(a, b) / sqrt(b * b)\n"
    assert told(compiled(text).problems) == [("unknown-name", 3)]


@pytest.mark.parametrize(
    ("line", "told"),
    [("9cm from 1cm to 5cm", "9cm, lies outside its own range of 1cm to 5cm"),
     ("40cm from -20cm to 30cm", "40cm, lies outside its own range of -20cm to 30cm"),
     ("-1 in from 0cm to 4 in", "-1 in, lies outside its own range of 0cm to 4 in")],
)  # fmt: skip
def test_a_default_outside_its_range_is_told_as_it_was_typed(line: str, told: str):
    (problem,) = compiled(f"{HEADING}choose ease = {line}\n").problems
    assert problem.code == "default-out-of-range"
    assert told in problem.sentence


def test_a_blend_of_many_parts_is_told_where_they_meet():
    line = "edge e = line a to b, then line to c, then line to a, blended at a over 1cm"
    (problem,) = compiled(piece(line)).problems
    assert "Parts meet at `b` and `c`." in problem.sentence
    assert problem.fix is None


def test_a_piece_of_the_recipe_without_names_promises_nothing():
    (problem,) = compiled(f"{HEADING}piece flap\nend\nlet a = length(flap.side)\n").problems
    assert problem.sentence == "`flap` has no `side`. It has no names of its own."


@pytest.mark.parametrize(
    ("text", "words"),
    [
        # two pieces have it
        (f"{piece()}piece lap\n  point a = origin\nend\nlet d = distance(a, flap.b)\n", "flap.a"),
        # another piece's name may be a slip for one of this piece's own
        (f"{piece()}piece lap\n  point e = a down 1cm\nend\n", "flap.a"),
        # along or across?
        (f"{HEADING}let a = 1 * fabric.stretch\n", "stretch_along"),
    ],
)
def test_where_more_may_be_meant_nothing_is_changed_by_itself(text: str, words: str):
    (problem,) = faults(compiled(text).problems)
    assert words in problem.sentence
    assert problem.fix is None


def test_a_line_that_drafts_two_pieces_is_told_once():
    text = f"{WITH_TOP}piece front, back from top.front, top.back\n  edge e = base.sid\nend\n"
    assert told(faults(compiled(text).problems)) == [("no-such-member", 5)]


def test_a_name_is_not_meant_by_what_it_needs_itself():
    (problem,) = faults(compiled(f"{HEADING}let side_width = sides_width + 1cm\n").problems)
    assert problem.sentence == "Nothing here is called `sides_width`."


def test_points_that_are_added_are_told_of_midway():
    (problem,) = compiled(piece("point d = a + b")).problems
    assert "midway" in problem.sentence


def test_a_cycle_names_its_path_and_every_stop_on_it():
    text = f"{HEADING}let a = b + 1cm\nlet b = c + 1cm\nlet c = a + 1cm\n"
    (problem,) = compiled(text).problems
    assert problem.sentence == (
        "This goes round in a circle: a needs b needs c needs a. "
        "Let one of them do without the next."
    )
    assert [note.place and note.place.line for note in problem.notes] == [3, 4, 5]


@pytest.mark.parametrize(
    ("extra", "path"),
    [
        ("point d = a outward width(flap, hip)\n  edge e = line c to d\n  level hip = across at b",
         "flap.d needs flap.e needs flap.d"),
        ("point d = a outward girth(hip)\n  edge e = line c to d\n  level hip = across at b",
         "flap.d needs flap.e needs flap.d"),
        ("level hip = across at d\n  point d = a down width(flap, hip)",
         "flap.d needs flap.hip needs flap.d"),
    ],
)  # fmt: skip
def test_a_width_that_needs_itself_is_a_cycle_too(extra: str, path: str):
    (problem,) = compiled(piece(extra)).problems
    assert problem.code == "cycle"
    stops = path.split(" needs ")[:-1]
    around = [" needs ".join([*stops[n:], *stops[:n], stops[n]]) for n in range(len(stops))]
    assert any(way in problem.sentence for way in around), problem.sentence


def test_two_mistakes_that_have_nothing_to_do_with_each_other_are_both_told():
    text = f"{HEADING}let a = 1cm + 20deg\nlet b = wide\n"
    assert told(compiled(text).problems) == [("different-dimensions", 3), ("unknown-name", 4)]


@pytest.mark.parametrize(
    "line",
    ["let fabric = 2cm", "use usable_stretch from ease\nlet usable_stretch = 2cm",
     "piece a\n  point origin = origin down 2cm\nend", "measure hip_girth, hip_girth",
     "seam s: a.b to a.c\nseam s: a.b to a.c\npiece a\n  edge b = line origin to d\n"
     "  edge c = line d to origin\n  point d = origin down 2cm\nend",
     "use usable_stretch from ease\nuse usable_stretch from ease"],
)  # fmt: skip
def test_nothing_is_given_twice_in_silence(line: str):
    assert [p.code for p in compiled(f"{HEADING}{line}\n").problems] == ["given-twice"]


@pytest.mark.parametrize(("first", "code"), [("", "no-edition"), ("edition 9", "unknown-edition")])
def test_a_module_of_no_or_another_edition_is_told_in_its_own_file(first: str, code: str):
    beside = {"widths.godet": f"{first}\ndefine wide() = 3cm\n"}
    (problem,) = compiled(
        f"{HEADING}use wide from widths\nlet a = wide()\n", beside=beside
    ).problems
    assert problem.code == code
    assert problem.place is not None
    assert problem.place.file.endswith("widths.godet")


def test_functions_of_functions_do_not_double_the_work_with_every_step():
    lines = "".join(f"define f{n}(a: length) = f{n - 1}(a) + f{n - 1}(a)\n" for n in range(1, 60))
    text = f"{HEADING}define f0(a: length) = a\n{lines}let b = f59(1cm)\n"
    assert faults(compiled(text).problems) == []


def test_a_range_of_two_sorts_is_told_once_and_not_wherever_the_unknown_is_used():
    text = "find share from 0cm to 150 % so that share * 2 = 1\nlet a = 1cm + share * 2cm\n"
    assert told(compiled(f"{HEADING}{text}").problems) == [("wrong-type", 3)]


def test_a_choice_that_is_wrong_is_not_said_to_be_missing_too():
    text = (
        f"{HEADING}  makes measured\nuse measured from own\nchoose long = wide from 1cm to 9cm\n"
        "piece a\n  point p = origin down 10cm\n  edge left = line origin to p\nend\n"
        "let b = long\n"
    )
    kind = "edition 1\nkind measured\n  piece a\n    edge left\n  end\n  choose long: length\nend\n"
    assert told(compiled(text, beside={"own.godet": kind}).problems) == [("unknown-name", 5)]


def test_a_parameter_given_twice_is_told_at_the_definition_and_not_at_each_call():
    text = "define twice(a: length, a: length) = a + 1cm\nlet b = twice(1cm, 2cm)\n"
    assert told(compiled(f"{HEADING}{text}").problems) == [("given-twice", 3)]
    beside = {"own.godet": "edition 1\ndefine twice(a: length, a: length) = a + 1cm\n"}
    used = compiled(f"{HEADING}use twice from own\nlet b = twice(1cm, 2cm)\n", beside=beside)
    assert told(used.problems) == [("given-twice", 2)]


def test_a_module_is_checked_without_a_recipe():
    text = "edition 1\ndefine f(a: length) = a + 20deg\n"
    assert told(compiled(text).problems) == [("different-dimensions", 2)]


def test_the_dress_and_its_top_are_right():
    assert compiled(DRESS).problems == ()


def test_a_name_that_only_the_last_thousand_know_can_be_followed():
    text = HEADING + "".join(f"let a{n} = a{n + 1} + 1cm\n" for n in range(900)) + "let a900 = 0cm"
    assert faults(compiled(text).problems) == []


def test_a_typed_program_needs_no_block_and_no_body(tmp_path: Path):
    text = f"{HEADING}takes top: bodice\nlet a = width(top.front, waist)\n"
    file, _ = parse(text, "tried.godet")
    program, problems = typed_program(file, Library(tmp_path), Graph())
    assert faults(problems) == []
    assert program is not None
    assert set(program.lets) == {"a"}


def test_a_point_that_is_wrong_is_not_also_missed_by_the_kind():
    text = DRESS.replace("inward 2cm", "inward 2")
    assert text != DRESS
    assert [code for code, _ in told(compiled(text).problems)] == ["bare-number"]
