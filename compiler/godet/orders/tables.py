"""Reads a size table: CSV with a `size` column, and measures with their unit in the heading.

In: a path, and what each measure means. Out: a `Body` for each row that can be used, and every
problem of the file. An empty cell is a measure not given; a figure that ends in `~` was completed
by a rule, where the source of the table has none. A row with an error is left out, so is a column
that cannot be read, and the others are still read. Never raises.

    size,bust_girth [cm],waist_girth [cm]
    88,88,72~

    read_size_table(Path("sizes.csv"), vocabulary)[0][0].measures["bust_girth"].value    # 880.0
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from godet.base.problems import Problem, has_errors, problem
from godet.base.quantities import UNITS, LengthUnit
from godet.orders.comma_separated import Row, split_rows
from godet.orders.cures import nearest, shown, shown_path, write_instead
from godet.orders.fields import unknown_key, wrong_label
from godet.orders.measures import UNIT_NAMES, read_measure, speaking_unit, unit_meant
from godet.orders.records import Body, Measured, MeasureKind, MeasureMeaning
from godet.orders.text_files import read_text, whole_file
from godet.orders.yaml_reading import Scalar

_HEADING = re.compile(r"(?P<name>[^\[\]]*?)\s*\[\s*(?P<unit>[^\[\]]*?)\s*\]")
_LOOSE_HEADING = re.compile(rf"(?P<name>\w+)[ ,/(]+(?P<unit>{'|'.join(UNITS)})\)?")

_EXAMPLE_UNITS: dict[MeasureKind, str] = {
    "length": "cm",
    "angle": "deg",
    "ratio": "%",
    "mass": "kg",
}


@dataclass(frozen=True, slots=True)
class _Column:
    index: int
    unit: str
    meaning: MeasureMeaning


def read_size_table(
    path: Path, vocabulary: Mapping[str, MeasureMeaning]
) -> tuple[tuple[Body, ...], tuple[Problem, ...]]:
    """The bodies of the rows that can be used, in the order of the file, and all problems."""
    text, problems = read_text(path)
    if text is None:
        return (), problems
    rows, split_problems = split_rows(text, str(path))
    found = list(split_problems)
    if not rows:
        return (), (
            *found,
            problem("table-no-heading", whole_file(str(path)), file=shown_path(path)),
        )
    heading, *sizes = rows
    columns, heading_problems = _columns(heading, vocabulary)
    found += heading_problems
    size_at = next((i for i, cell in enumerate(heading) if cell.text == "size"), None)
    if size_at is None or not columns:
        return (), tuple(found)
    if not sizes:
        found.append(problem("table-no-sizes", heading[0].place))
    units = _unit_of(columns)
    given = columns
    other_units = [_in_another_unit(column, heading, sizes) for column in columns]
    found += [wrong for wrong in other_units if wrong is not None]
    columns = [c for c, wrong in zip(columns, other_units, strict=True) if wrong is None]
    bodies: dict[str, Body] = {}
    for row in sizes:
        wrong = _wrong_row(row, heading, size_at, bodies)
        if wrong is not None:
            found.append(wrong)
            continue
        label = row[size_at].text
        measures, row_problems = _measures(row, label, columns)
        if not any(row[column.index].text for column in given) and not row_problems:
            row_problems = (problem("table-size-empty", row[size_at].place, size=label),)
        found += row_problems
        if measures and not has_errors(row_problems):
            bodies[label] = Body(label, units, measures, str(path))
    return tuple(bodies.values()), tuple(found)


def _columns(
    heading: Row, vocabulary: Mapping[str, MeasureMeaning]
) -> tuple[list[_Column], list[Problem]]:
    columns: list[_Column] = []
    found: list[Problem] = []
    if len(heading) == 1 and ";" in heading[0].text:
        return [], [problem("table-semicolons", heading[0].place)]
    seen: set[str] = set()
    for index, cell in enumerate(heading):
        match = _HEADING.fullmatch(cell.text)
        name, unit = (match["name"], match["unit"]) if match else (cell.text, "")
        meaning = vocabulary.get(name)
        if not name:
            found.append(problem("table-column-blank", cell.place, column=index + 1))
        elif name in seen:
            found.append(problem("table-column-twice", cell.place, name=name, column=index + 1))
        elif name == "size":
            seen.add(name)
        elif meaning is None and (meant := _loosely_headed(cell.text, vocabulary)):
            found.append(_wrong_column_unit(cell, index, *meant))
        elif meaning is None and index == 0 and _is_of_sizes(cell.text, heading, vocabulary):
            continue  # told as what it is: no column is headed `size`
        elif meaning is None:
            known, rest = ("size", *vocabulary), cell.text[len(name) :]
            found.append(unknown_key(name, cell.place, known, "measure-unknown", rest))
        elif unit not in UNITS or UNITS[unit][0] != meaning.kind:
            found.append(_wrong_column_unit(cell, index, meaning, None))
        else:
            seen.add(name)
            columns.append(_Column(index, unit, meaning))
    if "size" not in seen:
        found.append(problem("table-no-size-column", heading[0].place))
    if not columns and not found:
        found.append(problem("table-no-measures", heading[0].place))
    return columns, found


def _is_of_sizes(typed: str, heading: Row, vocabulary: Mapping[str, MeasureMeaning]) -> bool:
    """Whether this heads the column of the sizes in words of its own."""
    named = any(cell.text == "size" for cell in heading)
    return not named and "[" not in typed and nearest(typed, vocabulary) is None


def _loosely_headed(
    typed: str, vocabulary: Mapping[str, MeasureMeaning]
) -> tuple[MeasureMeaning, str] | None:
    """The measure and the unit of a heading such as `hip_girth (cm)`."""
    match = _LOOSE_HEADING.fullmatch(typed)
    meaning = vocabulary.get(match["name"]) if match else None
    if match is None or meaning is None or UNITS[match["unit"]][0] != meaning.kind:
        return None
    return meaning, match["unit"]


def _in_another_unit(column: _Column, heading: Row, sizes: Sequence[Row]) -> Problem | None:
    """The problem of a column whose numbers are in another unit than its heading says."""
    cells = [row[column.index] for row in sizes if len(row) == len(heading)]
    filled = [(_figure(cell)[0], column.meaning) for cell in cells if cell.text]
    problems = [p for cell, m in filled for p in read_measure("", cell, column.unit, m)[1]]
    meant = unit_meant(filled, problems)
    if meant is None:
        return None
    cell = heading[column.index]
    cure = f"{column.meaning.name} [{meant}]"
    return problem(
        "table-column-looks-like",
        cell.place,
        fix=write_instead(cell.place, cure),
        column=column.index + 1,
        typed=shown(cell.text),
        unit=UNIT_NAMES[meant],
        cure=cure,
    )


def _wrong_column_unit(
    cell: Scalar, index: int, meaning: MeasureMeaning, meant: str | None
) -> Problem:
    """`meant` is the unit that stands there in another form, if one does."""
    heading = f"{meaning.name} [{meant or _EXAMPLE_UNITS[meaning.kind]}]"
    return problem(
        "table-column-unit",
        cell.place,
        fix=write_instead(cell.place, heading) if meant else None,
        column=index + 1,
        typed=shown(cell.text),
        cure=heading,
    )


def _wrong_row(row: Row, heading: Row, size_at: int, already: Mapping[str, Body]) -> Problem | None:
    """The problem that keeps a row from being read at all."""
    first = row[0].place
    if len(row) != len(heading):
        size = shown(row[size_at].text) if size_at < len(row) else ""
        return problem(
            "table-row-length",
            first,
            line=first.line,
            size=size,
            cells=len(row),
            columns=len(heading),
        )
    label = row[size_at]
    if not label.text:
        return problem("table-row-no-size", label.place, line=first.line)
    if label.text in already:
        return problem("table-size-twice", label.place, size=shown(label.text), line=first.line)
    return wrong_label("size", label)


def _measures(
    row: Row, label: str, columns: Sequence[_Column]
) -> tuple[dict[str, Measured], tuple[Problem, ...]]:
    measures: dict[str, Measured] = {}
    found: list[Problem] = []
    for column in columns:
        cell: Scalar = row[column.index]
        if not cell.text:
            continue
        name = column.meaning.name
        figure, completed = _figure(cell)
        subject = f"{name} of size {label}"
        value, problems = read_measure(subject, figure, column.unit, column.meaning)
        found += problems
        if value is not None:
            measures[name] = replace(value, completed=completed)
    return measures, tuple(found)


def _figure(cell: Scalar) -> tuple[Scalar, bool]:
    """What a cell gives without its `~`, and whether it had one: a figure that was completed."""
    if not cell.text.endswith("~"):
        return cell, False
    place = cell.place
    if place.end_column - place.column == len(cell.text):  # what mends the figure leaves its mark
        place = replace(place, end_column=place.end_column - 1)
    return Scalar(cell.text[:-1].rstrip(), place), True


def _unit_of(columns: Sequence[_Column]) -> LengthUnit:
    """The unit for telling lengths to the table's reader: that of its first length."""
    lengths = (column.unit for column in columns if column.meaning.kind == "length")
    return speaking_unit(next(lengths, "cm"))
