"""The record of an operation, and how its numeric function is found.

The function is named by reference ("room.file:function") and loaded when first solved, so that
checking and formatting a text never load numpy.

    Operation("moved", "points:moved", ("point", "direction", "distance"),
              sentence="...", example="...", formula=...)
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from typing import Any


@dataclass(frozen=True, slots=True)
class Operation:
    name: str
    function: str  # "file:function" in godet.geometry
    takes: tuple[str, ...]  # names of its inputs; a last "*name" takes any number
    sentence: str
    example: str
    fails: tuple[str, ...] = ()  # codes of its breaches
    # closed form over the inputs' names: one text, or (across, down) of a point; None where the
    # value has none (arc lengths, crossings, splines)
    formula: str | tuple[str, str] | None = None
    # sets of inputs in which the value is linear together, while the others stand still
    linear: tuple[tuple[str, ...], ...] = ()


@cache
def numeric_function(reference: str) -> Callable[..., Any]:
    """The function that a record names; loads numpy."""
    file, _, name = reference.partition(":")
    function: Callable[..., Any] = getattr(import_module(f"godet.geometry.{file}"), name)
    return function
