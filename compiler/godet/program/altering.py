"""Pieces altered whole: darts swung and turned, slashed and spread, divided, joined, unfolded.

In: a linked piece, and its alterations with linked nodes. Out: the lines of the altered piece. The
points that an alteration is given lie on the piece as it was before the first one; they are carried
along by those before it. What can't be done raises `Problems`.

    altered(front, (line,), graph, of, piece)
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace
from typing import Any

from godet.base.places import Place
from godet.base.problems import Problem, Problems, problem
from godet.graph.node import Graph
from godet.graph.taken_up import sewn_inputs
from godet.graph.types import LENGTH
from godet.program import alterations
from godet.program.alterations import AlterationLine
from godet.program.dividing import divide
from godet.program.joining_pieces import join
from godet.program.laying import as_sewn
from godet.program.parts import taking_up
from godet.program.program import ChangeLine, PieceLines
from godet.program.spreading import spread
from godet.program.swinging import Altered, convert, swing
from godet.program.unfolding import unfold

_POINTS = ("at", "other_at")
_EDGES = ("edge", "holding", "first", "last", "keeping")
_NODES = ("share", "over", "by", "other_by", "along")


def altered(
    piece: PieceLines,
    lines: tuple[AlterationLine, ...],
    graph: Graph,
    of: Callable[[int], int],
    other: Callable[[str], PieceLines],
) -> PieceLines:
    """The piece after all of them; `of` links a node, `other` tells a piece by its title."""
    carries: list[Callable[[int], int]] = []
    for written in lines:
        line = _linked(written, of, carries)
        _still_there(line, piece)
        step = _altered(as_sewn(piece, graph), line, graph, other)
        before, piece = piece, taking_up(step.piece, graph)
        changes = _changes(before, piece, line, graph)
        piece = replace(piece, changes=(*piece.changes, *changes))
        piece = piece if _keeps_widths(line) else replace(piece, widths={})
        carries.append(step.carry)
    return piece


def _still_there(line: AlterationLine, piece: PieceLines) -> None:
    """Raises `Problems` where an alteration before this one has taken away an edge it names."""
    named = [getattr(line, f.name) for f in fields(line) if f.name in _EDGES]
    if isinstance(line, alterations.Spread):
        named.append(line.other)
    for name in named:
        if name is not None and name not in piece.edges:
            raise Problems([gone(piece, name, line.place)])


def gone(piece: PieceLines, name: str, place: Place | None, hint: str = "") -> Problem:
    """The problem of a name that a piece has no longer."""
    return problem("altered-away", place, piece=piece.name, name=name, hint=hint)


def _changes(
    before: PieceLines, after: PieceLines, line: AlterationLine, graph: Graph
) -> tuple[ChangeLine, ...]:
    """How much shorter each edge is now, as sewn, that was cut and is to be sewn to what it was:
    a corner at a hinge is rounded."""

    def sewn(curve: int) -> int:
        inputs = sewn_inputs(graph, "length", (curve,))
        return graph.add("length", inputs, type=LENGTH, place=line.place)

    found = []
    for name in dict.fromkeys(_kept_edges(line, before)):
        lengths = (sewn(before.edges[name].curve), sewn(after.edges[name].curve))
        shorter = graph.add("subtract", lengths, type=LENGTH, place=line.place)
        found.append(ChangeLine(name, shorter, line.place))
    return tuple(found)


def _kept_edges(line: AlterationLine, piece: PieceLines) -> tuple[str, ...]:
    """The edges that an alteration cuts and that are to be sewn to what they were."""
    match line:
        case alterations.Spread(other_by=None):
            return (line.other,)
        case alterations.Swing():
            names = (line.edge, piece.darts[line.dart].edge)
        case alterations.Convert():
            names = (None, piece.darts[line.dart].edge)
        case _:
            return ()
    return tuple(name for name in names if name is not None)


def _keeps_widths(line: AlterationLine) -> bool:
    """Whether the piece, once sewn, is as wide at each of its levels as it was before."""
    return isinstance(line, alterations.Swing | alterations.Convert) and (
        not isinstance(line, alterations.Convert) or line.into in ("gathers", "ease")
    )


def _linked(
    line: AlterationLine, of: Callable[[int], int], carries: list[Callable[[int], int]]
) -> AlterationLine:
    """The line with linked nodes, its points where the alterations before it have left them."""
    changed: dict[str, Any] = {}
    for known in fields(line):
        node = getattr(line, known.name)
        if node is None or known.name not in (*_POINTS, *_NODES):
            continue
        linked = of(node)
        if known.name in _POINTS:
            for carry in carries:
                linked = carry(linked)
        changed[known.name] = linked
    return replace(line, **changed)


def nodes_of(line: AlterationLine) -> list[int]:
    """Every open node that an alteration is written with."""
    values = [getattr(line, f.name) for f in fields(line) if f.name in (*_POINTS, *_NODES)]
    return [value for value in values if value is not None]


def _altered(
    piece: PieceLines,
    line: AlterationLine,
    graph: Graph,
    other: Callable[[str], PieceLines],
) -> Altered:
    match line:
        case alterations.Swing():
            return swing(piece, graph, line)
        case alterations.Convert():
            return convert(piece, graph, line)
        case alterations.Spread():
            return spread(piece, graph, line)
        case alterations.Divide():
            return divide(piece, graph, line)
        case alterations.Join():
            return join(piece, other(line.piece), graph, line)
        case alterations.Unfold():
            return unfold(piece, graph, line)
