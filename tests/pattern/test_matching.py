"""Notches that are matched by walking a seam, against walks by other means."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest
from hand_drafts import Floats, HandDraft, curved, dense, rectangle, straight
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from shapely import LineString, Point

from godet.base.words import Severity
from godet.pattern.pieces import Notch, Pattern

# --- seams with darts in them ---------------------------------------------------------------------


@dataclass(frozen=True)
class Waist:
    """An edge made of curves as sewn, with the mouth of a dart between each two of them."""

    parts: tuple[Floats, ...]  # (4, 2) each, as sewn: each begins where the one before it ends
    mouths: tuple[float, ...]  # how wide

    @property
    def cut(self) -> Floats:
        """As it is cut: each mouth, level and closed by its fold, moves the rest along."""
        cubics = []
        for number, part in enumerate(self.parts):
            cubics.append((part + np.array([self.opened(number), 0.0]))[None])
            if number < len(self.mouths):
                first, cap, last = self.mouth(number)[:3]
                cubics.append(straight(tuple(first), tuple(cap), tuple(last)))
        return np.concatenate(cubics)

    def opened(self, number: int) -> float:
        return sum(self.mouths[:number])

    def mouth(self, number: int) -> Floats:
        """First end, cap, last end, point and pivot of a dart below the edge."""
        wide = self.mouths[number]
        first = self.parts[number][3] + np.array([self.opened(number), 0.0])
        # to the last bit where the next part begins
        last = self.parts[number + 1][0] + np.array([self.opened(number + 1), 0.0])
        cap, point = (first + np.array([wide / 2, down]) for down in (-wide / 8, 90.0))
        return np.array([first, cap, last, point, point])

    @property
    def length(self) -> float:
        """As sewn, by scipy's quadrature."""
        return sum(_length(part) for part in self.parts)

    def edges(self) -> dict[str, Floats]:
        cut = self.cut
        (x0, y0), (x1, y1) = cut[0, 0], cut[-1, 3]
        return {
            "waist": cut,
            "side": straight((x1, y1), (x1, y1 + 400)),
            "bottom": straight((x0, 400), (x1, y1 + 400)),
            "centre": straight((x0, y0), (x0, 400)),
        }

    def darts(self) -> dict[str, Any]:
        return {f"dart_{n}": ("waist", "dart", self.mouth(n)) for n in range(len(self.mouths))}

    def at(self, part: int, share: float) -> tuple[float, float]:
        x, y = _on(self.parts[part], share)
        return x + self.opened(part), y

    def walked_to(self, point: tuple[float, float]) -> float:
        """How far a point on the cut edge lies along the sewn one: shapely, on a polyline."""
        closed = 0.0
        for number, wide in enumerate(self.mouths):
            end = self.parts[number][3][0] + self.opened(number)
            closed += wide if point[0] > end + 1e-6 else 0.0
        walk = LineString(dense(np.array(self.parts), 1500))
        return float(walk.project(Point(point[0] - closed, point[1])))


def _on(cubic: Floats, t: float) -> tuple[float, float]:
    s = 1 - t
    x, y = np.array([s**3, 3 * s * s * t, 3 * s * t * t, t**3]) @ cubic
    return float(x), float(y)


def _length(cubic: Floats, until: float = 1.0) -> float:
    steps = 3 * np.diff(cubic, axis=0)

    def speed(t: float) -> float:
        return float(np.hypot(*(np.array([(1 - t) ** 2, 2 * t * (1 - t), t * t]) @ steps)))

    return float(quad(speed, 0.0, until, epsabs=1e-9)[0])


@st.composite
def waists(draw: st.DrawFn) -> Waist:
    parts, at = [], np.zeros(2)
    for _ in range(draw(st.integers(1, 3))):
        along = draw(st.floats(60.0, 140.0))
        rise = draw(st.floats(-25.0, 25.0))
        steps = np.stack([along * np.arange(4) / 3, [0.0, 0.0, rise, rise]], axis=1)
        parts.append(at + steps)
        at = parts[-1][3]
    mouths = tuple(draw(st.floats(5.0, 30.0)) for _ in parts[1:])
    return Waist(tuple(parts), mouths)


def _notches(pattern: Pattern, piece: str, edge: str) -> list[Notch]:
    (found,) = (p for p in pattern.pieces if p.name == piece)
    darts = [name for name, dart in found.darts.items() if dart.manner == "dart"]
    legs = {f"{name}_{end}" for name in darts for end in ("first", "last")}
    return [notch for notch in found.notches if notch.edge == edge and notch.name not in legs]


