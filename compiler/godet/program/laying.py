"""Lays what a piece says of itself over what it is drafted from.

In: the lines of pieces. Out: the lines of whole pieces. Nothing here fails.

    laid(own, base).edges["side"]   # the piece's own, or else its base's
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from godet.base.places import Place
from godet.graph.node import Graph
from godet.graph.taken_up import sewn_inputs
from godet.graph.types import CURVE, DOUBLE_DART, LENGTH, POINT, Type
from godet.program.program import UNDER, DartLine, EdgeLine, FoldLine, PieceLines


def laid(own: PieceLines, base: PieceLines) -> PieceLines:
    """A piece with all that it does not say itself taken from its base. An edge that begins with
    part of one of the base's has the allowance of that, and the notches that lie on the part."""
    begun = {name: line.begins_with for name, line in own.edges.items() if line.begins_with}
    allowances = {n: base.allowances[of] for n, of in begun.items() if of in base.allowances}
    allowed_at = {n: base.allowed_at[of] for n, of in begun.items() if of in base.allowed_at}
    kept = {
        name: tuple(replace(line, inherited=True) for line in lines)
        for name, lines in base.corners.items()
    }
    corners = {name: kept[of] for name, of in begun.items() if of in kept}
    notches = [replace(notch, inherited=True) for notch in base.notches]
    notches += [
        replace(n, edge=name) for name, of in begun.items() for n in notches if n.edge == of
    ]
    return replace(
        own,
        base=base.base,
        alterations=base.alterations,
        changes=(*base.changes, *own.changes),
        parted=own.parted or base.parted,
        points={**base.points, **own.points},
        edges={**base.edges, **own.edges},
        levels={**base.levels, **own.levels},
        allowances={**base.allowances, **allowances, **own.allowances},
        allowed_at={**base.allowed_at, **allowed_at, **own.allowed_at},
        corners={**kept, **corners, **own.corners},
        notches=(*notches, *own.notches),
        fold=_fold(own, base),
        grain=own.grain if own.grain is not None else base.grain,
        cut=own.cut or base.cut,
        marks=(*base.marks, *own.marks),
        title=own.title or base.title,
        when=own.when if own.when is not None else base.when,
        values={**base.values, **own.values},
        darts={**{n: _on_parts(d, begun) for n, d in base.darts.items()}, **own.darts},
        # a width as sewn is that of an outline: it is measured anew on another
        widths={} if own.edges or own.darts or own.levels else base.widths,
    )


def _fold(own: PieceLines, base: PieceLines) -> FoldLine | None:
    if own.fold is None or not own.fold.takes_away:
        return own.fold or base.fold
    if base.fold is not None:
        return replace(base.fold, when=own.fold.when)
    # the base may be laid over another still, and have its fold from there
    return own.fold if base.base is not None else None


def _on_parts(dart: DartLine, begun: Mapping[str, str]) -> DartLine:
    """A dart of the base, which may be on an edge that begins with part of its own: on which of
    them it lies is known for each body."""
    names = tuple(name for name, of in begun.items() if of == dart.edge)
    return replace(dart, also=(*dart.also, *names)) if names else dart


def flattened(pieces: Mapping[str, PieceLines]) -> dict[str, PieceLines]:
    """Each piece laid over those of its own recipe that it is drafted from, down to a block's."""

    def whole(piece: PieceLines) -> PieceLines:
        if piece.base is None or piece.base[0] != "" or piece.alterations:
            return piece  # what is altered must be linked first
        return laid(piece, whole(pieces[piece.base[1]]))

    return {name: whole(piece) for name, piece in pieces.items()}


