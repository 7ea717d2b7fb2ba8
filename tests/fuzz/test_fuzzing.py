"""A short run of the fuzzer, always the same; fuzz_texts.py says how to run it for long."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import godet

RUNS = 300


def test_a_short_run_finds_nothing(tmp_path: Path):
    """atheris (libFuzzer) ends with 0 only where no text made a traceback or failed a check."""
    script = Path(__file__).with_name("fuzz_texts.py")
    ran = subprocess.run(
        [sys.executable, script, f"-runs={RUNS}", "-seed=20", "-max_len=400", "-len_control=0"],
        cwd=tmp_path,  # where it would put its finds
        env={**os.environ, "PYTHONPATH": str(Path(godet.__file__).parents[1])},
        capture_output=True,
        text=True,
    )
    assert ran.returncode == 0, ran.stdout[-3000:] + ran.stderr[-3000:]
    assert f"Done {RUNS} runs" in ran.stderr