def _finished(draft: HandDraft) -> Pattern:
    """With nothing to say of its notches; that the invented sides make corners is of no concern."""
    pattern, problems = draft.finish()
    assert [p.sentence for p in problems if p.code != "corner-over-seam"] == []
    assert pattern is not None
    return pattern


@settings(max_examples=40, deadline=None)
@given(waists(), waists(), st.data())
def test_both_notches_are_as_far_from_their_ends_as_sewn(
    first: Waist, second: Waist, data: st.DataObject
) -> None:
    part = data.draw(st.integers(0, len(first.parts) - 1))
    share = data.draw(st.floats(0.1, 0.9))
    draft = HandDraft()
    point = first.at(part, share)
    draft.piece("skirt", first.edges(), darts=first.darts(), points={"match": point})
    draft.piece("bodice", second.edges(), darts=second.darts())
    manner = "gathered" if first.length > second.length else "stretched"
    edges = [("skirt", "waist", False)], [("bodice", "waist", False)]
    draft.seam("waist", *edges, manner=manner, matches=[("skirt", "match")])
    draft.seam("side", [("skirt", "side", False)], [("bodice", "side", False)])
    pattern = _finished(draft)
    (seam, *_) = (each for each in pattern.seams if each.name == "waist")
    # scipy's quadrature, mouths left out
    assert seam.lengths_sewn == pytest.approx((first.length, second.length), abs=1e-5)
    along = sum(_length(p) for p in first.parts[:part]) + _length(first.parts[part], share)
    (own,), (other,) = _notches(pattern, "skirt", "waist"), _notches(pattern, "bodice", "waist")
    assert own.at == pytest.approx(point, abs=1e-6)
    assert own.along == pytest.approx(along, abs=1e-5)
    # the fullness is spread evenly
    there = along * second.length / first.length
    assert other.along == pytest.approx(there, abs=1e-5)
    assert second.walked_to(other.at) == pytest.approx(there, abs=0.01)


@settings(max_examples=20, deadline=None)
@given(waists(), st.floats(0.5, 40.0), st.data())
def test_ease_between_two_places_leaves_the_rest_mm_for_mm(
    waist: Waist, ease: float, data: st.DataObject
) -> None:
    total = waist.length
    start, end = total * data.draw(st.floats(0.1, 0.2)), total * data.draw(st.floats(0.8, 0.9))
    places = {"start": start, "end": end, "below": start / 2, "middle": (start + end) / 2}
    band = rectangle(total + min(ease, (end - start) * 0.9), 40)
    over = band["top"][0, 3, 0] - total
    points = {"start": (start, 0.0), "end": (end + over, 0.0), "below": (start / 2, 0.0)}
    points |= {"middle": ((start + end + over) / 2, 0.0), "above": (end + over + 5.0, 0.0)}
    draft = HandDraft()
    draft.piece("band", band, points=points)
    draft.piece("skirt", waist.edges(), darts=waist.darts())
    edges = [("band", "top", False)], [("skirt", "waist", False)]
    between = ("band", "start"), ("band", "end")
    matches = [("band", name) for name in points]
    draft.seam("waist", *edges, easing=over, between=between, matches=matches)
    draft.seam("side", [("band", "side", False)], [("skirt", "side", False)], manner="stretched")
    found = {n.name: n.along for n in _notches(_finished(draft), "skirt", "waist")}
    expected = {**places, "above": end + 5.0}
    assert found == pytest.approx(expected, abs=1e-5)


# --- which ends meet ------------------------------------------------------------------------------


def _panels(**seam: Any) -> HandDraft:
    """Two panels, the second drawn from its hem up, and a seam down their sides."""
    draft = HandDraft()
    draft.piece("front", rectangle(200, 300), points={"match": (200, 100), "hip": (200, 0)})
    upside_down = {name: path * [1, -1] for name, path in rectangle(200, 300).items()}
    draft.piece("back", upside_down, points={"low": (200, -300), "hip": (200, 0)})
    edges = [("front", "side", False)], [("back", "side", False)]
    draft.seam("side", *edges, matches=[("front", "match")], **seam)
    return draft


def test_ends_meet_by_the_names_of_their_points() -> None:
    (notch,) = _notches(_finished(_panels()), "back", "side")
    assert notch.at == pytest.approx((200, -100), abs=1e-9)


def test_ends_meet_where_the_seam_is_said_to_begin() -> None:
    draft = _panels(begun=(("front", "hip"), ("back", "low")))
    (notch,) = _notches(_finished(draft), "back", "side")
    assert notch.at == pytest.approx((200, -200), abs=1e-9)


