"""Mends recipes by the cures that a machine can apply: behind `godet check --fix`.

In: recipes. Out: `Fixed`: what was mended, the texts as they would be, and the problems that are
left. Cures are tried in memory and kept only where fewer errors are left and no new one comes; the
cures of one round are tried together, and one by one where together they make things worse. Files
that are shipped with Godet are never touched. Nothing is written but by `write_fixed`, which raises
`Problems`.

    fixed = fix(["dress.godet"]);  write_fixed(fixed)
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from godet.base.places import Place
from godet.base.problems import Fix, Problem, Problems, problem
from godet.base.shipped import shipped
from godet.base.words import Severity
from godet.tools.checking import Checked, check
from godet.tools.writing import write_paths

# a cure may uncover a mistake that has one too; more rounds than this help nobody
_ROUNDS = 8


@dataclass(frozen=True, slots=True)
class Mended:
    """One cure that was applied, at its place in the text as it was then."""

    code: str
    place: Place
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Fixed:
    mended: tuple[Mended, ...]
    texts: Mapping[str, str]  # the files that change, by name: their whole new text
    checked: Checked  # the recipes with these texts
    declined: tuple[Problem, ...]  # left, since their cure would bring other mistakes


def fix(recipes: Sequence[str]) -> Fixed:
    """The recipes mended as far as their problems' cures go; nothing is written."""
    best = Fixed((), {}, check(recipes), ())
    for _ in range(_ROUNDS):
        better = _better(recipes, best)
        if better is None:
            break
        best = better
    return Fixed(best.mended, best.texts, best.checked, _curable(best.checked.problems))


def write_fixed(fixed: Fixed) -> tuple[Path, ...]:
    """Write the mended files, each whole or not at all, with the line ends they had."""
    contents = {}
    for name, text in fixed.texts.items():
        path = Path(name)
        try:
            raw = path.read_bytes().decode("utf-8")
        except (OSError, UnicodeDecodeError) as error:
            reason = getattr(error, "strerror", None) or "it is no longer text"
            raise Problems([problem("cannot-write", None, folder=name, reason=reason)]) from error
        contents[path] = _as_before(text, raw).encode("utf-8")
    return write_paths(contents)


def _as_before(text: str, raw: str) -> str:
    """The text with the byte order mark and, line by line, the line ends of the old one."""
    ends = re.findall(r"\r\n|\r|\n", raw)
    lines = text.split("\n")
    missing = len(lines) - 1 - len(ends)
    ends = ends[:1] * missing + ends if ends else ["\n"] * missing
    mark = "\ufeff" if raw.startswith("\ufeff") else ""
    return mark + "".join(
        line + end for line, end in zip(lines, [*ends[: len(lines) - 1], ""], strict=True)
    )


def _better(recipes: Sequence[str], best: Fixed) -> Fixed | None:
    """One round: the cures of all problems, or those that help; None when none does."""
    curable = _curable(best.checked.problems)
    together = _settled(recipes, best, curable)
    if together is not None or len(curable) < 2:
        return together
    kept: list[Problem] = []
    helped: Fixed | None = None
    for each in curable:
        trial = _settled(recipes, best, [*kept, each])
        if trial is not None and _fewer_errors(trial.checked, (helped or best).checked):
            kept.append(each)
            helped = trial
    return helped


def _settled(recipes: Sequence[str], before: Fixed, curable: Sequence[Problem]) -> Fixed | None:
    """What these cures lead to, with the cures of what they uncover; None unless it is better."""
    trial = before
    for _ in range(_ROUNDS):
        if not curable:
            return None
        trial = _applied(recipes, trial, curable)
        if _fewer_errors(trial.checked, before.checked):
            return trial
        known = before.checked.problems
        curable = [found for found in _curable(trial.checked.problems) if found not in known]
    return None


def _fewer_errors(now: Checked, before: Checked) -> bool:
    """Whether there are fewer errors and warnings and none that was not there."""
    left, were = _counted(now), _counted(before)
    return left.total() < were.total() and left <= were


def _counted(checked: Checked) -> Counter[tuple[str, str]]:
    return Counter(_kind(p) for p in checked.problems if p.severity is not Severity.ADVICE)


def _kind(found: Problem) -> tuple[str, str]:
    """What a problem is known by: its line and its words may change with the text around it."""
    return found.code, found.place.file if found.place is not None else ""


def _curable(problems: Sequence[Problem]) -> tuple[Problem, ...]:
    """The problems that a machine can cure in a file that is the maker's own."""
    return tuple(p for p in problems if p.fix is not None and not _is_shipped(p.fix.place.file))


def _is_shipped(file: str) -> bool:
    path = Path(file).resolve()
    return any(path.is_relative_to(shipped(room).resolve()) for room in ("stdlib", "recipes"))


def _applied(recipes: Sequence[str], before: Fixed, curable: Sequence[Problem]) -> Fixed:
    """The cures put into the texts, and what is wrong with these; of cures that overlap the first
    is taken, the others wait for the next round."""
    texts, mended = dict(before.texts), list(before.mended)
    for file, found in _by_file(curable).items():
        text = texts.get(file, before.checked.texts.get(file, ""))
        starts = [0, *(at.end() for at in re.finditer("\n", text))]
        parts: list[str] = []
        done = 0
        for code, cure in found:
            start, end = (
                starts[line - 1] + column - 1
                for line, column in (
                    (cure.place.line, cure.place.column),
                    (cure.place.end_line, cure.place.end_column),
                )
            )
            if start < done or (start == done and parts):
                continue
            parts += [text[done:start], cure.replacement]
            mended.append(Mended(code, cure.place, text[start:end], cure.replacement))
            done = end
        texts[file] = "".join([*parts, text[done:]])
    return Fixed(tuple(mended), texts, check(recipes, texts), ())


def _by_file(curable: Sequence[Problem]) -> dict[str, list[tuple[str, Fix]]]:
    """The cures of each file in the order of their places, the outer before the inner."""
    files: dict[str, list[tuple[str, Fix]]] = {}
    for found in curable:
        if found.fix is not None:
            files.setdefault(found.fix.place.file, []).append((found.code, found.fix))
    for cures in files.values():
        cures.sort(key=lambda each: each[1].place)
    return files
