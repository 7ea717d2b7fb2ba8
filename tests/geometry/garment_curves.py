"""Invented edges of a bodice for many bodies, for the geometry tests: every body's corners
differ."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from godet.geometry.arcs import arc
from godet.geometry.hobby import hobby
from godet.geometry.lines import line

Floats = NDArray[np.float64]

OUTWARD, DOWN = np.array([[1.0, 0.0]]), np.array([[0.0, 1.0]])


@dataclass(frozen=True)
class Bodice:
    neck: Floats
    shoulder: Floats
    armhole: Floats
    side: Floats
    bottom: Floats
    centre: Floats

    @property
    def outline(self) -> Floats:
        """The edges in the order round the piece, clockwise on the page, as one closed chain."""
        turned = [self.bottom[:, ::-1, ::-1], self.centre[:, ::-1, ::-1]]
        return np.concatenate([self.neck, self.shoulder, self.armhole, self.side, *turned], axis=1)


def bodice(bodies: int, seed: int = 1) -> Bodice:
    random = np.random.default_rng(seed)

    def corner(across: float, down: float) -> Floats:
        return np.array([[across, down]]) + random.uniform(-5.0, 5.0, (bodies, 2))

    centre_neck, side_neck = corner(0.0, 80.0), corner(75.0, 10.0)
    shoulder, underarm = corner(200.0, 40.0), corner(240.0, 230.0)
    side_waist, centre_waist = corner(230.0, 420.0), corner(0.0, 440.0)
    hollow = (shoulder + underarm) / 2.0 + np.array([[-28.0, 25.0]])
    return Bodice(
        neck=hobby([centre_neck, side_neck], OUTWARD, -DOWN).value,
        shoulder=line(side_neck, shoulder).value,
        armhole=hobby([shoulder, hollow, underarm], DOWN, OUTWARD).value,
        side=line(underarm, side_waist).value,
        bottom=arc(centre_waist, side_waist, OUTWARD).value,
        centre=line(centre_neck, centre_waist).value,
    )
