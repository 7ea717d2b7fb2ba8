"""What must hold of every dress on every body: common practice, no source.

In: a `Trial`. Out: a sentence for each rule that is broken, with the first row that breaks it, as
somebody would draft it again. Lengths in mm. Nothing fails.

    list(broken(tried(cell, bodies)))    # []
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np
from cells import IN_ONE
from measuring import (
    across_at,
    away,
    cut,
    degrees_between,
    middle,
    mouth_along,
    part_length,
    sewn,
    turned_back,
    way_from,
)
from trials import Floats, Trial, Truths

HALVES = ("front", "back")
SEPARATES = ("separates", "waisted_separates")
SEAM, LEVEL, SQUARE = 1.0, 2.0, 0.5  # mm, mm, degrees
# a cloth of 40 % stretch may stay stretched by 60 % of that, which stdlib/ease.godet has as its own
_WORN = 1 + 0.6 * 0.4
_RINGS = ("gathered_skirt", "circle_skirt")


def broken(trial: Trial) -> Iterator[str]:
    """Every rule that this trial breaks."""
    with np.errstate(invalid="ignore", divide="ignore"):
        for rule in _RULES:
            yield from (f"{trial.cell.name}: {words}" for words in rule(trial))


def _told(trial: Trial, what: str, wrong: Truths, amount: Floats | None = None) -> Iterator[str]:
    if wrong.any():
        worst = f" (to {np.nanmax(np.abs(amount[wrong])):.2f})" if amount is not None else ""
        yield f"{what}{worst}: {trial.first(wrong)}"


# --- what is refused -----------------------------------------------------------------------------


def statements(trial: Trial) -> Iterator[str]:
    """A body that can't be drafted is refused by a requirement, never by a curve that fails."""
    codes = {(f.code, f.place.line if f.place else 0) for f in trial.outcome.failures}
    yield from _told(trial, f"statements fail {sorted(codes)}", ~trial.sound)


def requirements(trial: Trial) -> Iterator[str]:
    """Who is refused is told why, and the numbers told say the same."""
    for check in trial.draft.checks:
        if check.level != "require":
            continue
        unmet = trial.unmet(check)
        if unmet.any() and not check.words:
            yield f"a requirement without words in line {check.place.line}"
        if check.measured is None or check.wanted is None:
            continue
        left, right = (trial.of(node) for node in (check.measured, check.wanted))
        more = {">=": left >= right, "<=": left <= right, ">": left > right, "<": left < right}
        if check.sign in more:
            unlike = (unmet == more[check.sign]) & trial.sound
            yield from _told(trial, f"{check.words}: not what its numbers say", unlike)


def standard_sizes(trial: Trial) -> Iterator[str]:
    """Sizes of EN 13402-3 and ASTM D5585 are never refused with the default choices."""
    standard = [body.label.startswith(("EN", "ASTM")) for body in trial.bodies]
    plain = np.outer([c.plain for c in trial.choosings], standard).ravel()
    for check in trial.draft.checks:
        if check.level == "require":
            refused = trial.unmet(check) & plain
            yield from _told(trial, f"a standard size is refused: {check.words}", refused)


# --- seams ---------------------------------------------------------------------------------------


def seams(trial: Trial) -> Iterator[str]:
    """Both sides of a seam are as long, or differ by the ease that it states."""
    for seam in trial.draft.seams:
        if seam.manner in ("gathered", "stretched"):
            continue
        there = trial.accepted.copy()
        for piece, _, _ in (*seam.first, *seam.second):
            there &= trial.there(piece)
        if seam.when is not None:
            there &= trial.of(seam.when).astype(bool)
        if not there.any():
            continue
        eased = trial.of(seam.easing) if seam.easing is not None else 0.0
        apart = _side(trial, seam.first) - _side(trial, seam.second) - eased
        yield from _told(trial, f"seam {seam.name}", there & ~(np.abs(apart) <= SEAM), apart)


def _side(trial: Trial, parts: Iterable[tuple[str, str, bool]]) -> Floats:
    lengths = [(2 if whole else 1) * as_sewn(trial, piece, edge) for piece, edge, whole in parts]
    return np.asarray(np.sum(lengths, axis=0))


def edge_of(trial: Trial, piece: str, edge: str) -> Floats:
    return np.asarray(trial.of(trial.draft.pieces[piece].edges[edge].curve))


