"""Reads a body file: a label, a unit, and the measures of one person or one size.

In: a path, and what each measure means. Out: the `Body`, or `None` when the file has an error;
every problem of the file either way. Relations between measures are not judged here. Never raises.

    read_body(Path("bodies/adult_a.yaml"), vocabulary)[0].measures["bust_girth"].value    # 940.0
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import cast, get_args

from godet.base.problems import Note, Problem, has_errors, problem
from godet.base.quantities import LengthUnit, read_quantity
from godet.orders.cures import shown, write_instead
from godet.orders.fields import (
    all_of,
    key_missing,
    label_at,
    one_of,
    table_at,
    unknown_key,
    unknown_keys,
)
from godet.orders.measures import (
    LOOKS_LIKE,
    UNIT_NAMES,
    read_measure,
    speaking_unit,
    unit_meant,
)
from godet.orders.records import Body, Measured, MeasureMeaning
from godet.orders.text_files import Read
from godet.orders.yaml_faults import no_colon
from godet.orders.yaml_reading import Entry, Scalar, Table, read_yaml

_EXAMPLE = "bust_girth: 94 cm"
_KEYS = ("body", "units", "measures")
_UNITS: tuple[LengthUnit, ...] = get_args(LengthUnit)


def read_body(path: Path, vocabulary: Mapping[str, MeasureMeaning]) -> Read[Body]:
    """The body that a file gives; `None` with at least one error when it gives none."""
    top, yaml_problems = read_yaml(path)
    if top is None:
        return None, yaml_problems
    label, label_problems = label_at(top, "body", "adult_a")
    units, unit_problems = one_of(top, "units", _UNITS)
    given, table_problems = table_at(top, "measures", _EXAMPLE)
    if "measures" not in top.entries:
        table_problems = (key_missing(top, "measures", f"{{{_EXAMPLE}}}"),)
    measures, measure_problems = ({}, ()) if given is None else _measures(top, given, vocabulary)
    problems = all_of(
        yaml_problems,
        unknown_keys(top, _KEYS),
        label_problems,
        unit_problems,
        table_problems,
        measure_problems,
    )
    if label is None or has_errors(problems):
        return None, problems
    spoken_in = cast(LengthUnit, units.text) if units else _unit_of(measures)
    return Body(label.text, spoken_in, measures, str(path)), problems


def _measures(
    top: Table, given: Table, vocabulary: Mapping[str, MeasureMeaning]
) -> tuple[dict[str, Measured], tuple[Problem, ...]]:
    units_entry = top.entries.get("units")
    units = units_entry.value.text if units_entry and isinstance(units_entry.value, Scalar) else ""
    measures: dict[str, Measured] = {}
    found: list[Problem] = []
    bare: list[tuple[Scalar, MeasureMeaning]] = []
    without_unit: list[tuple[str, Scalar]] = []
    for name, entry in given.entries.items():
        meaning = vocabulary.get(name)
        slip = _key_alone(name, entry, given)
        if slip is not None:
            found.append(slip)
        elif meaning is None:
            found.append(unknown_key(name, entry.key_place, vocabulary, "measure-unknown"))
        elif not isinstance(entry.value, Scalar):
            found.append(problem("key-wants-text", entry.key_place, name=name))
        elif meaning.kind == "length" and units not in _UNITS and _is_bare(entry.value):
            without_unit.append((name, entry.value))
        else:
            unit_of_bare = units if meaning.kind == "length" and units else None
            if unit_of_bare is not None and _is_bare(entry.value):
                bare.append((entry.value, meaning))
            value, problems = read_measure(name, entry.value, unit_of_bare, meaning)
            found += [_with_whole_file(p, units_entry is not None, entry.value) for p in problems]
            if value is not None:
                measures[name] = value
    if without_unit and units_entry is None:
        # one mistake, one message, however many numbers it touches
        name, first = without_unit[0]
        found.append(
            problem(
                "units-missing",
                first.place,
                subject=name,
                typed=first.text,
                count=len(without_unit),
            )
        )
    return measures, _in_one(tuple(found), bare, units_entry)


def _in_one(
    found: tuple[Problem, ...],
    bare: Sequence[tuple[Scalar, MeasureMeaning]],
    units_entry: Entry | None,
) -> tuple[Problem, ...]:
    """The problems, those of a file in another unit than it says told as the one they are."""
    meant = unit_meant(bare, found)
    if units_entry is None or not isinstance(units_entry.value, Scalar) or meant is None:
        return found
    said = units_entry.value
    wrong = problem(
        "units-look-like",
        said.place,
        fix=write_instead(said.place, meant),
        typed=said.text,
        unit=UNIT_NAMES[meant],
        cure=meant,
    )
    places = {text.place for text, _ in bare}
    return (wrong, *(p for p in found if p.place not in places))


def _key_alone(name: str, entry: Entry, given: Table) -> Problem | None:
    """The problem that a key without a value is none, but a piece of what was meant."""
    if entry.value != Scalar("", entry.value.place):
        return None
    if not name.isdecimal():
        # {hip_girth:102} reads as one long key
        return no_colon(name, entry.key_place)
    # {waist_to_hip: 20,5} reads as 20 and a key 5
    names = list(given.entries)
    before = given.entries[names[names.index(name) - 1]].value
    if name == names[0] or not isinstance(before, Scalar):
        return None
    cure = f"{before.text}.{name}"
    fix = write_instead(before.place.to(entry.key_place), cure)
    return problem(
        "key-decimal-comma", entry.key_place, fix=fix, figure=shown(name), cure=shown(cure)
    )


def _is_bare(text: Scalar) -> bool:
    quantity = read_quantity(text.text)
    return quantity is not None and quantity.kind == "bare"


def _with_whole_file(found: Problem, has_units: bool, text: Scalar) -> Problem:
    """Adds that the whole file may be in another unit, where a bare number looks like it."""
    unit = next((unit for unit, code in LOOKS_LIKE.items() if code == found.code), None)
    if unit is None or not has_units or not _is_bare(text):
        return found
    words = problem("units-for-whole-file", None, unit=unit).sentence
    return replace(found, notes=(*found.notes, Note(words)))


def _unit_of(measures: Mapping[str, Measured]) -> LengthUnit:
    """The unit for telling lengths to the writer of a file where every number has its own."""
    for measured in measures.values():
        quantity = read_quantity(measured.typed)
        if quantity is not None and quantity.kind == "length":
            return speaking_unit(quantity.unit)
    return "cm"
