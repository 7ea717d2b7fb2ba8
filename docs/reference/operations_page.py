"""The page of the operations, made from their own records.

In: the records in `godet.operations`. Out: a Markdown page. Nothing fails.

    operations_page()
"""

from __future__ import annotations

from godet.operations.curves import CURVES
from godet.operations.points import POINTS
from godet.operations.record import Operation
from godet.operations.scalars import SCALARS
from reference.markdown import filled, item, page, sentence

_SORTS = (
    ("Amounts and conditions", SCALARS),
    ("Points and directions", POINTS),
    ("Curves", CURVES),
)


def operations_page() -> str:
    words = """
        What the compiler can work out, one record each: all that a recipe says is made of these.
        The names are the compiler's own; in a recipe an operation is written as its example shows,
        and [the language](language/index.md) tells how.
        """
    parts = ["# Operations", filled(words)]
    for title, operations in _SORTS:
        parts += [f"## {title}", *(_told(operation) for operation in operations)]
    return page(parts)


def _told(operation: Operation) -> str:
    takes = [
        f"any number of {name[1:]}" if name.startswith("*") else name for name in operation.takes
    ]
    facts = [
        item(f"takes: {', '.join(takes) or 'nothing'}"),
        item(f"as in: `{operation.example}`"),
    ]
    if operation.fails:
        links = (f"[{failure}](problems/{failure}.md)" for failure in operation.fails)
        facts.append(item(f"fails when: {', '.join(links)}"))
    words = filled(sentence(operation.sentence))
    return "\n".join([f"### {operation.name}", "", words, "", *facts])
