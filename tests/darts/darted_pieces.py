"""Small pieces with darts, drafted through the compiler and measured without it.

In: a text that follows `BODICE` or `SKIRT`, and the shares and lengths that a piece is drawn by.
Out: a `Drawn`, all of its edges, points and darts for one body. Lengths and areas are worked out
here from the control points, by fontTools and by Gauss' rule. A text that is wrong fails the test.

    drawn = tried(BODICE, SWUNG, how);  drawn.sewn("swung", "side")
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from fontTools.misc.bezierTools import calcCubicArcLength
from hypothesis import reject
from hypothesis import strategies as st
from numpy.typing import NDArray
from small_recipes import compiled, draft, inputs

from godet.geometry.locating import locate
from godet.program.draft import Draft
from godet.program.laying import nodes_of
from godet.solve.outcome import Outcome
from godet.solve.solver import solve

Floats = NDArray[np.float64]
FIRST, CAP, LAST, TIP, PIVOT = range(5)  # the rows of a dart

BODICE = """\
edition 1
recipe tried
measure bust_girth
choose bust_place   = 30 % from 0 % to 100 % "how far down the side the bust dart is"
choose bust_width   = 3cm  from 0cm to 100cm "how wide the bust dart is"
choose waist_width  = 3cm  from 0cm to 100cm "how wide the waist dart is"
choose pivot_across = 50 % from 0 % to 150 % "how far out the bust point is"
choose pivot_down   = 50 % from 0 % to 150 % "how far down the bust point is"
choose short        = 2cm  from 0cm to 50cm  "how far short of the bust point darts stop"
choose place        = 50 % from 0 % to 100 % "how far along its edge a dart is opened"
choose back_at      = 1cm  from 0cm to 100cm "how far down the side it is swung back to"
choose portion      = 30 % from 0 % to 100 % "how much of a dart"

let quarter = bust_girth / 4

piece block
  point centre_neck    = origin down 9cm
  point side_neck      = origin outward 30 % * quarter
  point shoulder_point = side_neck at 22deg by 48 % * quarter
  point underarm       = origin down 22cm outward quarter
  point centre_waist   = origin down 42cm
  point side_waist     = origin down 43cm outward 92 % * quarter
  point bust_point     = centre_neck down (pivot_down * 33cm) outward pivot_across * quarter
  edge centre   = line centre_neck to centre_waist
  edge neck     = curve centre_neck to side_neck leaving outward arriving at -80deg
  edge shoulder = line side_neck to shoulder_point
  edge armhole  = curve shoulder_point to underarm leaving down arriving outward
  edge side     = line underarm to side_waist
  edge bottom   = curve centre_waist to side_waist leaving outward
  dart bust_dart  = on side at {bust_at} by bust_width to bust_point stopping short
  dart waist_dart = on bottom at {waist_at} by waist_width to bust_point stopping short
  level bust = across at bust_point
  level high = across at underarm up 2cm
  notch side at along side from underarm by 1cm
  allow 1cm on side
  fold centre
end
""".format(
    bust_at="along side from underarm by bust_place * length(side)",
    waist_at="along bottom from centre_waist by pivot_across * length(bottom)",
)

SKIRT = """\
edition 1
recipe tried
measure hip_girth
choose dart_place = 50 % from 0 % to 100 % "how far along the waist the dart is"
choose dart_width = 3cm  from 0cm to 100cm "how wide it is"
choose dart_deep  = 12cm from 0cm to 100cm "how deep its pivot lies"
choose long       = 60cm from 1cm to 200cm "how long the skirt is"
choose hem_place  = 50 % from 0 % to 100 % "where the hem is cut"
choose amount     = 6cm  from 0cm to 200cm "by how much it is opened"

let quarter = hip_girth / 4

piece block
  point centre_waist = origin
  point side_waist   = origin outward (90 % * quarter) up 1cm
  point hip_side     = origin outward quarter down 20cm
  point hem_centre   = origin down long
  point hem_side     = hem_centre outward quarter
  point deep         = origin outward dart_place * quarter down dart_deep
  edge centre = line centre_waist to hem_centre
  edge waist  = curve centre_waist to side_waist leaving outward
  edge side   = curve side_waist to hip_side arriving down, then line to hem_side
  edge hem    = line hem_centre to hem_side
  dart waist_dart = on waist at {dart_at} by dart_width to deep
  level hip = across at hip_side
  fold centre
