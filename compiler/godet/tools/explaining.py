"""Where a value comes from: its closed form, its statements, its value, what each measure does.

In: a linked draft, the name of a value (`front.hip_side`, `side_out`, `top.front.side`), and a
body's inputs or none. Out: an `Explanation`, and `told`, its text. An unknown name is a problem.

    explanation, problems = explain(draft, "front.hip_side", inputs, texts, "cm")
"""

from __future__ import annotations

import difflib
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np

from godet.base.problems import Problem, problem
from godet.base.quantities import LengthUnit
from godet.geometry.dual import Dual, tangent_of
from godet.graph.algebra import ClosedForms
from godet.graph.types import (
    ANGLE,
    CONDITION,
    DART,
    DOUBLE_DART,
    GATHERS,
    LENGTH,
    LEVEL,
    POINT,
    Type,
    Words,
)
from godet.program.draft import Draft
from godet.program.measured import measures_among
from godet.program.saying import said
from godet.solve.inputs import Inputs
from godet.solve.solver import solve
from godet.tools.failing import failure_problems
from godet.tools.telling_numbers import told_by

_MOST_STATEMENTS = 30


@dataclass(frozen=True, slots=True)
class StatementLine:
    name: str
    place: str  # file:line, the file without its folder
    text: str


@dataclass(frozen=True, slots=True)
class Effect:
    """What a little more of one measure does to the value."""

    measure: str
    step: str  # "1 cm more"
    moves: tuple[float, ...]  # mm (or radians) across and down, or of the one number


@dataclass(frozen=True, slots=True)
class Explanation:
    name: str
    type: Type
    title: str  # of the number it is told by; "" where it is a number or a point itself
    formula: tuple[str, ...]
    statements: tuple[StatementLine, ...]
    body: str | None
    # mm: across and down; one number; or a curve's length; words where it is no number
    value: tuple[float, ...] | str | None
    beside: tuple[tuple[str, Type, float], ...]  # further numbers that tell of it, by title
    effects: tuple[Effect, ...]
    estimated: Mapping[str, str]


def explain(
    draft: Draft, name: str, inputs: Inputs | None, texts: Mapping[str, str], units: LengthUnit
) -> tuple[Explanation | None, tuple[Problem, ...]]:
    """All there is to say of one value."""
    node = draft.names.get(name)
    if node is None and name in draft.measures:
        source = draft.measures[name].estimate
        told = f"; left out, it is estimated ({source})" if source is not None else ""
        return None, (problem("measure-is-given", None, name=name, estimate=told),)
    if node is None:
        near = difflib.get_close_matches(name, sorted(draft.names), n=3, cutoff=0.4)
        hint = f" Did you mean {' or '.join(f'`{n}`' for n in near)}?" if near else ""
        return None, (problem("unknown-name", None, name=name, hint=hint),)
    graph = draft.graph
    node_type = graph[node].type
    by = told_by(graph, node)
    target = by.node
    outcome = None
    if inputs is not None:
        sought = [target, *(each for _, each in by.beside), *_conditions(draft, target)]
        outcome = solve(graph, draft.finds, sought, inputs)
        if not outcome.holds(target, 0):
            return None, failure_problems(outcome, draft, units)

    def taken(condition: int) -> bool | None:
        known = outcome is not None and outcome.holds(condition, 0)
        return bool(outcome.value(condition, 0)) if outcome is not None and known else None

    is_number = not isinstance(node_type, Words) and node_type != CONDITION
    names = _shortest_names(draft)
    forms = ClosedForms(graph, {n: s for n, s in names.items() if n != target}, units, taken)
    explanation = Explanation(
        name=name,
        type=node_type,
        title=by.title,
        formula=forms.text(target),
        statements=_statements(draft, node, name, texts),
        body=inputs.labels[0] if inputs is not None else None,
        value=_value(outcome.value(target, 0)) if outcome is not None else None,
        beside=tuple(
            (title, graph[each].type, float(outcome.value(each, 0)))
            for title, each in by.beside
            if outcome is not None and outcome.holds(each, 0)
        ),
        effects=_effects(draft, target, inputs) if inputs is not None and is_number else (),
        estimated=_estimated(draft, target, inputs) if inputs is not None else {},
    )
    return explanation, ()


def _conditions(draft: Draft, target: int) -> list[int]:
    """The conditions on which the value depends, so that the branches taken are known."""
    graph = draft.graph
    reached = graph.reached_from([target])
    return [graph[n].inputs[0] for n in reached if graph[n].operation == "either"]


def _shortest_names(draft: Draft) -> dict[int, str]:
    names: dict[int, str] = {}
    for name, node in sorted(draft.names.items(), key=lambda item: (len(item[0]), item[0])):
        names.setdefault(node, name)
    return names


def _value(value: Any) -> tuple[float, ...] | str:
    if isinstance(value, bool):
        return "holds" if value else "does not hold"
    if isinstance(value, str):
        return value
    return tuple(float(part) for part in np.atleast_1d(value))


