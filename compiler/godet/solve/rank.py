"""Why a linear system has not exactly one answer.

In: an eliminated system in which some body has an equation or an unknown left over, and how far the
sides of each equation are apart when those not left over hold. Out: for each such body one blame:

- equations that contradict each other, or sides that nothing brings together: no answer can be;
- an equation that only says what others say already;
- an unknown that nothing settles.

    rank_blames(system, apart, lanes, deficient)
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from godet.solve.blaming import Blame
from godet.solve.elimination import Eliminated
from godet.solve.roots import CLOSE_ENOUGH
from godet.solve.trials import Bodies, Floats

_TAKES_PART = 1e-9  # a share that is less is rounding


def rank_blames(
    system: Eliminated, apart: Floats, lanes: Bodies, deficient: NDArray[np.bool_]
) -> list[Blame]:
    """A blame for each of the bodies `lanes` whose system has something left over."""
    return [
        _blame(system, apart[:, lane], int(lanes[lane]), int(lane))
        for lane in np.nonzero(deficient)[0]
    ]


def _blame(system: Eliminated, apart: Floats, body: int, lane: int) -> Blame:
    left_over = [int(number) for number in np.nonzero(system.pivot[:, lane] < 0)[0]]
    for equation in left_over:
        if abs(apart[equation]) > CLOSE_ENOUGH:
            others = dict.fromkeys(_combined(system, equation, lane), 0.0)
            code = "equations-contradict" if others else "sides-always-apart"
            return Blame(body, code, equation, {"apart": abs(float(apart[equation]))}, others)
    untouched = _untouched(system, lane)
    says_nothing_new = {each: _combined(system, each, lane) for each in left_over}
    if not untouched and all(says_nothing_new.values()):
        equation = left_over[0]
        others = dict.fromkeys(says_nothing_new[equation], 0.0)
        return Blame(body, "equation-redundant", equation, {}, others)
    return unsettled_blame(system, body, lane)


def unsettled_blame(system: Eliminated, body: int, lane: int) -> Blame:
    """The unknowns that nothing settles: those that no equation speaks of, if there are any."""
    loose = _untouched(system, lane) or _unsettled(system, lane)
    return Blame(body, "unknown-not-settled", loose[0], {}, dict.fromkeys(loose[1:], 0.0))


def _combined(system: Eliminated, equation: int, lane: int) -> list[int]:
    """The other equations of which one that is left over is made."""
    share = np.abs(system.reduced[equation, len(system.pivot) :, lane])
    return [int(n) for n in np.nonzero(share > _TAKES_PART)[0] if n != equation]


def _untouched(system: Eliminated, lane: int) -> list[int]:
    """The unknowns that no equation says anything of."""
    free = np.nonzero(~system.settled[:, lane])[0]
    return [int(f) for f in free if np.all(np.abs(system.reduced[:, f, lane]) <= _TAKES_PART)]


def _unsettled(system: Eliminated, lane: int) -> list[int]:
    """The unknowns that are free, and those that are settled only when these are."""
    free = np.nonzero(~system.settled[:, lane])[0]
    unsettled = {int(f) for f in free}
    for equation, unknown in enumerate(system.pivot[:, lane]):
        if unknown >= 0 and np.any(np.abs(system.reduced[equation, free, lane]) > _TAKES_PART):
            unsettled.add(int(unknown))
    return sorted(unsettled)
