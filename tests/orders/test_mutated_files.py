"""Whatever stands in a file, the readers answer with problems and never raise."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from godet.base.problems import Problem, has_errors
from godet.orders.bodies import read_body
from godet.orders.dockets import read_docket
from godet.orders.fabrics import read_fabric
from godet.orders.records import MeasureMeaning
from godet.orders.tables import read_size_table

Vocabulary = Mapping[str, MeasureMeaning]

ROOT = Path(__file__).parents[2]
GOOD = [
    (ROOT / "recipes/bodies/adult_a.yaml").read_text(),
    (ROOT / "recipes/bodies/adult_small.yaml").read_text(),
    (ROOT / "recipes/fabrics/cotton_jersey.yaml").read_text(),
    (ROOT / "stdlib/sizes/en13402_3_women.csv").read_text(),
    "recipe: dress\ndate: 2027-03-01\nbody: a.yaml\nwith: {top: tee}\nchoose: {top.sleeve: x}\n",
]
PIECES = st.sampled_from(
    [
        *"{}[]:,-&*!|>'\"#%@`\t\n ?\\0",
        "&a ",
        "*a",
        "!!str ",
        "---\n",
        "\x85",
        "\u2028",
        "<<: ",
        "\\ud800",
        "\0",
        "1e9",
    ]
)


@st.composite
def mutated(draw: st.DrawFn) -> str:
    text = draw(st.sampled_from(GOOD))
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        end = draw(st.integers(start, min(len(text), start + 8)))
        text = text[:start] + draw(PIECES | st.text(max_size=4)) + text[end:]
    return text


def check(problems: tuple[Problem, ...], path: Path, missing: bool) -> None:
    """Every problem is sayable and stands in the file; nothing is missing without an error."""
    for found in problems:
        found.sentence.encode()
        assert found.place is not None
        assert found.place.file == str(path)
        assert found.place.line >= 1
        assert found.place.column >= 1
    assert has_errors(problems) or not missing


def read_all(path: Path, vocabulary: Vocabulary) -> None:
    readers: list[Callable[[Path], tuple[object, tuple[Problem, ...]]]] = [
        lambda p: read_body(p, vocabulary),
        read_fabric,
        read_docket,
    ]
    for reader in readers:
        value, problems = reader(path)
        check(problems, path, value is None)
        assert value is None or not has_errors(problems)
    bodies, problems = read_size_table(path, vocabulary)
    check(problems, path, not bodies)


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("mutated") / "a.file"


@given(mutated())
@settings(max_examples=300, deadline=None)
def test_a_mutated_good_file_never_raises(path: Path, vocabulary: Vocabulary, text: str) -> None:
    path.write_bytes(text.encode("utf-8", "replace"))
    read_all(path, vocabulary)


@given(st.text() | st.lists(PIECES).map("".join))
@settings(max_examples=150, deadline=None)
def test_random_text_never_raises(path: Path, vocabulary: Vocabulary, text: str) -> None:
    path.write_bytes(text.encode("utf-8", "replace"))
    read_all(path, vocabulary)


@given(st.binary())
@settings(max_examples=100, deadline=None)
def test_random_bytes_never_raise(path: Path, vocabulary: Vocabulary, data: bytes) -> None:
    path.write_bytes(data)
    read_all(path, vocabulary)
