"""Reading texts that are wrong: each mistake is told once, in its place, and costs only itself."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from places import outside
from small_recipes import DRESS, HEADING, SMALL_LIBRARY, TOP, compiled, told

from godet.language import tree
from godet.language.parser import DEEPEST, parse
from godet.language.tokens import cut_lines
from godet.tools.compiling import compile_recipe


def names_of(file: tree.File) -> list[str]:
    return [s.name.text for s in file.statements if isinstance(s, tree.Let)]


@pytest.mark.parametrize(
    ("text", "code", "column"),
    [
        ("lett a = 2cm", "no-such-statement", 1),
        ("let a = 2cm & 3cm", "unreadable-character", 13),
        ('title "never closed', "quote-not-closed", 7),
        ("title “Front”", "other-quotes", 7),
        ("let a = 8,5cm", "decimal-comma", 9),
        ("let a = 3/0 cm", "unreadable-character", 9),
        ("let a =", "line-stops-short", 7),
        ("edge e = base.e until p,", "line-stops-short", 24),
        ("makes dress now", "line-goes-on", 13),
        ("let from = 2cm", "word-is-no-name", 5),
        ("let a == 2cm", "unexpected", 8),
        ("end", "stray-end", 1),
        ("piece front", "missing-end", 1),
        ("kind bodice", "missing-end", 1),
        ("define measure hip_girth", "missing-end", 1),
        ("let a = " + "-" * DEEPEST + "2cm", "nested-too-deep", 1),
        ("let a = 2cm" + " + 2cm" * DEEPEST, "nested-too-deep", 1),
    ],
)
def test_a_broken_line_is_told_once_where_it_breaks(text: str, code: str, column: int):
    _, problems = parse(text, "dress.godet")
    assert [(p.code, p.place and p.place.column) for p in problems] == [(code, column)]


def test_brackets_as_deep_as_one_likes_nest_nothing():
    file, problems = parse("let a = " + "(" * 5000 + "2cm" + ")" * 5000, "dress.godet")
    assert problems == ()
    assert names_of(file) == ["a"]


def test_a_broken_line_never_takes_a_good_one_with_it():
    file, problems = parse("let a = 1cm\nlet b = )\nlet c = 3cm\n", "dress.godet")
    assert names_of(file) == ["a", "c"]
    assert told(problems) == [("unexpected", 2)]


@pytest.mark.parametrize(
    ("text", "cured"),
    [
        ("grain dwn", "grain down"),
        ("level hip = acros at p", "level hip = across at p"),
        ("use ease_at_hip form ease", "use ease_at_hip from ease"),
        ("choose fit = on of close, easy", "choose fit = one of close, easy"),
        ("seam side front.side to back.side", "seam side: front.side to back.side"),
        ("cut 2 main", "cut 2 of main"),
        ("let side-seam-length = 40cm", "let side_seam_length = 40cm"),
        ("recipe my summer dress", "recipe my_summer_dress"),
        ("point side seam = origin", "point side_seam = origin"),
        ("edge top-edge = line a to b", "edge top_edge = line a to b"),
        ("title “Front of the bodice”", 'title "Front of the bodice"'),
        ("title „don’t cut“", 'title "don’t cut"'),
        ('title "Front', 'title "Front"'),
        ("let lean = 45°", "let lean = 45deg"),
        ("let width = 3cm × 2", "let width = 3cm * 2"),
        ("let width = 9½ in", "let width = 9 1/2 in"),
        ("let width = ¾ in", "let width = 3/4 in"),
        ("end", ""),
    ],
)
def test_a_slip_that_can_be_cured_is_cured(text: str, cured: str):
    (problem,) = parse(text, "dress.godet")[1]
    assert problem.fix is not None
    place = problem.fix.place
    at = text[: place.column - 1] + problem.fix.replacement + text[place.end_column - 1 :]
    assert at == cured
    assert parse(at, "dress.godet")[1] == ()


@pytest.mark.parametrize(
    "line",
    [
        "find a from 1cm to 3cm that a = b",  # `so` is missing; `at` is not meant
        "let a = sin 30deg",
        "point a down 3cm",
        'title "Front # of the bodice',  # a comment, or words?
        "title “Front",
        "let a = 2cm;",
    ],
)
def test_what_may_have_been_meant_otherwise_is_left_to_the_maker(line: str):
    (problem,) = parse(line, "dress.godet")[1]
    assert problem.fix is None


def test_a_word_of_the_language_that_is_given_as_a_name_is_told_once():
    text = "let first = 1cm\nlet a = first\npoint first = origin\nlet b = 2cm\nlet over = 3cm\n"
    _, problems = parse(text, "dress.godet")
    assert told(problems) == [("word-is-no-name", 1), ("word-is-no-name", 5)]
    assert [note.place and note.place.line for note in problems[0].notes] == [2, 3]


def test_none_may_be_a_word_to_choose():
    text = (
        "edition 1\nrecipe a\nchoose closure = one of none, zip, buttons\n"
        "define wide(how: one of (none, zip) = none) = if how is none then 1cm else 2cm\n"
        "let a = if closure is not none then wide(none) else wide(how: none) + wide()\n"
        "let b = if closure is none then a else 2cm\nadvise b > 1cm\n"
    )
    assert compiled(text).problems == ()


@pytest.mark.parametrize(
    "line", ["let none = 2cm", "let a = none", "point none = origin", "measure none"]
)
def test_none_is_no_name(line: str):
    assert [p.code for p in parse(line, "dress.godet")[1]] == ["word-is-no-name"]


def test_a_comma_too_many_does_not_swallow_the_next_statement():
    file, problems = parse("measure hip_girth,\nlet a = 1cm\n", "dress.godet")
    assert names_of(file) == ["a"]
    assert told(problems) == [("line-stops-short", 1)]


@pytest.mark.parametrize("heading", ["piece front form top.front", "piece", "piece 2"])
def test_a_block_with_a_broken_heading_keeps_its_end(heading: str):
    text = f"{heading}\n  point p = origin down 2cm\nend\nlet a = 1cm\n"
    file, problems = parse(text, "dress.godet")
    assert len(problems) == 1
    assert names_of(file) == ["a"]


def test_a_piece_left_open_ends_where_something_stands_that_no_piece_holds():
    text = "piece front\n  point p = origin\npiece back\nend\nchoose a = 1cm\n"
    file, problems = parse(text, "dress.godet")
    assert told(problems) == [("missing-end", 1)]
    assert problems[0].notes[0].place is not None
    assert problems[0].notes[0].place.line == 3
    assert [type(s) for s in file.statements] == [tree.Piece, tree.Piece, tree.Choose]


def test_a_piece_left_open_in_a_kind_is_told_once_and_the_kind_goes_on():
    file, problems = parse(
        "kind k\n  piece front\n    point a\n  piece back\n    point b\n  end\nend\n", "k.godet"
    )
    assert told(problems) == [("missing-end", 2)]
    (kind,) = file.statements
    assert isinstance(kind, tree.Kind)
    assert len(kind.body) == 2


@pytest.mark.parametrize(
    ("line", "where"),
    [
        ("choose wide = 2cm from 1cm to 5cm", "recipe's level"),
        ("measure wide", "recipe's level"),
        ("dart wide", "line of a kind"),
        ('means "how wide"', "define measure"),
    ],
)
def test_a_line_in_a_piece_that_belongs_elsewhere_leaves_the_piece_whole(line: str, where: str):
    text = (
        f"edition 1\nrecipe a\npiece front\n  point p = origin\n  {line}\n"
        "  point q = p down 2cm\nend\npiece back\n  point p = origin\nend\n"
        "let b = distance(front.q, back.p)\n"
    )
    made = [p for p in compiled(text).problems if p.code != "not-used"]
    assert told(made) == [("not-in-a-piece", 5)]
    assert where in made[0].sentence


def test_a_choice_put_in_a_piece_is_not_missed_where_it_is_used():
    text = (
        "edition 1\nrecipe a\npiece front\n  point p = origin\n  choose wide = 2cm\n"
        "  point q = p down wide\nend\nadvise distance(front.p, front.q) > wide\n"
    )
    assert told(compiled(text).problems) == [("not-in-a-piece", 5)]


def test_a_check_in_a_kind_leaves_the_kind_whole():
    text = (
        'edition 1\nkind k\n  piece p\n    point a\n    require 1 > 0\n      "words"\n'
        "    point b\n  end\nend\n"
    )
    assert told(compiled(text).problems) == [("not-in-a-kind", 5)]


def test_an_end_too_many_is_told_where_it_stands():
    _, problems = parse("piece front\nend\nend\nlet a = 1cm\n", "dress.godet")
    assert told(problems) == [("stray-end", 3)]


def test_names_that_a_broken_line_would_have_given_are_not_missed_aloud():
    text = (
        "edition 1\nrecipe a\nlet wide = \nlet wider = wide + 1cm\npiece front\n"
        "  point p = origin dwn 2cm\n  point q = p down 2cm\nend\n"
        "let apart = distance(front.p, front.q)\n"
    )
    assert told(compiled(text).problems) == [("line-stops-short", 3), ("out-of-place", 6)]


def test_a_broken_heading_is_told_once():
    broken = DRESS.replace("piece front, back from", "piece front, back form")
    line = DRESS[: DRESS.index("piece front, back")].count("\n") + 1
    assert told(compiled(broken).problems) == [("out-of-place", line)]
    broken = DRESS.replace("recipe plain_dress", "recipe plain dress")
    assert told(compiled(broken).problems) == [("line-goes-on", 3)]


def test_six_mistakes_give_six_messages_at_their_lines():
    text = DRESS
    for right, wrong in {
        "use usable_stretch,": "use usable_strech,",
        "= 60cm from 30cm": "= 60 from 30cm",
        "point hem_side   = hip_side down": "point hem_side   = hip_sid down",
        "level hip = across at": "level hip = acros at",
        "allow 3cm on bottom": "allow 3cm on botom",
        "usable_stretch(fabric))": "usable_stretch(hip_girth)",
    }.items():
        assert text.count(right) == 1
        text = text.replace(right, wrong)
    lines = {w: n for n, line in enumerate(text.splitlines(), 1) for w in line.split()}
    assert sorted(told(compiled(text).problems), key=lambda p: p[1] or 0) == [
        ("not-in-module", lines["usable_strech,"]),
        ("bare-number", lines["skirt_length"]),
        ("unknown-name", lines["hip_sid"]),
        ("unexpected", lines["acros"]),
        ("unknown-name", lines["botom"]),
        ("line-stops-short", lines["usable_stretch(hip_girth)"]),
    ]


@settings(max_examples=150, deadline=None)
@given(st.text())
def test_any_text_reads_without_a_crash(text: str):
    _, problems = parse(text, "any.godet")
    assert outside(text, problems) == []


WORDS = (
    "piece kind define measure end let point edge = , : . ( ) + - * / ^ from to of at by over "
    'on in the then until front back 2cm 1/3 12 % 14 3/8 in "words" a b if else is has \n'
).split(" ")


@settings(max_examples=300, deadline=None)
@given(st.lists(st.sampled_from(WORDS), max_size=40))
def test_any_words_of_the_language_read_without_a_crash(words: list[str]):
    text = " ".join(words)
    _, problems = parse(text, "any.godet")
    assert outside(text, problems) == []


TOKENS = [str(token) for line in cut_lines(DRESS) for token in (*line.tokens, "\n")]


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """The dress with tokens deleted, doubled or swapped, or cut off in the middle."""
    tokens = list(TOKENS)
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(tokens) - 2))
        match draw(st.sampled_from(["delete", "double", "swap", "cut"])):
            case "delete":
                del tokens[at]
            case "double":
                tokens.insert(at, tokens[at])
            case "swap":
                tokens[at], tokens[at + 1] = tokens[at + 1], tokens[at]
            case _:
                tokens = tokens[: max(at, 2)]
        if len(tokens) < 3:
            break
    return " ".join(tokens)


@settings(max_examples=120, deadline=None)
@given(mutated())
def test_a_recipe_with_slips_of_the_hand_is_read_and_typed_without_a_crash(text: str):
    _, problems = parse(text, "dress.godet")
    assert outside(text, problems) == []
    compiled(text)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, len(TOP)))
def test_a_recipe_cut_off_anywhere_is_read_and_typed_without_a_crash(end: int):
    _, problems = parse(TOP[:end], "top.godet")
    assert outside(TOP[:end], problems) == []
    compiled(TOP[:end])


def test_a_mark_of_byte_order_at_the_start_of_a_file_is_no_character_of_it():
    text = (SMALL_LIBRARY / "plain_top.godet").read_text(encoding="utf-8")
    assert compiled("\ufeff" + text).problems == ()


def test_a_module_that_is_no_text_is_refused_by_name(tmp_path: Path):
    (tmp_path / "colours.godet").write_bytes("define grün() = 1cm".encode("latin-1"))
    (tmp_path / "a.godet").write_text("edition 1\nrecipe a\nuse b from colours\n")
    (problem,) = compile_recipe(str(tmp_path / "a.godet")).problems
    assert problem.code == "not-text"
    assert "colours.godet" in problem.sentence


def test_a_word_of_the_language_taken_for_a_name_is_told_once():
    text = (
        f"{HEADING}piece flap\n  point square = origin\n  point b = square down 2cm\n"
        "  edge a = line square to b\nend\n"
    )
    assert told(compiled(text).problems) == [("word-is-no-name", 4)]
