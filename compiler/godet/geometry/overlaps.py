"""For what length two curves run along each other.

In: curves (B, n, 4, 2) and (B, m, 4, 2), plain numbers. Out: lengths (B,) in mm, nought where they
only cross, touch or keep apart. Nothing fails.

    overlap(hip_line, side)                              # (B,)

Cubics that agree on any stretch agree as far as both go: so a stretch begins and ends where a
cubic of one of the curves does. Between each two such places that follow each other on the first
curve, three more have to lie on the second.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from godet.geometry.arc_length import length
from godet.geometry.cubics import Place, cubic_at, evaluate, first_part
from godet.geometry.locating import locate

_TOGETHER = 1e-6  # mm
_LEAST = 1e-3  # mm: a shorter stretch is a touch
_LOOKS = (0.25, 0.5, 0.75)


def overlap(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.float64]:
    """The length (B,) in mm, along the first, of what both curves share."""
    count = a.shape[1]
    own = np.broadcast_to(np.arange(count + 1.0), (len(a), count + 1))
    joints = np.concatenate([b[:, :, 0], b[:, -1:, 3]], axis=1)
    theirs = np.stack([_where(a, joints[:, n]) for n in range(joints.shape[1])], axis=1)
    cuts = np.sort(np.concatenate([own, theirs], axis=1), axis=1)
    total = np.zeros(len(a))
    for before, behind in pairwise(cuts.T):
        cubic = np.minimum(np.floor(before), count - 1).astype(np.intp)
        own_cubic, start, end = cubic_at(a, Place(cubic, before)), before - cubic, behind - cubic
        together = np.ones(len(a), dtype=bool)
        for share in _LOOKS:
            point = evaluate(own_cubic, start + share * (end - start))
            together &= locate(b, point)[1] <= _TOGETHER
        upto = [length(first_part(own_cubic, share)[:, None]) for share in (start, end)]
        total += np.where(together, upto[1] - upto[0], 0.0)
    return np.where(total > _LEAST, total, 0.0)


def _where(curve: NDArray[np.float64], point: NDArray[np.float64]) -> NDArray[np.float64]:
    """The parameter (B,) of a point that lies on the curve; nought, which is a cut anyway, for one
    that does not."""
    parameter, away = locate(curve, point)
    return np.where(away <= _TOGETHER, parameter, 0.0)