def _reached(draft: Draft, target: int) -> dict[int, int]:
    """Every node the value depends on, through the equations of found unknowns too, each with how
    many named values lie between."""
    graph = draft.graph
    lines = {line.unknown: line for line in draft.finds}
    named = set(draft.names.values())
    steps = {target: 0}
    waiting = [target]
    for number in waiting:  # grows while it is walked: the nearest first
        needs = list(graph[number].inputs)
        if number in lines:
            needs += [lines[number].left, lines[number].right]
        for need in needs:
            if need not in steps:
                steps[need] = steps[number] + (number in named)
                waiting.append(need)
    return steps


def _statements(
    draft: Draft, node: int, name: str, texts: Mapping[str, str]
) -> tuple[StatementLine, ...]:
    """The statements behind the value, the nearest first."""
    names = {**_shortest_names(draft), node: name}
    lines: dict[tuple[str, int], StatementLine] = {}
    steps = _reached(draft, node)
    for number in sorted(steps, key=lambda number: (steps[number], -number)):
        place = draft.graph.places[number]
        called = names.get(number)
        if called is None or place is None or place.file not in texts:
            continue
        source = texts[place.file].split("\n")[place.line - 1 : place.end_line]
        text = " ".join(" ".join(line.split()) for line in source)
        key = (place.file, place.line)
        if key not in lines:
            lines[key] = StatementLine(called, f"{Path(place.file).name}:{place.line}", text)
    return tuple(lines.values())[:_MOST_STATEMENTS]


def _estimated(draft: Draft, target: int, inputs: Inputs) -> dict[str, str]:
    return {
        name: draft.measures[name].estimate or ""
        for name in _measures(draft, target)
        if np.isnan(inputs.measures[name][0])
    }


def _measures(draft: Draft, target: int) -> dict[str, int]:
    """The measures the value depends on, each with the node of its value."""
    return measures_among(draft.graph, _reached(draft, target))


def _effects(draft: Draft, target: int, inputs: Inputs) -> tuple[Effect, ...]:
    """What a step of each measure does, each taken as if it were measured and the others kept."""
    measures = _measures(draft, target)
    values = solve(draft.graph, draft.finds, measures.values(), inputs)
    seeded: dict[str, Any] = dict(inputs.measures)
    for seed, (name, node) in enumerate(measures.items()):
        tangent = np.zeros((len(measures), 1))
        tangent[seed] = 1.0
        seeded[name] = Dual(np.array([values.value(node, 0)]), tangent)
    solved = solve(draft.graph, draft.finds, [target], replace(inputs, measures=seeded))
    slopes = tangent_of(solved.values[target], len(measures))
    effects = []
    for seed, name in enumerate(measures):
        angular = draft.measures[name].type == ANGLE
        step = math.radians(1.0) if angular else 10.0
        moves = tuple(float(part) * step for part in np.ravel(slopes[seed]))
        if any(abs(move) > 5e-4 for move in moves):
            effects.append(Effect(name, "1 degree more" if angular else "1 cm more", moves))
    return tuple(effects)


def told(explanation: Explanation, units: LengthUnit) -> str:
    """The explanation as text."""
    lines = [f"{explanation.name}: {explanation.type}", ""]
    titles = ("across", "down") if len(explanation.formula) == 2 else ("value",)
    if explanation.title:
        titles = (explanation.title,)
    lines.append(f"formula (lengths in {units}, angles in radians)")
    lines += [f"  {t} = {f}" for t, f in zip(titles, explanation.formula, strict=True)]
    lines += ["", "statements, the nearest first"]
    width = max((len(line.place) for line in explanation.statements), default=0)
    lines += [f"  {line.place:<{width}}  {line.text}" for line in explanation.statements]
    if explanation.value is not None:
        type = LENGTH if _is_told_by_lengths(explanation) else explanation.type
        lines += ["", f"on {explanation.body}"]
        if isinstance(explanation.value, str):
            lines.append(f"  {explanation.value}")
        else:
            values = zip(titles, explanation.value, strict=True)
            lines += [f"  {title} {said(value, type, units)}" for title, value in values]
            lines += [
                f"  {title} {said(value, t, units)}" for title, t, value in explanation.beside
            ]
        lines += [
            f"  {name} is estimated: {source}" for name, source in explanation.estimated.items()
        ]
        lines += ["", "what more of each measure does"]
        lines += [
            f"  {effect.step} {effect.measure}: {_moved(effect, explanation)}"
            for effect in explanation.effects
        ]
        if not explanation.effects:
            lines.append("  no measure changes it")
    return "\n".join(lines)


def _is_told_by_lengths(explanation: Explanation) -> bool:
    return bool(explanation.title) or explanation.type in (POINT, LEVEL)


def _moved(effect: Effect, explanation: Explanation) -> str:
    if len(effect.moves) == 2:
        across, down = effect.moves
        parts = [_way(across, "outward", "inward"), _way(down, "down", "up")]
        return ", ".join(part for part in parts if part)
    (change,) = effect.moves
    if explanation.type in (DART, DOUBLE_DART, GATHERS):
        return _way(change, "wider", "narrower")
    if explanation.type == LENGTH or _is_told_by_lengths(explanation):
        return _way(change, "longer", "shorter")
    if explanation.type == ANGLE:
        return f"{math.degrees(change):+.3f} degrees"
    return f"{change:+.5f}"


def _way(move: float, ahead: str, back: str) -> str:
    if abs(move) < 5e-4:
        return ""
    return f"{abs(move):.2f} mm {ahead if move > 0 else back}"
