"""What a maker chose, as text: read in any unit, refused with what would do."""

from __future__ import annotations

import math

import pytest
from small_recipes import DRESS, HEADING, draft

from godet.base.places import Place
from godet.tools.choosing import chosen

ALL = draft(
    f"{HEADING}choose hem = 3cm from 1cm to 9cm\nchoose slant = 20deg\nchoose share = 1/3\n"
    "choose fit = one of close, loose\n"
)
PLACE = Place("order.yaml", 5, 12, 5, 20)


@pytest.mark.parametrize(
    ("name", "text", "number"),
    [
        ("hem", "62 cm", 620.0),
        ("hem", "14 3/8 in", 365.125),
        ("hem", " 5mm ", 5.0),
        ("hem", "-2cm", -20.0),
        ("slant", "90deg", math.pi / 2),
        ("share", "1/4", 0.25),
        ("share", "88 %", 0.88),
        ("fit", "loose", "loose"),
    ],
)
def test_a_choice_is_read_in_the_unit_it_is_written_in(name: str, text: str, number: object):
    values, problems = chosen({name: (text, None)}, ALL)
    assert problems == ()
    assert values == {name: number}


@pytest.mark.parametrize(
    ("name", "text", "wanted"),
    [
        ("hem", "62", "a length, as `62 cm`"),
        ("hem", "20deg", "a length"),
        ("slant", "20", "an angle, as `20deg`"),
        ("share", "2cm", "a ratio, as `1/3` or `88 %`"),
        ("fit", "snug", "one of close, loose"),
        ("hem", "wide", "a length"),
    ],
)
def test_what_cannot_be_read_is_told_with_what_is_wanted(name: str, text: str, wanted: str):
    values, (problem,) = chosen({name: (text, PLACE)}, ALL)
    assert values == {}
    assert (problem.code, problem.place) == ("choice-not-read", PLACE)
    assert f"`{text}`" in problem.sentence
    assert wanted in problem.sentence


def test_a_misspelt_choice_has_a_cure_where_it_stands_in_a_file():
    _, (problem,) = chosen({"skirt_lenght": ("62 cm", PLACE)}, draft(DRESS))
    assert problem.code == "no-such-choice"
    assert problem.fix is not None
    assert (problem.fix.place, problem.fix.replacement) == (PLACE, "skirt_length")


def test_a_choice_of_nothing_like_it_lists_what_there_is():
    _, (problem,) = chosen({"colour": ("red", None)}, draft(DRESS))
    for name in ("fit", "skirt_length", "top.length", "top.bust_ease"):
        assert name in problem.sentence


def test_the_choices_of_a_block_go_by_the_name_it_is_taken_under():
    values, problems = chosen({"top.length": ("cropped", None)}, draft(DRESS))
    assert problems == ()
    assert values == {"top.length": "cropped"}


def test_a_word_that_is_misspelt_is_put_right():
    _, (problem,) = chosen({"fit": ("lose", PLACE)}, ALL)
    assert problem.sentence.endswith("Did you mean `loose`?")
    assert problem.fix is not None
    assert (problem.fix.place, problem.fix.replacement) == (PLACE, "loose")
