"""Reads a block as it is named outside a recipe: on the command line or in a docket.

In: the text, and the place to blame for it. Out: the block, or None where the text is none. Nothing
fails. A path stands for the recipe in it.

    block_named("turtleneck(knit_tee)", place).name.text   # "turtleneck"
"""

from __future__ import annotations

from godet.base.places import Place
from godet.language import tree
from godet.language.parser import parse


def block_named(text: str, place: Place) -> tree.BlockNamed | None:
    """The block that the text names; every place in it is the one given."""
    text = text.strip()
    if "(" not in text:
        return tree.BlockNamed(place, tree.Word(text, place)) if text else None
    file, problems = parse(f"takes it: any = {text}", "")
    takes = file.statements[0] if len(file.statements) == 1 and not problems else None
    if not isinstance(takes, tree.Takes) or takes.default is None:
        return None
    return _placed(takes.default, place)


def _placed(block: tree.BlockNamed, place: Place) -> tree.BlockNamed:
    given = tuple(
        (tree.Word(word.text, place) if word is not None else None, _placed(inner, place))
        for word, inner in block.given
    )
    return tree.BlockNamed(place, tree.Word(block.name.text, place), given)
