"""Corners on a fold, where the edge beside it is hollowed tighter than its allowance.

In: a fold and the run beside it, in walking order. Out: the `Corner` at which the fold, carried on,
meets what is left of the run's parallel, and what was trimmed there; None where they do not meet.

    fold_corner(centre_run, neck_run)                    # a deep neck, pointed at the centre

Unfolded, the loop of such a hollow lies half on either side of the fold.
"""

from __future__ import annotations

from godet.geometry.points import norm
from godet.pattern.corners import Corner, Vector, ahead, nearest_meeting, walked_back
from godet.pattern.loops import FAR, WIDE, Trimmed
from godet.pattern.moving_out import Run
from godet.pattern.parallel_paths import Tight
from godet.pattern.paths import NOTHING, straight, turned
from godet.pattern.pieces import Path


def tight_on_fold(before: Run, after: Run) -> Tight | None:
    """How tight the run beside the fold is hollowed there, if it has no room for its allowance."""
    if before.on_fold:
        return after.stretches[0].tight
    return before.stretches[-1].tight if after.on_fold else None


def fold_corner(before: Run, after: Run, tight: Tight) -> tuple[Corner, Trimmed] | None:
    """The corner of two runs of which one is the fold, and the other `tight` there."""
    if tight.turn > WIDE / 2.0:
        return None
    reach = FAR * max(before.allowance, after.allowance)
    at = before.corner
    if before.on_fold:
        fold = ahead(before.moved, before.arriving, reach)
        found = _meeting(before.moved, fold, after.moved, len(after.stretches[0].path), at)
    else:
        # walked the other way round, the fold comes first here too
        own = turned(after.moved)
        fold = ahead(own, -after.leaving, reach)
        skipped = len(before.stretches[-1].path)
        found = _meeting(own, fold, turned(before.moved), skipped, at)
    if found is None or float(norm(found[1] - tight.at)) > reach:
        return None
    corner, place = found
    return corner if before.on_fold else walked_back(corner, before, after), Trimmed(tight, place)


def _meeting(
    own: Path, fold: Path, moved: Path, skipped: int, at: Vector
) -> tuple[Corner, Vector] | None:
    """Where the fold (and the same carried on) meets a moved path behind its first cubics."""
    rest = moved[skipped:]
    meeting = nearest_meeting(fold, rest, at) if len(rest) else None
    if meeting is None:
        return None
    count = float(len(own))
    between = straight(own[-1, 3], meeting.at) if meeting.first > count else NOTHING
    return Corner(min(meeting.first, count), between, skipped + meeting.second), meeting.at
