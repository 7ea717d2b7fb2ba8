"""Parts of a path and closed chains."""

from __future__ import annotations

import numpy as np
import pytest
from fontTools.misc.bezierTools import splitCubicAtT
from hand_drafts import curved

from godet.pattern.paths import closed, length, part, straight

PATH = np.concatenate(
    [curved((0, 0), (30, -20), (60, 40), (90, 0)), curved((90, 0), (120, -40), (150, 5), (160, 60))]
)


@pytest.mark.parametrize(("first", "last"), [(0.0, 0.4), (0.3, 0.7), (0.6, 1.0)])
def test_a_part_of_one_cubic_is_what_fonttools_splits_off(first: float, last: float) -> None:
    # fontTools splits at each parameter of the whole cubic
    cuts = [t for t in (first, last) if 0.0 < t < 1.0]
    parts = splitCubicAtT(*map(tuple, PATH[0]), *cuts)
    expected = np.array(parts[1 if first > 0.0 else 0])
    np.testing.assert_allclose(part(PATH, first, last), expected[None], atol=1e-12)


def test_a_part_over_a_joint_keeps_both_sides() -> None:
    expected = [
        splitCubicAtT(*map(tuple, PATH[0]), 0.75)[1],
        splitCubicAtT(*map(tuple, PATH[1]), 0.25)[0],
    ]
    np.testing.assert_allclose(part(PATH, 0.75, 1.25), expected, atol=1e-12)  # fontTools


def test_a_part_to_a_joint_leaves_no_stub_beyond_it() -> None:
    np.testing.assert_array_equal(part(PATH, 0.0, 1.0), PATH[:1])
    np.testing.assert_array_equal(part(PATH, 1.0, 2.0), PATH[1:])


def test_a_closed_chain_starts_each_cubic_where_the_last_one_ended() -> None:
    chain = closed([PATH, straight((160.0, 60.0005), (0, 0))])
    assert np.array_equal(chain[:, 0], np.roll(chain[:, 3], 1, axis=0))
    # Pythagoras
    assert length(chain[-1:]) == pytest.approx(np.hypot(160, 60), abs=1e-9)
