"""Several unknowns whose equations are not linear: Newton's method, damped.

In: a step, the bodies and their ranges. Out: for each body the answer that the search comes to from
its start, or how far it came; that none was found does not say that there is none. A step is held
to the ranges, and halved until it brings the equations nearer to agreeing, judged by the next step
they would ask for, whatever their units (the natural test of Deuflhard, Newton Methods for
Nonlinear Problems, 2004, section 3.3). A body that has converged is frozen, so its bits do not
depend on the others.

    solve_newton(evaluator, step, ranges, lanes).values
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from godet.solve.answers import Answers
from godet.solve.blaming import Blame
from godet.solve.elimination import Eliminated, eliminated, moves
from godet.solve.evaluator import Evaluator
from godet.solve.ranges import Ranges
from godet.solve.rank import unsettled_blame
from godet.solve.roots import CLOSE_ENOUGH, DOUBTFUL
from godet.solve.schedule import FindStep
from godet.solve.trials import Bodies, Floats, sides_and_slopes

_STEPS = 60
_HALVINGS = 12
# of the range: after a step as small the error, which each step squares, is below rounding
_LAST_STEP = 1e-10
_NUDGE = 1 / 16  # of the range: where nothing says which way an unknown should move


@dataclass(slots=True)
class _Search:
    """Where each body of a search has come to; the last axis is bodies."""

    values: Floats  # (unknowns, L)
    apart: Floats  # (equations, L)
    slopes: Floats  # (equations, unknowns, L)
    step: Floats  # (unknowns, L), the last one asked for, as a share of the range

    def put(self, lanes: Bodies, part: _Search) -> None:
        for each in fields(self):
            getattr(self, each.name)[..., lanes] = getattr(part, each.name)

    def of(self, lanes: Bodies) -> _Search:
        return _Search(*(getattr(self, each.name)[..., lanes] for each in fields(self)))


def solve_newton(evaluator: Evaluator, step: FindStep, ranges: Ranges, lanes: Bodies) -> Answers:
    """The answers for the bodies `lanes`, whose ranges these are."""
    apart, slopes = sides_and_slopes(evaluator, step, ranges.start, lanes)
    hopeless = np.asarray(~np.isfinite(apart).all(axis=0))
    search = _Search(np.array(ranges.start), apart, slopes, np.full_like(apart, np.nan))
    open_lanes = np.nonzero(~hopeless)[0]
    for _ in range(_STEPS):
        if not len(open_lanes):
            break
        here = search.of(open_lanes)
        going = _moved(evaluator, step, ranges.of(open_lanes), lanes[open_lanes], here)
        search.put(open_lanes, here)
        open_lanes = open_lanes[going]
    met = (np.abs(search.apart) <= CLOSE_ENOUGH).all(axis=0)
    blames = [
        _blame(search, int(lane), int(lanes[lane])) for lane in np.nonzero(~met & ~hopeless)[0]
    ]
    # where the equations only touch, values close by do as well as far as can be told
    system = eliminated(search.slopes, ranges.span, DOUBTFUL)
    blames += [
        unsettled_blame(system, int(lanes[lane]), int(lane))
        for lane in np.nonzero(met & ~system.whole() & ~hopeless)[0]
    ]
    return Answers(search.values, hopeless, tuple(blames))


def _moved(
    evaluator: Evaluator, step: FindStep, ranges: Ranges, lanes: Bodies, here: _Search
) -> NDArray[np.bool_]:
    """Move every body of the search by one step, and tell which are to go on (L,)."""
    system = eliminated(here.slopes, ranges.span)
    inverse = system.inverse()
    asked = moves(inverse, here.apart)
    here.step = asked / ranges.span
    size = np.abs(here.step).max(axis=0)
    last = size <= _LAST_STEP
    met = (np.abs(here.apart) <= CLOSE_ENOUGH).all(axis=0)
    stuck = last & ~met & ~system.whole()
    asked = np.where(stuck, _nudges(system, ranges, here.values), asked)
    waiting = np.arange(len(lanes))
    share = 1.0
    for _ in range(_HALVINGS):
        if not len(waiting):
            break
        ends = ranges.of(waiting)
        trial = np.clip(
            here.values[:, waiting] + share * asked[:, waiting], ends.lowest, ends.highest
        )
        apart, slopes = sides_and_slopes(evaluator, step, trial, lanes[waiting])
        next_step = moves(inverse[:, :, waiting], apart) / ends.span
        nearer = np.abs(next_step).max(axis=0) <= (1.0 - 0.25 * share) * size[waiting]
        fine = np.isfinite(apart).all(axis=0) & (nearer | last[waiting])
        taken = waiting[fine]
        here.values[:, taken] = trial[:, fine]
        here.apart[:, taken] = apart[:, fine]
        here.slopes[:, :, taken] = slopes[:, :, fine]
        waiting = waiting[~fine]
        share *= 0.5
    going = np.asarray(~last | stuck)
    going[waiting] = False
    return going


def _nudges(system: Eliminated, ranges: Ranges, values: Floats) -> Floats:
    """A little way up for each unknown that the slopes say nothing of, or down near the top."""
    up = values + _NUDGE * ranges.span <= ranges.highest
    return np.where(system.settled, 0.0, np.where(up, _NUDGE, -_NUDGE) * ranges.span)


def _blame(search: _Search, lane: int, body: int) -> Blame:
    """The unknown that would still have to move the most, and how far all equations are off."""
    step = np.nan_to_num(np.abs(search.step[:, lane]), nan=-1.0)
    line = int(np.argmax(step))
    apart = {number: abs(float(value)) for number, value in enumerate(search.apart[:, lane])}
    numbers = {"at": float(search.values[line, lane]), "apart": apart.pop(line)}
    return Blame(body, "unknowns-not-found", line, numbers, apart)
