"""The ease of the library: what is added to the girths of the body."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from library_drafts import JERSEY, LINEN, STABLE_KNIT, VERY_STRETCHY, Cloth

from godet.solve.inputs import Inputs
from godet.solve.solver import solve
from godet.tools.compiling import compile_recipe

PLACES = ("bust", "waist", "hip", "upper_arm")
RECIPE = """\
edition 1
recipe eases
use ease_at_bust, ease_at_waist, ease_at_hip, ease_at_upper_arm, usable_stretch from ease
choose fit = one of close, easy, loose
let bust = ease_at_bust(fabric, fit)
let waist = ease_at_waist(fabric, fit)
let hip = ease_at_hip(fabric, fit)
let upper_arm = ease_at_upper_arm(fabric, fit)
let stretch = usable_stretch(fabric)
"""


@pytest.fixture(scope="module")
def recipe(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("ease") / "eases.godet"
    path.write_text(RECIPE)
    return path


def _eases(recipe: Path, cloth: Cloth, fit: str) -> dict[str, float]:
    """In mm; the usable stretch as a share."""
    compiled = compile_recipe(str(recipe))
    assert compiled.draft is not None, [p.sentence for p in compiled.problems]
    draft = compiled.draft
    cloths = {("main", name): np.array([value]) for name, value in cloth.items()}
    inputs = Inputs(("anybody",), {}, {"fit": np.array([fit])}, cloths)
    outcome = solve(draft.graph, draft.finds, draft.names.values(), inputs)
    assert outcome.failures == ()
    return {name: outcome.value(node, 0) for name, node in draft.names.items() if name != "fit"}


def test_a_close_woven_takes_the_least_that_the_costume_text_gives(recipe: Path) -> None:
    eases = _eases(recipe, LINEN, "close")
    # university costume text (Central Washington), found: in inches
    assert [eases[place] / 25.4 for place in ("bust", "waist", "hip")] == pytest.approx(
        [1.5, 0.75, 2.0]
    )


def test_an_easy_woven_takes_the_most_that_it_gives_at_the_hip(recipe: Path) -> None:
    # the same text: 2 to 2 3/4 in
    assert _eases(recipe, LINEN, "easy")["hip"] == pytest.approx(2.75 * 25.4)


def test_a_woven_bust_stands_in_the_bands_of_the_trade(recipe: Path) -> None:
    # a chart of the US pattern trade, from memory: fitted 3 to 4 in, loose 5 1/8 to 8 in
    assert 3 <= _eases(recipe, LINEN, "easy")["bust"] / 25.4 <= 4
    assert 5.125 <= _eases(recipe, LINEN, "loose")["bust"] / 25.4 <= 8


def test_a_close_very_stretchy_knit_takes_no_ease_round_the_body(recipe: Path) -> None:
    eases = _eases(recipe, VERY_STRETCHY, "close")
    # common practice, no source
    assert [eases[place] for place in ("bust", "waist", "hip")] == [0.0, 0.0, 0.0]


@pytest.mark.parametrize("cloth", [JERSEY, STABLE_KNIT, VERY_STRETCHY, LINEN])
@pytest.mark.parametrize("place", PLACES)
def test_more_ease_lies_farther_from_the_body(recipe: Path, cloth: Cloth, place: str) -> None:
    close, easy, loose = (_eases(recipe, cloth, fit)[place] for fit in ("close", "easy", "loose"))
    # by the meaning of the words
    assert 0 <= close < easy < loose


def test_a_firmer_knit_takes_more_ease_when_close(recipe: Path) -> None:
    firm, soft = (_eases(recipe, cloth, "close") for cloth in (STABLE_KNIT, JERSEY))
    # by hand: at the hip 5 cm less 15/50 of it, and less 40/50 of it
    assert firm["hip"] == pytest.approx(35.0)
    assert soft["hip"] == pytest.approx(10.0)
    assert all(firm[place] > soft[place] for place in PLACES)


def test_of_a_knit_six_tenths_of_the_stretch_are_usable_and_of_a_woven_nothing(
    recipe: Path,
) -> None:
    # by hand, from the library's own default
    assert _eases(recipe, JERSEY, "close")["stretch"] == pytest.approx(0.24)
    assert _eases(recipe, LINEN, "close")["stretch"] == 0.0