def darts_of(trial: Trial, piece: str, points: int = 5) -> list[Floats]:
    """The darts with one point (rows, 5, 2), or with two (rows, 4, 2)."""
    darts = [trial.of(line.node) for line in trial.draft.pieces[piece].darts.values()]
    return [dart for dart in darts if dart.shape[1] == points]


def as_sewn(trial: Trial, piece: str, edge: str) -> Floats:
    return sewn(edge_of(trial, piece, edge), darts_of(trial, piece))


def caps(trial: Trial) -> Iterator[str]:
    """A sleeve's cap is its armhole and the ease that is stated."""
    for name in ("sleeve", "flutter"):
        there = trial.there(name) & trial.accepted
        if there.any():
            ease = next(c for c in trial.draft.choices if c.split(".")[-1] == "cap_ease")
            armhole = sum(as_sewn(trial, half, "armhole") for half in HALVES)
            apart = cut(edge_of(trial, name, "cap")) - armhole - trial.chosen(ease)
            yield from _told(trial, f"the cap of the {name}", there & ~(np.abs(apart) < 0.1), apart)


def gathered(trial: Trial) -> Iterator[str]:
    """A gathered waist is cut as many times as wide as it is sewn, as its fullness says."""
    if trial.cell.skirt not in _RINGS or trial.cell.dress != "gathered_dress":
        return
    for half in HALVES:
        ratio = cut(edge_of(trial, f"skirt_{half}", "waist")) / as_sewn(trial, half, "bottom")
        apart = ratio - trial.chosen("skirt.fullness")
        yield from _told(trial, f"gathers of {half}", trial.accepted & ~(abs(apart) < 1e-3), apart)


def darts_meet(trial: Trial) -> Iterator[str]:
    """The darts of top and skirt are sewn to one place of the waist."""
    if trial.cell.dress != "sheath_dress":
        return
    for half in HALVES:
        apart = to_dart(trial, half, "bottom") - to_dart(trial, f"skirt_{half}", "waist")
        yield from _told(trial, f"darts of {half}", trial.accepted & ~(abs(apart) <= SEAM), apart)


def to_dart(trial: Trial, piece: str, edge: str) -> Floats:
    """From the centre to the dart of the waist, as sewn."""
    curve = edge_of(trial, piece, edge)
    waist = trial.of(trial.draft.pieces[piece].darts["waist_dart"].node)
    first, last = mouth_along(curve, waist)
    inward = curve[:, 0, 0, 0] <= curve[:, -1, 3, 0]  # drawn from the centre
    return np.where(inward, np.minimum(first, last), cut(curve) - np.maximum(first, last))


def openings(trial: Trial) -> Iterator[str]:
    """A skirt that opens below a top that does not is warned of."""
    if trial.cell.skirt is None or trial.cell.dress in SEPARATES:
        return
    warned = np.zeros(trial.rows, dtype=bool)
    for check in trial.draft.checks:
        if check.level == "advise" and "opens nothing" in check.words:
            warned |= trial.unmet(check)
    alone = _parted(trial, "skirt_back") & ~_parted(trial, "back")
    yield from _told(trial, "only the skirt opens", trial.accepted & alone & ~warned)


def _parted(trial: Trial, piece: str) -> Truths:
    """Where a piece is not laid on the fold."""
    fold = trial.draft.pieces[piece].fold
    if fold is None or fold.when is None:
        return np.full(trial.rows, fold is None)
    return np.asarray(~trial.of(fold.when).astype(bool))


# --- hems ----------------------------------------------------------------------------------------


def square_hems(trial: Trial) -> Iterator[str]:
    """A hem meets the centre and the side square."""
    for piece in _hemmed(trial):
        bottom = edge_of(trial, piece, "bottom")
        corners = {"centre": bottom[:, 0, 0], "side": bottom[:, -1, 3]}
        if np.nanmean(corners["centre"][:, 0] > corners["side"][:, 0]) > 0.5:
            corners = {"centre": corners["side"], "side": corners["centre"]}
        for edge, corner in corners.items():
            way = way_from(edge_of(trial, piece, edge), corner)
            apart = degrees_between(way_from(bottom, corner), way) - 90
            wrong = trial.accepted & ~(np.abs(apart) <= SQUARE)
            yield from _told(trial, f"hem of {piece} at the {edge}", wrong, apart)


def level_hems(trial: Trial) -> Iterator[str]:
    """A hem is as far below the hip line at the centre, midway and at the side, along the cloth."""
    for half in HALVES:
        piece = _lowest(trial, half)
        depths = np.stack(_depths(trial, piece))
        apart = np.ptp(depths, axis=0)
        wrong = trial.accepted & ~(apart <= LEVEL)
        yield from _told(trial, f"hem of {piece} is not level", wrong, apart)


