"""Whether a block can serve where a recipe takes one.

In: what the recipe takes, and the linked block. Out: what the block lacks and what it must not
have, in words; nothing where it serves.

    why_not(taken, block, {"sleeve"})   # ["it has no piece sleeve"]
"""

from __future__ import annotations

from collections.abc import Iterator, Set

from godet.program.draft import Draft
from godet.program.program import Taken


def why_not(taken: Taken, block: Draft, drafted_from: Set[str]) -> Iterator[str]:
    """Why the block can't serve. `drafted_from` names its pieces that the recipe drafts from."""
    if taken.kind.name not in {block.kind, *block.also}:
        made = f"makes a {block.kind}" if block.kind else "makes no kind of its own"
        yield f"it {made}"
    for choice in taken.kind.choices.values():
        type = block.settable.get(choice.name)
        if type is None and not choice.optional:
            yield f"its choice {choice.name} can't be set"
        elif type is not None and type != choice.type:
            yield f"its choice {choice.name} is {type}, not {choice.type}"
    for promise in taken.kind.pieces.values():
        piece = block.pieces.get(promise.name)
        if piece is None:
            if not promise.optional or promise.name in drafted_from:
                yield f"it has no piece {promise.name}"
            continue
        have = piece.members
        for member in promise.members.values():
            if not member.optional and member.name not in have:
                yield f"it has no {member.sort} {promise.name}.{member.name}"
            dart = piece.darts.get(member.name)
            if member.sort == "dart" and dart is not None and member.name in have:
                double = dart.manner == "double"
                if double != member.double:
                    points = "two points" if double else "one point"
                    yield f"its {promise.name}.{member.name} has {points}"
        for name in sorted(taken.forbidden & have):
            yield f"it must not have {promise.name}.{name}"