end
""".format(dart_at="along waist from centre_waist by dart_place * length(waist)")

# shares and mm with which the bodice is sound for every body
BODICES = st.fixed_dictionaries(
    {
        "bust_girth": st.floats(600.0, 1600.0),
        "bust_place": st.floats(0.2, 0.6),
        "bust_width": st.floats(10.0, 60.0),
        "waist_width": st.floats(10.0, 30.0),
        "pivot_across": st.floats(0.4, 0.55),
        "pivot_down": st.floats(0.45, 0.6),
        "short": st.floats(5.0, 20.0),
        "place": st.floats(0.4, 0.8),
        "portion": st.floats(0.1, 0.9),
    }
)
SKIRTS = st.fixed_dictionaries(
    {
        "hip_girth": st.floats(700.0, 1600.0),
        "dart_place": st.floats(0.3, 0.6),
        "dart_width": st.floats(8.0, 40.0),
        "dart_deep": st.floats(80.0, 140.0),
        "long": st.floats(400.0, 900.0),
        "hem_place": st.floats(0.3, 0.7),
        "amount": st.floats(10.0, 150.0),
    }
)


@dataclass(frozen=True)
class Drawn:
    draft: Draft
    outcome: Outcome

    def value(self, node: int) -> Any:
        return self.outcome.value(node, 0)

    def edge(self, piece: str, name: str) -> Floats:
        """The cubics (n, 4, 2) of an edge as it is cut, those without length left out."""
        cubics = np.asarray(self.value(self.draft.pieces[piece].edges[name].curve))
        return cubics[np.abs(cubics - cubics[:, :1]).max(axis=(1, 2)) > 1e-7]

    def edges(self, piece: str) -> dict[str, Floats]:
        return {name: self.edge(piece, name) for name in self.draft.pieces[piece].edges}

    def point(self, piece: str, name: str) -> Floats:
        return np.asarray(self.value(self.draft.pieces[piece].points[name]))

    def dart(self, piece: str, name: str) -> Floats:
        return np.asarray(self.value(self.draft.pieces[piece].darts[name].node))

    def number(self, name: str) -> float:
        """A value that the recipe names."""
        return float(self.value(self.draft.names[name]))

    def strays(self, piece: str, name: str) -> float:
        node = self.draft.pieces[piece].darts[name].strays
        assert node is not None
        return float(self.value(node))

    def width(self, piece: str, level: str) -> float:
        """The width as sewn that a girth is made of."""
        return float(self.value(self.draft.pieces[piece].widths[level]))

    def told_length(self, piece: str, name: str) -> float:
        """The length as sewn that a seam is compared by."""
        line = self.draft.pieces[piece].edges[name]
        return (
            float(self.value(line.sewn))
            if line.sewn is not None
            else length(self.edge(piece, name))
        )

    def sewn(self, piece: str, name: str) -> float:
        """The length of an edge with the mouths of its darts closed."""
        mouths = 0.0
        for line in self.draft.pieces[piece].darts.values():
            if line.edge == name and line.manner in ("dart", "pleat", "tuck"):
                dart = np.asarray(self.value(line.node))
                mouths += _way(dart[FIRST], dart[CAP]) + _way(dart[CAP], dart[LAST])
        return length(self.edge(piece, name)) - mouths

    def slashed(self, piece: str) -> float:
        """The area of a piece whose darts are cut out as far as their pivots."""
        area = self.area(piece)
        for line in self.draft.pieces[piece].darts.values():
            first, cap, last, _, pivot = np.asarray(self.value(line.node))
            corners = np.array([first, cap, last, pivot])
            area -= abs(_polygon(corners))
        return area

    def turned(self, new: str, corners: tuple[str, str], old: str = "block") -> float:
        """The angle by which the part with two corners was turned, outward to down."""
        before, after = (
            self.point(piece, corners[1]) - self.point(piece, corners[0]) for piece in (old, new)
        )
        crossed = before[0] * after[1] - before[1] * after[0]
        return float(np.arctan2(crossed, before @ after))

    def laid(self, new: str, corners: tuple[str, str], place: Floats, old: str = "block") -> Floats:
        """Where a place of the part with two corners lies now."""
        angle = self.turned(new, corners, old)
        turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
        start, goal = self.point(old, corners[0]), self.point(new, corners[0])
        return goal + turn @ (place - start)

    def area(self, piece: str) -> float:
        """The area within the edges as they are cut."""
        return abs(_enclosed(list(self.edges(piece).values())))


def _way(start: Floats, end: Floats) -> float:
    return float(np.hypot(*(end - start)))


def length(curve: Floats) -> float:
    """The length of a curve, by fontTools."""
    return sum(calcCubicArcLength(*map(tuple, cubic), tolerance=1e-10) for cubic in curve)


def _polygon(corners: Floats) -> float:
    onward = np.roll(corners, -1, axis=0)
    return float(np.sum(corners[:, 0] * onward[:, 1] - onward[:, 0] * corners[:, 1])) / 2.0


_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(4)  # exact for polynomials of degree 7


def _enclosed(curves: list[Floats]) -> float:
    """The area within curves that make a ring in any order, half the integral of x dy - y dx."""
    ring, rest = [curves[0]], curves[1:]
    while rest:
        end = ring[-1][-1, 3]
        ways = [(_way(end, c[0, 0]), n, False) for n, c in enumerate(rest)]
        ways += [(_way(end, c[-1, 3]), n, True) for n, c in enumerate(rest)]
        gap, number, back = min(ways)
        assert gap < 1e-6
        chosen = rest.pop(number)
        ring.append(chosen[::-1, ::-1] if back else chosen)
    assert _way(ring[-1][-1, 3], ring[0][0, 0]) < 1e-6
    cubics = np.concatenate(ring)
    total = 0.0
    for t, weight in zip((_NODES + 1.0) / 2.0, _WEIGHTS / 2.0, strict=True):
        u = 1.0 - t
        at = np.array([u**3, 3 * u * u * t, 3 * u * t * t, t**3]) @ cubics
        speed = 3.0 * np.array([u * u, 2 * u * t, t * t]) @ np.diff(cubics, axis=1)
        total += weight * float(np.sum(at[:, 0] * speed[:, 1] - at[:, 1] * speed[:, 0]))
    return total / 2.0


def angle(dart: Floats) -> float:
    """The angle at the pivot, from the cosine rule."""
    a, b, c = (
        _way(dart[FIRST], dart[PIVOT]),
        _way(dart[LAST], dart[PIVOT]),
        _way(dart[FIRST], dart[LAST]),
    )
    return float(2.0 * np.arctan2(c / 2.0, np.sqrt((a + b) ** 2 - c * c) / 2.0))


def apart(curve: Floats, other: Floats) -> float:
    """How far the control points' own curve lies from another at most, and the other from it."""
    shares = np.linspace(0.0, 1.0, 9)[:, None]
    weights = np.concatenate(
        [
            (1 - shares) ** 3,
            3 * (1 - shares) ** 2 * shares,
            3 * (1 - shares) * shares**2,
            shares**3,
        ],
        1,
    )

    def strays(one: Floats, two: Floats) -> float:
        points = np.concatenate([weights @ cubic for cubic in one])
        _, away = locate(np.broadcast_to(two, (len(points), *two.shape)), points)
        return float(np.max(away))

    return max(strays(curve, other), strays(other, curve))


