"""Size tables: the shipped ones give back their figures, and wrong rows are named and left out."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Mapping
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from godet.base.words import Severity
from godet.orders.comma_separated import split_rows
from godet.orders.records import Body, MeasureMeaning
from godet.orders.tables import read_size_table

Vocabulary = Mapping[str, MeasureMeaning]
Write = Callable[..., Path]

GIRTHS = ("bust_girth", "waist_girth", "hip_girth")


def _completed(body: Body) -> set[str]:
    return {name for name, measured in body.measures.items() if measured.completed}


def _centimetres(body: Body, *names: str) -> list[float]:
    return [body.measures[name].value / 10 for name in names]


def test_the_women_of_en_13402_3(vocabulary: Vocabulary, shipped: Path) -> None:
    bodies, problems = read_size_table(shipped / "stdlib/sizes/en13402_3_women.csv", vocabulary)
    assert problems == ()
    # EN 13402-3, women, bust / waist / hip in cm: from memory, agreeing with a second table
    rows = [
        *((76, 60, 84), (80, 64, 88), (84, 68, 92), (88, 72, 96), (92, 76, 100), (96, 80, 104)),
        *((100, 84, 108), (104, 88, 112), (110, 94, 117), (116, 100, 122), (122, 106, 127)),
    ]
    # further busts of the same standard, from memory, without waist and hip
    busts = [*(bust for bust, _, _ in rows), 128, 134, 140, 146, 152]
    assert [body.label for body in bodies] == [str(bust) for bust in busts]
    for body, row in zip(bodies, rows, strict=False):
        assert _centimetres(body, *GIRTHS) == list(row)
        assert _completed(body) == {"height"}
        assert body.units == "cm"
    for before, body in pairwise(bodies[len(rows) - 1 :]):
        assert _completed(body) == {"height", "waist_girth", "hip_girth"}
        steps = np.subtract(_centimetres(body, *GIRTHS), _centimetres(before, *GIRTHS))
        assert steps == pytest.approx([6, 6, 5])


@pytest.mark.parametrize("figure", ["curvy", "straight"])
def test_the_women_of_astm_d5585(figure: str, vocabulary: Vocabulary, shipped: Path) -> None:
    path = shipped / f"stdlib/sizes/astm_d5585_women_{figure}.csv"
    bodies, problems = read_size_table(path, vocabulary)
    assert problems == ()
    labels = ["00", "0", "2", "4", "6", "8", "10", "12", "14", "16", "18", "20"]
    assert [body.label for body in bodies] == labels
    # ASTM D5585-11e1, table 1, in inches, as printed; 1 in = 25.4 mm
    curvy = [23.875, 24.625, 25.375, 26.125, 27, 28, 29, 30.75, 32.5, 34.5, 36.75, 39]
    straight = [25.375, 26.125, 26.875, 27.625, 28.5, 29.5, 30.5, 32.25, 34, 36, 38.25, 40.5]
    printed = {
        "waist_girth": curvy if figure == "curvy" else straight,
        "head_girth": [21.25, 21.25, 21.5, 21.5, 21.75, 21.75, 22, 22, 22.25, 22.25, 22.5, 22.5],
        "bust_girth": [
            *(31.125, 31.75, 33, 34.125, 35.25, 36.25),
            *(37.25, 38.75, 40.375, 42.125, 44, 46),
        ],
        "shoulder_girth": [
            *(37.125, 37.75, 38.375, 39, 39.75, 40.5),
            *(41.25, 42, 43, 44.25, 45.5, 46.875),
        ],
    }
    for name, figures in printed.items():
        found = [body.measures[name].value for body in bodies]
        assert found == pytest.approx([figure * 25.4 for figure in figures], abs=1e-9)
    assert {body.units for body in bodies} == {"in"}
    # the hip by EN 13402-3 at the same bust (from memory), in cm, to 1/8 in
    busts, hips = zip(*((76, 84), (104, 112), (110, 117), (116, 122), (122, 127)), strict=True)
    for body in bodies:
        assert _completed(body) == {"height", "hip_girth"}
        bust, hip = _centimetres(body, "bust_girth", "hip_girth")
        assert abs(hip - np.interp(bust, busts, hips)) <= 2.54 / 16 + 1e-9


def test_the_sizes_of_children(vocabulary: Vocabulary, shipped: Path) -> None:
    bodies, problems = read_size_table(shipped / "stdlib/sizes/children.csv", vocabulary)
    assert problems == ()
    # published size tables of children step by 6 cm from 80 to 188
    heights = [body.measures["height"].value for body in bodies]
    assert heights == [float(mm) for mm in range(800, 1881, 60)]
    assert [body.label for body in bodies] == [f"{height / 10:.0f}" for height in heights]
    # girths of children as published tables and patterns of them give them, in cm
    known = {
        "bust_girth": {98: 54, 116: 61, 140: 72, 158: 83},
        "waist_girth": {98: 52, 116: 56, 140: 62, 158: 65.5},
        "hip_girth": {98: 56.5, 138: 74, 162: 88},
    }
    for name, figures in known.items():
        for body in bodies:
            height, girth = _centimetres(body, "height", name)
            if 98 <= height <= max(figures):
                # half a centimetre is what the table is rounded to
                assert (
                    abs(girth - np.interp(height, [*figures], [*figures.values()])) <= 0.25 + 1e-9
                )
            # the hip at 98 is the middle of a range
            given = height in figures and name != "hip_girth"
            assert body.measures[name].completed is not given
        girths = [body.measures[name].value for body in bodies]
        assert girths == sorted(girths)
        steps = np.diff(girths)
        assert steps.max() <= 45


def test_a_figure_with_its_mark_is_completed(vocabulary: Vocabulary, write: Write) -> None:
    text = 'size,bust_girth [cm],hip_girth [cm]\nS,84,92~\nM,88~,"37.5 in ~"\n'
    bodies, problems = read_size_table(write(text, "t.csv"), vocabulary)
    assert problems == ()
    assert [_completed(body) for body in bodies] == [{"hip_girth"}, {"bust_girth", "hip_girth"}]
    assert bodies[0].measures["hip_girth"].typed == "92"
    assert bodies[1].measures["hip_girth"].value == pytest.approx(37.5 * 25.4)


def test_what_mends_a_completed_figure_leaves_its_mark(
    vocabulary: Vocabulary, write: Write
) -> None:
    row = "M,88~,38~"
    text = f"size,bust_girth [cm],hip_girth [cm]\nS,84,92\n{row}\n"
    _, (found,) = read_size_table(write(text, "t.csv"), vocabulary)
    assert found.code == "measure-looks-like-in"
    fix = found.fix
    assert fix is not None
    mended = row[: fix.place.column - 1] + fix.replacement + row[fix.place.end_column - 1 :]
    assert mended == "M,88~,38 in~"


def test_an_empty_cell_is_a_measure_not_given(vocabulary: Vocabulary, write: Write) -> None:
    text = "size,bust_girth [cm],shoulder_slope [deg]\nS,84,\nM,,21\n,,\n"
    bodies, problems = read_size_table(write(text, "t.csv"), vocabulary)
    assert problems == ()
    assert [(body.label, list(body.measures)) for body in bodies] == [
        ("S", ["bust_girth"]),
        ("M", ["shoulder_slope"]),
    ]


def test_a_measure_keeps_its_place(vocabulary: Vocabulary, write: Write) -> None:
    path = write("# a comment\r\nsize,bust_girth [in]\r\n12,38 3/4\r\n", "t.csv")
    bodies, problems = read_size_table(path, vocabulary)
    assert problems == ()
    measured = bodies[0].measures["bust_girth"]
    assert (measured.typed, measured.place.line) == ("38 3/4", 3)
    assert (measured.place.column, measured.place.end_column) == (4, 10)


HEAD = "size,hip_girth [cm]\n"


@pytest.mark.parametrize(
    ("situation", "text", "code", "line", "words", "left"),
    [
        ("no size column", "hip_girth [cm]\n94\n", "table-no-size-column", 1, "`size`", []),
        ("no measure", "size\nS\n", "table-no-measures", 1, "bust_girth [cm]", []),
        ("only comments", "# source\n", "table-no-heading", 1, "heading", []),
        ("only a heading", HEAD, "table-no-sizes", 1, "heading", []),
        ("semicolons", "size;hip_girth [cm]\nS;94\n", "table-semicolons", 1, "commas", []),
        ("blank heading", "size,hip_girth [cm],\nS,94,1\n", "table-column-blank", 1, "3", ["S"]),
        ("column twice", "size,hip_girth [cm],hip_girth [in]\nS,94,37\n",
         "table-column-twice", 1, "(3)", ["S"]),
        ("size twice", "size,hip_girth [cm],size\nS,94,M\n", "table-column-twice", 1, "(3)", ["S"]),
        ("unknown measure", "size,hip_girth [cm],hip_girt [cm]\nS,94,9\n",
         "measure-unknown", 1, "`hip_girth`?", ["S"]),
        ("no unit", "size,hip_girth [cm],bust_girth\nS,94,90\n",
         "table-column-unit", 1, "`bust_girth [cm]`", ["S"]),
        ("unknown unit", "size,hip_girth [cm],bust_girth [inch]\nS,94,90\n",
         "table-column-unit", 1, "`bust_girth [inch]`", ["S"]),
        ("a unit in round brackets", "size,hip_girth [cm],bust_girth (in)\nS,94,36\n",
         "table-column-unit", 1, "`bust_girth [in]`", ["S"]),
        ("a unit without brackets", "size,hip_girth [cm],bust_girth cm\nS,94,90\n",
         "table-column-unit", 1, "`bust_girth [cm]`", ["S"]),
        ("a column in inches", "size,bust_girth [cm],hip_girth [cm]\nS,90,37\nM,94,40\n",
         "table-column-looks-like", 1, "`hip_girth [in]`", ["S", "M"]),
        ("a column with no measure for sizes", "pupil,hip_girth [cm]\nS,94\n",
         "table-no-size-column", 1, "`size`", []),
        ("unit of an angle", "size,hip_girth [cm],bust_girth [deg]\nS,94,90\n",
         "table-column-unit", 1, "Column 3", ["S"]),
        ("a cell too many", HEAD + "S,94,1\nM,98\n", "table-row-length", 2, "3 cells", ["M"]),
        ("a cell too few", HEAD + "S\nM,98\n", "table-row-length", 2, "size `S`", ["M"]),
        ("no size named", HEAD + ",94\nM,98\n", "table-row-no-size", 2, "Line 2", ["M"]),
        ("a size twice", HEAD + "S,94\nS,98\n", "table-size-twice", 3, "size S", ["S"]),
        ("nothing measured", HEAD + "S,94\nM,\n", "table-size-empty", 3, "size M", ["S"]),
        ("a long size", HEAD + "S,94\n" + "M" * 81 + ",98\n", "label-too-long", 3, "81", ["S"]),
        ("open quote", HEAD + 'S,"94\nM,98\n', "table-open-quote", 2, "line 2", ["M"]),
        ("no number", HEAD + "S,94\nM,big\n", "measure-unreadable", 3, "of size M", ["S"]),
        ("decimal comma", HEAD + 'S,94\nM,"98,5"\n', "measure-decimal-comma", 3, "`98.5`", ["S"]),
        ("a mark alone", HEAD + "S,94\nM,~\n", "measure-blank", 3, "of size M", ["S"]),
        ("a mark before", HEAD + "S,94\nM,~98\n", "measure-unreadable", 3, "of size M", ["S"]),
        ("marked twice", HEAD + "S,94\nM,98~~\n", "measure-unreadable", 3, "of size M", ["S"]),
        ("zero", HEAD + "S,94\nM,0\n", "measure-not-positive", 3, "size M is 0 cm", ["S"]),
        ("inches", HEAD + "S,94\nM,38\n", "measure-looks-like-in", 3, "size M is 38 cm", ["S"]),
    ],
)  # fmt: skip
def test_a_wrong_table(
    situation: str,
    text: str,
    code: str,
    line: int,
    words: str,
    left: list[str],
    vocabulary: Vocabulary,
    write: Write,
) -> None:
    bodies, problems = read_size_table(write(text, "t.csv"), vocabulary)
    assert [found.code for found in problems] == [code], situation
    assert problems[0].severity is Severity.ERROR
    assert problems[0].place is not None
    assert problems[0].place.line == line
    assert words in problems[0].sentence
    assert [body.label for body in bodies] == left


def test_an_implausible_size_is_a_warning_and_is_kept(vocabulary: Vocabulary, write: Write) -> None:
    bodies, problems = read_size_table(write(HEAD + "S,94\nM,190\n", "t.csv"), vocabulary)
    assert [(found.code, found.severity) for found in problems] == [
        ("measure-implausible", Severity.WARNING)
    ]
    assert "hip_girth of size M is 190 cm" in problems[0].sentence
    assert [body.label for body in bodies] == ["S", "M"]


def test_the_fix_of_a_heading_keeps_its_unit(vocabulary: Vocabulary, write: Write) -> None:
    text = "size,hip_girt [cm]\nS,94\n"
    _, problems = read_size_table(write(text, "t.csv"), vocabulary)
    fix = problems[0].fix
    assert fix is not None
    assert fix.replacement == "hip_girth [cm]"
    assert "size,hip_girt [cm]"[fix.place.column - 1 : fix.place.end_column - 1] == "hip_girt [cm]"


CELL = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"])) | st.sampled_from(
    ['"', '""', ",", 'a"b', "a,b", ""]
)


@given(st.lists(st.lists(CELL, min_size=1), min_size=1))
def test_cells_are_split_as_the_csv_module_splits_them(rows: list[list[str]]) -> None:
    text = io.StringIO()
    # Python's csv module writes the rows and is the outside check; comments and rows of nothing
    # are Godet's own
    csv.writer(text, lineterminator="\n").writerows(rows)
    lines = [line for line in text.getvalue().splitlines() if not line.startswith("#")]
    wanted = [row for row in csv.reader(lines) if any(row)]
    found, problems = split_rows(text.getvalue(), "t.csv")
    assert problems == ()
    assert [[cell.text for cell in row] for row in found] == wanted
