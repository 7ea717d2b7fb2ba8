"""Seams, the notches on them, and checks of a recipe, typed.

In: a parsed file and the recipe's scope. Out: the lines that linking and finishing go by. A seam of
what is no edge, a notch at what is no point of a piece, and a check of what is no condition are
problems.

    seam_lines(file, root), match_lines(file, root), check_lines(file, root)
"""

from __future__ import annotations

from dataclasses import replace

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Fix, Note, problem
from godet.graph.types import CONDITION, LENGTH, POINT
from godet.language import tree
from godet.program.expressions import condition, evaluate, wanted
from godet.program.members import lineage
from godet.program.program import CheckLine, MatchLine, PointLine, SeamLine
from godet.program.scopes import Scope
from godet.program.values import Broken, PieceMeaning, Value, WholeEdge


def check_lines(file: tree.File, root: Scope) -> tuple[CheckLine, ...]:
    lines = []
    for check in (s for s in file.statements if isinstance(s, tree.Check)):
        condition = wanted(check.condition, root, CONDITION, f"`{check.level}`")
        if isinstance(condition, Broken):
            continue
        measured = aim = None
        sign = ""
        if isinstance(check.condition, tree.Compared):
            left, right = (
                evaluate(check.condition.left, root),
                evaluate(check.condition.right, root),
            )
            if isinstance(left, Value) and isinstance(right, Value):
                measured, aim, sign = left.node, right.node, check.condition.sign
        lines.append(
            CheckLine(check.level, condition.node, measured, aim, sign, check.words, check.place)
        )
    return tuple(lines)


def seam_lines(file: tree.File, root: Scope) -> tuple[SeamLine, ...]:
    lines = []
    seams = [s for s in file.statements if isinstance(s, tree.Seam)]
    names: dict[str, Place] = {}
    for seam in seams:
        if seam.name.text in names:
            first_place = Note("it is given first here", names[seam.name.text])
            name = seam.name.text
            root.session.report(
                problem("given-twice", seam.name.place, name=name, notes=[first_place])
            )
        names.setdefault(seam.name.text, seam.name.place)
    takes = any(isinstance(s, tree.Takes) for s in file.statements)
    for seam in seams:
        first, second = _side(seam.first, root), _side(seam.second, root)
        easing = wanted(seam.easing, root, LENGTH, "`easing`") if seam.easing is not None else None
        when = condition(seam.when, root)
        # what a block sews is known once it is linked
        for after in () if takes else seam.after:
            if after.text not in {*names, *root.session.lost}:
                hint, fix = did_you_mean(after.text, names, after.place)
                root.session.report(
                    problem("no-such-seam", after.place, name=after.text, hint=hint, fix=fix)
                )
        if first is None or second is None or isinstance(easing, Broken):
            continue
        lines.append(
            SeamLine(
                seam.name.text,
                first,
                second,
                seam.manner,
                easing.node if easing is not None else None,
                tuple(word.text for word in seam.after),
                seam.place,
                begun=_two_points(seam.begun, root),
                between=_two_points(seam.between, root),
                when=when,
            )
        )
    return tuple(lines)


def match_lines(file: tree.File, root: Scope) -> tuple[MatchLine, ...]:
    """Where seams are notched on both sides; which of them there are is known once linked."""
    lines = []
    for match in (s for s in file.statements if isinstance(s, tree.Match)):
        points = [_point(written, root) for written in match.points]
        when = condition(match.when, root)
        known = tuple(replace(point, when=when) for point in points if point is not None)
        if match.seam.text not in root.session.lost:
            lines.append(MatchLine(match.seam.text, known, match.seam.place))
    return tuple(lines)


def _two_points(
    written: tuple[tree.Expression, tree.Expression] | None, root: Scope
) -> tuple[PointLine, PointLine] | None:
    if written is None:
        return None
    first, second = _point(written[0], root), _point(written[1], root)
    return (first, second) if first is not None and second is not None else None


def _point(written: tree.Expression, root: Scope) -> PointLine | None:
    """A named point of a piece, as `front.hip_side`."""
    value = evaluate(written, root)
    if isinstance(value, Broken):
        return None
    if isinstance(written, tree.Dotted) and isinstance(value, Value) and value.type == POINT:
        named = written.owner.name if isinstance(written.owner, tree.Name) else ""
        owner = root.piece(named) or evaluate(written.owner, root)
        if isinstance(owner, PieceMeaning):
            name = written.member.text
            piece = _sewn_piece((owner.title, name), written, root)
            return PointLine(piece, name, value.node, written.place) if piece is not None else None
    root.session.report(problem("match-needs-point", written.place, found=value))
    return None


def _side(
    edges: tuple[tree.Expression, ...], root: Scope
) -> tuple[tuple[str, str, bool], ...] | None:
    side = []
    for written in edges:
        whole = isinstance(written, tree.Call) and written.function.text == "whole"
        edge = written
        if isinstance(written, tree.Call) and whole and len(written.arguments) == 1:
            edge = written.arguments[0].value
        meaning = evaluate(written, root)
        if isinstance(meaning, Broken):
            return None
        value = meaning.edge if isinstance(meaning, WholeEdge) else meaning
        known = value.edge if isinstance(value, Value) else None
        # a value that only stands for an edge of another name can't be sewn by its own
        if known is None or not isinstance(edge, tree.Dotted) or edge.member.text != known[1]:
            root.session.report(problem("seam-needs-edge", written.place, found=meaning))
            return None
        piece = _sewn_piece(known, edge, root)
        if piece is None:
            return None
        side.append((piece, known[1], whole))
    return tuple(side)


def _sewn_piece(known: tuple[str, str], written: tree.Dotted, root: Scope) -> str | None:
    """The piece of an edge as the draft will know it; one of a block comes through by its own
    name, unless it is drafted anew."""
    title, edge = known
    block, _, name = title.rpartition(".")
    if not block:
        return name
    for piece in root.pieces.values():
        if any(each.title == title for each in lineage(piece)):
            cure = f"{piece.name}.{edge}"
            fix = Fix(f"write `{cure}`", written.place, cure)
            root.session.report(
                problem(
                    "seam-of-redrawn",
                    written.place,
                    piece=title,
                    name=piece.name,
                    cure=cure,
                    fix=fix,
                )
            )
            return None
    return name