def test_ends_that_nothing_tells_apart_are_asked_for() -> None:
    draft = HandDraft()
    edges = {name: straight(*points) for name, points in {
        "a": [(0, 0), (200, 0)], "b": [(200, 0), (200, 300)],
        "c": [(200, 300), (0, 300)], "d": [(0, 300), (0, 0)],
    }.items()}  # fmt: skip
    other = {f"{name}{name}": path for name, path in edges.items()}
    draft.piece("panel", edges, points={"match": (200, 100)})
    draft.piece("gusset", other)
    draft.seam(
        "in", [("panel", "b", False)], [("gusset", "bb", False)], matches=[("panel", "match")]
    )
    pattern, problems = draft.finish()
    assert pattern is not None
    assert [(p.code, p.severity) for p in problems] == [("seam-ends-unclear", Severity.WARNING)]
    assert all(piece.notches == () for piece in pattern.pieces)


def test_a_point_in_the_mouth_of_a_dart_is_told_and_one_at_its_end_is_not() -> None:
    parts = tuple(straight((x, 0), (x + 100, 0))[0] for x in (0, 100))
    waist = Waist(parts, (20.0,))
    for at, told in (((110.0, -2.5), ["match-in-dart"]), ((100.0, 0.0), []), ((120.0, 0.0), [])):
        draft = HandDraft()
        draft.piece("skirt", waist.edges(), darts=waist.darts(), points={"match": at})
        draft.piece("band", rectangle(200, 40))
        edges = [("skirt", "waist", False)], [("band", "top", False)]
        draft.seam("waist", *edges, matches=[("skirt", "match")])
        draft.seam("side", [("skirt", "side", False)], [("band", "side", False)], manner="gathered")
        pattern, problems = draft.finish()
        assert pattern is not None
        assert [p.code for p in problems if p.code != "corner-over-seam"] == told
        where = [notch.along for notch in _notches(pattern, "band", "top")]
        assert where == pytest.approx([] if told else [100.0])


# --- several edges in a row, whole edges, gathers -------------------------------------------------


def _round_the_waist(start: tuple[str, str] | None) -> HandDraft:
    """A band, closed at its ends, on the waist of a skirt with a fold in front and at the back."""
    draft = HandDraft()
    front = {"side_waist": (200.0, 0.0), "centre_front": (0.0, 0.0)}
    draft.piece("front", rectangle(200, 500), fold="centre", points=front)
    back = {"side_waist": (160.0, 0.0), "centre_back": (0.0, 0.0)}
    draft.piece("back", rectangle(160, 500), fold="centre", points=back)
    draft.piece("band", rectangle(720, 40), points={"begin": (0.0, 0.0)})
    draft.seam("side", [("front", "side", False)], [("back", "side", False)])
    draft.seam("ends", [("band", "centre", False)], [("band", "side", False)])
    waist = [("front", "top", True), ("back", "top", True)]
    draft.seam(
        "waist",
        [("band", "top", False)],
        waist,
        after=["side", "ends"],
        begun=(("band", "begin"), start) if start else None,
        matches=[("front", "side_waist"), ("front", "centre_front"), ("back", "centre_back")],
    )
    return draft


@pytest.mark.parametrize(
    ("start", "expected"),
    [
        # from the centre back: half a back, then the whole front
        (("back", "centre_back"), {"side_waist": 160, "centre_front": 360, "side_waist_2": 560}),
        (("front", "centre_front"), {"side_waist": 200, "centre_back": 360, "side_waist_2": 520}),
    ],
)
def test_a_band_is_walked_round_a_closed_waist(
    start: tuple[str, str], expected: dict[str, float]
) -> None:
    pattern = _finished(_round_the_waist(start))
    assert {n.name: n.along for n in _notches(pattern, "band", "top")} == pytest.approx(expected)
    # on the folds one cut each, at the sewn sides none: the seam marks itself
    assert [(n.name, n.at, n.count) for n in _notches(pattern, "front", "top")] == [
        ("centre_front", (0.0, 0.0), 1)
    ]
    assert [n.name for n in _notches(pattern, "back", "top")] == ["centre_back"]


def test_where_a_closed_waist_begins_is_asked_for() -> None:
    _, problems = _round_the_waist(None).finish()
    assert "seam-ends-unclear" in [p.code for p in problems]


