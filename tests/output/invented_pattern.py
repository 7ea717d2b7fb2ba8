"""A finished pattern made by hand for the tests of the output: invented, and no check of anything.

Half a front on the fold, a sleeve and a neckband, with every kind of mark that a piece can carry.

    invented_pattern().pieces[0].name  ->  "front"
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Literal

import numpy as np
from shapely import LineString, Polygon, box, unary_union  # type: ignore[import-untyped]

from godet.base.places import Place
from godet.pattern.pieces import (
    Check,
    Cut,
    Edge,
    Level,
    Mark,
    Notch,
    OutlineStep,
    Path,
    Pattern,
    Piece,
    Point,
    Report,
    Seam,
    SeamSide,
)

PLACE = Place("invented.godet", 12, 3, 12, 20)


def straight(*points: Point) -> Path:
    """Straight cubics from point to point."""
    ends = np.array(points, dtype=np.float64)
    thirds = (ends[1:] - ends[:-1])[:, None, :] * np.array([0, 1, 2, 3])[:, None] / 3
    path: Path = ends[:-1, None, :] + thirds
    return path


def curved(*points: Point) -> Path:
    """One cubic with these four control points."""
    return np.array([points], dtype=np.float64)


def dense(path: Path) -> list[Point]:
    t = np.linspace(0, 1, 60)[:, None]
    s = 1 - t
    return [
        (float(x), float(y))
        for a, b, c, d in path
        for x, y in s**3 * a + 3 * s**2 * t * b + 3 * s * t**2 * c + t**3 * d
    ]


def edge(name: str, path: Path, allowance: float = 10.0, on_fold: bool = False) -> Edge:
    length = LineString(dense(path)).length
    return Edge(name, path, length, length, 0.0 if on_fold else allowance, on_fold, PLACE)


def notch(on: Edge, name: str, t: float, count: Literal[1, 2]) -> Notch:
    """A notch at this parameter of the edge's first cubic, the piece on its right."""
    points = np.array(dense(on.path))
    index = round(t * 59)
    along = points[index + 1] - points[index - 1]
    along /= math.hypot(*along)
    at = (float(points[index, 0]), float(points[index, 1]))
    length = LineString(points[: index + 1]).length
    return Notch(on.name, name, at, (float(along[1]), float(-along[0])), count, length)


def piece(
    name: str,
    number: int,
    edges: Sequence[Edge],
    grain: tuple[Point, Point],
    cut: Cut,
    levels: Sequence[Level] = (),
    notches: Sequence[Notch] = (),
    marks: Sequence[Mark] = (),
    points: Mapping[str, Point] | None = None,
) -> Piece:
    """A piece whose edges are given clockwise as printed, each in the direction of the walk."""
    drawn = Polygon([point for part in edges for point in dense(part.path)]).buffer(0)
    least = min(part.allowance for part in edges if not part.on_fold)
    strips = [
        LineString(dense(part.path)).buffer(part.allowance, cap_style="flat", join_style="mitre")
        for part in edges
        if part.allowance > least
    ]
    whole = unary_union([drawn.buffer(least, join_style="mitre"), *strips])
    _, top, right, bottom = whole.bounds
    if cut.fold:
        whole = whole & box(0, top - 1, right + 1, bottom + 1)
    ring = list(whole.simplify(0.01).exterior.coords)
    return Piece(
        name=name,
        title=name.replace("_", " ").capitalize(),
        number=number,
        drawn="half" if cut.fold else "whole",
        points=points or {},
        edges={part.name: part for part in edges},
        outline=tuple(OutlineStep(part.name, turned=False) for part in edges),
        cut_line=straight(*((float(x), float(y)) for x, y in ring)),
        levels={level.name: level for level in levels},
        notches=tuple(notches),
        marks=tuple(marks),
        cut=cut,
        grain=grain,
        area_drawn=drawn.area,
        area_cut=whole.area,
    )


def front() -> Piece:
    armhole = edge("armhole", curved((190, 50), (172, 130), (190, 195), (240, 210)))
    side = edge("side", curved((240, 210), (225, 340), (215, 440), (245, 605)))
    return piece(
        "front",
        1,
        [
            edge("centre", straight((0, 620), (0, 90)), on_fold=True),
            edge("neck", curved((0, 90), (40, 90), (72, 60), (75, 0))),
            edge("shoulder", straight((75, 0), (190, 50))),
            armhole,
            side,
            edge("bottom", curved((245, 605), (160, 620), (80, 620), (0, 620)), 30.0),
        ],
        grain=((60, 200), (60, 540)),
        cut=Cut(1, "main", "centre", mirrored=False),
        levels=[Level("bust", 225.0, 0.0, 238.4), Level("waist", 410.0, 0.0, 222.0)],
        notches=[notch(armhole, "sleeve", 0.4, 1), notch(side, "waist", 0.55, 2)],
        marks=[Mark("bust_point", (95.0, 262.0))],
        points={"side_neck": (75.0, 0.0), "shoulder_point": (190.0, 50.0)},
    )


