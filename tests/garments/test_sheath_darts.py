"""The darts of a sheath follow the bust point, in its bodice and in its skirt."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from cells import Cell
from rules import HALVES, to_dart
from trials import choosings, tried
from wearers import six

from godet.orders.records import Body, Measured

SHEATH = Cell("sheath_dress", "darted_blouse", "straight_skirt")
APART = (170.0, 180.0, 190.0, 200.0, 210.0)  # mm between the points of the bust


def _with(woman: Body, width: float) -> Body:
    place = woman.measures["bust_girth"].place
    given = Measured(width, f"{width / 10} cm", place)
    return replace(woman, measures={**woman.measures, "bust_point_width": given})


def test_a_wider_bust_moves_the_darts_of_bodice_and_skirt_together():
    for woman in six(SHEATH):
        trial = tried(SHEATH, [_with(woman, width) for width in APART], choosings(SHEATH)[:1])
        assert trial.accepted.all()
        tips = trial.of(trial.draft.pieces["front"].darts["waist_dart"].node)[:, 4, 0]
        assert np.allclose(np.diff(tips), 5.0, atol=1e-6)
        upper, lower = to_dart(trial, "front", "bottom"), to_dart(trial, "skirt_front", "waist")
        assert np.allclose(np.diff(upper), 5.0, atol=0.05)
        assert np.allclose(np.diff(lower), 5.0, atol=0.05)
        for half in HALVES:
            apart = to_dart(trial, half, "bottom") - to_dart(trial, f"skirt_{half}", "waist")
            assert np.abs(apart).max() <= 1.0, (woman.label, half)
