"""Loops cut out of a cutting line, where a hollow has no room for its allowance.

In: a closed line as `Stretch`es, some of them tight: there it runs backward, and what comes before
crosses what comes after. Out: the line without those loops, with each place where one was cut; or
the tight stretch whose loop is no local one, because the hollow is as deep as a slit, or before and
after do not meet within `FAR` allowances of it. Nothing fails.

    without_loops(stretches, 15.0)
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

import numpy as np
from numpy.typing import NDArray

from godet.geometry.meetings import crossings
from godet.geometry.points import norm
from godet.pattern.parallel_paths import Stretch, Tight
from godet.pattern.paths import length, part
from godet.pattern.pieces import Path

# of the allowance, from the tightest place to where the loop is cut: a hollow whose sides open by
# 30 degrees; a narrower one is a slit, and what is to be cut there is for the maker to say
FAR = 4.0
WIDE = math.radians(150.0)  # the turn of such a hollow
_SEARCHED = 12.0  # of the allowance, along the line either way
_NO_LOOP = 0.02  # mm: so short a way back is left out


@dataclass(frozen=True)
class Trimmed:
    """A loop that was cut out: how tight it was there, and where the line now has a point."""

    tight: Tight
    at: NDArray[np.float64]  # (2,)


def without_loops(
    line: Sequence[Stretch], allowance: float
) -> tuple[tuple[Stretch, ...], tuple[Trimmed, ...]] | Tight:
    """The line with no tight stretch left; `allowance` is the largest of the piece, in mm."""
    chain = list(line)
    trimmed: list[Trimmed] = []
    while True:
        number = next((n for n, stretch in enumerate(chain) if stretch.tight is not None), None)
        if number is None:
            return tuple(chain), tuple(trimmed)
        chain = [*chain[number:], *chain[:number]]  # the tight one comes first
        tight = chain[0].tight
        assert tight is not None
        if float(norm(chain[0].path[-1, 3] - chain[0].path[0, 0])) <= _NO_LOOP:
            del chain[0]
            continue
        cut = _cut(chain, tight, allowance) if tight.turn <= WIDE else None
        if cut is None and tight.has_loop:
            return tight
        if cut is None:
            chain[0] = Stretch(chain[0].path)
            continue
        chain, at = cut
        trimmed.append(Trimmed(tight, at))


def _cut(
    chain: list[Stretch], tight: Tight, allowance: float
) -> tuple[list[Stretch], NDArray[np.float64]] | None:
    """The chain without its first stretch and the loop round it, and where it was cut."""
    after = _within(chain[1:], _SEARCHED * allowance)
    before = _within(chain[:0:-1], _SEARCHED * allowance)
    # the two never hold the same stretch
    after = min(after, len(chain) - 1 - before) if after + before > len(chain) - 1 else after
    if not before or not after:
        return None
    ahead, behind = chain[1 : 1 + after], chain[-before:]
    first, second = (np.concatenate([s.path for s in side]) for side in (behind, ahead))
    found = crossings(first[None], second[None])
    meetings = [
        (float(a), float(b), point)
        for a, b, point, valid in zip(
            found.parameter_a[0], found.parameter_b[0], found.point[0], found.valid[0], strict=True
        )
        if valid and a > 0.0 and b < len(second)
    ]
    if not meetings:
        return None
    leaves, enters, at = min(
        meetings,
        key=lambda m: _length(first, m[0], float(len(first))) + _length(second, 0.0, m[1]),
    )
    if float(norm(at - tight.at)) > FAR * allowance:
        return None
    left = _kept(behind, 0.0, leaves)
    entered = _kept(ahead, enters, float(len(second)))
    rest = chain[1 + after : len(chain) - before]
    return [*entered, *rest, *left], at


def _within(chain: Sequence[Stretch], reach: float) -> int:
    """How many stretches, from the first, begin within a length along the chain."""
    lengths = accumulate((length(stretch.path) for stretch in chain), initial=0.0)
    return sum(begin < reach for begin in list(lengths)[:-1])


def _length(path: Path, first: float, last: float) -> float:
    return length(part(path, first, last)) if last > first else 0.0


def _kept(chain: Sequence[Stretch], first: float, last: float) -> list[Stretch]:
    """The stretches between two parameters on all of them together."""
    kept = []
    begin = 0.0
    for stretch in chain:
        end = begin + len(stretch.path)
        low, high = max(first, begin) - begin, min(last, end) - begin
        if high > low:
            path = part(stretch.path, low, high)
            if len(path):
                kept.append(Stretch(path, stretch.tight))
        begin = end
    return kept
