"""Finishing: from a solved draft to a pattern that can be cut out, for one body.

In: a linked draft, its solved values, which body, and the `Order` that the pattern is made for.
Out: the `Pattern` and what there is to say of it; no pattern where one of these is an error: an
outline that does not close, a fold that is not straight, an allowance with no room.

    outcome = solve(draft.graph, draft.finds, targets(draft), inputs)
    pattern, problems = finish(draft, outcome, 0, order)
"""

from __future__ import annotations

from collections.abc import Iterator

from godet.base.problems import Problem, has_errors
from godet.pattern.checks import checks
from godet.pattern.corners_over_seams import corners_over_seams
from godet.pattern.finished_sizes import finished, girths
from godet.pattern.matching import matched
from godet.pattern.meeting import meetings_of
from godet.pattern.naming import in_order, title
from godet.pattern.order import Order
from godet.pattern.piece_finishing import finished_piece
from godet.pattern.pieces import Pattern, Piece, Report
from godet.pattern.reports import reports, seam_reports
from godet.pattern.seams import seams, sewing
from godet.pattern.sewn_edges import taken_up
from godet.pattern.solved import BodyValues, Solved
from godet.pattern.there import pieces_there, seams_there
from godet.program.draft import Draft
from godet.program.laying import times


def targets(draft: Draft) -> tuple[int, ...]:
    """Every node that `finish` asks for, and the choices, each once."""
    return tuple(dict.fromkeys(node for node in _asked_for(draft) if node is not None))


def _asked_for(draft: Draft) -> Iterator[int | None]:
    for piece in draft.pieces.values():
        yield from piece.points.values()
        yield from piece.levels.values()
        yield from piece.allowances.values()
        yield from (node for notch in piece.notches for node in (notch.at, notch.when))
        yield from (mark.when for mark in piece.marks)
        yield piece.fold.when if piece.fold is not None else None
        yield from (line.at for lines in piece.corners.values() for line in lines)
        yield from (piece.grain, piece.when)
        yield from (width for width in piece.widths.values() if piece.darts)
        yield from (change.shorter for change in piece.changes)
        for dart in piece.darts.values():
            yield from (dart.node, dart.strays, dart.moved, dart.wider, dart.sewn_for)
        for edge in piece.edges.values():
            yield from (edge.curve, edge.sewn, *taken_up(edge, draft.graph))
            for blend in edge.blends:
                yield from (blend.gives, blend.strays, blend.over)
    for check in draft.checks:
        yield from (check.condition, check.measured, check.wanted)
    for seam in draft.seams:
        yield from (seam.when, seam.easing, *(seam.lengths or ()))
        points = (*(seam.begun or ()), *(seam.between or ()), *seam.matches)
        yield from (node for point in points for node in (point.node, point.when))
    yield from (choice.node for choice in draft.choices.values())


def finish(
    draft: Draft, solved: Solved, body: int, order: Order
) -> tuple[Pattern | None, tuple[Problem, ...]]:
    """The finished pattern of one body, with problems; None when one of them is an error."""
    values = BodyValues(solved, body)
    drawn = pieces_there(draft.pieces, values)
    seam_lines = seams_there(draft.seams, drawn, values)
    pieces: dict[str, Piece] = {}
    done: list[Report] = []
    problems: list[Problem] = []
    for number, name in enumerate(in_order(drawn), start=1):
        sewn = sewing(name, seam_lines)
        piece, told_of, found = finished_piece(
            number, drawn[name], draft.graph, values, order, sewn
        )
        # one text may draft several pieces, and is told of what is wrong with it once
        told = {(p.code, p.place) for p in problems}
        problems.extend(p for p in found if (p.code, p.place) not in told)
        done.extend(told_of)
        if piece is not None:
            pieces[name] = piece
    if has_errors(problems):
        return None, tuple(problems)
    how_often = {name: times(piece) for name, piece in drawn.items()}
    joins, found = seams(seam_lines, pieces, how_often, values, order.body, order.units, draft.file)
    problems.extend(found)
    if has_errors(problems):
        return None, tuple(problems)
    meetings = meetings_of(drawn, pieces, seam_lines, how_often, draft.graph, values)
    problems.extend(corners_over_seams(meetings, order, draft.file))
    pieces, found = matched(drawn, meetings, draft.graph, values, order)
    problems.extend(found)
    pattern = Pattern(
        recipe=draft.name,
        title=title(draft.name),
        edition=draft.edition,
        version=order.version,
        digest=order.digest,
        body=order.body,
        date=order.date,
        units=order.units,
        pieces=tuple(pieces.values()),
        seams=joins,
        girths=girths(pieces, how_often),
        finished=finished(pieces, how_often),
        checks=checks(draft, values, order.units),
        reports=(
            *reports(drawn, values, order.units),
            *seam_reports(seam_lines, joins, order.units),
            *done,
        ),
        estimated=order.estimated,
        completed=order.completed,
        measures=order.measures,
        choices=order.choices,
    )
    return pattern, tuple(problems)
