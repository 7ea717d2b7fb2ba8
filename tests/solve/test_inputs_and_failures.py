"""What a body and a maker bring, what is missing, and that one body's failure is its own."""

from __future__ import annotations

import numpy as np
import pytest
from small_recipes import (
    DRESS,
    HEADING,
    KNIT,
    MEASURES,
    TOP,
    draft,
    inputs,
    solved,
    value,
    values,
)

from godet.solve.outcome import Outcome
from godet.solve.solver import solve

CHOOSING = (
    f"{HEADING}measure hip_girth\n"
    "choose hem = hip_girth / 20 from 1cm to 6cm\n"
    "choose fit = one of close, loose\n"
    "choose share = 1/4\n"
    "let ease = if fit is loose then 6cm else 2cm\n"
)


def failing(outcome: Outcome) -> list[tuple[int, str]]:
    return [(failure.body, failure.code) for failure in outcome.failures]


def test_a_choice_is_its_default_where_nothing_is_chosen():
    made = draft(CHOOSING)
    given = inputs(made, {"hip_girth": 980.0})
    assert values(made, "hem", given) == [49.0]
    assert values(made, "fit", given) == ["close"]
    assert values(made, "ease", given) == [20.0]
    assert values(made, "share", given) == [0.25]


def test_what_is_chosen_holds_for_every_body():
    made = draft(CHOOSING)
    given = inputs(made, {"hip_girth": [980.0, 1100.0]}, {"hem": 30.0, "fit": "loose"})
    assert values(made, "hem", given) == [30.0, 30.0]
    assert values(made, "ease", given) == [60.0, 60.0]


def test_a_choice_outside_its_range_fails_with_all_three_lengths():
    made = draft(CHOOSING)
    outcome = solved(made, ["hem"], inputs(made, {"hip_girth": [980.0, 1300.0]}))
    assert failing(outcome) == [(1, "choice-out-of-range")]
    assert outcome.failures[0].numbers == {"value": 65.0, "lowest": 10.0, "highest": 60.0}


def test_a_missing_measure_is_estimated_where_the_vocabulary_can():
    text = f"{HEADING}measure waist_to_hip\nlet a = waist_to_hip\n"
    # the small library estimates 12 % of the height
    assert value(text, "a", height=1500.0) == pytest.approx(180.0, abs=1e-12)
    assert value(text, "a", height=1500.0, waist_to_hip=200.0) == 200.0


def test_a_missing_measure_fails_only_the_bodies_that_lack_it():
    made = draft(CHOOSING)
    outcome = solved(made, ["hem", "share"], inputs(made, {"hip_girth": [980.0, np.nan, 700.0]}))
    assert failing(outcome) == [(1, "missing-measure")]
    assert [outcome.failed(body) for body in range(3)] == [False, True, False]
    assert outcome.value(made.names["hem"], 2) == 35.0
    assert outcome.holds(made.names["share"], 1)
    assert not outcome.holds(made.names["hem"], 1)


def test_an_estimate_that_lacks_its_own_measure_fails_only_where_it_is_needed():
    text = f"{HEADING}measure waist_to_hip\nlet a = waist_to_hip\n"
    made = draft(text)
    given = inputs(made, {"waist_to_hip": [200.0, np.nan], "height": [np.nan, np.nan]})
    outcome = solved(made, ["a"], given)
    assert failing(outcome) == [(1, "missing-measure")]


def test_the_branch_not_taken_may_fail():
    text = (
        f"{HEADING}measure hip_girth, waist_girth\n"
        "let a = if hip_girth > waist_girth then sqrt((hip_girth - waist_girth) * hip_girth) "
        "else 100cm / 0\n"
    )
    made = draft(text)
    given = inputs(made, {"hip_girth": [900.0, 700.0], "waist_girth": [500.0, 800.0]})
    outcome = solved(made, ["a"], given)
    assert failing(outcome) == [(1, "divided-by-zero")]
    assert outcome.value(made.names["a"], 0) == pytest.approx(600.0)


def test_a_cloth_that_nobody_named_and_one_that_does_not_say_are_told_apart():
    made = draft(DRESS)
    node = made.checks[0].condition
    silent = {("main", "structure"): KNIT[("main", "structure")]}
    for cloths, code in (({}, "cloth-missing"), (silent, "cloth-silent")):
        outcome = solve(made.graph, made.finds, [node], inputs(made, MEASURES, None, cloths))
        assert [failure.code for failure in outcome.failures] == [code]


ABSURD = {
    "bust_girth": [920.0, 1e-3, np.nan, -900.0, 1e9, 920.0],
    "waist_girth": [740.0, 740.0, 740.0, 1e12, 0.0, 740.0],
    "hip_girth": [980.0, -1.0, np.inf, 980.0, 0.0, 980.0],
    "height": [1680.0, 0.0, 1680.0, -5.0, 1e300, 1680.0],
}


@pytest.mark.filterwarnings("error")
def test_bodies_that_cannot_be_never_change_a_bit_of_the_others():
    made = draft(DRESS)
    names = sorted(made.names)
    alone = solved(made, names, inputs(made, MEASURES))
    assert alone.failures == ()
    outcome = solved(made, names, inputs(made, ABSURD))
    failed = {failure.body for failure in outcome.failures}
    assert {2, 4} <= failed <= {1, 2, 3, 4}
    for name in names:
        node = made.names[name]
        for body in (0, 5):
            assert np.array_equal(outcome.value(node, body), alone.value(node, 0))


@pytest.mark.parametrize("text", [TOP, DRESS], ids=["top", "dress"])
def test_a_body_has_the_same_bits_alone_and_in_any_batch(text: str):
    made = draft(text)
    names = sorted(made.names)
    random = np.random.default_rng(11)
    count = 1000
    bust = random.uniform(800.0, 1300.0, count)
    measures = {
        "bust_girth": bust,
        "waist_girth": bust - random.uniform(50.0, 200.0, count),
        "hip_girth": bust + random.uniform(-20.0, 150.0, count),
        "height": random.uniform(1450.0, 1900.0, count),
        "waist_to_hip": np.where(random.random(count) < 0.5, np.nan, 200.0),
        "shoulder_slope": random.uniform(0.2, 0.5, count),
    }
    whole = solved(made, names, inputs(made, measures))
    assert whole.failures == ()

    def same(rows: np.ndarray) -> None:
        part = solved(made, names, inputs(made, {m: v[rows] for m, v in measures.items()}))
        for name in names:
            node = made.names[name]
            for here, there in enumerate(rows):
                assert np.array_equal(part.value(node, here), whole.value(node, there)), name

    shuffled = random.permutation(count)
    again = solved(made, names, inputs(made, {m: v[shuffled] for m, v in measures.items()}))
    for name in names:
        node = made.names[name]
        values = whole.values[node]
        if len(values) > 1:
            assert np.array_equal(np.asarray(again.values[node]), np.asarray(values)[shuffled])
    same(shuffled[:7])
    for body in shuffled[7:10]:
        same(np.array([body]))
