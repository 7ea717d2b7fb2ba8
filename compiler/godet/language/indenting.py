"""How deep each part of a text stands, and which of its blank lines stay.

In: what stands in a text (`written.py`). Out: the same with its depth, needless blank lines left
out. Nothing fails: of blocks that are never closed all that follows is inside.

    [each.depth for each in indented(written("piece a\\nfold b\\nend"))]   # [0, 1, 0]
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from godet.language.tokens import opens_block
from godet.language.written import BlankLine, Item, Statement

_UNDER_RECIPE = frozenset({"takes", "makes", "without"})


@dataclass(frozen=True, slots=True)
class Indented:
    item: Item
    depth: int  # in steps of indentation


def indented(items: Iterable[Item]) -> Iterator[Indented]:
    """Each item with how deep it stands; a comment stands as deep as what follows it."""
    depth = 0
    under_recipe = words_follow = False
    comments: list[Item] = []
    for item in _without_needless_blanks(items):
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
            here = 1 if item.opening in _UNDER_RECIPE or item.is_words else 0
        if item.is_words and words_follow:
            here = depth + 1
        words_follow = item.may_have_words
        for comment in comments:
            yield Indented(comment, inside if ends else here)
        comments.clear()
        yield Indented(item, here)
        depth += opens_block(item.tokens)
    for comment in comments:
        yield Indented(comment, depth)


def _without_needless_blanks(items: Iterable[Item]) -> Iterator[Item]:
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
        after_opening = isinstance(item, Statement) and opens_block(item.tokens)
        yield item
