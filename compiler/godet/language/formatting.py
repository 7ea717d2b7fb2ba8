"""The one layout of a Godet text.

In: a text and its file's name. Out: the text laid out anew, or the problems of one that does not
parse, which is left alone. Only white space changes: before it is handed back the new text is
parsed again, and must hold the same statements and the same comments.

- Blocks, and what belongs under a recipe's heading, are indented by two spaces (`indenting.py`).
- Neighbours have what they share one below the other (`columns.py`, `rows.py`), comments too.
- A statement stands in one row of 100 characters if it can, and is broken behind commas if not
  (`breaking.py`).
- The words of what is required, advised or defined stand on the row below; those of neighbouring
  choices do, unless all have room for theirs in one column.
- Blank lines are kept, one of several, and none where a block begins or ends.

    formatted("let  a=2cm", "a.godet").text   # "let a = 2cm\\n"
"""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass
from typing import Any

from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.language.parser import parse
from godet.language.rows import rows_of
from godet.language.tokens import tokens_of


@dataclass(frozen=True, slots=True)
class Formatted:
    text: str | None  # None where the text does not parse
    problems: tuple[Problem, ...]


def formatted(text: str, file: str) -> Formatted:
    """The text in the one layout."""
    before, problems = parse(text, file)
    if problems:
        return Formatted(None, problems)
    laid_out = "".join(f"{row}\n" for row in rows_of(text))
    after, problems = parse(laid_out, file)
    same = not problems and _meaning(after) == _meaning(before)
    if not same or _substance(laid_out) != _substance(text):
        return Formatted(None, (problem("layout-would-change", None, file=file),))
    return Formatted(laid_out, ())


def _substance(text: str) -> list[tuple[str, bool]]:
    """All of a text but white space, in order, and of each comment whether it begins its row."""
    substance = []
    begins = True
    for token in tokens_of(text):
        if token.type == "COMMENT":
            substance.append((str(token).rstrip(), begins))
        elif token.type != "NEWLINE":
            substance.append((str(token), False))
        begins = token.type == "NEWLINE"
    return substance


def _meaning(part: Any) -> Any:
    """A tree without its places."""
    if isinstance(part, tuple):
        return tuple(_meaning(each) for each in part)
    if isinstance(part, Place) or not is_dataclass(part):
        return None if isinstance(part, Place) else part
    return (type(part), *(_meaning(getattr(part, f.name)) for f in fields(part)))
