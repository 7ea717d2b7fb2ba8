"""What a little more of each measure and each numeric choice does, borne out by drafting it.

In: a linked draft, what is asked after, one body's inputs and the reader's unit. Out: `Effect`s: by
derivatives where a little more and a little less of the cause, drafted anew, agree with them; one
for more and one for less where these differ, as where a `max` turns from one side to the other; and
where neither is steady, as where curves only touch, what the first hundredth of a step does. What
changes nothing that a reader would see is left out. Nothing fails: a side on which no draft can be
made bears nothing out.

    effects(draft, [Asked(hip_side, "point", "hip_side")], inputs, "cm")[0].moves[0].by   # (2.5, 0)
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from godet.base.quantities import LengthUnit
from godet.graph.types import ANGLE, AREA, LENGTH, Type
from godet.program.draft import Draft
from godet.solve.inputs import Inputs
from godet.tools.causes import Cause, causes_of, changes
from godet.tools.nearby_drafts import FIRST, Nearby, Rates

Floats = NDArray[np.float64]
Sort = Literal["point", "length", "depth", "mouth", "width", "number", "area", "angle"]

SEEN = 0.005  # mm, square mm, hundredths of a degree..: less is not told


@dataclass(frozen=True, slots=True)
class Asked:
    """A value that may change: what sort of change a reader is told, and what it is called."""

    node: int
    sort: Sort
    words: str


@dataclass(frozen=True, slots=True)
class Move:
    words: str
    sort: Sort
    by: tuple[float, ...]  # mm, square mm, radians or plain; across and down of a point


@dataclass(frozen=True, slots=True)
class Effect:
    """What a step of one cause does."""

    cause: str
    sort: Literal["measure", "choice"]
    step: str  # "1 cm more", "1 degree less"
    moves: tuple[Move, ...]
    abrupt: bool = False  # the step is but the first hundredth, and the next would do otherwise


def effects(
    draft: Draft, asked: Sequence[Asked], inputs: Inputs, units: LengthUnit
) -> tuple[Effect, ...]:
    """The effects on one body of all that the values asked after depend on."""
    nodes = [each.node for each in asked]
    causes = causes_of(draft, nodes)
    slopes = changes(draft, causes, nodes, inputs)
    first = [FIRST * _step(cause, units) for cause in causes]
    nearby = Nearby.of(draft, causes, first, nodes, inputs)
    found: list[Effect] = []
    for number, cause in enumerate(causes):
        exact = [np.ravel(slopes[node][number, 0]) * _step(cause, units) for node in nodes]
        rates = [nearby.rates(number, each.node, _least_seen(each.sort)) for each in asked]
        found.extend(_effects(cause, asked, exact, rates, units))
    return tuple(effect for effect in found if effect.moves)


def _effects(
    cause: Cause,
    asked: Sequence[Asked],
    exact: Sequence[Floats],
    rates: Sequence[Rates],
    units: LengthUnit,
) -> list[Effect]:
    if all(rate.agree(by) for rate, by in zip(rates, exact, strict=True)):
        return [_effect(cause, asked, exact, _said_step(cause, units, "more"))]
    if all(rate.steady() for rate in rates):
        sides = []
        for way, sign in (("more", 1.0), ("less", -1.0)):
            halves = [getattr(rate, way) for rate in rates]
            if None not in halves:
                moved = [sign * half for _, half in halves]
                sides.append(_effect(cause, asked, moved, _said_step(cause, units, way)))
        return sides
    first = [FIRST * (rate.more or rate.less or (np.zeros(1), np.zeros(1)))[0] for rate in rates]
    step = _said_step(cause, units, "more" if rates[0].more else "less", FIRST)
    return [replace(_effect(cause, asked, first, step), abrupt=True)]


def _effect(cause: Cause, asked: Sequence[Asked], moved: Sequence[Floats], step: str) -> Effect:
    moves = tuple(
        Move(each.words, each.sort, tuple(float(part) for part in by))
        for each, by in zip(asked, moved, strict=True)
        if (np.abs(by) >= _least_seen(each.sort)).any()
    )
    return Effect(cause.name, cause.sort, step, moves)


def _least_seen(sort: Sort) -> float:
    match sort:
        case "angle":
            return math.radians(SEEN)
        case "number":
            return SEEN / 100.0
        case _:
            return SEEN


def sort_of(type: Type) -> Sort:
    """How a change of a number of this type is told."""
    if type == LENGTH:
        return "length"
    if type == AREA:
        return "area"
    return "angle" if type == ANGLE else "number"


def _step(cause: Cause, units: LengthUnit) -> float:
    """What one step of a cause is, in mm, radians or plain."""
    if cause.type == LENGTH:
        return 25.4 if units == "in" else 10.0
    return math.radians(1.0) if cause.type == ANGLE else 0.01


def _said_step(cause: Cause, units: LengthUnit, way: str, share: float = 1.0) -> str:
    if cause.type == LENGTH:
        unit = "in" if units == "in" else "cm"
    else:
        unit = "degree" if cause.type == ANGLE else "percentage point"
        unit += "s" if share != 1.0 else ""
    return f"{share:g} {unit} {way}"
