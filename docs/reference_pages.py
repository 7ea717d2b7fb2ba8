"""All pages that are made from what the compiler and its library say of themselves.

In: the records in `godet.operations`, the texts in stdlib/ and recipes/. Out: Markdown pages by
their path in docs/. They are committed, so that they can be read where the code is hosted, and a
test holds them to what is made here. Written anew with

    python docs/reference_pages.py
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from gallery import gallery_page
from reference.definitions import kinds_page, measures_page, module_page
from reference.markdown import filled, hidden_contents, page
from reference.operations_page import operations_page
from reference.recipes_page import recipes_page
from reference.shipped_text import ShippedText

from godet.base.shipped import shipped
from godet.language import tree

DOCS = Path(__file__).parent


def reference_pages() -> dict[str, str]:
    """Every page that is made, by its path in docs/."""
    library = [ShippedText(path) for path in sorted(shipped("stdlib").glob("*.godet"))]
    recipes = [ShippedText(path) for path in sorted(shipped("recipes").glob("*.godet"))]
    blocks = [text for text in library if text.all(tree.Recipe)]
    modules = [text for text in library if text.all(tree.Definition) and not text.all(tree.Recipe)]
    vocabulary = next(text for text in library if text.all(tree.DefineMeasure))
    kinds = next(text for text in library if text.all(tree.Kind))
    return {
        "gallery.md": gallery_page(),
        "operations.md": operations_page(),
        "library/index.md": _library_page([text.name for text in modules]),
        **{f"library/{text.name}.md": module_page(text) for text in modules},
        "library/measures.md": measures_page(vocabulary),
        "library/kinds.md": kinds_page(kinds),
        "library/blocks.md": recipes_page(
            "Blocks", "Patterns that a recipe can begin with; each is a garment by itself.", blocks
        ),
        "library/recipes.md": recipes_page("Recipes", "Garments, ready to be drafted.", recipes),
    }


def _library_page(modules: Iterable[str]) -> str:
    words = """
        What comes with Godet, written in Godet itself: the texts lie in the folder `stdlib`, the
        garments in `recipes`. A file of the same name beside a recipe takes the place of the one
        here.
        """
    links = {
        **{name: f"[`{name}`]({name}.md), to be used" for name in modules},
        "measures": "[Measures of the body](measures.md), with how to take each",
        "kinds": "[Kinds](kinds.md): what blocks promise",
        "blocks": "[Blocks](blocks.md), with their choices",
        "recipes": "[Recipes](recipes.md), with their choices",
    }
    listed = "\n".join(f"- {link}" for link in links.values())
    return page(["# The library", filled(words), listed, hidden_contents(links)])


if __name__ == "__main__":
    for name, text in reference_pages().items():
        (DOCS / name).write_text(text, encoding="utf-8")
