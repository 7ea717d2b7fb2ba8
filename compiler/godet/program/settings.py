"""The choices of taken blocks that a recipe sets: `set top.fit = fit`.

In: a parsed file, what it takes, and its scope. Out: the lines that linking goes by. A choice that
the block's kind does not promise, and a value of another type, are problems.

    set_lines(file, takes, root)
"""

from __future__ import annotations

from godet.base.near_names import did_you_mean
from godet.base.problems import Note, problem
from godet.language import tree
from godet.program.expressions import wanted
from godet.program.headings import no_such_block
from godet.program.kinds import KindChoice
from godet.program.own_functions import word_for_itself
from godet.program.program import SetLine, Taken
from godet.program.scopes import Scope
from godet.program.values import Broken, Value


def set_lines(file: tree.File, takes: tuple[Taken, ...], root: Scope) -> tuple[SetLine, ...]:
    taken = {each.name: each for each in takes}
    first_places: dict[tuple[str, str], tree.Set] = {}
    lines: list[SetLine] = []
    for line in (s for s in file.statements if isinstance(s, tree.Set)):
        block, choice = line.block.text, line.choice.text
        if block in root.session.lost:
            continue
        if block not in taken:
            root.session.report(no_such_block(line.block, taken))
            continue
        promised = _promised(line, taken[block], root)
        if promised is None:
            continue
        first = first_places.setdefault((block, choice), line)
        if first is not line:
            notes = [Note("it is set first here", first.place)]
            name = f"{block}.{choice}"
            root.session.report(problem("given-twice", line.place, name=name, notes=notes))
            continue
        value = _value(line, promised, root)
        if isinstance(value, Value):
            lines.append(SetLine(block, choice, value.node, line.place))
    return tuple(lines)


def _promised(line: tree.Set, taken: Taken, root: Scope) -> KindChoice | None:
    kind = taken.kind
    promised = kind.choices.get(line.choice.text)
    if promised is None:
        hint, fix = did_you_mean(line.choice.text, kind.choices, line.choice.place)
        names = ", ".join(sorted(kind.choices)) or "none that can be set"
        root.session.report(
            problem(
                "no-such-kind-choice",
                line.choice.place,
                kind=kind.name,
                name=line.choice.text,
                hint=hint or f" Its choices are {names}.",
                fix=fix,
            )
        )
    return promised


def _value(line: tree.Set, promised: KindChoice, root: Scope) -> Value | Broken:
    """The value to set; a word of the list stands for itself."""
    what = f"`{line.block.text}.{line.choice.text}`"
    word = word_for_itself(line.value, promised.type, root)
    return word or wanted(line.value, root, promised.type, what)
