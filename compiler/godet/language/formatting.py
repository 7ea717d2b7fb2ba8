"""The one layout of a Godet text.

In: a text and its file's name. Out: the text laid out anew, or the problems of one that does not
parse, which is left alone. Only white space changes: before it is handed back the new text is
parsed again, and must hold the same statements and the same comments.

- Blocks, and what belongs under a recipe's heading, are indented by two spaces.
- Neighbouring lines of one opening word have their `=` one below the other.
- A statement stands in one row of 100 characters if it can. If not, a chain of curves is laid a
  step a row, its words in quotes go on a row below, and all else is broken behind commas.
- What is required or advised has its words on the row below, whatever its length.
- Blank lines are kept, one of several, and none where a block begins or ends.

    formatted("let  a=2cm", "a.godet").text   # "let a = 2cm\\n"
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass
from typing import Any

from lark import Token

from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.language.parser import parse
from godet.language.tokens import tokens_of
from godet.language.written import BlankLine, CommentLine, Item, Statement, written

WIDTH = 100
INDENT = "  "
_FURTHER = "    "  # how much the rows of a statement that goes on stand in
_ALIGNED = frozenset({"let", "choose", "point", "edge", "curve", "level"})
_UNDER_RECIPE = frozenset({"takes", "makes", "without"})
_OPERANDS = frozenset({"NAME", "NUMBER", "TEXT", "RPAR", "COMPASS"})


@dataclass(frozen=True, slots=True)
class Formatted:
    text: str | None  # None where the text does not parse
    problems: tuple[Problem, ...]


def formatted(text: str, file: str) -> Formatted:
    """The text in the one layout."""
    before, problems = parse(text, file)
    if problems:
        return Formatted(None, problems)
    laid_out = "".join(f"{row}\n" for row in _rows(written(text)))
    after, problems = parse(laid_out, file)
    same = not problems and _meaning(after) == _meaning(before)
    if not same or _comments(laid_out) != _comments(text):
        return Formatted(None, (problem("layout-would-change", None, file=file),))
    return Formatted(laid_out, ())


def _comments(text: str) -> list[str]:
    """Every comment of a text, in order."""
    return [str(token).rstrip() for token in tokens_of(text) if token.type == "COMMENT"]


def _meaning(part: Any) -> Any:
    """A tree without its places."""
    if isinstance(part, tuple):
        return tuple(_meaning(each) for each in part)
    if isinstance(part, Place) or not is_dataclass(part):
        return None if isinstance(part, Place) else part
    return (type(part), *(_meaning(getattr(part, f.name)) for f in fields(part)))


# --- rows ----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Placed:
    item: Item
    depth: int


def _rows(items: list[Item]) -> Iterator[str]:
    placed = list(_placed(_without_needless_blanks(items)))
    heads = _aligned_heads(placed)
    for number, each in enumerate(placed):
        match each.item:
            case BlankLine():
                yield ""
            case CommentLine(words):
                yield INDENT * each.depth + words
            case Statement() as statement:
                yield from _statement_rows(statement, INDENT * each.depth, heads.get(number))


def _without_needless_blanks(items: list[Item]) -> Iterator[Item]:
    """The items with one blank line at most between two, and none where a block begins or ends."""
    waiting = None
    after_opening = True
    for item in items:
        if isinstance(item, BlankLine):
            waiting = item
            continue
        ends = isinstance(item, Statement) and item.opening == "end"
        if waiting is not None and not after_opening and not ends:
            yield waiting
        waiting = None
        after_opening = isinstance(item, Statement) and _opens(item)
        yield item


def _opens(statement: Statement) -> bool:
    """Whether a statement holds those that follow, up to its `end`."""
    types = [token.type for token in statement.tokens]
    if types[0] in ("PIECE", "KIND"):
        return types[-1] != "OPTIONAL"
    return types[0] == "DEFINE" and types[1] in ("MEASURE", "PIECE")


def _placed(items: Iterator[Item]) -> Iterator[_Placed]:
    """Each item with how deep it stands; a comment stands as deep as what follows it."""
    depth = 0
    under_recipe = False
    comments: list[Item] = []
    for item in items:
        if not isinstance(item, Statement):
            comments.append(item)
            continue
        ends = item.opening == "end"
        inside = depth
        if ends:
            depth = max(0, depth - 1)
        here = depth
        if item.opening == "recipe":
            under_recipe = True
        elif depth == 0 and under_recipe:
            here = 1 if item.opening in _UNDER_RECIPE or item.tokens[0].type == "TEXT" else 0
        for comment in comments:
            yield _Placed(comment, inside if ends else here)
        comments.clear()
        yield _Placed(item, here)
        depth += _opens(item)
    for comment in comments:
        yield _Placed(comment, depth)


def _aligned_heads(placed: Sequence[_Placed]) -> dict[int, int]:
    """How wide what stands before `=` is to be, for each statement of a run of neighbours."""
    widths: dict[int, int] = {}
    run: list[tuple[int, int]] = []
    opening = ""
    for number, each in enumerate(placed):
        if isinstance(each.item, CommentLine):
            continue
        head = _head(each.item) if isinstance(each.item, Statement) else None
        name = each.item.opening if isinstance(each.item, Statement) else ""
        if head is None or name != opening:
            run = []
        if head is not None:
            run.append((number, head))
            widest = max(width for _, width in run)
            widths |= {place: widest for place, _ in run}
        opening = name if head is not None else ""
    return widths


def _head(statement: Statement) -> int | None:
    """The length of what stands before the `=` of a statement that is aligned by it."""
    types = [token.type for token in statement.tokens]
    if statement.opening not in _ALIGNED or types[2:3] != ["EQUAL"]:
        return None
    return len(f"{statement.tokens[0]} {statement.tokens[1]}")


def _statement_rows(statement: Statement, indent: str, head: int | None) -> Iterator[str]:
    tokens = statement.tokens
    last = len(tokens) - 1
    inner = {at for at, remarks in statement.remarks.items() if at < last or remarks[0].own_row}
    behind = "".join(f"  {remark.words}" for remark in statement.behind if not remark.own_row)
    parts = _spaced(tokens, head)
    row = indent + "".join(parts)
    checks = statement.opening in ("require", "advise")
    words_below = tokens[-1].type == "TEXT" and _may_stand_below(tokens)
    if not inner and len(row) <= WIDTH and not (checks and words_below):
        yield row + behind
        return
    if words_below and (checks or len(row) > WIDTH) and last - 1 not in inner:
        body = Statement(tokens[:-1], {at: r for at, r in statement.remarks.items() if at < last})
        yield from _broken_rows(body, parts[:-1], indent)
        yield indent + INDENT + str(tokens[-1]) + behind
        return
    yield from _broken_rows(statement, parts, indent)


def _may_stand_below(tokens: Sequence[Token]) -> bool:
    """Whether the words at the end of a statement mean the same on a row of their own."""
    types = [token.type for token in tokens]
    return types[0] in ("REQUIRE", "ADVISE", "CHOOSE", "DEFINE") and types[-2] != "COMMA"


def _broken_rows(statement: Statement, parts: Sequence[str], indent: str) -> Iterator[str]:
    """A statement in as many rows as it needs."""
    remarks = statement.remarks
    breaks = _breaks(statement, len(indent) + sum(map(len, parts)))
    row, empty = indent, True
    for number, part in enumerate(parts):
        text = part.lstrip() if empty else part
        next_break = min((at for at in breaks if at >= number), default=len(parts) - 1)
        ahead = "".join(parts[number : next_break + 1])
        if not empty and number - 1 in breaks and len(row) + len(ahead) > WIDTH:
            yield row
            row, text = indent + _FURTHER, part.lstrip()
        row, empty = row + text, False
        behind = remarks.get(number, ())
        forced = bool(behind) or breaks.get(number, False)
        if forced and number < len(parts) - 1:
            yield row + "".join(f"  {r.words}" for r in behind if not r.own_row)
            yield from (indent + _FURTHER + r.words for r in behind if r.own_row)
            row, empty = indent + _FURTHER, True
        elif behind:
            yield row + "".join(f"  {r.words}" for r in behind if not r.own_row)
            yield from (indent + _FURTHER + r.words for r in behind if r.own_row)
            return
    yield row


def _breaks(statement: Statement, length: int) -> dict[int, bool]:
    """Behind which tokens a row may end; True where it must."""
    tokens = statement.tokens
    if length <= WIDTH:
        return {}
    depth = 0
    commas: dict[int, list[int]] = {}
    for number, token in enumerate(tokens[:-1]):
        depth += {"LPAR": 1, "RPAR": -1}.get(token.type, 0)
        if token.type == "COMMA":
            commas.setdefault(depth, []).append(number)
    outermost = commas[min(commas)] if commas else []
    steps = [n for n in outermost if tokens[n + 1].type in ("THEN", "BLENDED")]
    return dict.fromkeys(steps, True) if steps else dict.fromkeys(outermost, False)


def _spaced(tokens: Sequence[Token], head: int | None) -> list[str]:
    """The tokens, each with the space that stands before it."""
    parts: list[str] = []
    for number, token in enumerate(tokens):
        before = tokens[number - 1] if number else None
        earlier = tokens[number - 2] if number > 1 else None
        space = " " if before is not None and _apart(earlier, before, token) else ""
        if number == 2 and head is not None:
            space = " " * (head + 1 - len(f"{tokens[0]} {tokens[1]}"))
        parts.append(space + str(token))
    return parts


def _apart(earlier: Token | None, before: Token, token: Token) -> bool:
    """Whether a space stands between two neighbours."""
    if token.type in ("COMMA", "COLON", "RPAR", "DOT") or before.type in ("LPAR", "DOT"):
        return False
    if token.type == "LPAR":
        return before.type != "NAME"
    if before.type == "MINUS":
        # a minus of its own number stands close to it
        return earlier is not None and earlier.type in _OPERANDS
    return True
