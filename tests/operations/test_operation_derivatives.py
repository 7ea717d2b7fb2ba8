"""Every operation carries its derivative, or gives what has none.

Checked through the function that its record names, as a graph calls it, against central
differences with two steps and Richardson's extrapolation, into which only values enter.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pytest

from godet.geometry import hobby, lines
from godet.geometry.arc_length import along, length
from godet.geometry.dual import Dual, tangent_of, value_of
from godet.geometry.ends import end_point
from godet.geometry.guards import Guarded
from godet.operations.catalogue import OPERATIONS
from godet.operations.record import numeric_function

Floats = Any  # an array, or dual numbers
BODIES = 24
STEP = 2e-3
_RANDOM = np.random.default_rng(23)


def _some(low: float, high: float) -> Floats:
    return _RANDOM.uniform(low, high, BODIES)


def _near(across: float, down: float) -> Floats:
    return np.array([[across, down]]) + _RANDOM.uniform(-6.0, 6.0, (BODIES, 2))


# corners of a bodice that differ from body to body, and ways that nearly are outward and down
NECK, SHOULDER, HOLLOW, UNDERARM = _near(70, 10), _near(200, 40), _near(185, 150), _near(240, 230)
WAIST, CENTRE = _near(230, 420), _near(0, 430)
OUT, DOWN = _near(60, 4) / 60.0, _near(4, 60) / 60.0
UP_300 = np.array([[0.0, 300.0]])


def _armhole(shoulder: Floats, hollow: Floats, underarm: Floats) -> Floats:
    return hobby.hobby([shoulder, hollow, underarm]).value


def _side(underarm: Floats, waist: Floats) -> Floats:
    return lines.line(underarm, waist).value


@dataclass(frozen=True)
class Tried:
    """Inputs of an operation, made from points, ways and numbers that are moved."""

    moved: tuple[Floats, ...]
    inputs: Callable[..., tuple[Floats, ...]] = lambda *given: given
    constants: Mapping[str, Any] = field(default_factory=dict)


_CURVE = (SHOULDER, HOLLOW, UNDERARM)
_BLENDED = Tried(
    (SHOULDER, HOLLOW, UNDERARM, WAIST, _some(60, 90)),
    lambda s, h, u, w, over: (_armhole(s, h, u), _side(u, w), over),
)
_PAIR = Tried((NECK, SHOULDER))
_PARTS = Tried(
    (*_CURVE, _some(0.2, 0.8)),
    lambda s, h, u, share: (
        _armhole(s, h, u),
        along(_armhole(s, h, u), share * length(_armhole(s, h, u))).value,
    ),
)
_AT_END = Tried((*_CURVE, WAIST), lambda s, h, u, w: (_armhole(s, h, u), u, w))
_NUMBERS = Tried((_some(2, 9), _some(2, 9)))
_ANGLE = Tried((_some(0.2, 1.2),))

TRIED: Mapping[str, Tried] = {
    **dict.fromkeys(("add", "subtract", "multiply", "divide", "slope"), _NUMBERS),
    **dict.fromkeys(("sin", "cos", "tan", "direction_at"), _ANGLE),
    **dict.fromkeys(("min", "max"), Tried((_some(2, 5), _some(6, 9), _some(5.1, 5.9)))),
    "negative": Tried((_some(2, 9),)),
    "power": Tried((_some(2, 9),), constants={"numerator": 3, "denominator": 2}),
    "abs": Tried((_some(-9, -2),)),
    "within": Tried((_some(3, 8), _some(0, 2), _some(9, 12))),
    "given": Tried((_some(2, 9),)),
    "point_at": Tried((_some(2, 9), _some(2, 9))),
    "moved": Tried((NECK, OUT, _some(4, 12))),
    "toward": Tried((NECK, SHOULDER, _some(4, 12))),
    "between": Tried((NECK, SHOULDER, _some(0.1, 0.9))),
    **dict.fromkeys(("distance", "offset", "shifted", "across_from", "down_from"), _PAIR),
    "direction_between": _PAIR,
    **dict.fromkeys(("square_direction", "direction_along"), _AT_END),
    "line": _PAIR,
    "spline": Tried((*_CURVE, DOWN, OUT), constants={"leaving": True, "arriving": True}),
    "arc": Tried((CENTRE, WAIST, OUT), constants={"at_end": False}),
    "square_arc": Tried((NECK, CENTRE, WAIST), lambda n, c, w: (c, w, _side(n, c))),
    **dict.fromkeys(
        ("joined", "together"),
        Tried((*_CURVE, WAIST), lambda s, h, u, w: (_armhole(s, h, u), _side(u, w))),
    ),
    **dict.fromkeys(("until", "from_point"), _PARTS),
    **dict.fromkeys(
        ("extended", "parallel"),
        Tried((*_CURVE, _some(4, 12)), lambda s, h, u, by: (_armhole(s, h, u), by)),
    ),
    **dict.fromkeys(("blend", "blend_gives"), _BLENDED),
    **dict.fromkeys(
        ("start_point", "end_point", "end_direction", "length"),
        Tried(_CURVE, lambda s, h, u: (_armhole(s, h, u),)),
    ),
    "from_the": Tried(_CURVE, lambda s, h, u: (_armhole(s, h, u),), {"which": "centre"}),
    "along": Tried(
        (*_CURVE, _some(20, 90)),
        lambda s, h, u, by: (_armhole(s, h, u), end_point(_armhole(s, h, u)), by),
    ),
    "crossing": Tried(
        (*_CURVE, CENTRE, WAIST),
        lambda s, h, u, c, w: (_armhole(s, h, u), _side(c - UP_300, w - UP_300)),
        {"selector": "only"},
    ),
    "angle": Tried((*_CURVE, WAIST), lambda s, h, u, w: (_armhole(s, h, u), _side(u, w))),
    "width": Tried(
        (*_CURVE, CENTRE, _some(60, 200)),
        lambda s, h, u, c, down: (
            np.concatenate([_armhole(s, h, u), _side(c - 1.5 * UP_300, c)], axis=1),
            down,
        ),
    ),
    "depth": Tried((NECK,)),
}
# conditions say yes or no, and a way of the page stands still
WITHOUT = {
    "at_least", "more_than", "same_word", "both", "any_of", "negated", "compass",
}  # fmt: skip


def test_every_operation_is_tried():
    assert set(TRIED) | WITHOUT == set(OPERATIONS)
    assert not set(TRIED) & WITHOUT


@pytest.mark.parametrize("name", TRIED)
def test_an_operation_carries_its_derivative(name: str):
    tried = TRIED[name]
    function = numeric_function(OPERATIONS[name].function)

    def at(*moved: Floats) -> Floats:
        value = function(*tried.inputs(*moved), **tried.constants)
        if isinstance(value, Guarded):
            assert not any(breach.failed.any() for breach in value.breaches), value.breaches
            value = value.value
        return value

    ways = [_RANDOM.normal(size=each.shape) for each in tried.moved]
    carried = at(*(Dual(each, way[None]) for each, way in zip(tried.moved, ways, strict=True)))
    np.testing.assert_array_equal(value_of(carried), at(*tried.moved))

    def difference(by: float) -> Floats:
        ahead = at(*(each + by * way for each, way in zip(tried.moved, ways, strict=True)))
        back = at(*(each - by * way for each, way in zip(tried.moved, ways, strict=True)))
        return (ahead - back) / (2.0 * by)

    expected = (4.0 * difference(STEP / 2.0) - difference(STEP)) / 3.0
    assert np.abs(expected).max() > 1e-3
    # rounding of what is measured in hundreds of mm leaves 1e-7 or so of a difference
    np.testing.assert_allclose(tangent_of(carried, 1)[0], expected, rtol=1e-5, atol=1e-6)
