"""A folder of bad files, one for each code, as a follower would make them.

The expected problem stands as a comment beside its line. A recipe that is drafted says how in its
first line: `# draft=adult_a fabric=cotton_jersey`; what lies beside a file is in a folder of its
name.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from problem_examples import MARK, Example, run

FOLDER = Path(__file__).parents[1] / "bad_files"
FILES = sorted(path for path in FOLDER.iterdir() if path.is_file())
MOST_MESSAGES = 3  # more about one mistake helps nobody


def read(path: Path) -> Example:
    code, *sort, _ = path.name.split(".")
    beside_it = FOLDER / code
    beside = {
        file.relative_to(beside_it).as_posix(): file.read_text(encoding="utf-8")
        for file in sorted(beside_it.rglob("*"))
        if file.is_file()
    }
    # what is not UTF-8 is kept as it is, and written so again
    text = path.read_text(encoding="utf-8", errors="surrogateescape")
    first = MARK.sub("", text.partition("\n")[0])
    options = dict(re.findall(r"(\w+)=(\S+)", first)) if first.startswith("# draft=") else {}
    kind = {"godet": "recipe", "csv": "sizes"}.get(path.suffix[1:]) or sort[0]
    return Example(kind, text, options, beside)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_a_bad_file_is_told_where_it_is_bad(path: Path):
    example = read(path)
    told = run(example)
    assert example.expected
    placed = told.against(example.expected)
    assert placed == example.expected
    assert len(placed) <= MOST_MESSAGES
