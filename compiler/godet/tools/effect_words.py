"""Effects in a dressmaker's words.

In: an `Effect` and the reader's unit. Out: one sentence without its full stop. Nothing fails.

    sentence(effect, "cm")   # "1 cm more hip_girth moves hip_side outward 2.5 mm"
"""

from __future__ import annotations

import math

from godet.base.quantities import LengthUnit
from godet.program.saying import all_of
from godet.tools.effects import SEEN, Effect, Move

_WAYS = {
    "length": ("lengthens {words} by {by}", "shortens {words} by {by}"),
    "depth": ("lowers {words} by {by}", "raises {words} by {by}"),
    "mouth": ("widens {words} by {by}", "narrows {words} by {by}"),
    "width": ("widens {words} by {by}", "narrows {words} by {by}"),
    "area": ("makes {words} {by} larger", "makes {words} {by} smaller"),
    "angle": ("opens {words} by {by}", "closes {words} by {by}"),
    "number": ("makes {words} more by {by}", "makes {words} less by {by}"),
}


def sentence(effect: Effect, units: LengthUnit) -> str:
    does = all_of([_told(move, units) for move in effect.moves])
    if effect.abrupt:
        return f"{effect.step} {effect.cause} {does}; how it goes on from there can't be told"
    return f"{effect.step} {effect.cause} {does}"


def _told(move: Move, units: LengthUnit) -> str:
    if move.sort == "point":
        across, down = move.by
        ways = [_way(across, "outward", "inward", units), _way(down, "down", "up", units)]
        return f"moves {move.words} {' and '.join(way for way in ways if way)}"
    (by,) = move.by
    more, less = _WAYS[move.sort]
    return (more if by > 0 else less).format(words=move.words, by=_amount(abs(by), move, units))


def _way(by: float, ahead: str, back: str, units: LengthUnit) -> str:
    if abs(by) < SEEN:
        return ""
    return f"{ahead if by > 0 else back} {_length(abs(by), units)}"


def _amount(by: float, move: Move, units: LengthUnit) -> str:
    match move.sort:
        case "area":
            side, unit = (25.4, "in") if units == "in" else (10.0, "cm")
            return f"{_short(by / side**2, 3)} square {unit}"
        case "angle":
            degrees = _short(math.degrees(by), 2)
            return f"{degrees} degree{'' if degrees == '1' else 's'}"
        case "number":
            return _short(by, 4)
        case _:
            return _length(by, units)


def _length(mm: float, units: LengthUnit) -> str:
    return f"{_short(mm / 25.4, 3)} in" if units == "in" else f"{_short(mm, 2)} mm"


def _short(number: float, places: int) -> str:
    return f"{number:.{places}f}".rstrip("0").rstrip(".")
