"""Seams and checks of a recipe, typed.

In: a parsed file and the recipe's scope. Out: the lines that linking and finishing go by. A seam of
what is no edge and a check of what is no condition are problems.

    seam_lines(file, root), check_lines(file, root)
"""

from __future__ import annotations

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Note, problem
from godet.graph.types import CONDITION, LENGTH
from godet.language import tree
from godet.program.expressions import evaluate, wanted
from godet.program.program import CheckLine, SeamLine
from godet.program.scopes import Scope
from godet.program.values import Broken, Value, WholeEdge


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
    for seam in seams:
        first, second = _side(seam.first, root), _side(seam.second, root)
        easing = wanted(seam.easing, root, LENGTH, "`easing`") if seam.easing is not None else None
        for after in seam.after:
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
            )
        )
    return tuple(lines)


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
        named = isinstance(edge, tree.Dotted) and isinstance(edge.owner, tree.Name)
        written_as = edge.member.text if isinstance(edge, tree.Dotted) else ""
        value = meaning.edge if isinstance(meaning, WholeEdge) else meaning
        known = value.edge if isinstance(value, Value) else None
        # a value that only stands for an edge of another name can't be sewn by its own
        if not named or known is None or known[1] != written_as:
            root.session.report(problem("seam-needs-edge", written.place, found=meaning))
            return None
        assert isinstance(edge, tree.Dotted)
        assert isinstance(edge.owner, tree.Name)
        side.append((edge.owner.name, edge.member.text, whole))
    return tuple(side)
