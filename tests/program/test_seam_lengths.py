"""The lengths of a seam's two sides are values of the draft: as sewn, and as often as sewn."""

from __future__ import annotations

import numpy as np
import pytest
from small_recipes import HEADING, compiled, faults

from godet.solve.inputs import Inputs
from godet.solve.solver import solve

DARTED = f"""{HEADING}
measure hip_girth

piece skirt
  point waist_centre = origin
  point waist_side   = origin outward hip_girth / 4
  point hem_centre   = origin down 50cm
  point hem_side     = waist_side down 50cm
  point dart_place   = waist_centre outward 9cm
  dart waist_dart = on waist at dart_place by 3cm to dart_place down 12cm
  edge centre = line waist_centre to hem_centre
  edge waist  = line waist_centre to waist_side
  edge side   = line waist_side to hem_side
  edge bottom = line hem_centre to hem_side
  fold centre
  cut 1 of main
end

piece band
  point left  = origin
  point right = origin outward 43cm
  edge upper  = line left to right
  edge lower  = line left down 4cm to right down 4cm
  edge close  = line left to left down 4cm
  edge end_on = line right to right down 4cm
end

seam waist: whole(skirt.waist) to band.upper
"""


def test_a_whole_edge_with_a_dart_counts_twice_and_without_the_mouth() -> None:
    found = compiled(DARTED)
    assert faults(found.problems) == []
    draft = found.draft
    assert draft is not None
    (seam,) = draft.seams
    assert seam.lengths is not None
    girths = np.array([960.0, 1100.0])
    outcome = solve(
        draft.graph, draft.finds, seam.lengths, Inputs(("a", "b"), {"hip_girth": girths}, {}, {})
    )
    for body, girth in enumerate(girths):
        # half the hip less two darts of 3 cm
        assert outcome.value(seam.lengths[0], body) == pytest.approx(girth / 2 - 60.0, abs=1e-6)
        assert outcome.value(seam.lengths[1], body) == pytest.approx(430.0)
