"""Each operation of the language, for one body and for many.

    pytest tests/bench/test_operations.py --benchmark-enable -n0 -s

prints microseconds a body for 1, 100, 1,000 and 10,000 bodies; how many times as long as measuring
the length of an armhole a body of 10,000 takes; and by what power of the number of bodies the time
grows from 1,000 to 10,000: 1 where ten times the bodies take ten times as long (wanted), less where
a fixed cost is still felt. The inputs are those over which the tests of the kernel run; where a
function stands there more than once, the first counts. Without `--benchmark-enable` nothing is
timed.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import chain
from math import log10
from timeit import Timer
from typing import Any

import numpy as np
import pytest
from every_function import BODIES, EVERY_FUNCTION, OF_CONDITIONS, behind, plain

from godet.operations.catalogue import OPERATIONS
from godet.operations.record import numeric_function

SIZES = (1, 100, 1_000, 10_000)
ROUNDS = 5
LEAST = 0.02  # seconds of each round


def _tried(name: str) -> tuple[Any, tuple[Any, ...]]:
    """The function of an operation and its inputs."""
    wanted = numeric_function(OPERATIONS[name].function)
    everything = chain(EVERY_FUNCTION.values(), OF_CONDITIONS.values())
    return next((f, inputs) for f, inputs in everything if behind(f) is wanted)


def _for_bodies(inputs: tuple[Any, ...], bodies: int) -> list[Any]:
    """The inputs of the first bodies, begun anew when there are no more."""
    return [item[np.arange(bodies) % BODIES] for item in inputs]


def _seconds(name: str, bodies: int) -> float:
    """The least time of one call, of several rounds."""
    function, inputs = _tried(name)
    given = _for_bodies(inputs, bodies)
    timer = Timer(lambda: function(*given))
    once = timer.timeit(1)
    number = max(1, round(LEAST / once))
    return min(timer.repeat(ROUNDS, number)) / number


@pytest.mark.parametrize("name", OPERATIONS)
def test_an_operation_serves_as_many_bodies_as_it_is_given(name: str) -> None:
    function, inputs = _tried(name)
    bodies = 3 * BODIES
    value = plain(function(*_for_bodies(inputs, bodies)))
    # of an operation that takes nothing there is one value for all
    assert len(value) == (bodies if OPERATIONS[name].takes else 1)


def test_time_of_every_operation(request: pytest.FixtureRequest) -> None:
    # without the flag only a few bodies go through: that the table can be made is tried
    sizes = SIZES if request.config.getoption("--benchmark-enable") else SIZES[:2]
    times = {name: {n: _seconds(name, n) for n in sizes} for name in OPERATIONS}
    assert all(seconds > 0 for row in times.values() for seconds in row.values())
    print(f"\n{_table(times)}")


def _table(times: Mapping[str, Mapping[int, float]]) -> str:
    """The slowest for many bodies first."""
    sizes = sorted(next(iter(times.values())))
    many, fewer = sizes[-1], sizes[-2]
    heading = "".join(f"{size:>10,}" for size in sizes)
    lines = [f"{'microseconds a body':20}{heading}{'of length':>11}{'grows by':>10}"]
    for name, row in sorted(times.items(), key=lambda item: -item[1][many]):
        each = "".join(f"{row[size] / size * 1e6:10.3f}" for size in sizes)
        share = row[many] / times["length"][many]
        growth = log10(row[many] / row[fewer]) / log10(many / fewer)
        lines.append(f"{name:20}{each}{share:11.3f}{growth:10.2f}")
    return "\n".join(lines)
