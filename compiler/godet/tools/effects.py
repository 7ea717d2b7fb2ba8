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
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from godet.base.quantities import LengthUnit
from godet.geometry.dual import value_of
from godet.graph.types import ANGLE, AREA, LENGTH, Type
from godet.program.draft import Draft
from godet.solve.inputs import Inputs
from godet.solve.outcome import Outcome
from godet.solve.solver import solve
from godet.tools.causes import Cause, causes_of, changes

Floats = NDArray[np.float64]
Sort = Literal["point", "length", "depth", "width", "number", "area", "angle"]

SEEN = 0.005  # mm, square mm, hundredths of a degree..: less is not told
_FIRST = 0.01  # of a step: drafted anew with so much more and less, and with half of it
_AGREED = 0.02  # of the effect


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
    tried = _Tried.of(draft, causes, nodes, inputs, units)
    found: list[Effect] = []
    for number, cause in enumerate(causes):
        exact = [np.ravel(slopes[node][number, 0]) * _step(cause, units) for node in nodes]
        rates = [tried.rates(number, node) for node in nodes]
        found.extend(_effects(cause, asked, exact, rates, units))
    return tuple(effect for effect in found if effect.moves)


@dataclass(frozen=True, slots=True)
class _Rates:
    """Of one value by one cause, counted for a whole step: over the first hundredth and half of it,
    more and less; None where no draft can be made."""

    more: tuple[Floats, Floats] | None
    less: tuple[Floats, Floats] | None

    def agree(self, exact: Floats) -> bool:
        sides = [side for side in (self.more, self.less) if side is not None]
        return bool(np.isfinite(exact).all()) and all(_alike(exact, half) for _, half in sides)

    def steady(self) -> bool:
        return all(_alike(*side) for side in (self.more, self.less) if side is not None)


def _alike(first: Floats, second: Floats) -> bool:
    most = max(float(np.abs(first).max()), float(np.abs(second).max()))
    return bool(np.abs(first - second).max() <= SEEN + _AGREED * most)


def _effects(
    cause: Cause,
    asked: Sequence[Asked],
    exact: Sequence[Floats],
    rates: Sequence[_Rates],
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
    first = [_FIRST * (rate.more or rate.less or (np.zeros(1), np.zeros(1)))[0] for rate in rates]
    step = _said_step(cause, units, "more" if rates[0].more else "less", _FIRST)
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


@dataclass(frozen=True, slots=True)
class _Tried:
    """The draft made anew with a little more and a little less of each cause."""

    here: Outcome  # of the one body
    around: Outcome  # four bodies a cause

    @staticmethod
    def of(
        draft: Draft,
        causes: Sequence[Cause],
        nodes: Sequence[int],
        inputs: Inputs,
        units: LengthUnit,
    ) -> _Tried:
        here = solve(draft.graph, draft.finds, [*nodes, *(c.node for c in causes)], inputs)
        bodies = len(_WAYS) * len(causes)
        values = {
            cause.node: float(np.ravel(value_of(here.values[cause.node]))[0]) for cause in causes
        }
        # measures stand still but one, as if all were measured; choices left out follow
        measures: dict[str, Any] = dict(inputs.measures)
        measures |= {
            cause.name: np.full(bodies, values[cause.node])
            for cause in causes
            if cause.sort == "measure"
        }
        measures = {n: np.broadcast_to(rows, (bodies,)) for n, rows in measures.items()}
        choices: dict[str, Any] = dict(inputs.choices)
        for number, cause in enumerate(causes):
            rows = slice(len(_WAYS) * number, len(_WAYS) * (number + 1))
            moved = values[cause.node] + np.array(_WAYS) * _FIRST * _step(cause, units)
            table = measures if cause.sort == "measure" else choices
            known = table.get(cause.name, np.array([np.nan]))
            table[cause.name] = np.array(np.broadcast_to(known, (bodies,)))
            table[cause.name][rows] = moved
        labels = tuple(f"{number}" for number in range(bodies))
        given = replace(inputs, labels=labels, measures=measures, choices=choices)
        return _Tried(here, solve(draft.graph, draft.finds, nodes, given))

    def rates(self, cause: int, node: int) -> _Rates:
        start = np.ravel(np.asarray(self.here.value(node, 0), dtype=float))

        def side(whole: int) -> tuple[Floats, Floats] | None:
            found = []
            for way in (whole, whole + 1):
                body = len(_WAYS) * cause + way
                if not self.around.holds(node, body):
                    return None
                value = np.ravel(np.asarray(self.around.value(node, body), dtype=float))
                found.append((value - start) / (_WAYS[way] * _FIRST))
            return found[0], found[1]

        return _Rates(side(0), side(2))


_WAYS = (1.0, 0.5, -1.0, -0.5)
