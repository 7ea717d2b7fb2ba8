"""Small parts of a Markdown page.

In: words. Out: Markdown in lines of at most 100 characters. Nothing fails.

    item("makes a dress")   # "- makes a dress"
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

_WIDTH = 100


def page(parts: Iterable[str]) -> str:
    """A page of its parts, an empty line between each two; empty parts are left out."""
    return "\n\n".join(part for part in parts if part) + "\n"


def filled(words: str) -> str:
    """A paragraph, broken into lines."""
    return textwrap.fill(" ".join(words.split()), _WIDTH, break_on_hyphens=False)


def item(words: str) -> str:
    """An item of a list."""
    return textwrap.fill(
        f"- {words}", _WIDTH, subsequent_indent="  ", break_on_hyphens=False, break_long_words=False
    )


def code(names: Iterable[str]) -> str:
    """Names as they are written in a recipe, with commas between."""
    return ", ".join(f"`{name}`" for name in names)


def sentence(words: str) -> str:
    """Words with a capital and a stop."""
    return f"{words[:1].upper()}{words[1:].removesuffix('.')}."


def anchor(name: str) -> str:
    """What a heading of this name is linked by."""
    return f"#{name.lower().replace(' ', '-')}"


def hidden_contents(pages: Iterable[str]) -> str:
    """The order of pages beneath this one, for the built site."""
    return "\n".join(["```{toctree}", ":hidden:", "", *pages, "```"])
