"""Fabric files: what they give, and each way in which one can be wrong."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from godet.base.words import Severity
from godet.orders.fabrics import read_fabric
from godet.orders.records import Fabric

Write = Callable[..., Path]


def test_a_jersey_as_its_file_says(shipped: Path) -> None:
    file = shipped / "recipes/fabrics/cotton_jersey.yaml"
    fabric, problems = read_fabric(file)
    assert problems == ()
    # the figures of the file itself, as ratios, mm and g/m2
    assert fabric == Fabric(
        name="cotton_jersey",
        structure="knit",
        stretch_across=0.4,
        stretch_along=0.15,
        width=1500.0,
        shrinkage_across=0.04,
        shrinkage_along=0.06,
        recovery=0.9,
        weight=180.0,
        nap="none",
        file=str(file),
    )


@pytest.mark.parametrize(
    ("name", "structure", "across", "along"),
    [
        ("cotton_rib", "knit", 0.8, 0.3),
        ("linen", "woven", 0.0, 0.0),
        ("stable_knit", "knit", 0.15, 0.05),
    ],
)
def test_the_other_shipped_fabrics(
    name: str, structure: str, across: float, along: float, shipped: Path
) -> None:
    fabric, problems = read_fabric(shipped / f"recipes/fabrics/{name}.yaml")
    assert problems == ()
    assert fabric is not None
    assert (fabric.name, fabric.structure) == (name, structure)
    assert (fabric.stretch_across, fabric.stretch_along) == (across, along)


def test_the_least_a_file_can_say(write: Write) -> None:
    path = write("fabric: calico\nstructure: woven\n")
    assert read_fabric(path) == (
        Fabric("calico", "woven", 0.0, 0.0, None, 0.0, 0.0, None, None, "none", str(path)),
        (),
    )


def knit(line: str) -> str:
    return f"fabric: a\nstructure: knit\nstretch: {{across: 40 %}}\n{line}\n"


@pytest.mark.parametrize(
    ("situation", "text", "code", "line", "words"),
    [
        ("no name", "structure: woven\n", "key-missing", 1, "`fabric"),
        ("no structure", "fabric: a\nnap: none\n", "fabric-no-structure", 1, "structure: knit"),
        ("blank structure", "fabric: a\nstructure:\n", "key-blank", 2, "structure"),
        ("unknown structure", "fabric: a\nstructure: wovn\n", "value-not-allowed", 2, "wovn"),
        ("unknown key", knit("streech: 4"), "key-unknown", 4, "`stretch`?"),
        ("one stretch for both ways", "fabric: a\nstructure: knit\nstretch: 40 %\n",
         "key-wants-keys", 3, "across: 10 %"),
        ("unknown direction", "fabric: a\nstructure: knit\nstretch:\n  acros: 4 %\n",
         "key-unknown", 4, "`across`?"),
        ("bare stretch", "fabric: a\nstructure: knit\nstretch:\n  across: 40\n",
         "fabric-needs-unit", 4, "40 without a unit"),
        ("stretch below nothing", "fabric: a\nstructure: knit\nstretch:\n  along: -5 %\n",
         "fabric-out-of-range", 4, "-5 %; it can lie between 0 % and 300 %"),
        ("too much stretch", "fabric: a\nstructure: knit\nstretch:\n  along: 301 %\n",
         "fabric-out-of-range", 4, "301 %"),
        ("a word for a stretch", "fabric: a\nstructure: knit\nstretch:\n  along: lots\n",
         "fabric-wrong-kind", 4, "`lots`"),
        ("too much shrinkage", knit("shrinkage: {along: 31 %}"), "fabric-out-of-range", 4, "30 %"),
        ("bare width", knit("width: 150"), "fabric-needs-unit", 4, "150 cm"),
        ("a share for a width", knit("width: 150 %"), "fabric-wrong-kind", 4, "150 %"),
        ("too narrow", knit("width: 150 mm"), "fabric-out-of-range", 4, "200 mm and 4000 mm"),
        # 400 cm / 2.54 = 157.48 in
        ("too wide", knit("width: 158 in"), "fabric-out-of-range", 4, "157 1/2 in"),
        ("recovery above all", knit("recovery: 101 %"), "fabric-out-of-range", 4, "100 %"),
        ("bare weight", knit("weight: 180"), "fabric-needs-unit", 4, "180 g/m2"),
        ("weight of a body", knit("weight: 180 kg"), "fabric-wrong-kind", 4, "180 kg"),
        ("too heavy", knit("weight: 5000 g/m2"), "fabric-out-of-range", 4, "2000 g/m2"),
        ("unknown nap", knit("nap: one way"), "value-not-allowed", 4, "none, one_way"),
    ],
)  # fmt: skip
def test_a_wrong_fabric_file(
    situation: str, text: str, code: str, line: int, words: str, write: Write
) -> None:
    fabric, problems = read_fabric(write(text))
    assert [found.code for found in problems] == [code], situation
    assert problems[0].severity is Severity.ERROR
    assert problems[0].place is not None
    assert problems[0].place.line == line
    assert words in problems[0].sentence
    assert fabric is None


@pytest.mark.parametrize(
    ("situation", "text", "code", "line", "words"),
    [
        ("a woven that stretches like a knit",
         "fabric: a\nstructure: woven\nstretch: {across: 5 %, along: 45 %}\n",
         "fabric-woven-stretch", 3, "45 %"),
        ("a knit without stretch", "fabric: a\nstructure: knit\n",
         "fabric-knit-no-stretch", 2, "{across: 40 %, along: 15 %}"),
    ],
)  # fmt: skip
def test_a_doubtful_fabric_is_a_warning_and_is_kept(
    situation: str, text: str, code: str, line: int, words: str, write: Write
) -> None:
    fabric, problems = read_fabric(write(text))
    assert [found.code for found in problems] == [code], situation
    assert problems[0].severity is Severity.WARNING
    assert problems[0].place is not None
    assert problems[0].place.line == line
    assert words in problems[0].sentence
    assert fabric is not None


def test_a_woven_with_forty_per_cent_passes(write: Write) -> None:
    fabric, problems = read_fabric(write("fabric: a\nstructure: woven\nstretch: {across: 40 %}\n"))
    assert problems == ()
    assert fabric is not None
    assert fabric.stretch_across == 0.4
