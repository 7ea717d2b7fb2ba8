"""What is wrong with a text that is not YAML, said of the line where a person went wrong.

In: the text and the error of the YAML reader, which notices many a mistake only a line or more
later. Out: the problem, at the line to mend. Nothing fails.

    yaml_fault("body: a\\nunits cm\\nmeasures: {}\\n", "a.yaml", error)
    # yaml-no-colon at a.yaml:2:1: ... write it like `units: cm`
"""

from __future__ import annotations

import re

import yaml

from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.orders.cures import shown, write_instead
from godet.orders.text_files import whole_file

# what ends a line for the YAML reader
_LINE_END = re.compile("\r\n|[\r\n\x85\u2028\u2029]")
_KEY = re.compile(r"[^\s:]+:(\s|$)")
# a key and its value, and between them something that is no colon with a space
_KEY_WITHOUT_COLON = re.compile(
    r"(?P<key>[A-Za-z_]\w*)(?:\s*[:=]\s*|\s+)(?P<value>[^\s#][^#]*?)\s*"
)


def place_of_marks(file: str, start: yaml.Mark | None, end: yaml.Mark | None = None) -> Place:
    """The stretch between two marks of the YAML reader; the whole file where it gives none."""
    if start is None:
        return whole_file(file)
    last = end or start
    return Place(file, start.line + 1, start.column + 1, last.line + 1, last.column + 1)


def yaml_fault(text: str, file: str, error: yaml.MarkedYAMLError) -> Problem:
    """The problem that the error of the YAML reader stands for."""
    mark, opened = error.problem_mark or error.context_mark, error.context_mark
    place = place_of_marks(file, mark)
    if mark is None:
        return problem("yaml-broken", place)
    if text[mark.index : mark.index + 1] == "\t":
        return problem("yaml-tab", place)
    lines = _LINE_END.split(text)
    match error.context:
        case "while parsing a flow mapping" | "while parsing a flow sequence" if opened:
            line, column = opened.line + 1, opened.column + 1
            return problem("yaml-bracket", place, line=line, column=column)
        case "while scanning a quoted scalar" if opened:
            return problem("yaml-quote", place_of_marks(file, opened))
        case "while scanning a simple key" if opened:
            return _no_colon(lines, file, opened.line)
        case "while parsing a block mapping" if "block mapping start" in (error.problem or ""):
            return problem("yaml-indent", place)
    if error.problem == "mapping values are not allowed here":
        return _misplaced_colon(lines, file, mark)
    above = _line_above(lines, mark.line)
    if "<document start>" in (error.problem or "") and above is not None:
        return _no_colon(lines, file, above)
    return problem("yaml-broken", place)


def _misplaced_colon(lines: list[str], file: str, mark: yaml.Mark) -> Problem:
    """A second colon in one line, or a colon in a line that still belongs to the one before."""
    place = place_of_marks(file, mark)
    if _KEY.search(lines[mark.line][: mark.column]):
        return problem("yaml-second-colon", place)
    above = _line_above(lines, mark.line)
    if above is not None and not _KEY.search(lines[above]):
        return _no_colon(lines, file, above)
    start = len(lines[mark.line]) - len(lines[mark.line].lstrip())
    return problem("yaml-indent", Place(file, mark.line + 1, start + 1, mark.line + 1, start + 1))


def _line_above(lines: list[str], number: int) -> int | None:
    """The nearest line before that holds more than a comment."""
    before = (n for n in range(number - 1, -1, -1) if lines[n].partition("#")[0].strip())
    return next(before, None)


def _no_colon(lines: list[str], file: str, number: int) -> Problem:
    line = lines[number].partition(" #")[0].rstrip()
    start = len(line) - len(line.lstrip())
    place = Place(file, number + 1, start + 1, number + 1, len(line) + 1)
    return no_colon(line[start:], place) or problem("yaml-no-colon", place, cure="body: adult_a")


def no_colon(typed: str, place: Place) -> Problem | None:
    """The problem that `typed` lacks its colon or the space behind it, if it reads so."""
    match = _KEY_WITHOUT_COLON.fullmatch(typed)
    if match is None:
        return None
    cure = f"{match['key']}: {match['value']}"
    return problem("yaml-no-colon", place, fix=write_instead(place, cure), cure=shown(cure))
