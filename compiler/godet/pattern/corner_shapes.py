"""Corners of the cutting line in another shape than the plain one: square and rounded.

In: two runs that meet on the sewing line, in walking order. Out: a `Corner`, or None where the
corner has no such shape: where the sewing line turns outward, goes on almost straight, or lies on a
fold.

    square_corner(neck_run, shoulder_run, squared=neck_run)
    rounded_corner(neck_run, shoulder_run)
"""

from __future__ import annotations

import numpy as np

from godet.geometry.arcs import arc
from godet.geometry.points import norm
from godet.pattern.corners import (
    MITRE,
    Corner,
    Vector,
    behind,
    is_hollow,
    mitred,
    nearest_meeting,
    walked_back,
)
from godet.pattern.moving_out import Run
from godet.pattern.paths import straight, turned
from godet.pattern.pieces import Path


def square_corner(before: Run, after: Run, squared: Run) -> Corner | None:
    """The allowance of the one run ends square to its sewing line, where that comes to the cutting
    line of the other: so the allowances of two pieces that are sewn there end alike."""
    if is_hollow(before, after) or before.on_fold or after.on_fold:
        return None
    at = before.corner
    reach = MITRE * max(before.allowance, after.allowance)
    if squared is before:
        return _squared(at, before.moved, before.arriving, after.moved, after.leaving, reach)
    # walked the other way round, the run comes before the other here too
    own, other = turned(after.moved), turned(before.moved)
    found = _squared(at, own, -after.leaving, other, -before.arriving, reach)
    return walked_back(found, before, after) if found is not None else None


def _squared(
    at: Vector, moved: Path, arriving: Vector, other: Path, leaving: Vector, reach: float
) -> Corner | None:
    """From the end of a moved path, on to level with where the sewing line comes to the other, and
    square across to there."""
    line = straight(at, at + reach * arriving)
    meeting = nearest_meeting(line, behind(other, leaving, reach), at) if len(line) else None
    if meeting is None:
        return None
    end: Vector = moved[-1, 3]
    turn = end + (meeting.at - at)
    lines = [straight(end, turn), straight(turn, meeting.at)]
    if meeting.second < 1.0:
        lines.append(straight(meeting.at, other[0, 0]))
    return Corner(float(len(moved)), np.concatenate(lines), max(meeting.second - 1.0, 0.0))


def rounded_corner(before: Run, after: Run) -> Corner | None:
    """The mitre rounded by as much as the smaller allowance leaves room for; between two equal
    ones every point of the round is as far from the corner as they are."""
    mitre = mitred(before, after)
    if mitre is None or is_hollow(before, after) or before.on_fold or after.on_fold:
        return None
    end, start = before.moved[-1, 3], after.moved[0, 0]
    room = min(float(norm(mitre - end)), float(norm(mitre - start)))
    first, last = mitre - room * before.arriving, mitre + room * after.leaving
    if not len(straight(first, last)):
        return None
    round_: Path = arc(first[None], last[None], before.arriving[None]).value[0]
    between = np.concatenate([straight(end, first), round_, straight(last, start)])
    return Corner(float(len(before.moved)), between, 0.0)
