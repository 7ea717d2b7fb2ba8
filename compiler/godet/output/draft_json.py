"""The draft as JSON: everything a reader, a test or a comparison may want to know of it.

In: a finished pattern. Out: the text of `draft.json`: coordinates and lengths in mm rounded to
1e-6, angles in radians, one cubic or point to a line so that a text comparison reads well. Fails
with `ValueError` on a number that is not finite.

    draft_json(pattern)  ->  '{\\n "godet": "0.1.0",\\n "edition": 1, ...'
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import TypeAlias

from godet.output.decimals import decimal_text
from godet.output.tracing import without_empty_cubics
from godet.pattern.pieces import Check, Dart, Edge, Path, Pattern, Piece, Seam

Value: TypeAlias = "str | int | float | Sequence[Value] | Mapping[str, Value] | None"

_PLACES = 6  # decimals of a mm


def draft_json(pattern: Pattern) -> str:
    """The pattern as JSON text ending in a line end, the same bytes for the same pattern."""
    return f"{_written(_pattern(pattern), 0)}\n"


def _pattern(pattern: Pattern) -> Value:
    return {
        "godet": pattern.version,
        "edition": pattern.edition,
        "recipe": pattern.recipe,
        "digest": pattern.digest,
        "body": pattern.body,
        "units": "mm",
        "pieces": {piece.name: _piece(piece) for piece in pattern.pieces},
        "seams": [_seam(seam) for seam in pattern.seams],
        "girths": pattern.girths,
        "finished": pattern.finished,
        "checks": [check_record(check) for check in pattern.checks],
        "estimated": pattern.estimated,
        "completed": pattern.completed,
        "reports": [
            {"words": report.words, "from_line": report.place.line} for report in pattern.reports
        ],
        "measures": pattern.measures,
        "choices": pattern.choices,
    }


def _piece(piece: Piece) -> Value:
    return {
        "drawn": piece.drawn,
        "points": piece.points,
        "levels": {
            name: {"width": level.width, "at": level.at} for name, level in piece.levels.items()
        },
        "edges": {name: _edge(edge) for name, edge in piece.edges.items()},
        "outline": [step.edge for step in piece.outline],
        "cut_line": _cubics(piece.cut_line),
        "darts": {name: _dart(dart) for name, dart in piece.darts.items()},
        "marks": {mark.name: mark.at for mark in piece.marks},
        "notches": [
            {
                "edge": notch.edge,
                "name": notch.name,
                "at": notch.at,
                "along": notch.along,
                "outward": notch.outward,
                "count": notch.count,
            }
            for notch in piece.notches
        ],
        "cut": {
            "count": piece.cut.count,
            "cloth": piece.cut.cloth,
            "fold": piece.cut.fold,
            "mirrored": piece.cut.mirrored,
        },
        "grain": piece.grain,
        "area_drawn": piece.area_drawn,
        "area_cut": piece.area_cut,
    }


def _dart(dart: Dart) -> Value:
    return {
        "manner": dart.manner,
        "edge": dart.edge,
        "mouth": [dart.first, dart.last],
        "cap": dart.cap,
        "tips": dart.tips,
        "pivot": dart.pivot,
        "taken": dart.taken,
        "angle": dart.angle,
        "sewn_for": dart.sewn_for,
    }


def _edge(edge: Edge) -> Value:
    return {
        "length_cut": edge.length_cut,
        "length_sewn": edge.length_sewn,
        "path": _cubics(edge.path),
        "from_line": edge.place.line,
    }


def _cubics(path: Path) -> Value:
    """Each cubic as its eight coordinates; those without length are only a matter of making."""
    cubics: list[list[float]] = without_empty_cubics(path).reshape(-1, 8).tolist()
    return cubics


def _seam(seam: Seam) -> Value:
    return {
        "name": seam.name,
        "sides": [[{"edge": part.edge, "times": part.times} for part in s] for s in seam.sides],
        "lengths_sewn": seam.lengths_sewn,
        "manner": seam.manner,
        "ease": seam.ease,
        "order": seam.order,
    }


def check_record(check: Check) -> dict[str, Value]:
    """A check as plain data."""
    return {
        "name": check.name,
        "level": check.level,
        "ok": check.ok,
        "measured": check.measured,
        "wanted": check.wanted,
        "words": check.words,
    }


def _written(value: Value, depth: int) -> str:
    match value:
        case None | bool():
            return json.dumps(value)
        case str():
            # half of a surrogate pair, which only a broken name can bring, has no UTF-8
            return json.dumps(value.encode("utf-8", "replace").decode(), ensure_ascii=False)
        case int() | float():
            return decimal_text(value, _PLACES)
        case Mapping():
            parts = [
                f"{_written(name, depth)}: {_written(part, depth + 1)}"
                for name, part in value.items()
            ]
            return _nested("{", parts, "}", depth)
        case _:
            parts = [_written(part, depth + 1) for part in value]
            if all(part is None or isinstance(part, str | int | float) for part in value):
                return f"[{', '.join(parts)}]"
            return _nested("[", parts, "]", depth)


def _nested(opening: str, parts: Sequence[str], closing: str, depth: int) -> str:
    if not parts:
        return opening + closing
    indent = "\n" + " " * (depth + 1)
    return f"{opening}{indent}{f',{indent}'.join(parts)}\n{' ' * depth}{closing}"
