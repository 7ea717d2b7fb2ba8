"""A body whose numbers are missing gives no numbers and no breach, and leaves the others alone."""

from __future__ import annotations

import numpy as np
import pytest
from dart_functions import STANDING_BESIDE
from every_function import EVERY_FUNCTION, plain

from godet.geometry.guards import Guarded


@pytest.mark.parametrize("name", EVERY_FUNCTION)
def test_missing_numbers_stay_missing_without_a_breach(name: str) -> None:
    function, every_input = EVERY_FUNCTION[name]
    whole = plain(function(*(item[:6] for item in every_input)))
    for missing in range(len(every_input)):
        inputs = [item[:6].copy() for item in every_input]
        inputs[missing][4] = np.nan
        result = function(*inputs)
        value = plain(result)
        assert np.isnan(value[4]).any() or missing in STANDING_BESIDE.get(name, ())
        np.testing.assert_array_equal(value[[0, 1, 2, 3, 5]], whole[[0, 1, 2, 3, 5]])
        for breach in result.breaches if isinstance(result, Guarded) else ():
            assert not breach.failed[4], breach.code
