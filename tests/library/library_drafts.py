"""Solves shipped recipes for many bodies, and measures what comes out without the kernel.

In: a recipe's name, bodies, choices (mm, radians, shares or words) and a cloth. Out: a `Solved`,
arrays with the bodies first. Fails on an error in a recipe; failing bodies are in `failures`.

    solved("knit_tee", ADULTS, {"fit": "easy"}).curve("front.neck")   # (bodies, n, 4, 2)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from library_bodies import Bodies
from numpy.typing import NDArray
from scipy.integrate import fixed_quad

from godet.program.draft import Draft
from godet.solve.inputs import Inputs
from godet.solve.outcome import Outcome
from godet.solve.solver import solve
from godet.tools.compiling import compile_recipe

Floats = NDArray[np.float64]
Cloth = Mapping[str, float | str]

JERSEY: Cloth = {"structure": "knit", "stretch_across": 0.4, "stretch_along": 0.15}
STABLE_KNIT: Cloth = {"structure": "knit", "stretch_across": 0.15, "stretch_along": 0.05}
VERY_STRETCHY: Cloth = {"structure": "knit", "stretch_across": 0.8, "stretch_along": 0.5}
LINEN: Cloth = {"structure": "woven", "stretch_across": 0.0, "stretch_along": 0.0}


@dataclass(frozen=True)
class Solved:
    draft: Draft
    outcome: Outcome
    nodes: Mapping[str, int]

    def curve(self, name: str) -> Floats:
        """A curve (B, n, 4, 2), a point (B, 2) or a length (B,), in mm."""
        bodies = range(len(self.outcome.labels))
        return np.array([self.outcome.value(self.nodes[name], body) for body in bodies])

    point = curve
    number = curve

    def failing(self, level: str) -> dict[str, list[str]]:
        """The bodies that do not pass a check of this level, by its words."""
        found: dict[str, list[str]] = {}
        for check in self.draft.checks:
            if check.level != level:
                continue
            for body, label in enumerate(self.outcome.labels):
                if not self.outcome.value(check.condition, body):
                    found.setdefault(check.words, []).append(label)
        return found


@cache
def linked(recipe: str, taking: tuple[tuple[str, str], ...] = ()) -> Draft:
    compiled = compile_recipe(recipe, dict(taking))
    assert compiled.draft is not None, [p.sentence for p in compiled.problems]
    return compiled.draft


def solved(
    recipe: str,
    bodies: Bodies,
    choices: Mapping[str, float | str] | None = None,
    cloth: Cloth = JERSEY,
    **taking: str,
) -> Solved:
    """The recipe for all bodies at once; `taking` says on which blocks, as `top="knit_tee"`."""
    draft = linked(recipe, tuple(sorted(taking.items())))
    measures = {
        name: np.array([body.get(name, np.nan) for body in bodies.values()])
        for name in draft.measures
    }
    inputs = Inputs(
        labels=tuple(bodies),
        measures=measures,
        choices={name: np.array([value]) for name, value in (choices or {}).items()},
        cloths={("main", name): np.array([value]) for name, value in cloth.items()},
    )
    checks = [c.condition for c in draft.checks]
    nodes = {**draft.names, **_measure_nodes(draft, [*draft.names.values(), *checks])}
    outcome = solve(draft.graph, draft.finds, [*nodes.values(), *checks], inputs)
    return Solved(draft, outcome, nodes)


def _measure_nodes(draft: Draft, reached: list[int]) -> dict[str, int]:
    found = {}
    for number in draft.graph.reached_from(reached):
        node = draft.graph[number]
        leaf: Any = draft.graph[node.inputs[0]] if node.inputs else None
        if node.operation in ("known", "given") and leaf.operation == "measure":
            found[str(leaf.constant("name"))] = number
    return found


# --- measuring, by scipy and numpy alone ---------------------------------------------------------


def length_of(curve: Floats) -> Floats:
    """The length (B,) of a curve (B, n, 4, 2): Gauss's rule of scipy, 64 places to a cubic."""
    legs = np.diff(curve, axis=2)  # (B, n, 3, 2)

    def speed(share: Floats) -> Floats:
        t = share[:, None, None, None]
        velocity = 3 * (
            (1 - t) ** 2 * legs[..., 0, :] + 2 * t * (1 - t) * legs[..., 1, :]
            + t**2 * legs[..., 2, :]
        )  # fmt: skip
        return np.asarray(np.moveaxis(np.hypot(velocity[..., 0], velocity[..., 1]), 0, -1))

    lengths, _ = fixed_quad(speed, 0.0, 1.0, n=64)
    return np.asarray(np.asarray(lengths).sum(axis=1))


def traced(curve: Floats, steps: int = 400) -> Floats:
    """One body's curve (n, 4, 2) as a polyline (k, 2)."""
    t = np.linspace(0.0, 1.0, steps + 1)[:, None]
    weights = np.concatenate([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3], axis=1)
    return np.asarray(np.concatenate([weights @ cubic for cubic in curve]))


def first_direction(curve: Floats) -> Floats:
    """The unit direction (B, 2) in which a curve leaves its first end."""
    way = curve[:, 0, 1] - curve[:, 0, 0]
    return np.asarray(way / np.linalg.norm(way, axis=1, keepdims=True))


def last_direction(curve: Floats) -> Floats:
    """The unit direction (B, 2) of travel at a curve's last end."""
    way = curve[:, -1, 3] - curve[:, -1, 2]
    return np.asarray(way / np.linalg.norm(way, axis=1, keepdims=True))


def degrees_between(one: Floats, other: Floats) -> Floats:
    """The angles (B,) between unit directions."""
    return np.asarray(np.degrees(np.arccos(np.clip((one * other).sum(axis=1), -1.0, 1.0))))


def inflections(curve: Floats) -> int:
    """How often one body's curve (n, 4, 2) changes the side to which it bends."""
    t = np.linspace(0.0, 1.0, 401)[:, None]
    bends = []
    for cubic in curve:
        first, second = np.diff(cubic, axis=0), np.diff(cubic, n=2, axis=0)
        velocity = (1 - t) ** 2 * first[0] + 2 * t * (1 - t) * first[1] + t**2 * first[2]
        change = (1 - t) * second[0] + t * second[1]
        bends.append(velocity[:, 0] * change[:, 1] - velocity[:, 1] * change[:, 0])
    bend = np.concatenate(bends)
    clear = bend[np.abs(bend) > 1e-9 * np.abs(bend).max()]
    return int(np.count_nonzero(np.sign(clear[1:]) != np.sign(clear[:-1])))
