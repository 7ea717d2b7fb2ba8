"""Sets words where there is room for them: beside a line, beside a point, or as a block.

In: the room left in a piece (see `clear_room`), the text and where it belongs. Out: the words and
the room that is left after them. Nothing fails: words beside a line or a point are set in the best
place even where it is tight; a block that fits nowhere is None, and the caller sets it outside.

    words, room = beside_line(room, "front.level-hip-name", "level", "hip", start, end, 3.0)
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np

from godet.output.clear_room import Room
from godet.output.elements import Layer, Words
from godet.output.lettering import LINE_HEIGHT, text_width
from godet.output.tracing import LETTER_BOX, Points, baseline_at
from godet.pattern.pieces import Point

_GAP = 1.2  # mm from words to the line they belong to
_CLEAR_WORDS = 1.0  # mm from words to any other line
_CLEAR_BLOCK = 2.5  # mm from a block of words to any line
_SMALLER = (1.0, 0.8, 0.65)  # sizes tried for words, of the wanted one
_BLOCK_SIZES = (4.5, 3.6, 2.9, 2.3)  # of letters, mm
_TITLE_SCALE = 1.5  # the first line of a block, of the others
_SHARES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9)  # along a line


def beside_line(
    room: Room, id: str, layer: Layer, text: str, start: Point, end: Point, size: float
) -> tuple[Words, Room]:
    """Words that run along the line from `start` to `end`, above it or else below it.

    Where there is no room for that, they stand level beside the middle of the line.
    """
    turn = _upright(math.atan2(end[1] - start[1], end[0] - start[0]))
    ends = np.array([start, end])
    along = ends[0] + np.array(_SHARES)[:, None] * (ends[1] - ends[0])
    above = np.array([math.sin(turn), -math.cos(turn)])

    def places(letters: float) -> Points:
        off = (_GAP + LETTER_BOX * letters / 2) * above
        return np.concatenate([along + off, along - off])

    clear, words, left = _set(room, id, layer, text, places, size, turn)
    if clear:
        return words, left
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    return beside_point(room, id, layer, text, middle, 0.0, size)


def beside_point(
    room: Room, id: str, layer: Layer, text: str, point: Point, reach: float, size: float
) -> tuple[Words, Room]:
    """Words level with a mark that reaches `reach` mm from its point, to one of its sides."""

    def places(letters: float) -> Points:
        across = reach + _GAP + text_width(text, letters) / 2
        down = reach + _GAP + LETTER_BOX * letters / 2
        sides = [(across, 0), (-across, 0), (0, down), (0, -down)]
        corners = [(across, down), (across, -down), (-across, down), (-across, -down)]
        centres: Points = np.add(point, np.array([*sides, *corners]))
        return centres

    _, words, left = _set(room, id, layer, text, places, size, 0.0)
    return words, left


def block(
    room: Room,
    id: str,
    layer: Layer,
    layouts: Sequence[Sequence[str]],
    centres: Points,
    turns: Sequence[float] = (0.0, -math.pi / 2),
    sizes: Sequence[float] = _BLOCK_SIZES,
) -> tuple[Words, ...] | None:
    """Lines of text as one block: the largest letters, then the first layout and turn, that keep
    clear of all ink; of the centres (k, 2) the one with most room about it. None if none does."""
    for size in sizes:
        for lines in layouts:
            width, height = block_size(lines, size)
            for turn in turns:
                clearances = room.clearances(centres, width, height, turn)
                best = int(clearances.argmax())
                if clearances[best] >= _CLEAR_BLOCK:
                    centre = (float(centres[best, 0]), float(centres[best, 1]))
                    return block_at(id, layer, lines, centre, size, turn)
    return None


def block_size(lines: Sequence[str], size: float) -> tuple[float, float]:
    """Width and height in mm of a block whose first line is its title."""
    title, *rest = lines
    widths = [text_width(title, size * _TITLE_SCALE, bold=True)]
    widths += [text_width(line, size) for line in rest]
    return max(widths), size * (_TITLE_SCALE + LINE_HEIGHT * len(rest))


def block_at(
    id: str, layer: Layer, lines: Sequence[str], centre: Point, size: float, turn: float = 0.0
) -> tuple[Words, ...]:
    """The lines of a block set about `centre`, begun at one left edge, the first bold."""
    width, height = block_size(lines, size)
    words = []
    top = -height / 2
    for number, line in enumerate(lines, start=1):
        letters = size * _TITLE_SCALE if number == 1 else size
        depth = letters if number == 1 else LINE_HEIGHT * size
        middle = top + depth - letters / 2
        at = baseline_at(centre, -width / 2, middle, letters, turn)
        words.append(
            Words(f"{id}-{number}", layer, line, at, letters, "start", turn, bold=number == 1)
        )
        top += depth
    return tuple(words)


def _set(
    room: Room,
    id: str,
    layer: Layer,
    text: str,
    places: Callable[[float], Points],
    size: float,
    turn: float,
) -> tuple[bool, Words, Room]:
    """Whether there is clear room, the words and the room left.

    The words stand in the first of the places that is clear, largest letters first; else in the
    best one.
    """
    tries = []
    for letters in (size * scale for scale in _SMALLER):
        centres = places(letters)
        box = text_width(text, letters), LETTER_BOX * letters
        clearances = room.clearances(centres, *box, turn)
        clear = np.flatnonzero(clearances >= _CLEAR_WORDS)
        chosen = int(clear[0]) if len(clear) else int(clearances.argmax())
        tries.append((float(clearances[chosen]), letters, centres[chosen], box))
        if len(clear):
            break
    _, letters, centre, box = max(tries, key=lambda found: min(found[0], _CLEAR_WORDS))
    middle = (float(centre[0]), float(centre[1]))
    words = Words(id, layer, text, baseline_at(middle, 0.0, 0.0, letters, turn), letters, turn=turn)
    return bool(len(clear)), words, room.with_box(middle, *box, turn)


def _upright(turn: float) -> float:
    """The same direction of line, turned so that words on it read from below or from the right."""
    if turn > math.pi / 2 - 1e-9:
        return turn - math.pi
    if turn <= -math.pi / 2 - 1e-9:
        return turn + math.pi
    return turn
