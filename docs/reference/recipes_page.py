"""The pages of the blocks and garments that come with Godet.

In: texts that hold recipes. Out: a Markdown page with what each takes and makes, its measures and
its choices. Nothing fails.

    recipes_page("Recipes", "Garments, ready to be drafted.", [ShippedText(path)])
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from godet.language import tree
from reference.markdown import anchor, code, filled, item, page
from reference.shipped_text import ShippedText


def recipes_page(title: str, words: str, texts: Iterable[ShippedText]) -> str:
    parts = [f"# {title}", filled(words)]
    for text in texts:
        heading = "\n".join(_heading(text))
        parts += [f"## {text.name}", filled(text.file.doc), heading, _choices(text)]
    return page(parts)


def _heading(text: ShippedText) -> Iterator[str]:
    for takes in text.all(tree.Takes):
        yield item(f"takes `{text.written(takes.place).removeprefix('takes ')}`")
    for makes in text.all(tree.Makes):
        name = makes.name.text
        made = f"the kind of `{name}`" if makes.kind_of else f"[{name}](kinds.md{anchor(name)})"
        yield item(f"makes {made}")
    measures = [name.text for line in text.all(tree.Measures) for name in line.names]
    links = (f"[{name}](measures.md{anchor(name)})" for name in measures)
    yield item(f"measures {', '.join(links)}")
    pieces = [name.text for piece in text.all(tree.Piece) for name in piece.names]
    yield item(f"draws {code(pieces)}")


def _choices(text: ShippedText) -> str:
    items = []
    for line in text.file.statements:
        match line:
            case tree.ChooseWords():
                words = code(word.text for word in line.words)
                items.append(item(f"`{line.name.text}`, one of {words}: {line.doc}"))
            case tree.Choose():
                default = text.written(line.default.place)
                amount = f"`{default}`{_range(line, text)}"
                items.append(item(f"`{line.name.text}`, by default {amount}: {line.doc}"))
    return "\n".join(["Choices:", "", *items]) if items else ""


def _range(choose: tree.Choose, text: ShippedText) -> str:
    if choose.lowest is None or choose.highest is None:
        return ""
    low, high = text.written(choose.lowest.place), text.written(choose.highest.place)
    return f", from `{low}` to `{high}`"
