"""A dress made as two: the lower edge of its top."""

from __future__ import annotations

import numpy as np
import pytest
from drafts import LINEN, drafts, path
from women import en_women


@pytest.mark.parametrize("dress", ["a_line_dress(cut_in_one_top)", "sheath_in_one", "column_dress"])
def test_the_lower_edge_of_the_top_rises_or_falls_all_the_way_to_the_side(dress: str) -> None:
    for draft in drafts("separates", en_women()[::3], LINEN, blocks={"whole_dress": dress}):
        for piece in ("front", "back"):
            down = np.diff(path(draft, piece, "bottom")[:, :, 1].reshape(-1))
            # a Bezier curve whose control points go one way only turns nowhere
            assert (down <= 0.01).all() or (down >= -0.01).all()
