"""Room to follow texts that nest or lean on one another deeply.

A name that needs a name that needs a name is worked out by functions that call one another, about
ten deep for each; a long recipe written back to front needs more than Python allows at first. Such
calls take memory from the heap only, so the limit may be wide; the parser and the scopes bound the
depth. Nothing fails.

    with room_to_recurse(): ...
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

_FRAMES = 400_000


@contextmanager
def room_to_recurse() -> Iterator[None]:
    before = sys.getrecursionlimit()
    sys.setrecursionlimit(max(before, _FRAMES))
    try:
        yield
    finally:
        sys.setrecursionlimit(before)
