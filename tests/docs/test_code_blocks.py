"""Every code block of the pages does what the page says.

The rule is told to readers in docs/language/index.md: a block without `in` is a whole file; one
with `in=piece` or `in=recipe` is put at that place of `FRAME`. A block with `file=NAME` lies in the
folder in which the page's console blocks run, one after the other, and may `use` those above it;
one with `add=NAME` is put at the end of that file, and is tried there. `wrong=CODE,CODE` says what
an example is told.
"""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner
from fences import DOCS, ROOT, Fence, fences, pages

from godet.base.problems import Problem
from godet.base.words import WORDS
from godet.language.formatting import formatted
from godet.solve.solver import solve
from godet.tools.command import VERBS, main
from godet.tools.compiling import compile_recipe
from godet.tools.drafting import draft, prepare
from godet.tools.requests import Request

FRAME = re.search(  # the same text that readers are shown
    r"^````godet\n(.*?)^````$", (DOCS / "language" / "index.md").read_text("utf-8"), re.M | re.S
)
LANGUAGES = {"godet", "console", "yaml", "lark", "sh", "text", "{toctree}"}
EVERY = [fence for page in pages() for fence in fences(page)]
# the frame is no example, and what is added to a file is tried by the commands behind it
GODET = [
    fence
    for fence in EVERY
    if fence.language == "godet" and fence.page != "language/index.md" and "add" not in fence.info
]
BODY, CLOTH = Path("adult_a"), {"main": Path("cotton_jersey")}


def whole(fence: Fence) -> str:
    """The file that a block stands for."""
    place = fence.info.get("in")
    if place is None:
        return fence.text
    assert FRAME is not None
    mark = {"recipe": "# in=recipe\n", "piece": "  # in=piece\n"}[place]
    indent = "  " if place == "piece" else ""
    lines = "".join(f"{indent}{line}\n" for line in fence.text.splitlines())
    assert FRAME[1].count(mark) == 1
    return FRAME[1].replace(mark, lines)


def wrong(problems: tuple[Problem, ...], fence: Fence) -> list[str]:
    """The codes of what is wrong; that nothing uses a name of an example is no news."""
    advice = {"not-used"} if "in" in fence.info else set()
    return [problem.code for problem in problems if problem.code not in advice]


def test_the_pages_hold_no_block_that_is_not_looked_at():
    assert {fence.language for fence in EVERY} <= LANGUAGES
    for fence in EVERY:
        assert set(fence.info) <= {"in", "wrong", "file", "add"}, fence.title


@pytest.mark.parametrize("fence", GODET, ids=lambda fence: fence.title)
def test_an_example_is_laid_out_as_godet_lays_it_out(fence: Fence):
    assert formatted(whole(fence), fence.page).text == whole(fence)


@pytest.mark.parametrize("fence", GODET, ids=lambda fence: fence.title)
def test_an_example_is_right_or_wrong_as_it_says(fence: Fence, tmp_path: Path):
    path = tmp_path / fence.info.get("file", "example.godet")
    for above in fences(DOCS / fence.page):
        if "file" in above.info and above.line < fence.line:
            (tmp_path / above.info["file"]).write_text(above.text, encoding="utf-8")
    path.write_text(whole(fence), encoding="utf-8")
    compiled = compile_recipe(str(path), needs_blocks=False)
    expected = fence.info["wrong"].split(",") if "wrong" in fence.info else []
    assert wrong(compiled.problems, fence) == expected
    if compiled.draft is None:
        return
    request = Request(str(path), body=BODY, fabrics=CLOTH)
    if "in" not in fence.info:
        drafted = draft(request)
        assert not drafted.problems, [problem.sentence for problem in drafted.problems]
        assert drafted.pattern is not None
        assert all(check.ok for check in drafted.pattern.checks)
        return
    # of a fragment, every value it names can be worked out for a body
    prepared, problems = prepare(request, compiled)
    assert prepared is not None, problems
    outcome = solve(
        prepared.draft.graph,
        prepared.draft.finds,
        [*prepared.draft.names.values()],
        prepared.inputs,
    )
    assert not outcome.failures, outcome.failures


@pytest.mark.parametrize(
    "page", sorted({f.page for f in EVERY if f.language == "console"}), ids=str
)
def test_commands_print_what_the_page_shows(
    page: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(tmp_path)
    for fence in fences(DOCS / page):
        if "file" in fence.info:
            Path(fence.info["file"]).write_text(fence.text, encoding="utf-8")
        if "add" in fence.info:
            with open(fence.info["add"], "a", encoding="utf-8") as file:
                file.write(f"\n{fence.text}")
        if fence.language != "console":
            continue
        shown = fence.text
        said = ""
        # a command goes on in the next line behind a `\`
        for command in re.findall(r"^\$ ((?:[^\n]*\\\n)*[^\n]*)$", shown, re.MULTILINE):
            program, *arguments = shlex.split(command.replace("\\\n", " "))
            assert program == "godet", f"{fence.title}: {command}"
            said += f"$ {command}\n" + CliRunner().invoke(main, arguments).output
        assert said == shown, fence.title


def test_what_installs_godet_is_what_the_readme_says():
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    lines = [line for fence in EVERY if fence.language == "sh" for line in fence.text.splitlines()]
    assert lines
    for line in lines:
        assert line in readme, line


def test_every_verb_the_pages_name_is_there():
    text = "\n".join(page.read_text(encoding="utf-8") for page in pages())
    assert set(re.findall(r"(?<!`)`godet (\w+)", text)) <= set(VERBS)


def test_every_link_of_the_pages_leads_somewhere():
    for page in [*pages(), ROOT / "README.md"]:
        prose = re.sub(r"^```.*?^```", "", page.read_text("utf-8"), flags=re.M | re.S)
        for target in re.findall(r"\]\(([^)#:\s]+)(?:#[^)]*)?\)", prose):
            path = (page.parent / target).resolve()
            problem = path.stem if path.parent == DOCS / "problems" else None
            if path.parent == DOCS / "_gallery":  # drawn when the pages are built
                continue
            assert path.exists() or problem in WORDS, f"{page}: {target}"