def _depths(trial: Trial, piece: str) -> tuple[Floats, ...]:
    bottom = edge_of(trial, piece, "bottom")
    centre, side = (_corner(trial, piece, name) for name in ("hem_centre", "hem_side"))
    between = middle(bottom)
    if trial.cell.skirt in _RINGS:  # as far from the waist all round
        waist = edge_of(trial, piece, "waist")
        return tuple(away(waist, place) for place in (centre, between, side))
    hip = _corner(trial, piece, "hip_side")
    below = part_length(edge_of(trial, piece, "side"), hip, side)
    if trial.cell.skirt == "a_line_skirt":
        return _below_opened_dart(trial, piece, centre, between)
    if "a_line_dress" in trial.cell.dress + trial.cell.top:
        # the wedge at the side is a sector about the hip
        swung = between[:, 0] > hip[:, 0]
        depth = np.where(swung, np.linalg.norm(between - hip, axis=1), between[:, 1] - hip[:, 1])
        return (centre[:, 1] - hip[:, 1], depth, below)
    return (centre[:, 1] - hip[:, 1], between[:, 1] - hip[:, 1], below)


def _below_opened_dart(trial: Trial, piece: str, *places: Floats) -> tuple[Floats, ...]:
    """Depths with the dart opened again that was closed at the waist, and the hem's closed."""
    pivot = trial.value(f"{piece}.plumb_line")[:, 0, 0]
    legs = [trial.value(f"{piece}.{end}") - pivot for end in ("cut_hem", "opened")]
    angle = np.radians(degrees_between(*(leg / np.hypot(*leg.T)[:, None] for leg in legs)))
    depths = []
    for place in (*places, trial.value(f"{piece}.turned_hem_side")):
        lean = np.arctan2(*(place - pivot).T)  # from straight down, outward
        back = turned_back(place, pivot, np.clip(lean, 0.0, angle))
        depths.append(back[:, 1] - pivot[:, 1])
    return tuple(depths)


def _corner(trial: Trial, piece: str, name: str) -> Floats:
    return np.asarray(trial.of(trial.draft.pieces[piece].points[name]))


def _lowest(trial: Trial, half: str) -> str:
    skirt = f"skirt_{half}"
    return skirt if skirt in trial.draft.pieces else half


def _hemmed(trial: Trial) -> list[str]:
    pieces = [_lowest(trial, half) for half in HALVES]
    return [*pieces, *(HALVES if trial.cell.dress in SEPARATES else ())]


# --- girths --------------------------------------------------------------------------------------


def girths(trial: Trial) -> Iterator[str]:
    """Nothing is narrower than the body, by more than its cloth may stay stretched."""
    may_give = np.where(trial.in_woven, 1.0, _WORN)
    for girth, wide in _girths(trial):
        short = trial.measured(girth) / may_give - wide
        yield from _told(trial, f"narrower than the {girth}", trial.accepted & (short > 1), short)


def _girths(trial: Trial) -> Iterator[tuple[str, Floats]]:
    yield "bust_girth", _round(_corner(trial, half, "underarm")[:, 0] for half in HALVES)
    yield "waist_girth", _round(_at_waist(trial, half) for half in HALVES)
    if trial.cell.skirt in _RINGS:
        lines = (trial.value(f"skirt_{half}.hip_line") for half in HALVES)
        yield "hip_girth", _round(cut(line) for line in lines)
    else:
        pieces = [_lowest(trial, half) for half in HALVES]
        yield "hip_girth", _round(_corner(trial, piece, "hip_side")[:, 0] for piece in pieces)


def _at_waist(trial: Trial, half: str) -> Floats:
    if trial.cell.dress not in (*IN_ONE, *SEPARATES):
        return as_sewn(trial, half, "bottom")
    side = across_at(edge_of(trial, half, "side"), _corner(trial, half, "side_waist")[:, 1])
    mouths = [np.ptp(dart[:, :, 0], axis=1) for dart in darts_of(trial, half, points=4)]
    return np.asarray(side - np.sum(mouths, axis=0)) if mouths else side


def _round(halves: Iterable[Floats]) -> Floats:
    return np.asarray(2 * np.sum(list(halves), axis=0))


_RULES = (
    statements, requirements, standard_sizes, seams, caps, gathered, darts_meet, openings,
    square_hems, level_hems, girths,
)  # fmt: skip
