"""A small vocabulary of measures and a folder to write files in."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from godet.orders.records import MeasureMeaning

# in cm; rough ranges of our own, children to large adults, only to tell a slip from a body
_RANGES = {
    "height": (45, 215),
    "head_girth": (34, 66),
    "bust_girth": (42, 170),
    "under_bust_girth": (40, 150),
    "upper_chest_girth": (42, 160),
    "shoulder_girth": (50, 160),
    "waist_girth": (40, 170),
    "high_hip_girth": (42, 180),
    "hip_girth": (44, 180),
    "thigh_girth": (22, 100),
    "upper_arm_girth": (12, 60),
    "wrist_girth": (9, 25),
    "neck_girth": (20, 55),
    "neck_base_girth": (20, 55),
    "waist_to_hip": (7, 30),
    "waist_to_knee": (15, 75),
    "back_waist_length": (15, 55),
    "front_waist_length": (15, 65),
    "neck_to_bust_point": (12, 45),
    "bust_point_width": (9, 30),
    "shoulder_length": (5, 20),
    "across_back": (18, 55),
    "across_front": (18, 55),
    "arm_length": (15, 80),
}


@pytest.fixture(scope="session")
def vocabulary() -> Mapping[str, MeasureMeaning]:
    lengths = {
        name: MeasureMeaning(name, "length", low * 10.0, high * 10.0, f"how {name} is taken")
        for name, (low, high) in _RANGES.items()
    }
    slope = MeasureMeaning(
        "shoulder_slope", "angle", math.radians(5), math.radians(40), "with a level"
    )
    return lengths | {
        "shoulder_slope": slope,
        "weight": MeasureMeaning("weight", "mass", 2.0, 250.0, "on scales"),
        "arm_share": MeasureMeaning("arm_share", "ratio", None, 1.0, "with a rule"),
        "knee_height": MeasureMeaning("knee_height", "length", 100.0, None, "to the floor"),
    }


@pytest.fixture
def write(tmp_path: Path) -> Callable[..., Path]:
    """Writes a file and gives its path."""

    def written(text: str, name: str = "file.yaml") -> Path:
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode())
        return path

    return written


@pytest.fixture
def shipped() -> Path:
    """The folder that holds `recipes` and `stdlib`."""
    return Path(__file__).parents[2]
