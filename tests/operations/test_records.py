"""Every operation's record holds: its function is there, and its breaches have words."""

from __future__ import annotations

import inspect
import re
from pathlib import Path

import numpy as np
import pytest

from godet.base.words import WORDS, Severity
from godet.geometry import dual
from godet.geometry.guards import Guarded
from godet.operations.catalogue import OPERATIONS
from godet.operations.curves import CURVES
from godet.operations.darts import DARTS
from godet.operations.moving import MOVING
from godet.operations.points import POINTS
from godet.operations.record import numeric_function
from godet.operations.scalars import SCALARS

GEOMETRY = Path(dual.__file__).parent


@pytest.mark.parametrize("name", OPERATIONS)
def test_a_record_names_a_function_that_takes_what_it_says(name: str):
    record = OPERATIONS[name]
    parameters = inspect.signature(numeric_function(record.function)).parameters.values()
    gathers = any(p.kind is p.VAR_POSITIONAL for p in parameters)
    places = [p for p in parameters if p.kind is p.POSITIONAL_OR_KEYWORD]
    assert gathers or len(places) >= len(record.takes)
    needed = [p for p in places if p.default is p.empty]
    variable = any(taken.startswith("*") for taken in record.takes)
    # what is needed and no input is a constant of the node, as the exponent of a power
    assert variable or gathers or len(needed) >= len(record.takes)


def test_no_operation_stands_in_two_records():
    rooms = (SCALARS, POINTS, CURVES, DARTS, MOVING)
    assert len(OPERATIONS) == sum(len(room) for room in rooms)


@pytest.mark.parametrize("name", OPERATIONS)
def test_a_record_fails_only_in_words_that_there_are(name: str):
    record = OPERATIONS[name]
    assert record.sentence
    assert record.example
    for code in record.fails:
        assert WORDS[code][0] is Severity.ERROR


def breaches_in(source: str) -> set[str]:
    return set(re.findall(r'Breach\(\s*"([a-z-]+)"', source))


def test_every_breach_of_the_kernel_has_words():
    codes = set()
    for path in GEOMETRY.glob("*.py"):
        codes |= breaches_in(path.read_text(encoding="utf-8"))
    assert codes
    assert codes <= set(WORDS)
    assert {WORDS[code][0] for code in codes} == {Severity.ERROR}


@pytest.mark.parametrize("name", [name for name, op in OPERATIONS.items() if op.fails])
def test_a_breach_that_a_record_names_is_in_the_kernel(name: str):
    everywhere = {
        code
        for path in GEOMETRY.glob("*.py")
        for code in breaches_in(path.read_text(encoding="utf-8"))
    }
    assert set(OPERATIONS[name].fails) <= everywhere


# the shapes of inputs that are more than one number a body
PAIRS = {"point", "direction", "target", "first", "last", "start", "end", "by", "goal", "thing"}
SHAPES = {
    **dict.fromkeys(PAIRS, (2,)),
    **dict.fromkeys(("curve", "edge", "outline"), (3, 4, 2)),
    **dict.fromkeys(("dart", "take_up"), (5, 2)),
}
CONSTANTS = {"dart_row": {"row": 3}}
LINEAR = [(name, inputs) for name, op in OPERATIONS.items() for inputs in op.linear]


@pytest.mark.parametrize(("name", "moving"), LINEAR, ids=str)
def test_an_operation_is_linear_in_the_inputs_that_its_record_names(
    name: str, moving: tuple[str, ...]
):
    record = OPERATIONS[name]
    random = np.random.default_rng(3)
    function = numeric_function(record.function)

    def drawn(taken: str) -> np.ndarray:
        return random.uniform(1.0, 9.0, (5, *SHAPES.get(taken, ())))

    def at(inputs: dict[str, np.ndarray]) -> np.ndarray:
        value = function(*inputs.values(), **CONSTANTS.get(name, {}))
        return np.asarray(value.value if isinstance(value, Guarded) else value)

    assert set(moving) <= set(record.takes)
    takes = [taken for taken in record.takes if not taken.startswith("*")]
    first = {taken: drawn(taken) for taken in takes}
    last = {taken: drawn(taken) if taken in moving else first[taken] for taken in takes}
    # a quarter of the way between two inputs lies a quarter of the way between their values
    part = {taken: 0.75 * first[taken] + 0.25 * last[taken] for taken in takes}
    np.testing.assert_allclose(at(part), 0.75 * at(first) + 0.25 * at(last), rtol=1e-12)
    assert not np.allclose(at(first), at(last))
