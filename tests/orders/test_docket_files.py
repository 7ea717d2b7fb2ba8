"""Dockets: what an order gives, and each way in which one can be wrong."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from godet.base.words import Severity
from godet.orders.dockets import read_docket
from godet.orders.records import Chosen

Write = Callable[..., Path]

ORDER = """\
# a docket
recipe: column_dress
date: 2027-03-01
body: bodies/adult_a.yaml
fabrics: {main: fabrics/jersey.yaml, rib: ../rib.yaml}
with: {top: knit_tee}
choose: {skirt_length: 62 cm, top.sleeve: short}
"""


def test_an_order_with_everything(write: Write, tmp_path: Path) -> None:
    for name in ("orders/bodies/adult_a.yaml", "orders/fabrics/jersey.yaml", "rib.yaml"):
        write("a: b\n", name)
    docket, problems = read_docket(write(ORDER, "orders/spring.yaml"))
    assert problems == ()
    assert docket is not None
    assert (docket.recipe, docket.date) == ("column_dress", "2027-03-01")
    # pathlib resolves what the file wrote relative to its own folder
    assert docket.body is not None
    assert docket.body.resolve() == (tmp_path / "orders/bodies/adult_a.yaml").resolve()
    assert docket.fabrics["rib"].resolve() == (tmp_path / "rib.yaml").resolve()
    assert docket.blocks == {"top": "knit_tee"}
    assert list(docket.choices) == ["skirt_length", "top.sleeve"]
    skirt_length = docket.choices["skirt_length"]
    assert skirt_length == Chosen("62 cm", skirt_length.place)
    assert skirt_length.place.line == 7
    assert {name: place.line for name, place in docket.places.items()} == {
        "recipe": 2,
        "date": 3,
        "body": 4,
        "fabrics.main": 5,
        "fabrics.rib": 5,
        "with.top": 6,
    }


def test_the_least_an_order_can_say(write: Write) -> None:
    docket, problems = read_docket(write("recipe: column_dress\n"))
    assert problems == ()
    assert docket is not None
    assert (docket.date, docket.body) == (None, None)
    assert (docket.fabrics, docket.blocks, docket.choices) == ({}, {}, {})


@pytest.mark.parametrize(
    ("situation", "text", "code", "line", "words"),
    [
        ("no recipe", "date: 2027-03-01\n", "key-missing", 1, "`recipe"),
        ("blank recipe", "recipe:\n", "key-blank", 1, "`recipe:`"),
        ("unknown key", "recipe: a\nchoice: {}\n", "key-unknown", 2, "`choose`?"),
        ("day first", "recipe: a\ndate: 01.03.2027\n", "docket-wrong-date", 2, "`01.03.2027`"),
        ("no such day", "recipe: a\ndate: 2027-02-30\n", "docket-wrong-date", 2, "2027-02-30"),
        ("date without hyphens", "recipe: a\ndate: 20270301\n", "docket-wrong-date", 2, "20270301"),
        ("a date and time", "recipe: a\ndate: 2027-03-01 10:00\n", "docket-wrong-date", 2, "10:00"),
        ("missing body", "recipe: a\nbody: near/adult_b.yaml\n", "file-missing", 2, "adult_a"),
        ("folder as body", "recipe: a\nbody: near\n", "file-is-folder", 2, "near"),
        ("missing fabric", "recipe: a\nfabrics:\n  main: x.yaml\n", "file-missing", 3, "x.yaml"),
        ("a fabric of no cloth", "recipe: a\nfabrics: x.yaml\n", "key-wants-keys", 2, "main:"),
        ("a block with no name", "recipe: a\nwith:\n  1st: b\n", "docket-not-a-name", 3, "`1st`"),
        ("a choice of a list", "recipe: a\nchoose:\n  b: [1]\n", "key-wants-text", 3, "`b:`"),
        ("a blank choice", "recipe: a\nchoose:\n  b:\n", "key-blank", 3, "`b:`"),
        ("a choice with a dot", "recipe: a\nchoose:\n  b.: 1\n", "docket-not-a-name", 3, "`b.`"),
        ("a choice twice", "recipe: a\nchoose:\n  b: 1\n  b: 2\n", "key-twice", 4, "line 3"),
    ],
)  # fmt: skip
def test_a_wrong_docket(
    situation: str, text: str, code: str, line: int, words: str, write: Write
) -> None:
    write("body: a\n", "near/adult_a.yaml")
    docket, problems = read_docket(write(text))
    assert [found.code for found in problems] == [code], situation
    assert problems[0].severity is Severity.ERROR
    assert problems[0].place is not None
    assert problems[0].place.line == line
    assert words in problems[0].sentence
    assert docket is None


def test_every_missing_file_of_an_order_is_told_in_one_run(write: Write) -> None:
    _, problems = read_docket(write(ORDER))
    assert [found.code for found in problems] == ["file-missing"] * 3
    assert [found.place.line for found in problems if found.place] == [4, 5, 5]


def test_a_file_is_not_taken_for_another_by_its_ending(write: Write) -> None:
    write("body: a\n", "marta.yaml")
    _, (found,) = read_docket(write("recipe: a\nbody: ines.yaml\n", "docket.yaml"))
    assert found.code == "file-missing"
    assert "Did you mean" not in found.sentence
    _, (found,) = read_docket(write("recipe: a\nbody: martha.yml\n", "docket.yaml"))
    assert found.sentence.endswith("Did you mean `marta.yaml`?")


def test_a_hyphen_in_a_name_is_cured_with_an_underscore(write: Write) -> None:
    _, (found,) = read_docket(write("recipe: a\nchoose:\n  skirt-length: 62 cm\n"))
    assert found.code == "docket-not-a-name"
    assert found.fix is not None
    assert found.fix.replacement == "skirt_length"
    place = found.fix.place
    assert (place.line, place.column, place.end_column) == (3, 3, 15)