def sleeve() -> Piece:
    back_cap = edge("back_cap", curved((-165, 120), (-90, 110), (-75, 0), (0, 0)))
    front_cap = edge("front_cap", curved((0, 0), (75, 0), (90, 110), (165, 120)))
    return piece(
        "sleeve",
        2,
        [
            back_cap,
            front_cap,
            edge("front_underarm", straight((165, 120), (110, 540))),
            edge("hem", straight((110, 540), (-110, 540)), 25.0),
            edge("back_underarm", straight((-110, 540), (-165, 120))),
        ],
        grain=((0, 160), (0, 500)),
        cut=Cut(2, "main", None, mirrored=True),
        levels=[Level("biceps", 120.0, -165.0, 165.0), Level("elbow", 310.0, -140.1, 140.1)],
        notches=[
            notch(front_cap, "armhole", 0.55, 1),
            notch(back_cap, "armhole", 0.45, 2),
        ],
    )


def neckband() -> Piece:
    return piece(
        "neckband",
        3,
        [
            edge("centre", straight((0, 60), (0, 0)), on_fold=True),
            edge("upper", straight((0, 0), (215, 0))),
            edge("end", straight((215, 0), (215, 60))),
            edge("lower", straight((215, 60), (0, 60))),
        ],
        grain=((60, 45), (180, 45)),
        cut=Cut(1, "rib", "centre", mirrored=False),
    )


def waistband() -> Piece:
    """Narrower than the words on its fold are long."""
    return piece(
        "waistband",
        6,
        [
            edge("centre", straight((0, 28), (0, 0)), on_fold=True),
            edge("upper", straight((0, 0), (420, 0))),
            edge("end", straight((420, 0), (420, 28))),
            edge("lower", straight((420, 28), (0, 28))),
        ],
        grain=((150, 20), (280, 20)),
        cut=Cut(2, "main", "centre", mirrored=False),
        levels=[Level("waist", 9.0, 0.0, 420.0)],
        marks=[Mark("button", (380.0, 14.0))],
    )


def loop() -> Piece:
    """Too small for its label."""
    return piece(
        "belt_loop",
        4,
        [
            edge("left", straight((0, 45), (0, 0)), 6.0),
            edge("top", straight((0, 0), (14, 0)), 6.0),
            edge("right", straight((14, 0), (14, 45)), 6.0),
            edge("bottom", straight((14, 45), (0, 45)), 6.0),
        ],
        grain=((7, 10), (7, 35)),
        cut=Cut(4, "main", None, mirrored=False),
    )


def long_skirt() -> Piece:
    """Large enough for pages that show nothing of it but its inside."""
    return piece(
        "skirt",
        5,
        [
            edge("centre", straight((0, 1010), (0, 0)), on_fold=True),
            edge("waist", straight((0, 0), (470, 0))),
            edge("side", straight((470, 0), (640, 1000))),
            edge("bottom", curved((640, 1000), (420, 1010), (200, 1010), (0, 1010)), 30.0),
        ],
        grain=((60, 150), (60, 900)),
        cut=Cut(2, "main", "centre", mirrored=False),
        levels=[Level("hip", 210.0, 0.0, 505.7)],
    )


def invented_pattern(*pieces: Piece) -> Pattern:
    """The pattern of the given pieces; without any, of all of the above."""
    return Pattern(
        recipe="invented_tee",
        title="Invented tee",
        edition=1,
        version="0.1.0",
        digest="3f9a1c77d2e0",
        body="adult_a",
        date="2027-03-01",
        units="cm",
        pieces=pieces or (front(), sleeve(), neckband(), loop(), long_skirt()),
        seams=(
            Seam(
                "neck",
                ((SeamSide("neckband.lower", 2),), (SeamSide("front.neck", 2),)),
                (430.0, 236.5),
                "gathered",
                -0.0000001,
                1,
            ),
        ),
        girths={"bust": 953.6, "waist": 888.0},
        finished={"length": 620.0},
        checks=(
            Check(
                "bust", "require", True, "95.4 cm", "at least 92.0 cm", "it is wide enough", PLACE
            ),
        ),
        reports=(Report("the blend at the waist takes away 2 mm", PLACE),),
        estimated={"waist_to_hip": "ours"},
        measures={"bust_girth": 940.0, "shoulder_slope": math.radians(22)},
        choices={"fit": "close"},
    )
