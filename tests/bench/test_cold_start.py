"""One cold draft of the column dress as SVG and JSON, against importing numpy alone.

    pytest tests/bench --benchmark-enable -n0 -s

prints how many times longer the draft takes (wanted: at most six times). Both run in fresh
interpreters whose byte code is ready. Without `--benchmark-enable` the draft is made once.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from statistics import median
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

import godet

ROUNDS = 7
DRAFT = (
    "-m", "godet", "draft", "column_dress", "--body", "adult_a", "--fabric", "cotton_jersey",
    "--fabric", "rib=cotton_rib", "--as", "svg,json", "--out",
)  # fmt: skip


@pytest.fixture(scope="module")
def environment(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The environment of a user who keeps byte code, here in a folder of its own."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    kept["PYTHONPATH"] = str(Path(godet.__file__).parents[1])
    kept["PYTHONPYCACHEPREFIX"] = str(tmp_path_factory.mktemp("byte_code"))
    return kept


def test_time_of_a_cold_draft_against_numpy(
    environment: dict[str, str], tmp_path: Path, benchmark: BenchmarkFixture
) -> None:
    def run(*arguments: str) -> float:
        start = perf_counter()
        done = subprocess.run(
            [sys.executable, *arguments], env=environment, capture_output=True, text=True
        )
        assert done.returncode == 0, done.stdout + done.stderr
        return perf_counter() - start

    def draft() -> float:
        return run(*DRAFT, str(tmp_path / "out"))

    draft()  # writes the byte code
    benchmark.pedantic(draft, rounds=ROUNDS)  # type: ignore[no-untyped-call]
    # the files of the docket stand there, whole
    assert {file.name for file in (tmp_path / "out").iterdir()} >= {"pieces.svg", "draft.json"}
    if benchmark.stats is not None:
        numpy = median(run("-c", "import numpy") for _ in range(ROUNDS))
        ratio = benchmark.stats.stats.median / numpy
        benchmark.extra_info.update(numpy_seconds=numpy, ratio=ratio)
        print(f"\ncold draft: {ratio:.1f} times as long as importing numpy ({numpy:.3f} s)")
