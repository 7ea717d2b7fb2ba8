"""Ten thousand bodies in one batch, against the same dress written by hand in NumPy.

    pytest tests/bench --benchmark-enable -n0 -s

prints how many times longer Godet takes (wanted: at most twice). Without `--benchmark-enable` the
two are only compared, on fewer bodies.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from timeit import repeat
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from plain_dress import plain_dress
from pytest_benchmark.fixture import BenchmarkFixture

from godet.pattern.finish import targets
from godet.program.draft import Draft
from godet.solve.inputs import Inputs
from godet.solve.outcome import Outcome
from godet.solve.solver import solve
from godet.tools.compiling import compile_recipe

Floats = NDArray[np.float64]

MANY, FEW = 10_000, 50
ROUNDS = 5
ALIKE = 1e-6  # mm


@dataclass(frozen=True)
class Dresses:
    """The same bodies drafted both ways, and how to do so again."""

    draft: Draft
    outcome: Outcome
    plain: dict[str, NDArray[Any]]
    by_godet: Callable[[], Outcome]
    by_hand: Callable[[], dict[str, NDArray[Any]]]


@pytest.fixture(scope="module")
def dresses(request: pytest.FixtureRequest) -> Dresses:
    bodies = MANY if request.config.getoption("--benchmark-enable") else FEW
    bust, waist, hip, height = _measures(bodies)
    draft = compile_recipe("column_dress").draft
    assert draft is not None
    inputs = Inputs(
        labels=tuple(str(number) for number in range(bodies)),
        measures={
            "bust_girth": bust, "waist_girth": waist, "hip_girth": hip, "height": height
        },
        choices={},
        cloths={
            ("main", "structure"): np.array(["knit"]),
            ("main", "stretch_across"): np.array([0.4]),
            ("main", "stretch_along"): np.array([0.15]),
        },
    )  # fmt: skip
    wanted = targets(draft)

    def by_godet() -> Outcome:
        return solve(draft.graph, draft.finds, wanted, inputs)

    def by_hand() -> dict[str, NDArray[Any]]:
        return plain_dress(bust, waist, hip, height)

    return Dresses(draft, by_godet(), by_hand(), by_godet, by_hand)


def _measures(bodies: int) -> tuple[Floats, Floats, Floats, Floats]:
    """Bust, waist, hip and height of invented adults, in mm."""
    random = np.random.default_rng(20)
    bust = random.uniform(760.0, 1300.0, bodies)
    waist = bust - random.uniform(80.0, 260.0, bodies)
    hip = bust + random.uniform(0.0, 120.0, bodies)
    return bust, waist, hip, random.uniform(1500.0, 1850.0, bodies)


def test_every_body_drafts(dresses: Dresses) -> None:
    assert dresses.outcome.failures == ()


def test_every_point_is_where_the_plain_dress_has_it(dresses: Dresses) -> None:
    compared = 0
    for piece, name, node in _of_pieces(dresses.draft, "points"):
        godet = dresses.outcome.values[node]
        # plain_dress.py
        away = godet[..., 0] + 1j * godet[..., 1] - dresses.plain[f"{piece}.{name}"]
        np.testing.assert_allclose(away, 0.0, atol=ALIKE)
        compared += 1
    assert compared == sum(1 for name in dresses.plain if _is_point(name))


def test_every_edge_has_the_ends_and_the_length_of_the_plain_one(dresses: Dresses) -> None:
    compared = 0
    for piece, name, edge in _of_pieces(dresses.draft, "edges"):
        curve = dresses.outcome.values[edge.curve]
        godet = np.moveaxis(curve[..., 0] + 1j * curve[..., 1], 0, -1)
        plain = dresses.plain[f"{piece}.edge {name}"]
        # plain_dress.py
        np.testing.assert_allclose(godet[0, 0] - plain[0, 0], 0.0, atol=ALIKE)
        np.testing.assert_allclose(godet[-1, 3] - plain[-1, 3], 0.0, atol=ALIKE)
        np.testing.assert_allclose(_length(godet) - _length(plain), 0.0, atol=ALIKE)
        compared += 1
    assert compared == sum(1 for name in dresses.plain if ".edge " in name)


def test_the_levels_lie_as_deep_as_in_the_plain_dress(dresses: Dresses) -> None:
    for half in ("front", "back"):
        levels = dresses.draft.pieces[half].levels
        for name in ("bust", "waist", "high_hip", "hip"):
            godet = dresses.outcome.values[levels[name]]
            # plain_dress.py
            np.testing.assert_allclose(godet, dresses.plain[f"level {name}"], rtol=0, atol=ALIKE)


def test_the_blend_gives_as_much_width_as_the_plain_one(dresses: Dresses) -> None:
    for half in ("front", "back"):
        (blend,) = dresses.draft.pieces[half].edges["side"].blends
        # plain_dress.py
        np.testing.assert_allclose(
            dresses.outcome.values[blend.gives], dresses.plain["gives waist"], rtol=0, atol=ALIKE
        )


def test_every_check_compares_what_the_plain_dress_does(dresses: Dresses) -> None:
    told = [check for check in dresses.draft.checks if check.measured is not None]
    plain = [name for name in dresses.plain if name.startswith("measured ")]
    assert len(told) == len(plain)
    for check, name in zip(told, plain, strict=True):
        assert check.measured is not None
        assert check.wanted is not None
        for side, node in (("measured", check.measured), ("wanted", check.wanted)):
            expected = dresses.plain[name.replace("measured", side)]
            # plain_dress.py
            away = dresses.outcome.values[node] - expected
            np.testing.assert_allclose(away, 0.0, atol=ALIKE, err_msg=check.words)


def test_time_against_the_plain_dress(dresses: Dresses, benchmark: BenchmarkFixture) -> None:
    outcome = benchmark(dresses.by_godet)
    assert len(outcome.labels) == len(dresses.outcome.labels)
    if benchmark.stats is not None:
        plain = min(repeat(dresses.by_hand, number=1, repeat=ROUNDS))
        ratio = benchmark.stats.stats.min / plain
        benchmark.extra_info.update(plain_seconds=plain, ratio=ratio)
        print(f"\n{MANY} bodies: {ratio:.1f} times as long as the plain dress ({plain:.3f} s)")


def _of_pieces(draft: Draft, members: str) -> Iterator[tuple[str, str, Any]]:
    for piece_name, piece in draft.pieces.items():
        for name, member in getattr(piece, members).items():
            yield piece_name, name, member


def _is_point(name: str) -> bool:
    return "." in name and " " not in name


def _length(curve: NDArray[np.complex128]) -> Floats:
    """The length (B,) of cubics (n, 4, B), by numpy's Gauss-Legendre rule of 100 nodes."""
    places, weights = np.polynomial.legendre.leggauss(100)
    first, second, third = (3.0 * (curve[:, i + 1] - curve[:, i]) for i in range(3))
    total = np.zeros(curve.shape[2])
    for t, weight in zip(0.5 + 0.5 * places, 0.5 * weights, strict=True):
        speed = abs((1 - t) ** 2 * first + 2 * (1 - t) * t * second + t * t * third)
        total += weight * speed.sum(axis=0)
    return total
