"""The one layout: what it looks like, and that it never changes what a text says.

Layout is ours, so what is expected is this project's own; that nothing is lost is checked against
the parser and the tokens, on the shipped texts mangled at random.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from hypothesis.extra.lark import from_lark
from lark import Lark

from godet.base.shipped import shipped
from godet.language import formatting
from godet.language.columns import WIDEST_GAP, WIDTH
from godet.language.formatting import formatted
from godet.language.grammar import built, grammar_text
from godet.language.parser import parse
from godet.language.tokens import COMPASS, tokens_of

SHIPPED = sorted(path for room in ("stdlib", "recipes") for path in shipped(room).glob("*.godet"))
SMALL = sorted(Path(__file__).parents[1].joinpath("small_library").glob("*.godet"))


def laid_out(text: str) -> str:
    new = formatted(text, "a.godet")
    assert new.text is not None, new.problems
    return new.text


@pytest.mark.parametrize("path", [*SHIPPED, *SMALL], ids=lambda path: path.name)
def test_what_is_shipped_is_in_the_one_layout(path: Path):
    text = path.read_text(encoding="utf-8")
    assert laid_out(text) == text


# --- what it looks like --------------------------------------------------------------------------

GOLDEN = [
    (
        "alterations stand a step a row; a dart goes on behind a comma",
        "edition 1\nrecipe a\npiece p from b\ndart c = on hem at q by 3cm to r\n"
        "dart longer = on hem at along hem from centre_hem by 9cm + hip_girth / 40 by 3cm,"
        "to hip_point stopping 2cm pressed inward\n"
        "swing c to side at along side from hem_side by 50 %, then spread hem by 2cm in 3 "
        "places,hinged on side at q\nend\n",
        "edition 1\nrecipe a\npiece p from b\n  dart c      = on hem at q by 3cm to r\n"
        "  dart longer = on hem at along hem from centre_hem by 9cm + hip_girth / 40 by 3cm,\n"
        "      to hip_point stopping 2cm pressed inward\n"
        "  swing c to side at along side from hem_side by 50 %,\n"
        "      then spread hem by 2cm in 3 places, hinged on side at q\nend\n",
    ),
    (
        "the heading of a recipe and its blocks are indented",
        'edition 1\nrecipe a\ntakes top:bodice=knit_tee\n"words"\npiece p from top.front\n'
        "point q=origin down 2cm\nend\n",
        "edition 1\nrecipe a\n  takes top: bodice = knit_tee\n"
        '  "words"\npiece p from top.front\n  point q = origin down 2cm\nend\n',
    ),
    (
        "what is given stands one below the other, up to the next blank line",
        "edition 1\nrecipe a\nlet b = 1cm\nlet longer = 2cm\n\nlet the_longest = 3cm\n",
        "edition 1\nrecipe a\nlet b      = 1cm\nlet longer = 2cm\n\nlet the_longest = 3cm\n",
    ),
    (
        "brackets, dots, commas and minus signs stand close",
        "edition 1\nrecipe a\n"
        "let b = max ( - 2cm ,length( top . front . side ) ) - 1cm*( 2 - 1 )\n\n"
        "let c = - ( b )\n",
        "edition 1\nrecipe a\nlet b = max(-2cm, length(top.front.side)) - 1cm * (2 - 1)\n\n"
        "let c = -(b)\n",
    ),
    (
        "a move by less than nothing is no difference",
        "edition 1\nrecipe a\npiece p\npoint q = origin down - 2cm outward b - 2cm\nend\n",
        "edition 1\nrecipe a\npiece p\n  point q = origin down -2cm outward b - 2cm\nend\n",
    ),
    (
        "a long chain is laid a step a row",
        "edition 1\nrecipe a\npiece p\nedge side = base.side until side_waist, then curve to "
        "hip_side arriving down, then line to hem_side, blended at side_waist over 8cm\nend\n",
        "edition 1\nrecipe a\npiece p\n  edge side = base.side until side_waist,\n"
        "      then curve to hip_side arriving down,\n      then line to hem_side,\n"
        "      blended at side_waist over 8cm\nend\n",
    ),
    (
        "the words of a check and of a function stand below it",
        'edition 1\nrecipe a\ndefine half(b: length) = b / 2 "half"\n'
        'require b > 2cm "too narrow"\n',
        "edition 1\nrecipe a\ndefine half(b: length) = b / 2\n"
        '  "half"\nrequire b > 2cm\n  "too narrow"\n',
    ),
    (
        "the words of choices stand in a column if all have room there",
        "edition 1\nrecipe a\nchoose fit = one of close, loose\n"
        '"how near"\nchoose longer = 3cm from -10cm to 5cm "how wide"\n',
        'edition 1\nrecipe a\nchoose fit    = one of close, loose   "how near"\n'
        'choose longer = 3cm from -10cm to 5cm "how wide"\n',
    ),
    (
        "and on the row below if one has none; their ranges stand in columns all the same",
        'edition 1\nrecipe a\nchoose b = 3cm from -1cm to 5cm "short"\n'
        f'choose longer = 10cm + 2cm from 0cm to 5cm "{"long " * 12}"\n',
        'edition 1\nrecipe a\nchoose b      = 3cm        from -1cm to 5cm\n  "short"\n'
        f'choose longer = 10cm + 2cm from 0cm  to 5cm\n  "{"long " * 12}"\n',
    ),
    (
        "what a kind's members may have stands in a column, and so do comments",
        "edition 1\nkind k\npiece p\npoint a, b\npoint c optional # may be missing\n"
        "level waist # all round\nedge neck, side from the top\nend\nend\n",
        "edition 1\nkind k\n  piece p\n    point a, b\n"
        "    point c         optional  # may be missing\n"
        "    level waist               # all round\n    edge neck, side from the top\n"
        "  end\nend\n",
    ),
    (
        "no column opens a gap that the eye can't cross",
        f"edition 1\nrecipe a\nlet b = 1cm\nlet {'c' * 40} = 1cm\nlet d = 1cm\nlet ee = 1cm\n",
        f"edition 1\nrecipe a\nlet b = 1cm\nlet {'c' * 40} = 1cm\nlet d  = 1cm\nlet ee = 1cm\n",
    ),
    (
        "no column pushes out of its row what has room in it",
        f"edition 1\nrecipe a\nlet longer = 1cm\nlet b = {'c' * 90}\n",
        f"edition 1\nrecipe a\nlet longer = 1cm\nlet b = {'c' * 90}\n",
    ),
    (
        "the arguments of a call too long for its row stand a row each, those of a list fill rows",
        f"edition 1\nrecipe a\nlet b = max({'c' * 40}, {'d' * 40}, min(1cm, 2cm), 3cm)\n"
        f"measure {'e' * 40}, {'f' * 40}, {'g' * 40}, h\n",
        f"edition 1\nrecipe a\nlet b = max({'c' * 40},\n    {'d' * 40},\n    min(1cm, 2cm),\n"
        f"    3cm)\nmeasure {'e' * 40}, {'f' * 40},\n    {'g' * 40}, h\n",
    ),
    (
        "blank lines are kept, but one of several, and none where a block begins or ends",
        "\n\nedition 1\n\n\n\nrecipe a\npiece p\n\npoint q = origin\n\nend\n\n\n",
        "edition 1\n\nrecipe a\npiece p\n  point q = origin\nend\n",
    ),
    (
        "comments stay with what they stand at",
        "edition 1 # first\nrecipe a\n# of the piece\npiece p#open\n    # of the point\n"
        "point q = origin\n      # last of the piece\nend # closed\n# last\n",
        "edition 1  # first\nrecipe a\n# of the piece\npiece p  # open\n".replace("# open", "#open")
        + "  # of the point\n  point q = origin\n  # last of the piece\nend  # closed\n# last\n",
    ),
    (
        "a comment within a statement that goes on stays at its comma",
        "edition 1\nrecipe a\nuse b, # the one\nc from d # both\n",
        "edition 1\nrecipe a\nuse b,  # the one\n    c from d  # both\n",
    ),
    (
        "a comment below a statement that ends in a comma and is whole stays below it",
        "edition 1\nkind k\npiece p\nedge e from the top, # of e\n# of f\nedge f\nend\nend\n",
        "edition 1\nkind k\n  piece p\n    edge e from the top,  # of e\n    # of f\n"
        "    edge f\n  end\nend\n",
    ),
    (
        "words that a comment parts from their statement stand below it all the same",
        'edition 1\ndefine f(a: length) = a # why\n"words"\n',
        'edition 1\ndefine f(a: length) = a  # why\n  "words"\n',
    ),
]


@pytest.mark.parametrize(("text", "expected"), [g[1:] for g in GOLDEN], ids=[g[0] for g in GOLDEN])
def test_a_text_is_laid_out(text: str, expected: str):
    assert laid_out(text) == expected
    assert laid_out(expected) == expected


def test_a_text_that_does_not_parse_is_handed_back_with_its_problems():
    new = formatted("edition 1\nrecipe a\nlet b = = 2cm\n", "a.godet")
    assert new.text is None
    assert [found.place and found.place.line for found in new.problems] == [3]


# --- what it never does --------------------------------------------------------------------------


def meaning(text: str) -> str:
    """The tree without its places."""
    file, problems = parse(text, "a.godet")
    assert problems == ()
    return re.sub(r"place=Place\([^)]*\)", "", repr(file))


def comments(text: str) -> list[tuple[str, int, bool]]:
    """Each comment, how many words of the text stand before it, and whether it begins its row."""
    found: list[tuple[str, int, bool]] = []
    before = 0
    for row in text.split("\n"):
        for number, token in enumerate(tokens_of(row)):
            if token.type == "COMMENT":
                found.append((str(token).rstrip(), before, number == 0))
            else:
                before += 1
    return found


@st.composite
def mangled(draw: st.DrawFn) -> str:
    """A shipped text with its white space changed, comments put in and lines carried on."""
    text = draw(st.sampled_from([*SHIPPED, *SMALL])).read_text(encoding="utf-8")
    rows: list[str] = []
    tokens = [t for t in tokens_of(text) if t.type != "COMMENT"]
    start = draw(st.integers(0, 40))
    row = ""
    for number, token in enumerate(tokens):
        if token.type == "NEWLINE":
            rows.append(row)
            row = ""
            if number % 7 == start % 7:
                rows.append(draw(st.sampled_from(["", "  ", "# put in", "\t # put in too"])))
            continue
        space = " " if not row or number % 5 else draw(st.sampled_from([" ", "  ", "\t"]))
        row += space + str(token)
        follows = tokens[number + 1].type if number + 1 < len(tokens) else "NEWLINE"
        if token.type == "COMMA" and follows != "NEWLINE" and draw(st.integers(0, 9)) == 0:
            rows.append(row + draw(st.sampled_from(["", "# here", "\n\n", "\n# between"])))
            row = ""
    return "\n".join([*rows, row])


@given(text=mangled())
@settings(max_examples=40, deadline=None)
def test_only_white_space_changes_and_the_layout_is_its_own(text: str):
    new = laid_out(text)
    assert meaning(new) == meaning(text)
    assert comments(new) == comments(text)
    assert laid_out(new) == new
    assert not re.search(r"[ \t]$", new, re.MULTILINE)


def said(lark: Lark) -> st.SearchStrategy[str]:
    """Any one line that the grammar can make, whatever constructs it has."""
    some = {
        "NAME": ["a", "side_neck", "a_name_that_takes_much_room_of_its_row"],
        "NUMBER": ["2cm", "14 3/8 in", "1/3"],
        "TEXT": ['"words"', f'"{"so many words that no row has room for them " * 3}"'],
        "COMPASS": sorted(COMPASS),
    }
    words = {t.name: some.get(t.name) or [t.pattern.value] for t in lark.terminals}
    spaced = {
        name: st.sampled_from([f" {word} " for word in each])
        for name, each in (words | some).items()
    }
    return from_lark(lark, start="start", explicit=spaced)


@given(
    rows=st.lists(said(built(grammar_text())), min_size=1, max_size=3),
    comma=st.sampled_from([",", ",\n", ", # goes on\n", ",\n# between\n\n"]),
    end=st.sampled_from(["\n", " # behind\n", "\n# below\n", "\n\n"]),
)
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
def test_whatever_the_grammar_takes_is_laid_out(rows: list[str], comma: str, end: str):
    text = end.join([*(row.replace(",", comma) for row in rows), ""])
    assume(parse(text, "a.godet")[1] == ())
    new = laid_out(text)
    assert meaning(new) == meaning(text)
    assert comments(new) == comments(text)
    assert laid_out(new) == new


NAMES = st.integers(1, 45).map(lambda length: "n" * length)
NEIGHBOURS = {
    "let": st.builds("let {} = {}".format, NAMES, NAMES),
    "choose": st.builds("choose {} = {} from {} to {}{}".format, *[NAMES] * 4, st.sampled_from(
        ["", ' "some words"', ' "words, a good deal more of them, of which not one is needed"']
    )),
    "member": st.builds("{} {}{}".format, st.sampled_from(["point", "level", "dart"]), NAMES,
                        st.sampled_from(["", " optional"])),
}  # fmt: skip
BEHIND = st.sampled_from(["", "", " # a remark", "\n# a row of its own"])


def overlong(text: str) -> int:
    """How many rows are too long, comments behind them left out."""
    return sum(len(row.partition("#")[0].rstrip()) > WIDTH for row in text.split("\n"))


@given(data=st.data(), sort=st.sampled_from(sorted(NEIGHBOURS)))
@settings(max_examples=40, deadline=None)
def test_columns_are_narrow_and_push_nothing_out_of_its_row(data: st.DataObject, sort: str):
    neighbour = st.builds(str.__add__, NEIGHBOURS[sort], BEHIND)
    rows = data.draw(st.lists(neighbour, min_size=2, max_size=5))
    new = laid_out("\n".join(rows))
    assert laid_out(new) == new
    assert comments(new) == comments("\n".join(rows))
    # a comment stands two spaces behind its row, all else one
    assert not re.search(rf"\S {{{WIDEST_GAP + 3},}}\S", new)
    # parted by blank lines they are no neighbours
    assert overlong(new) == overlong(laid_out("\n\n".join(rows)))


def test_words_that_are_a_value_stay_where_they_are():
    text = f'edition 1\ndefine long() = "{"a" * 120}"\n'
    assert laid_out(text) == text


@given(text=mangled())
@settings(max_examples=10, deadline=None)
def test_texts_that_differ_in_spaces_alone_are_laid_out_alike(text: str):
    other = "\n".join(re.sub(r"^[ \t]+", "     ", row) for row in text.split("\n"))
    assert laid_out(other) == laid_out(text)


def test_a_layout_that_would_lose_a_line_is_not_handed_back(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(formatting, "rows_of", lambda _text: ["edition 1", "recipe a"])
    new = formatted("edition 1\nrecipe a\nlet b = 1cm\n", "a.godet")
    assert (new.text, [found.code for found in new.problems]) == (None, ["layout-would-change"])
