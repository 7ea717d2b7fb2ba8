"""A body's numbers are the same bits alone, in a batch, in any order, and with or without
derivatives."""

from __future__ import annotations

import numpy as np
import pytest
from every_function import BODIES, EVERY_FUNCTION, plain
from garment_curves import Floats

from godet.geometry.dual import Dual

FUNCTIONS = pytest.mark.parametrize("name", EVERY_FUNCTION)


def _same_bits(a: Floats, b: Floats) -> bool:
    return np.ascontiguousarray(a).tobytes() == np.ascontiguousarray(b).tobytes()


@FUNCTIONS
@pytest.mark.parametrize("bodies", [1, 7, BODIES])
def test_bodies_in_random_order_keep_their_bits(name: str, bodies: int) -> None:
    function, inputs = EVERY_FUNCTION[name]
    together = plain(function(*inputs))
    order = np.random.default_rng(bodies).permutation(BODIES)
    for start in range(0, min(BODIES, 20 * bodies), bodies):
        chosen = order[start : start + bodies]
        assert _same_bits(plain(function(*(item[chosen] for item in inputs))), together[chosen])


@FUNCTIONS
def test_derivatives_leave_the_values_alone(name: str) -> None:
    function, inputs = EVERY_FUNCTION[name]
    seeds = [
        np.random.default_rng(n).normal(size=(2, *item.shape)) for n, item in enumerate(inputs)
    ]
    carried = plain(function(*(Dual(item, s) for item, s in zip(inputs, seeds, strict=True))))
    assert _same_bits(carried.value, plain(function(*inputs)))


@FUNCTIONS
def test_derivatives_of_a_body_alone_keep_their_bits(name: str) -> None:
    function, inputs = EVERY_FUNCTION[name]
    seeds = [
        np.random.default_rng(n).normal(size=(2, *item.shape)) for n, item in enumerate(inputs)
    ]
    pairs = list(zip(inputs, seeds, strict=True))
    together = plain(function(*(Dual(item, seed) for item, seed in pairs)))
    for body in (3, 444):
        alone = plain(
            function(*(Dual(i[body : body + 1], s[:, body : body + 1]) for i, s in pairs))
        )
        assert _same_bits(alone.tangent, together.tangent[:, body : body + 1])


@pytest.mark.parametrize(
    "name", [name for name, made in EVERY_FUNCTION.items() if len(made[1]) > 1]
)
def test_one_shared_input_serves_every_body(name: str) -> None:
    function, inputs = EVERY_FUNCTION[name]
    shared = [inputs[0][:1], *(item[:5] for item in inputs[1:])]
    repeated = [np.repeat(inputs[0][:1], 5, axis=0), *(item[:5] for item in inputs[1:])]
    assert _same_bits(plain(function(*shared)), plain(function(*repeated)))
