"""Derivatives through a whole draft against differences of redrafted bodies.

The outside is numerical differentiation: central differences with two steps, extrapolated by
Richardson (1911), of drafts without any derivative in them.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from small_recipes import DRESS, draft, inputs, solved

from godet.geometry.dual import Dual, tangent_of
from godet.graph.types import CURVE, POINT
from godet.solve.solver import solve

BODY = {
    "bust_girth": 927.0,
    "waist_girth": 743.0,
    "hip_girth": 981.0,
    "waist_to_hip": 203.0,
    "shoulder_slope": 0.38,
}
STEPS = {name: 1e-4 if name == "shoulder_slope" else 0.05 for name in BODY}


@pytest.fixture(scope="module")
def slopes() -> tuple[dict[str, np.ndarray], dict[str, np.ndarray]]:
    """For every named point and curve (its length) of the dress: exact slopes, and differences."""
    made = draft(DRESS)
    nodes = {
        name: node
        for name, node in made.names.items()
        if made.graph[node].type in (POINT, CURVE) or name.endswith("hem_depth")
    }
    given = inputs(made, BODY)
    seeded: dict[str, Any] = {
        name: Dual(np.array([value]), np.eye(len(BODY))[:, [seed]])
        for seed, (name, value) in enumerate(BODY.items())
    }
    seeded = {**given.measures, **seeded}
    outcome = solve(made.graph, made.finds, nodes.values(), replace(given, measures=seeded))
    assert outcome.failures == ()
    exact = {
        name: np.asarray(tangent_of(outcome.values[node], len(BODY)))[:, 0]
        for name, node in nodes.items()
    }

    def at(name: str, by: float) -> dict[str, np.ndarray]:
        moved = solved(made, list(nodes), inputs(made, {**BODY, name: BODY[name] + by}))
        return {n: np.asarray(moved.value(node, 0)) for n, node in nodes.items()}

    differences: dict[str, list[np.ndarray]] = {name: [] for name in nodes}
    for measure, step in STEPS.items():
        wide = (at(measure, step), at(measure, -step))
        narrow = (at(measure, step / 2), at(measure, -step / 2))
        for name in nodes:
            coarse = (wide[0][name] - wide[1][name]) / (2 * step)
            fine = (narrow[0][name] - narrow[1][name]) / step
            differences[name].append((4.0 * fine - coarse) / 3.0)
    return exact, {name: np.array(rows) for name, rows in differences.items()}


def test_every_point_curve_and_unknown_of_a_dress_moves_as_its_slope_says(
    slopes: tuple[dict[str, np.ndarray], dict[str, np.ndarray]],
):
    exact, differences = slopes
    assert {"front.hem_side", "front.hem_depth", "back.side", "top.front.neck"} <= set(exact)
    for name in exact:
        np.testing.assert_allclose(
            exact[name], differences[name], rtol=1e-5, atol=1e-6, err_msg=name
        )


def test_the_hem_found_by_an_equation_really_moves(
    slopes: tuple[dict[str, np.ndarray], dict[str, np.ndarray]],
):
    exact, _ = slopes
    hip, depth = list(BODY).index("hip_girth"), list(BODY).index("waist_to_hip")
    assert abs(exact["front.hem_depth"][hip]) > 1e-3
    assert abs(exact["front.hem_depth"][depth]) > 1e-6


def test_what_no_measure_moves_stands_still(
    slopes: tuple[dict[str, np.ndarray], dict[str, np.ndarray]],
):
    exact, _ = slopes
    assert np.all(exact["sleeve.hem_outer"] == 0.0)


def test_values_have_the_same_bits_with_and_without_slopes():
    made = draft(DRESS)
    given = inputs(made, BODY)
    names = sorted(made.names)
    plain = solved(made, names, given)
    seeded: dict[str, Any] = {
        **given.measures,
        "hip_girth": Dual(np.array([981.0]), np.array([[1.0]])),
    }
    dual = solved(made, names, replace(given, measures=seeded))
    for name in names:
        node = made.names[name]
        assert np.array_equal(plain.value(node, 0), dual.value(node, 0)), name
