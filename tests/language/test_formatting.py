"""The one layout: what it looks like, and that it never changes what a text says.

Layout is ours, so what is expected is this project's own; that nothing is lost is checked against
the parser and the tokens, on the shipped texts mangled at random.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from godet.base.shipped import shipped
from godet.language.formatting import formatted
from godet.language.parser import parse
from godet.language.tokens import tokens_of

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
        "let b = max ( - 2cm ,length( top . front . side ) ) - 1cm*( 2 - 1 )\n",
        "edition 1\nrecipe a\nlet b = max(-2cm, length(top.front.side)) - 1cm * (2 - 1)\n",
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
        "the words of a check stand below it, those of a choice where there is room",
        'edition 1\nrecipe a\nrequire b > 2cm "too narrow"\nchoose b = 3cm\n"how wide"\n',
        'edition 1\nrecipe a\nrequire b > 2cm\n  "too narrow"\nchoose b = 3cm "how wide"\n',
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


def comments(text: str) -> list[str]:
    return [str(t).rstrip() for t in tokens_of(text) if t.type == "COMMENT"]


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


@given(text=mangled())
@settings(max_examples=10, deadline=None)
def test_texts_that_differ_in_spaces_alone_are_laid_out_alike(text: str):
    other = "\n".join(re.sub(r"^[ \t]+", "     ", row) for row in text.split("\n"))
    assert laid_out(other) == laid_out(text)
