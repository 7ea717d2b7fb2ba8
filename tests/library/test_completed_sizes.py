"""A dress for a size whose figures a table completed: every output says which they are."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from women import en_women, sizes

from godet.orders.records import Body
from godet.tools import drafting
from godet.tools.command import main


def _drafted_for(size: Body, folder: Path, monkeypatch: pytest.MonkeyPatch) -> Result:
    """The dress by the command, which takes a body's file, for a size of a table."""
    monkeypatch.setattr(drafting, "read_body", lambda path, vocabulary: (size, ()))
    order = ["draft", "column_dress", "--body", "size", "--fabric", "cotton_jersey"]
    order += ["--fabric", "rib=cotton_rib", "--as", "svg,json", "--out", str(folder)]
    result = CliRunner().invoke(main, order)
    assert result.exit_code == 0, result.output
    return result


@pytest.mark.parametrize(
    ("size", "completed"),
    [("122", ["height"]), ("128", ["height", "hip_girth", "waist_girth"])],
)
def test_what_was_completed_is_said_on_the_screen_on_paper_and_in_the_draft(
    size: str, completed: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (body,) = (each for each in sizes("en13402_3_women") if each.label == size)
    result = _drafted_for(body, tmp_path, monkeypatch)
    draft = json.loads((tmp_path / "draft.json").read_text(encoding="utf-8"))
    assert draft["completed"] == completed
    assert not set(completed) & set(draft["estimated"])
    told = f"completed, not in the size table's source: {', '.join(completed)}\n"
    assert told in result.stdout
    picture = (tmp_path / "pieces.svg").read_text(encoding="utf-8")
    assert "Completed, not in the size table" in picture


def test_of_a_body_that_was_measured_nothing_is_called_completed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    result = _drafted_for(en_women()[0], tmp_path, monkeypatch)
    assert json.loads((tmp_path / "draft.json").read_text(encoding="utf-8"))["completed"] == []
    written = result.stdout + (tmp_path / "pieces.svg").read_text(encoding="utf-8")
    assert "ompleted" not in written
