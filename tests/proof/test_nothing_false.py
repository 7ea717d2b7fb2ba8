"""Nothing false is ever proved: random inequalities against dense sampling by the solver.

The solver, which knows nothing of proofs, works out both sides for the ends of every range, for a
grid between them and for random choices; a proof that one of these contradicts would be false.
"""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_recipes import HEADING, draft

from godet.proof.proving import prove_check
from godet.proof.verdicts import Proved
from godet.solve.inputs import Inputs
from godet.solve.solver import solve

CHOICES = f"""{HEADING}
choose p = 0 from -1 to 2
choose q = 1/2 from 0 to 1
choose r = 1 from q to q + 2
choose s = 2 from 1 to 3
choose t = 1 from min(q, r - 1) to max(r, s)
"""
# where between its ends each choice lies
SHARES = np.concatenate(
    [
        np.array(list(product((0.0, 0.5, 1.0), repeat=5))),
        np.random.default_rng(4).uniform(0.0, 1.0, (600, 5)),
    ]
)


def picks() -> dict[str, np.ndarray]:
    """The choices of every row of `SHARES`, between the ends that the recipe writes."""
    p, q = SHARES[:, 0] * 3.0 - 1.0, SHARES[:, 1]
    r, s = q + SHARES[:, 2] * 2.0, 1.0 + 2.0 * SHARES[:, 3]
    low, high = np.minimum(q, r - 1.0), np.maximum(r, s)
    t = np.clip(low + SHARES[:, 4] * (high - low), low, high)
    return {"p": p, "q": q, "r": np.clip(r, q, q + 2.0), "s": s, "t": t}


def _written(parts: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    pair = st.tuples(parts, parts)
    return st.one_of(
        pair.map(lambda both: f"({both[0]} + {both[1]})"),
        pair.map(lambda both: f"({both[0]} - {both[1]})"),
        pair.map(lambda both: f"{both[0]} * {both[1]}"),
        pair.map(lambda both: f"min({both[0]}, {both[1]})"),
        pair.map(lambda both: f"max({both[0]}, {both[1]})"),
        parts.map(lambda one: f"abs({one})"),
        parts.map(lambda one: f"{one} / s"),
        parts.map(lambda one: f"{one} / (1 + q)"),
        parts.map(lambda one: f"{one} / (p - 3)"),
        parts.map(lambda one: f"sqrt(({one}) * ({one}))"),
        parts.map(lambda one: f"({one}) ^ 2"),
        st.tuples(parts, parts, parts).map(
            lambda three: f"(if {three[0]} > {three[1]} then {three[2]} else {three[0]})"
        ),
    )


LEAVES = st.sampled_from(["p", "q", "r", "s", "t", "1", "2", "(1/2)", "(-1)"])
EXPRESSIONS = st.recursive(LEAVES, _written, max_leaves=5)


def contradicted(text: str, strict: bool) -> bool:
    """Whether the requirement is proved, and yet does not hold for a choice tried, but for
    rounding."""
    made = draft(text)
    if prove_check(made, made.checks[-1], steps=20_000) != Proved():
        return False
    choices = picks()
    inputs = Inputs(tuple(map(str, range(len(SHARES)))), {}, choices, {})
    nodes = [made.names["left"], made.names["right"], *(made.names[name] for name in choices)]
    outcome = solve(made.graph, made.finds, nodes, inputs)
    for body in range(len(SHARES)):
        if all(outcome.holds(node, body) for node in nodes):
            left, right = (float(outcome.value(node, body)) for node in nodes[:2])
            rounding = 0.0 if strict else 1e-9 * max(1.0, abs(left), abs(right))
            if left < right - rounding or (strict and left == right):
                return True
    return False


@settings(max_examples=150, deadline=None, derandomize=True)
@given(EXPRESSIONS, EXPRESSIONS, st.booleans())
def test_nothing_false_is_proved(left: str, right: str, strict: bool):
    sign = ">" if strict else ">="
    text = f"{CHOICES}let left = {left}\nlet right = {right}\nrequire left {sign} right\n"
    assert not contradicted(text, strict), text


@settings(max_examples=80, deadline=None, derandomize=True)
@given(EXPRESSIONS, EXPRESSIONS, st.integers(0, 30), st.booleans())
def test_nothing_false_is_proved_of_what_is_nearly_true(
    one: str, other: str, tenths: int, strict: bool
):
    # the largest of two less a little is more than one of them, or less, as the little will have it
    sign = ">" if strict else ">="
    text = f"{CHOICES}let left = max({one}, {other})\nlet right = {one} + {tenths}/10 - 1\n"
    text += f"require left {sign} right\n"
    assert not contradicted(text, strict), text


@pytest.mark.parametrize(
    "line",
    [
        "max(p, q) >= min(r, q)", "abs(p) + abs(q) >= abs(p)", "(r - q) * s >= r - q",
        "t <= 3", "t >= -1", "q / s <= 1", "r / (1 + q) >= 0", "max(p, q) > p - 1/10",
        "sqrt((p - q) ^ 2) >= p - q",
    ],
)  # fmt: skip
def test_what_is_true_of_these_choices_is_proved(line: str):
    made = draft(f"{CHOICES}require {line}\n")
    assert prove_check(made, made.checks[-1]) == Proved()