def with_nodes(piece: PieceLines, of: Callable[[int], int]) -> PieceLines:
    """The piece with another node in place of each of its nodes."""

    def maybe(number: int | None) -> int | None:
        return of(number) if number is not None else None

    def edge(line: EdgeLine) -> EdgeLine:
        blends = tuple(
            replace(n, gives=of(n.gives), strays=of(n.strays), over=of(n.over)) for n in line.blends
        )
        return replace(line, curve=of(line.curve), blends=blends, sewn=maybe(line.sewn))

    def dart(line: DartLine) -> DartLine:
        return replace(
            line,
            node=of(line.node),
            strays=maybe(line.strays),
            moved=maybe(line.moved),
            wider=maybe(line.wider),
            sewn_for=maybe(line.sewn_for),
        )

    return replace(
        piece,
        points={name: of(point) for name, point in piece.points.items()},
        edges={name: edge(line) for name, line in piece.edges.items()},
        levels={name: of(level) for name, level in piece.levels.items()},
        allowances={name: maybe(amount) for name, amount in piece.allowances.items()},
        corners={
            name: tuple(replace(line, at=of(line.at)) for line in lines)
            for name, lines in piece.corners.items()
        },
        notches=tuple(replace(n, at=of(n.at), when=maybe(n.when)) for n in piece.notches),
        fold=replace(piece.fold, when=maybe(piece.fold.when)) if piece.fold is not None else None,
        marks=tuple(replace(mark, when=maybe(mark.when)) for mark in piece.marks),
        grain=maybe(piece.grain),
        when=maybe(piece.when),
        values={name: of(value) for name, value in piece.values.items()},
        darts={name: dart(line) for name, line in piece.darts.items()},
        widths={name: of(width) for name, width in piece.widths.items()},
        changes=tuple(replace(line, shorter=of(line.shorter)) for line in piece.changes),
    )


def nodes_of(piece: PieceLines) -> Iterator[int]:
    """Every node that a piece is drawn and dressed by."""
    numbers: list[int] = []

    def noted(number: int) -> int:
        numbers.append(number)
        return number

    with_nodes(piece, noted)
    yield from numbers


def outline(edges: Mapping[str, EdgeLine], darts: Mapping[str, DartLine], graph: Graph) -> int:
    """The node of all edges of a piece together, with the darts that lie inside it."""
    curves = tuple(edge.curve for _, edge in sorted(edges.items()))
    together = graph.add("together", curves, type=CURVE, place=None)
    inside = [line.node for _, line in sorted(darts.items()) if line.manner == "double"]
    if not inside:
        return together
    return graph.add("with_darts", (together, *inside), type=CURVE, place=None)


def met(upper: int, lower: int, graph: Graph, place: Place) -> DartLine:
    """Two darts that meet at a seam as one with two points, and how they differed."""

    def add(operation: str, *inputs: int, type: Type) -> int:
        return graph.add(operation, inputs, type=type, place=place)

    middles = [add("dart_middle", each, type=POINT) for each in (upper, lower)]
    widths = [add("dart_width", each, type=LENGTH) for each in (upper, lower)]
    return DartLine(
        add("joined_darts", upper, lower, type=DOUBLE_DART),
        "double",
        place,
        moved=add("distance", *middles, type=LENGTH),
        wider=add("subtract", *widths[::-1], type=LENGTH),
    )


def as_sewn(piece: PieceLines, graph: Graph) -> PieceLines:
    """The piece with its width as sewn at each level that has none yet, and the length as sewn of
    each edge on which something is taken up."""

    def sewn(line: EdgeLine) -> EdgeLine:
        inputs = sewn_inputs(graph, "length", (line.curve,))
        if len(inputs) == 1:
            return replace(line, sewn=None)
        return replace(line, sewn=graph.add("length", inputs, type=LENGTH, place=line.place))

    around = outline(piece.edges, piece.darts, graph) if piece.levels else 0

    def width(level: str) -> int:
        inputs = sewn_inputs(graph, "width", (around, piece.levels[level]))
        return graph.add("width", inputs, type=LENGTH, place=graph.places[piece.levels[level]])

    return replace(
        piece,
        edges={name: sewn(line) for name, line in piece.edges.items()},
        widths={name: piece.widths.get(name) or width(name) for name in piece.levels},
    )


def outer(cloths: Mapping[str, str]) -> list[str]:
    """Of pieces and the cloths they are cut of, those round the garment, in the order of names: no
    lining or interfacing, where it lies under others."""
    names = sorted(cloths)
    return [name for name in names if cloths[name] not in UNDER] or names


def times(piece: PieceLines) -> int:
    """How often the drawn piece is cut: twice on the fold or as a mirrored pair."""
    on_fold = 2 if piece.fold is not None else 1
    return on_fold * (piece.cut.count if piece.cut is not None else 1)


def named_nodes(pieces: Mapping[str, PieceLines]) -> Iterator[tuple[str, str, int]]:
    """What pieces name, as (piece, name, node)."""
    for title, piece in pieces.items():
        named = {
            **piece.points,
            **{name: line.curve for name, line in piece.edges.items()},
            **piece.levels,
            **piece.values,
            **{name: line.node for name, line in piece.darts.items()},
        }
        for name, node in named.items():
            yield title, name, node
