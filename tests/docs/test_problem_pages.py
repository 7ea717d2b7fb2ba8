"""Each problem has a page in docs/problems: its wrong example gives it, its right one is right."""

from __future__ import annotations

import errno
import os
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

import pytest
from marked_examples import Example, Found, marks, run

from godet.base.problems import Problems
from godet.base.shipped import shipped
from godet.base.words import WORDS
from godet.language import formatting
from godet.orders.bodies import read_body
from godet.tools.checking import check
from godet.tools.compiling import compile_recipe
from godet.tools.drafting import draft
from godet.tools.explaining import explain
from godet.tools.laying_out import lay_out
from godet.tools.requests import Request
from godet.tools.writing import write_files

FOLDER = shipped("recipes").parent / "docs" / "problems"
PAGES = sorted(path for path in FOLDER.glob("*.md") if path.stem != "index")
# the place of the problem is the form's: `# code`, then `*severity* · sentence`, then why
HEAD = re.compile(r"# (?P<code>[a-z0-9-]+)\n\n\*(?P<severity>\w+)\* · (?P<sentence>.+?)\n\n", re.S)
FENCE = re.compile(r"^```(?P<info>\S[^\n]*)\n(?P<text>.*?)^```$", re.S | re.M)


@dataclass(frozen=True)
class Page:
    code: str
    severity: str
    sentence: str
    parts: dict[str, list[Example]]  # by heading; what stands before the first is left out

    @property
    def beside(self) -> dict[str, str]:
        return {e.options["file"]: e.text for e in self.parts.get("Beside it", [])}


def page(path: Path) -> Page:
    text = path.read_text(encoding="utf-8")
    head = HEAD.match(text)
    assert head is not None, "a page begins with its code, its severity and its sentence"
    parts = {}
    for part in re.split(r"^## ", text, flags=re.M)[1:]:
        title = part.split("\n", 1)[0]
        parts[title] = [Example.of(f["info"], f["text"]) for f in FENCE.finditer(part)]
    sentence = " ".join(head["sentence"].split())
    return Page(head["code"], head["severity"], sentence, parts)


def _not_utf8(folder: Path) -> Found:
    path = folder / "marta.yaml"
    path.write_bytes("# measured in May\nbody: renée\nunits: cm\n".encode("latin-1"))
    return Found(read_body(path, {})[1], (), str(folder))


def _a_pipe(folder: Path) -> Found:
    path = folder / "marta.yaml"
    os.mkfifo(path)
    return Found(read_body(path, {})[1], (), str(folder))


def _no_body(folder: Path) -> Found:
    return Found(draft(Request("column_dress")).problems, (), str(folder))


def _a_measure_explained(folder: Path) -> Found:
    compiled = compile_recipe("column_dress")
    assert compiled.draft is not None
    _, problems = explain(compiled.draft, "hip_girth", None, compiled.texts, "cm")
    return Found(problems, (), str(folder))


def _a_file_in_the_way(folder: Path) -> Found:
    (folder / "my_dress").write_text("the notes on the fitting")
    with pytest.raises(Problems) as caught:
        write_files(folder / "my_dress", {"draft.json": b"{}"})
    assert (folder / "my_dress").read_text() == "the notes on the fitting"
    return Found(caught.value.problems, (), str(folder))


def _no_text(folder: Path) -> Found:
    path = folder / "slip.godet"
    path.write_bytes("edition 1\n\n# for Jürgen\nrecipe slip\n".encode("latin-1"))
    return Found(check([str(path)]).problems, (), str(folder))


def _a_link_that_leads_out(folder: Path) -> Found:
    (folder / "wardrobe").mkdir()
    (folder / "sums.godet").write_text("edition 1\n")
    (folder / "wardrobe" / "sums.godet").symlink_to("../sums.godet")
    path = folder / "wardrobe" / "skirt.godet"
    path.write_text("edition 1\nrecipe skirt\nuse quarter from sums\n")
    return Found(check([str(path)]).problems, (), str(folder))


def _not_to_be_read(folder: Path) -> Found:
    path = folder / "slip.godet"
    path.write_text("edition 1\n\nrecipe slip\n")
    # taking the right away would not do: a superuser may read all
    refused = PermissionError(errno.EACCES, "Permission denied")
    with mock.patch.object(Path, "read_text", side_effect=refused):
        return Found(check([str(path)]).problems, (), str(folder))


def _a_thousand_names_in_a_row(folder: Path) -> Found:
    rows = "".join(f"let row_{n} = row_{n + 1} + 1mm\n" for n in range(1, 1002))
    path = folder / "sheet.godet"
    path.write_text(f"edition 1\nrecipe sheet\n{rows}let row_1002 = 1cm\nadvise row_1 > 1cm\n")
    return Found(check([str(path)]).problems, (), str(folder))


def _a_fault_of_the_layout(folder: Path) -> Found:
    # none is known, so one is made: a row is lost
    (folder / "slip.godet").write_text("edition 1\n\nrecipe slip\n")
    with mock.patch.object(formatting, "rows_of", return_value=["edition 1"]):
        problems = lay_out([folder / "slip.godet"]).problems
    return Found(problems, (), str(folder))


# what no text in a page can bring about
BROUGHT_ABOUT: dict[str, Callable[[Path], Found]] = {
    "not-text": _no_text,
    "file-outside": _a_link_that_leads_out,
    "cannot-read": _not_to_be_read,
    "leans-too-deep": _a_thousand_names_in_a_row,
    "layout-would-change": _a_fault_of_the_layout,
    "file-not-utf8": _not_utf8,
    "file-unreadable": _a_pipe,
    "no-body": _no_body,
    "measure-is-given": _a_measure_explained,
    "cannot-write": _a_file_in_the_way,
}


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_a_page_tells_the_truth(path: Path, tmp_path: Path):
    shown = page(path)
    assert shown.code == path.stem
    assert shown.severity == WORDS[shown.code][0]
    if shown.code in BROUGHT_ABOUT:
        found = BROUGHT_ABOUT[shown.code](tmp_path)
        assert [p.code for p in found.problems] == [shown.code]
    else:
        (wrong,) = shown.parts["Wrong"]
        found = run(wrong, shown.beside, tmp_path / "wrong")
        expected = sorted(
            m for e in (wrong, *shown.parts.get("Beside it", ())) for m in marks(e.text)
        )
        assert expected or found.patterns
        assert not found.differs(expected), found.differs(expected)
    sentences = found.sentences(shown.code)
    # words that are only a part of what is told are looked for in all of it
    assert shown.sentence in (sentences or found.told), sentences or found.told
    for right in shown.parts.get("Right", ()):
        found = run(right, shown.beside, tmp_path / "right")
        assert found.problems == (), [p.sentence for p in found.problems]
        assert found.patterns or "draft" not in right.options


def test_pages_show_a_wrong_and_a_right_example():
    assert PAGES
    for path in PAGES:
        shown = page(path)
        assert set(shown.parts) <= {"Wrong", "Right", "Beside it"}, path
        if shown.code not in BROUGHT_ABOUT:
            assert len(shown.parts["Wrong"]) == len(shown.parts["Right"]) == 1, path
