"""The notches of the tee that meet when it is sewn. All figures come from draft.json alone."""

from __future__ import annotations

from typing import Any

import pytest
from drafts import dense, drafts, length, path, point
from shapely import LineString, Point
from women import en_women

Draft = dict[str, Any]


@pytest.fixture(scope="module", params=["short", "long"])
def tees(request: pytest.FixtureRequest) -> list[Draft]:
    choices = {"fit": "easy", "sleeve": request.param, "cap_ease": 12.0, "neckband_share": 0.85}
    return drafts("knit_tee", en_women()[::2], choices=choices)


def notches(draft: Draft, piece: str, edge: str) -> dict[str, Point]:
    return {
        notch["name"]: Point(notch["at"])
        for notch in draft["pieces"][piece]["notches"]
        if notch["edge"] == edge
    }


def walk(draft: Draft, piece: str, edge: str, first_end: str) -> LineString:
    """A polyline of chords from the end at a named point."""
    points = dense(path(draft, piece, edge), 800)
    start = point(draft, piece, first_end)
    near = abs(points[0] - start).max() < 1e-6
    return LineString(points if near else points[::-1])


def test_cap_and_armhole_are_notched_equally_far_from_the_underarm(tees: list[Draft]) -> None:
    # below the notches nothing is eased in (common practice, no source); shapely's walk
    for tee in tees:
        for piece in ("front", "back"):
            armhole = walk(tee, piece, "armhole", "underarm")
            cap = walk(tee, "sleeve", "cap", f"{piece}_underarm")
            name = f"{piece}_notch"
            on_body = armhole.project(notches(tee, piece, "armhole")[name])
            on_sleeve = cap.project(notches(tee, "sleeve", "cap")[name])
            assert on_body == pytest.approx(on_sleeve, abs=0.02)
            assert 0.2 < on_body / armhole.length < 0.5


def test_the_ease_of_the_cap_is_spread_evenly_between_its_notches(tees: list[Draft]) -> None:
    for tee in tees:
        cap = walk(tee, "sleeve", "cap", "front_underarm")
        front, shoulder, back = (
            cap.project(notches(tee, "sleeve", "cap")[name])
            for name in ("front_notch", "shoulder_point", "back_notch")
        )
        above = {
            piece: length(path(tee, piece, "armhole"))
            - walk(tee, piece, "armhole", "underarm").project(
                notches(tee, piece, "armhole")[f"{piece}_notch"]
            )
            for piece in ("front", "back")
        }
        assert back - front == pytest.approx(sum(above.values()) + 12.0, abs=0.02)
        share = above["front"] / sum(above.values())
        assert shoulder - front == pytest.approx(above["front"] + 12.0 * share, abs=0.02)


def test_the_band_is_notched_at_the_shoulders_and_the_centre_front(tees: list[Draft]) -> None:
    # sewn from the centre back: half a back neck to the first shoulder, stretched evenly
    for tee in tees:
        band = walk(tee, "neckband", "lower", "lower_first")
        found = {n: band.project(at) for n, at in notches(tee, "neckband", "lower").items()}
        back = 0.85 * length(path(tee, "back", "neck"))
        assert found == pytest.approx(
            {"side_neck": back, "centre_neck": band.length / 2, "side_neck_2": band.length - back},
            abs=0.02,
        )


def test_notches_that_meet_look_alike(tees: list[Draft]) -> None:
    # one on the front, two on the back (common practice, no source)
    counts = {"front_notch": 1, "back_notch": 2, "shoulder_point": 1, "side_waist": 1}
    for tee in tees:
        for piece in tee["pieces"].values():
            for notch in piece["notches"]:
                assert notch["count"] == counts.get(notch["name"], 1)


def test_both_side_seams_are_notched_equally_far_down(tees: list[Draft]) -> None:
    for tee in tees:
        front, back = (
            walk(tee, piece, "side", "underarm").project(notches(tee, piece, "side")["side_waist"])
            for piece in ("front", "back")
        )
        assert front == pytest.approx(back, abs=0.02)
