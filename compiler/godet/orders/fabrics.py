"""Reads a fabric file: how a cloth is made, how far it stretches and shrinks, how wide it lies.

In: a path. Out: the `Fabric`, or `None` when the file has an error; every problem of the file
either way. Never raises.

    read_fabric(Path("fabrics/cotton_jersey.yaml"))[0].stretch_across    # 0.4
"""

from __future__ import annotations

from pathlib import Path
from typing import Literal, cast

from godet.base.places import Place
from godet.base.problems import Problem, has_errors, problem
from godet.base.quantities import Kind, Quantity, read_quantity, spoken
from godet.orders.cures import shown
from godet.orders.fields import (
    all_of,
    label_at,
    one_of,
    start_of,
    table_at,
    text_at,
    unknown_keys,
)
from godet.orders.measures import speaking_unit
from godet.orders.records import Fabric
from godet.orders.text_files import Read
from godet.orders.yaml_reading import Scalar, Table, read_yaml

_KEYS = (
    "fabric",
    "structure",
    "stretch",
    "width",
    "shrinkage",
    "recovery",
    "weight",
    "nap",
)
_DIRECTIONS = ("across", "along")
_EXAMPLES: dict[Kind, str] = {"ratio": "40 %", "length": "150 cm", "cloth_weight": "180 g/m2"}
# ratio, mm and g/m2: beyond these a figure is a slip of the pen
_STRETCH = (0.0, 3.0)
_SHRINKAGE = (0.0, 0.3)
_RECOVERY = (0.0, 1.0)
_WIDTH = (200.0, 4000.0)
_WEIGHT = (5.0, 2000.0)
# a woven with elastane gives 15 to 35 %; more is nearly always a knit
_MOST_FOR_WOVEN = 0.4


def read_fabric(path: Path) -> Read[Fabric]:
    """The cloth that a file gives; `None` with at least one error when it gives none."""
    top, yaml_problems = read_yaml(path)
    if top is None:
        return None, yaml_problems
    name, name_problems = label_at(top, "fabric", "cotton_jersey")
    structure, structure_problems = one_of(top, "structure", ("knit", "woven"))
    if "structure" not in top.entries:
        structure_problems = (problem("fabric-no-structure", start_of(top)),)
    stretch, stretch_problems = _both_ways(top, "stretch", _STRETCH)
    shrinkage, shrinkage_problems = _both_ways(top, "shrinkage", _SHRINKAGE)
    width, width_problems = _amount_at(top, "width", "width", "length", _WIDTH)
    recovery, recovery_problems = _amount_at(top, "recovery", "recovery", "ratio", _RECOVERY)
    weight, weight_problems = _amount_at(top, "weight", "weight", "cloth_weight", _WEIGHT)
    nap, nap_problems = one_of(top, "nap", ("none", "one_way"))
    problems = all_of(
        yaml_problems,
        unknown_keys(top, _KEYS),
        name_problems,
        structure_problems,
        stretch_problems,
        shrinkage_problems,
        width_problems,
        recovery_problems,
        weight_problems,
        nap_problems,
    )
    if name is None or structure is None or has_errors(problems):
        return None, problems
    fabric = Fabric(
        name.text,
        cast(Literal["knit", "woven"], structure.text),
        *stretch,
        width,
        *shrinkage,
        recovery,
        weight,
        cast(Literal["none", "one_way"], nap.text if nap else "none"),
        str(path),
    )
    return fabric, all_of(problems, _doubts(fabric, top))


def _both_ways(
    top: Table, key: str, bounds: tuple[float, float]
) -> tuple[tuple[float, float], tuple[Problem, ...]]:
    """The ratios across and along that stand under `key`; 0 for one that is left out."""
    table, problems = table_at(top, key, "across: 10 %, along: 5 %")
    if table is None:
        return (0.0, 0.0), problems
    across, across_problems = _amount_at(table, "across", f"{key} across", "ratio", bounds)
    along, along_problems = _amount_at(table, "along", f"{key} along", "ratio", bounds)
    unknown = unknown_keys(table, _DIRECTIONS)
    return (across or 0.0, along or 0.0), all_of(unknown, across_problems, along_problems)


def _amount_at(
    table: Table, key: str, subject: str, kind: Kind, bounds: tuple[float, float]
) -> Read[float]:
    text, problems = text_at(table, key)
    if text is None:
        return None, problems
    quantity = read_quantity(text.text)
    if quantity is None or quantity.kind != kind:
        return None, (_not_an_amount(text, subject, kind, quantity),)
    value = float(quantity.value)
    if bounds[0] <= value <= bounds[1]:
        return value, ()
    lowest, highest = (_told(bound, quantity) for bound in bounds)
    wrong = problem(
        "fabric-out-of-range",
        text.place,
        subject=subject,
        typed=text.text,
        lowest=lowest,
        highest=highest,
    )
    return None, (wrong,)


def _not_an_amount(text: Scalar, subject: str, kind: Kind, quantity: Quantity | None) -> Problem:
    unitless = quantity is not None and quantity.kind == "bare"
    return problem(
        "fabric-needs-unit" if unitless else "fabric-wrong-kind",
        text.place,
        subject=subject,
        typed=shown(text.text),
        example=_EXAMPLES[kind],
    )


def _told(bound: float, like: Quantity) -> str:
    """A bound in the unit the reader typed."""
    if like.kind == "length":
        return spoken(bound, speaking_unit(like.unit))
    return f"{bound * 100:g} %" if like.kind == "ratio" else f"{bound:g} g/m2"


def _doubts(fabric: Fabric, top: Table) -> tuple[Problem, ...]:
    most = max(fabric.stretch_across, fabric.stretch_along)
    if fabric.structure == "woven" and most > _MOST_FOR_WOVEN:
        return (
            problem("fabric-woven-stretch", _place_of(top, "stretch"), stretch=f"{most * 100:g} %"),
        )
    if fabric.structure == "knit" and "stretch" not in top.entries:
        return (problem("fabric-knit-no-stretch", _place_of(top, "structure")),)
    return ()


def _place_of(top: Table, key: str) -> Place:
    return top.entries[key].key_place