@pytest.mark.parametrize(
    ("piece", "other", "name", "count"),
    [
        ("front", "sleeve", "notch", 1),
        ("back", "sleeve", "notch", 2),
        ("back", "front", "notch", 1),
        ("sleeve", "yoke", "back_notch", 2),
        ("sleeve", "yoke", "notch", 1),
    ],
)
def test_notches_that_meet_look_alike(piece: str, other: str, name: str, count: int) -> None:
    # one on the front, two on the back (common practice, no source)
    draft = HandDraft()
    draft.piece(piece, rectangle(200, 300), points={name: (200.0, 100.0)})
    draft.piece(other, rectangle(200, 300))
    edges = [(piece, "side", False)], [(other, "side", False)]
    draft.seam("in", *edges, matches=[(piece, name)])
    pattern = _finished(draft)
    assert [n.count for n in _notches(pattern, piece, "side")] == [count]
    assert [n.count for n in _notches(pattern, other, "side")] == [count]


def test_both_ends_of_gathers_are_notched_on_both_sides() -> None:
    # 60 mm of the top gathered to 40, from 70 to 130 mm along it
    gathers = np.array([(70.0, 0.0), (130.0, 0.0), (90.0, 0.0)])
    draft = HandDraft()
    darts: dict[str, Any] = {"fullness": ("top", "gathers", gathers)}
    draft.piece("sleeve", rectangle(200, 300), darts=darts)
    draft.piece("yoke", rectangle(180, 60))
    draft.seam("yoke", [("sleeve", "top", False)], [("yoke", "top", False)])
    draft.seam("side", [("sleeve", "side", False)], [("yoke", "side", False)], manner="gathered")
    pattern = _finished(draft)
    own = [(n.name, n.at) for n in _notches(pattern, "sleeve", "top")]
    assert own == [
        ("fullness_first", pytest.approx((70.0, 0.0))),
        ("fullness_last", pytest.approx((130.0, 0.0))),
    ]
    other = [n.at[0] for n in _notches(pattern, "yoke", "top")]
    assert other == pytest.approx([70.0, 110.0])  # what is between is drawn up to 40 mm


# --- corners over seams ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("front", "back", "told"),
    [(90, 90, False), (80, 100, False), (87, 98, False), (80, 94, True), (95, 93, True)],
)
def test_a_neck_with_a_corner_over_the_shoulder_is_advised(
    front: float, back: float, told: bool
) -> None:
    draft = HandDraft()
    for name, angle in (("front", front), ("back", back)):
        # the neck meets the level shoulder at this angle, inside the piece
        way = np.array([math.cos(math.radians(angle)), math.sin(math.radians(angle))])
        low = np.array([70.0, 0.0]) + 60.0 * way
        edges = {
            "neck": straight((low[0] - 40.0, low[1]), tuple(low), (70.0, 0.0)),
            "shoulder": straight((70.0, 0.0), (190.0, 0.0)),
            "armhole": straight((190.0, 0.0), (190.0, 200.0)),
            "bottom": straight((low[0] - 40.0, 200.0), (190.0, 200.0)),
            "centre": straight((low[0] - 40.0, low[1]), (low[0] - 40.0, 200.0)),
        }
        draft.piece(name, edges, fold="centre")
    draft.seam("shoulder", [("front", "shoulder", False)], [("back", "shoulder", False)])
    pattern, problems = draft.finish()
    assert pattern is not None
    if not told:
        assert problems == ()
        return
    (found,) = problems
    assert (found.code, found.severity) == ("corner-over-seam", Severity.ADVICE)
    for words in (f"{front:g} degrees", f"{back:g} degrees", f"together {front + back:g} degrees"):
        assert words in found.sentence


def test_no_corner_is_told_where_a_seam_ends_at_a_slit() -> None:
    draft = HandDraft()
    for name in ("front", "back"):
        edges = rectangle(200, 500)
        edges["side"] = straight((200, 0), (200, 350))
        edges["slit"] = straight((200, 350), (200, 500))
        draft.piece(name, edges)
    draft.seam("side", [("front", "side", False)], [("back", "side", False)])
    assert draft.finish()[1] == ()


def test_edges_sewn_to_different_seams_make_no_line() -> None:
    draft = HandDraft()
    slanted = rectangle(200, 300)
    slanted["top"] = curved((0, 40), (60, 40), (140, 20), (200, 0))
    slanted["centre"] = straight((0, 40), (0, 300))
    draft.piece("front", slanted)
    draft.piece("back", slanted)
    draft.piece("yoke", rectangle(205, 60))
    draft.piece("cowl", rectangle(205, 60))
    draft.seam("side", [("front", "side", False)], [("back", "side", False)])
    for name, onto in (("front", "yoke"), ("back", "cowl")):
        draft.seam(onto, [(onto, "bottom", False)], [(name, "top", False)], easing=0.0)
    assert "corner-over-seam" not in [
        p.code for p in draft.finish()[1] if "`front.top`" in p.sentence
    ]
