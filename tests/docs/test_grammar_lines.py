"""The pages of the language show the grammar as it is: every rule, word for word."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from fences import DOCS, fences

from godet.language.grammar import grammar_text
from godet.language.tokens import WORDS
from godet.tools.compiling import compile_recipe


def rules(text: str) -> dict[str, str]:
    """Each rule by its name, on one line; a line that begins with a space goes on."""
    lines = [line for line in text.splitlines() if not line.startswith(("//", "%"))]
    joined = re.sub(r"\n[ ]+", " ", "\n".join(lines))
    found = re.findall(r"^[?!]*([a-z_]+):(.*)$", joined, re.MULTILINE)
    return {name: " ".join(body.split()) for name, body in found}


GRAMMAR = rules(grammar_text())
SHOWN = [
    (fence.title, name, body)
    for page in sorted((DOCS / "language").glob("*.md"))
    for fence in fences(page)
    if fence.language == "lark"
    for name, body in rules(fence.text).items()
]


@pytest.mark.parametrize(("title", "name", "body"), SHOWN, ids=[f"{s[0]}-{s[1]}" for s in SHOWN])
def test_a_grammar_line_shown_is_the_one_that_is_read(title: str, name: str, body: str):
    assert body == GRAMMAR.get(name), title


def test_every_function_of_the_language_is_told(tmp_path: Path):
    recipe = tmp_path / "tried.godet"
    recipe.write_text("edition 1\nrecipe tried\nlet a = no_such_function(1)\n", encoding="utf-8")
    (unknown,) = [
        found for found in compile_recipe(str(recipe)).problems if found.code == "unknown-function"
    ]
    listed = re.search(r"There are ([\w, ]+), and", unknown.sentence)
    assert listed is not None
    page = (DOCS / "language" / "functions.md").read_text(encoding="utf-8")
    assert set(listed[1].split(", ")) == set(re.findall(r"`(\w+)\([^`]*`(?=.*\|)", page))


def test_every_word_that_can_be_no_name_is_told():
    (listed,) = [f for f in fences(DOCS / "language" / "lines.md") if f.language == "text"]
    assert listed.text.split() == sorted(WORDS)


def test_every_rule_has_its_page():
    shown = {name for _, name, _ in SHOWN}
    assert set(GRAMMAR) == shown
