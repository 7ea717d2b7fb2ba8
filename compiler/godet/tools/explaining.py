"""Where a value comes from: its closed form, its statements, its value, what moves it.

In: a linked draft, the name of a value (`front.hip_side`, `side_out`, `top.front.side`), and a
body's inputs or none. Out: an `Explanation`. An unknown name is a problem.

    explanation, problems = explain(draft, "front.hip_side", inputs, texts, "cm")
"""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from godet.base.problems import Problem, problem
from godet.base.quantities import LengthUnit
from godet.graph.algebra import ClosedForms
from godet.graph.node import Graph
from godet.graph.taken_up import sewn_inputs
from godet.graph.types import (
    CONDITION,
    CURVE,
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
from godet.program.measured import measures_behind
from godet.solve.inputs import Inputs
from godet.solve.solver import solve
from godet.tools.curve_words import drawn_from
from godet.tools.effects import Asked, Effect, effects, sort_of
from godet.tools.failing import failure_problems

_MOST_STATEMENTS = 30


@dataclass(frozen=True, slots=True)
class StatementLine:
    name: str
    place: str  # file:line, the file without its folder
    text: str


@dataclass(frozen=True, slots=True)
class Explanation:
    name: str
    type: Type
    formula: tuple[str, ...]  # of a point two, of a curve that has none nothing
    drawn: tuple[str, ...]  # of a curve: its parts as it runs
    statements: tuple[StatementLine, ...]
    body: str | None
    # mm: across and down; one number; or a curve's length; words where it is no number
    value: tuple[float, ...] | str | None
    width: float | None  # mm, of the piece along a level
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
    asked = _asked(draft, name, node)
    target = asked[0].node
    outcome = None
    if inputs is not None:
        nodes = [each.node for each in asked]
        outcome = solve(graph, draft.finds, [*nodes, *_conditions(draft, target)], inputs)
        if not outcome.holds(target, 0):
            return None, failure_problems(outcome, draft, units)
        # what goes with the value may fail by itself: a line that only touches the piece
        asked = tuple(each for each in asked if outcome.holds(each.node, 0))

    def taken(condition: int) -> bool | None:
        known = outcome is not None and outcome.holds(condition, 0)
        return bool(outcome.value(condition, 0)) if outcome is not None and known else None

    is_number = not isinstance(node_type, Words) and node_type != CONDITION
    names = _names(draft, name)
    forms = ClosedForms(graph, {n: s for n, s in names.items() if n != node}, units, taken)
    width = next((each.node for each in asked if each.sort == "width"), None)
    explanation = Explanation(
        name=name,
        type=node_type,
        formula=_formula(graph, node, forms),
        drawn=drawn_from(graph, node, names, units) if node_type == CURVE else (),
        statements=_statements(draft, node, name, texts),
        body=inputs.labels[0] if inputs is not None else None,
        value=_value(outcome.value(target, 0)) if outcome is not None else None,
        width=float(outcome.value(width, 0)) if outcome and width is not None else None,
        effects=_effects(draft, asked, inputs, units) if inputs is not None and is_number else (),
        estimated=_estimated(draft, node, inputs) if inputs is not None else {},
    )
    return explanation, ()


def _effects(
    draft: Draft, asked: tuple[Asked, ...], inputs: Inputs, units: LengthUnit
) -> tuple[Effect, ...]:
    """All but what a choice does to itself."""
    return tuple(
        effect
        for effect in effects(draft, asked, inputs, units)
        if effect.sort != "choice" or draft.choices[effect.cause].node != asked[0].node
    )


def _asked(draft: Draft, name: str, node: int) -> tuple[Asked, ...]:
    """What is to be told of the value itself, then of what goes with it: the edges through a point,
    the width of the piece along a level."""
    graph, type, place = draft.graph, draft.graph[node].type, draft.graph.places[node]
    piece, _, own = name.rpartition(".")

    def length(curve: int, words: str) -> Asked:
        inputs = sewn_inputs(graph, "length", (curve,))
        measured = graph.add("length", inputs, type=LENGTH, place=graph.places[curve])
        return Asked(measured, "length", words)

    if type == CURVE:
        return (length(node, _edge_words(draft, piece, own)),)
    lines = draft.pieces.get(piece)
    if type == POINT:
        edges = sorted(lines.edges.items()) if lines is not None else []
        through = [
            length(edge.curve, _edge_words(draft, piece, edge_name))
            for edge_name, edge in edges
            if node in _points_of(graph, edge.curve)
        ]
        return (Asked(node, "point", own), *through)
    if type == LEVEL:
        line = Asked(node, "depth", f"the {own} line")
        if lines is None:
            return (line,)
        return (line, Asked(lines.widths[own], "width", f"the {piece} there"))
    if type in (DART, DOUBLE_DART):
        wide = graph.add("dart_width", (node,), type=LENGTH, place=place)
        return (Asked(wide, "mouth", own),)
    if type == GATHERS:
        return (Asked(_taken(graph, node), "length", own),)
    return (Asked(node, sort_of(type), own),)


def _taken(graph: Graph, node: int) -> int:
    """The amount that is gathered or eased in; laid elsewhere it is the same."""
    while graph[node].operation != "gathers":
        node = graph[node].inputs[0]
    return graph[node].inputs[3]


def _edge_words(draft: Draft, piece: str, name: str) -> str:
    """What to call an edge: it is a seam where it is sewn to another."""
    sewn = {(part, edge) for seam in draft.seams for part, edge, _ in (*seam.first, *seam.second)}
    if (piece, name) in sewn:
        return name if name.endswith("seam") else f"the {name} seam"
    lines = draft.pieces.get(piece)
    return f"the {name} edge" if lines is not None and name in lines.edges else name


def _points_of(graph: Graph, curve: int) -> set[int]:
    """The points that a curve is drawn by, those of its parts among them."""
    inputs = graph[curve].inputs
    found = {n for n in inputs if graph[n].type == POINT}
    return found.union(*(_points_of(graph, n) for n in inputs if graph[n].type == CURVE))


def _formula(graph: Graph, node: int, forms: ClosedForms) -> tuple[str, ...]:
    """The closed form, of a straight line that of its length; other curves and darts have
    none."""
    if graph[node].type in (DART, DOUBLE_DART, GATHERS):
        return ()
    if graph[node].type != CURVE:
        return forms.text(node)
    if graph[node].operation != "line":
        return ()
    ends = graph[node].inputs
    return forms.text(graph.add("distance", ends, type=LENGTH, place=graph.places[node]))


def _conditions(draft: Draft, target: int) -> list[int]:
    """The conditions on which the value depends, so that the branches taken are known."""
    graph = draft.graph
    reached = graph.reached_from([target])
    return [graph[n].inputs[0] for n in reached if graph[n].operation == "either"]


def _names(draft: Draft, asked: str) -> dict[int, str]:
    """What each node is called: as in the piece that is asked after, else as short as can be."""
    piece = asked.rpartition(".")[0]

    def order(item: tuple[str, int]) -> tuple[bool, int, str]:
        name = item[0]
        return name.rpartition(".")[0] != piece, len(name), name

    names: dict[int, str] = {}
    for name, node in sorted(draft.names.items(), key=order):
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
    names = {**_names(draft, name), node: name}
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


def _estimated(draft: Draft, node: int, inputs: Inputs) -> dict[str, str]:
    """The measures that the value needs and the body does not give, with the source of each
    estimate."""
    given = {name for name, values in inputs.measures.items() if not np.isnan(values[0])}
    return {
        name: draft.measures[name].estimate or ""
        for name in measures_behind(draft.graph, draft.finds, [node], given)
        if name not in given
    }
