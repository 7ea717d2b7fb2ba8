"""The pages of the blocks and garments that come with Godet.

In: texts that hold recipes. Out: a Markdown page with what each takes and makes, its measures and
its choices. Nothing fails.

    recipes_page("Recipes", "Garments, ready to be drafted.", [ShippedText(path)])
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from reference.markdown import anchor, code, filled, item, page
from reference.shipped_text import ShippedText

from godet.language import tree


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
        yield item(f"makes [{makes.kind.text}](kinds.md{anchor(makes.kind.text)})")
    measures = [name.text for line in text.all(tree.Measures) for name in line.names]
    links = (f"[{name}](measures.md{anchor(name)})" for name in measures)
    yield item(f"measures {', '.join(links)}")
    pieces = [name.text for piece in text.all(tree.Piece) for name in piece.names]
    yield item(f"draws {code(pieces)}")


def _choices(text: ShippedText) -> str:
    rows = []
    for line in text.file.statements:
        match line:
            case tree.ChooseWords():
                words = [word.text for word in line.words]
                rows.append(f"| `{line.name.text}` | `{words[0]}` | {code(words)} | {line.doc} |")
            case tree.Choose():
                default = text.written(line.default.place)
                rows.append(
                    f"| `{line.name.text}` | `{default}` | {_range(line, text)} | {line.doc} |"
                )
    head = ["| choice | default | from .. to | what it is |", "|---|---|---|---|"]
    return "\n".join([*head, *rows]) if rows else ""


def _range(choose: tree.Choose, text: ShippedText) -> str:
    if choose.lowest is None or choose.highest is None:
        return ""
    return f"`{text.written(choose.lowest.place)}` to `{text.written(choose.highest.place)}`"