@cache
def _draft(text: str) -> Draft:
    return draft(text)


def outcome_of(made: Draft, how: Mapping[str, float]) -> Outcome:
    """Everything that the pieces are drawn and dressed by, for one body."""
    measured = {name: value for name, value in how.items() if name in made.measures}
    chosen = {name: value for name, value in how.items() if name in made.choices}
    nodes = [node for piece in made.pieces.values() for node in nodes_of(piece)]
    nodes += made.names.values()
    return solve(made.graph, made.finds, nodes, inputs(made, measured, chosen))


def tried(text: str, altered: str, how: Mapping[str, float]) -> Drawn:
    """The pieces for one body; nothing may fail, but that a dart can't be folded where the edge
    runs nearly along its leg: such a one is no example."""
    made = _draft(text + altered)
    outcome = outcome_of(made, how)
    if {f.code for f in outcome.failures} == {"dart-mouth-open"}:
        reject()
    assert not outcome.failures, [(f.code, f.place, f.numbers) for f in outcome.failures]
    return Drawn(made, outcome)


def failing(text: str, altered: str, how: Mapping[str, float]) -> tuple[Drawn, set[str]]:
    """The pieces for one body, and the codes of what failed."""
    made = _draft(text + altered)
    outcome = outcome_of(made, how)
    return Drawn(made, outcome), {failure.code for failure in outcome.failures}


def codes(text: str) -> set[str]:
    """The codes of what is wrong with a text."""
    return {found.code for found in compiled(text).problems}
