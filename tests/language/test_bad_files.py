"""Files as they come from a follower: each has a mistake, marked where it should be told.

tests/bad_files/CODE.godet, CODE.body.yaml, CODE.fabric.yaml, CODE.docket.yaml or CODE.csv. A recipe
whose mistake shows only on a body says in its first line how it is drafted, as
`# draft=adult_a fabric=linen`. Files that a case needs stand in a folder of its name.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from marked_examples import Example, marks, run, says

FILES = sorted(p for p in (Path(__file__).parents[1] / "bad_files").iterdir() if p.is_file())
KINDS = {
    ".godet": "godet",
    ".body.yaml": "yaml body",
    ".fabric.yaml": "yaml fabric",
    ".docket.yaml": "yaml docket",
    ".csv": "csv sizes",
}


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_a_bad_file_is_told_what_is_wrong(path: Path, tmp_path: Path):
    code, ending = re.fullmatch(r"([a-z0-9-]+)(\..+)", path.name).groups()
    # what is not UTF-8 is kept as it is by the same trick both ways
    text = path.read_bytes().decode("utf-8", "surrogateescape")
    options = re.match(r"# ((?:\w+=\S+ *)+)(?:# .*)?\n", text)
    example = Example.of(f"{KINDS[ending]} {options[1] if options else ''}", text)
    own = path.with_name(code)
    files = [p for p in own.rglob("*") if p.is_file()] if own.is_dir() else []
    beside = {str(p.relative_to(own)): p.read_text(encoding="utf-8") for p in files}
    found = run(example, beside, tmp_path)
    expected = sorted(m for t in (text, *beside.values()) for m in marks(t))
    assert expected or found.patterns
    assert not found.differs(expected), found.differs(expected)
    assert len(found.problems) <= 3
    if code not in {marked for _, _, marked in expected}:
        assert says(code, found.told), found.told
