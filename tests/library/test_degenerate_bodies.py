"""Bodies that nobody has: each gets a pattern of numbers, or is told in words what is wrong.

Girths of 50 to 200 cm in any relation to each other, the other measures anywhere in their plausible
ranges, at an end of them, or estimated. The bodies are drawn at random, always the same ones.
"""

from __future__ import annotations

import json
import re
import warnings
from itertools import product

import numpy as np
import pytest
from drafts import JERSEY, LINEN, body
from library_bodies import Measures
from library_drafts import linked, solved

from godet.base.problems import has_errors
from godet.geometry.dual import value_of
from godet.graph.types import LENGTH
from godet.orders.records import Body, Fabric
from godet.output.draft_json import draft_json
from godet.program.draft import Draft
from godet.tools.drafting import draft_all, prepared_for

RECIPES = ("knit_tee", "column_dress")
GIRTHS = ("bust_girth", "waist_girth", "hip_girth")
DRAFTED = 24


def nobody(draft: Draft, random: np.random.Generator, number: int) -> Body:
    """Measures that are nonsense in their relations; the slope of the shoulder is estimated."""
    drawn: dict[str, float] = {}
    for name, measure in draft.measures.items():
        if measure.type != LENGTH or measure.lowest is None or measure.highest is None:
            continue
        ends = (measure.lowest, measure.highest)
        match random.integers(3):
            case 0:
                drawn[name] = random.uniform(*ends)
            case 1:
                drawn[name] = random.choice(ends)
    drawn["height"] = random.uniform(500.0, 2500.0)
    drawn |= {name: random.uniform(500.0, 2000.0) for name in GIRTHS}
    in_cm = {name: float(value) / 10.0 for name, value in drawn.items()}
    return body(f"nobody_{number}.", **in_cm)


@pytest.mark.parametrize("cloth", [JERSEY, LINEN], ids=lambda cloth: cloth.structure)
@pytest.mark.parametrize("recipe", RECIPES)
def test_a_body_that_nobody_has_gets_numbers_or_is_told_what_is_wrong(recipe: str, cloth: Fabric):
    draft = linked(recipe)
    random = np.random.default_rng(17)
    bodies = [nobody(draft, random, number) for number in range(DRAFTED)]
    prepared = prepared_for(bodies, {"main": cloth, "rib": cloth}, {}, draft)
    with warnings.catch_warnings():
        warnings.simplefilter("error")  # a number that runs away warns before it is one no more
        patterns, problems = draft_all(prepared)
    sentences = [found.sentence for found in problems]
    assert not [s for s in sentences if re.search(r"\bnan\b|\binf\b|no number", s)]
    without = {nobody.label for nobody, made in zip(bodies, patterns, strict=True) if made is None}
    if without:
        assert has_errors(problems)
    for label in without:
        # ten are named in one sentence, and the others counted
        assert any(label in sentence or " more" in sentence for sentence in sentences), label
    for made in patterns:
        if made is not None:
            json.loads(draft_json(made), parse_constant=_refused)
    # nonsense is mostly refused, but what can be drawn is drawn
    assert 0 < len(without) < DRAFTED


def _refused(constant: str) -> float:
    raise AssertionError(f"{constant} stands in a draft")


def grid() -> dict[str, Measures]:
    """Every girth with every other, on a child's height and a tall man's."""
    sizes = (500.0, 700.0, 900.0, 1100.0, 1400.0, 1700.0, 2000.0)
    return {
        f"{girths} {height}": {**dict(zip(GIRTHS, girths, strict=True)), "height": height}
        for girths in product(sizes, repeat=3)
        for height in (1100.0, 2000.0)
    }


@pytest.mark.parametrize("recipe", RECIPES)
def test_every_value_of_every_relation_of_girths_is_a_number_or_has_failed(recipe: str):
    made = solved(recipe, grid())
    outcome = made.outcome
    for name, node in made.nodes.items():
        values = value_of(outcome.values[node])
        if values.dtype.kind != "f":
            continue
        finite = np.isfinite(values).reshape(len(values), -1).all(axis=1)
        for number in np.nonzero(~finite)[0]:
            assert not outcome.holds(node, int(number)), (name, outcome.labels[number])
    told = {failure.body for failure in outcome.failures}
    failing = {
        body
        for node in made.nodes.values()
        for body in range(len(outcome.labels))
        if not outcome.holds(node, body)
    }
    assert failing == told
