"""Slash and spread: a cut opens by exactly what is asked, and what is not cut keeps its length."""

from __future__ import annotations

import numpy as np
import pytest
from darted_pieces import SKIRT, SKIRTS, Floats, codes, length, tried
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

TRIED = settings(
    max_examples=8, deadline=None, phases=[Phase.explicit, Phase.generate], derandomize=True
)
HEM = "along hem from hem_centre by hem_place * length(hem)"


def _size(one: Floats, two: Floats) -> float:
    return float(np.hypot(*(one - two)))


OUTER = ("side_waist", "hem_side")  # corners of what lies beyond every cut


def _along(curve: Floats, share: float) -> Floats:
    """The point at a share of a curve's length, by its chords."""
    t = np.linspace(0.0, 1.0, 4001)[:, None]
    weights = [(1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3]
    points = np.concatenate([np.concatenate(weights, 1) @ cubic for cubic in curve])
    reached = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    at = share * reached[-1]
    return np.array([np.interp(at, reached, points[:, axis]) for axis in (0, 1)])


@given(SKIRTS, st.sampled_from((1, 2, 5)))
@TRIED
def test_cuts_hinged_on_the_waist_open_together_by_what_is_asked(how, count):
    where = f"at {HEM}" if count == 1 else f"in {count} places"
    hinge = (
        "waist at along waist from centre_waist by 40 % * length(waist)" if count == 1 else "waist"
    )
    text = f"piece wide from block\n  spread hem by amount {where}, hinged on {hinge}\nend\n"
    drawn = tried(SKIRT, text, how)
    hem, waist = drawn.edge("block", "hem"), drawn.edge("block", "waist")
    shares = [n / (count + 1) for n in range(1, count + 1)]
    places = [(_along(hem, share), _along(waist, share)) for share in shares]
    if count == 1:
        places = [(_along(hem, how["hem_place"]), _along(waist, 0.4))]
    # a cut is opened as wide as the chord of the angle by which it turns about its hinge
    turns = [2.0 * np.arcsin(how["amount"] / count / 2.0 / _size(*cut)) for cut in places]
    assert -drawn.turned("wide", OUTER) == pytest.approx(sum(turns), rel=2e-2)
    for edge in ("centre", "side"):
        assert length(drawn.edge("wide", edge)) == pytest.approx(
            length(drawn.edge("block", edge)), abs=1e-8
        )
    told = drawn.told_length("wide", "waist")
    assert told == pytest.approx(drawn.sewn("wide", "waist"), abs=1e-7)
    # rounded at the hinges it is hardly shorter: seams are compared to 1 mm
    assert told == pytest.approx(drawn.sewn("block", "waist"), abs=0.6)


@given(SKIRTS, st.sampled_from((1, 3)))
@TRIED
def test_cuts_opened_as_much_at_both_ends_move_the_rest_aside(how, count):
    at = "along waist from centre_waist by 90 % * length(waist)"
    where = f"at {HEM}" if count == 1 else f"in {count} places"
    other = f" at {at}" if count == 1 else ""
    text = f"piece wide from block\n  spread hem by amount {where}, waist by amount{other}\nend\n"
    drawn = tried(SKIRT, text, how)
    assert drawn.turned("wide", OUTER) == pytest.approx(0.0, abs=1e-9)
    moved = drawn.point("wide", "side_waist") - drawn.point("block", "side_waist")
    if count == 1:
        assert np.hypot(*moved) == pytest.approx(how["amount"], abs=1e-9)
    assert np.hypot(*moved) <= how["amount"] + 1e-9
    # nothing turns
    for edge in ("side",):
        old, new = drawn.edge("block", edge), drawn.edge("wide", edge)
        np.testing.assert_allclose(new - new[0, 0], old - old[0, 0], atol=1e-8)


@given(SKIRTS, st.floats(0.1, 0.9))
@TRIED
def test_opened_by_less_at_the_waist_both_ends_open_by_what_is_asked(how, less):
    at = "along waist from centre_waist by 90 % * length(waist)"
    text = (
        f"piece wide from block\n  spread hem by amount at {HEM}, waist by {less:.4f} * amount at "
        f"{at}\nend\n"
    )
    drawn = tried(SKIRT, text, how)
    hem = drawn.edge("block", "hem")
    place = _along(hem, how["hem_place"])
    assert _size(drawn.laid("wide", OUTER, place), place) == pytest.approx(how["amount"], abs=1e-9)
    # the corners of the outer part lie as far from each other as before
    before = _size(drawn.point("block", "side_waist"), drawn.point("block", "hem_side"))
    after = _size(drawn.point("wide", "side_waist"), drawn.point("wide", "hem_side"))
    assert after == pytest.approx(before, abs=1e-9)


@given(SKIRTS)
@TRIED
def test_to_spread_by_nothing_changes_nothing(how):
    text = "piece wide from block\n  spread hem by amount in 3 places, hinged on waist\nend\n"
    drawn = tried(SKIRT, text, {**how, "amount": 1e-4})
    for point in drawn.draft.pieces["block"].points:
        np.testing.assert_allclose(
            drawn.point("wide", point), drawn.point("block", point), atol=1e-3
        )
    for edge in ("waist", "hem", "side", "centre"):
        told = drawn.told_length("wide", edge)
        # a waist that is faired is not to the last hair the one that was drawn
        assert told == pytest.approx(drawn.sewn("block", edge), abs=1e-2)


def test_many_cuts_through_an_edge_with_a_dart_are_drafted():
    how = {"hip_girth": 1000.0, "dart_place": 0.42, "amount": 200.0}
    text = "piece wide from block\n  spread hem by amount in 24 places, hinged on waist\nend\n"
    drawn = tried(SKIRT, text, how)
    told = drawn.told_length("wide", "waist")
    assert told == pytest.approx(drawn.sewn("block", "waist"), abs=0.6)
    assert codes(SKIRT + text.replace("24", "25")) >= {"spread-count"}
