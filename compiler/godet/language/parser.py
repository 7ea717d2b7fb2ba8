"""Reads a text into a syntax tree, whatever the text is.

In: the text and its file's name. Out: a `tree.File` and the problems met; never raises. Every
logical line is parsed on its own (lark, LALR), so a broken line costs only itself, and the names it
would have given are kept, so that nobody misses them aloud. Blocks are then nested by their opening
words and `end`: a block whose heading is broken still claims its `end`, and a block left open ends
where a statement comes that can only stand outside it.

    file, problems = parse("edition 1\\nrecipe a\\n", "a.godet")
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

from lark import Tree

from godet.base.places import Place
from godet.base.problems import Fix, Note, Problem, problem
from godet.language import tree
from godet.language.builder import Builder
from godet.language.grammar import Unexpected, parse_line
from godet.language.tokens import OPENING_WORDS, Line, cut_lines, opens_block, place_of
from godet.language.unreadable import unreadable

# statements of a piece that give a name
_IN_BLOCKS = (
    tree.PointIs, tree.CurveIs, tree.LevelIs, tree.Let, tree.Find,
    tree.DartOn, tree.DoubleDart, tree.MeetingDarts,
)  # fmt: skip
_ONLY_IN_BLOCKS = (
    tree.PointIs | tree.CurveIs | tree.LevelIs | tree.NotchAt | tree.Allow | tree.Fold | tree.Grain
    | tree.DartIs | tree.Alter
    | tree.CutOf | tree.Mark | tree.Title | tree.KindMembers | tree.Means | tree.Take | tree.Range
    | tree.Estimate
)  # fmt: skip
# a sum of so many terms, or so many brackets in brackets, is no line that a person writes
DEEPEST = 100
# the words that open a statement which gives names
_GIVING = frozenset(
    """
    recipe takes use kind define measure choose let find piece point edge curve level dart
    double seam
    """.split()
)
# statements that no block holds: where one comes, the block before it was left open
_OUTSIDE = (
    tree.Edition | tree.Use | tree.Recipe | tree.Takes | tree.Makes | tree.Measures
    | tree.ChooseWords | tree.Choose | tree.Seam | tree.Kind | tree.Define | tree.DefineMeasure
    | tree.DefineCurve | tree.DefinePiece | tree.Deprecated | tree.Set | tree.Match | tree.Check
    | tree.LeaveOut
)  # fmt: skip


def parse(text: str, file: str) -> tuple[tree.File, tuple[Problem, ...]]:
    """The statements of a text, and what could not be read."""
    problems: list[Problem] = []
    misnamed: dict[str, int] = {}  # words of the language given as names: where they are told
    nesting = _Nesting(problems)
    builder = Builder(file)
    broken: list[tree.BrokenLine] = []
    lines = cut_lines(text)
    for line, ended in zip(lines, _ended(lines), strict=True):
        try:
            parsed: Any = parse_line(line.tokens)
        except Unexpected as unexpected:
            found, word = unreadable(unexpected, line, file), str(unexpected.token)
            if found.code == "word-is-no-name" and word in misnamed:
                first = problems[misnamed[word]]
                also = Note("it stands here too", found.place)
                problems[misnamed[word]] = replace(first, notes=(*first.notes, also))
            else:
                if found.code == "word-is-no-name" and unexpected.token is line.tokens[1]:
                    misnamed[word] = len(problems)
                problems.append(found)
            broken.append(_broken(line))
            nesting.broken(line, file)
            continue
        if _deeper_than(parsed, DEEPEST):
            whole = place_of(line.tokens[0], file).to(place_of(line.tokens[-1], file))
            problems.append(problem("nested-too-deep", whole, deepest=DEEPEST))
            broken.append(_broken(line))
            nesting.broken(line, file)
            continue
        built: Any = builder.transform(parsed) if isinstance(parsed, Tree) else parsed
        nesting.add(built, ended)
    statements, doc = nesting.finished()
    broken.extend(nesting.unheaded)
    return tree.File(file, statements, doc, tuple(broken)), tuple(problems)


def _ended(lines: tuple[Line, ...]) -> list[bool]:
    """For each line, whether an `end` comes behind it before anything else begins."""
    ended: list[bool] = []
    closed = False
    for line in reversed(lines):
        ended.append(closed)
        closed = line.tokens[0].type == "END" or (closed and not opens_block(line.tokens))
    return ended[::-1]


def _deeper_than(parsed: Any, deepest: int) -> bool:
    """Whether a lark tree nests deeper; without recursion, which is what it guards against."""
    layer = [parsed]
    for _ in range(deepest):
        layer = [child for each in layer if isinstance(each, Tree) for child in each.children]
        if not layer:
            return False
    return True


def _broken(line: Line) -> tree.BrokenLine:
    """The names right behind the words that open a line: `point a, b ..`, `define measure a`."""
    opening = line.tokens[0].value
    names: list[str] = []
    if opening not in OPENING_WORDS or opening in _GIVING:
        for token in line.tokens[1:]:
            if token.type == "NAME":
                names.append(token.value)
            elif token.type not in ("COMMA", "MEASURE", "CURVE", "PIECE"):
                break
    return tree.BrokenLine(opening, tuple(names))


# a statement that the words on the line below it belong to
_WITH_WORDS = tree.Check | tree.Choose | tree.ChooseWords | tree.Define | tree.DefineCurve


def _given(statement: tree.Statement) -> tuple[str, ...]:
    """The names that a statement gives."""
    one, several = getattr(statement, "name", None), getattr(statement, "names", ())
    return tuple(word.text for word in ((one,) if one is not None else several))


@dataclass
class _Open:
    """A block being read; `heading` is None when its heading could not be read."""

    heading: tree.Block | None
    place: Place
    word: str
    body: list[tree.Statement] = field(default_factory=list)
    doc: str = ""


@dataclass
class _Nesting:
    problems: list[Problem]
    statements: list[tree.Statement] = field(default_factory=list)
    open: list[_Open] = field(default_factory=list)
    # what stood in blocks whose heading can't be read: lost with it
    unheaded: list[tree.BrokenLine] = field(default_factory=list)
    doc: str = ""
    # the last of the lines whose heading is missing, once their `end` is read
    claimed: tree.Statement | None = None

    def add(self, statement: tree.Statement, ended: bool) -> None:
        """Put a statement in its place. One that no block holds stands in one by mistake if an
        `end` comes behind it; else the `end` before it is missing."""
        inside = ended and not isinstance(statement, tree.Block)
        if self.open and inside and self._stands_outside(statement):
            self.unheaded.append(tree.BrokenLine("", _given(statement)))
        while self.open and not inside and self._stands_outside(statement):
            self._left_open(statement.place)
        match statement:
            case tree.End():
                if self._ends_lines_without_heading():
                    self.claimed = self._body()[-1]
                elif self.open:
                    self._close()
                else:
                    cure = Fix("take it out", statement.place, "")
                    self.problems.append(problem("stray-end", statement.place, fix=cure))
            case tree.Piece(optional=True):
                self._body().append(statement)
            case tree.Kind() | tree.DefineMeasure() | tree.DefinePiece() | tree.Piece():
                defining = isinstance(statement, tree.DefineMeasure | tree.DefinePiece)
                word = "define" if defining else "piece"
                word = "kind" if isinstance(statement, tree.Kind) else word
                self.open.append(_Open(statement, statement.place, word))
            case tree.Doc():
                self._document(statement)
            case _:
                self._body().append(statement)

    def broken(self, line: Line, file: str) -> None:
        """A heading that can't be read still opens its block, and takes its `end`."""
        first = line.tokens[0]
        if opens_block(line.tokens):
            place = place_of(first, file)
            while self.open and not self._inside_kind():
                self._left_open(place)
            self.open.append(_Open(None, place, first.value))

    def finished(self) -> tuple[tuple[tree.Statement, ...], str]:
        while self.open:
            self._left_open(None)
        return tuple(self.statements), self.doc

    def _ends_lines_without_heading(self) -> bool:
        """Whether the lines before an `end` lack their heading, of which checking tells."""
        body = self._body()
        if not body or body[-1] is self.claimed:
            return False
        if self._inside_kind():
            return isinstance(body[-1], tree.KindMembers)
        return not self.open and isinstance(body[-1], _ONLY_IN_BLOCKS)

    def _inside_kind(self) -> bool:
        return len(self.open) == 1 and self.open[0].word == "kind"

    def _stands_outside(self, statement: tree.Statement) -> bool:
        if isinstance(statement, tree.Piece):
            return not self._inside_kind()
        return isinstance(statement, _OUTSIDE)

    def _body(self) -> list[tree.Statement]:
        return self.open[-1].body if self.open else self.statements

    def _close(self) -> None:
        closed = self.open.pop()
        if closed.heading is None:
            names = tuple(s.name.text for s in closed.body if isinstance(s, _IN_BLOCKS))
            self.unheaded.append(tree.BrokenLine(closed.word, names))
            return
        block = replace(closed.heading, body=tuple(closed.body), doc=closed.doc)
        self._body().append(block)

    def _left_open(self, before: Place | None) -> None:
        block = self.open[-1]
        notes = [Note("the next statement outside it stands here", before)] if before else []
        self.problems.append(problem("missing-end", block.place, word=block.word, notes=notes))
        self._close()

    def _document(self, doc: tree.Doc) -> None:
        """Words on a line of their own belong to the check before them, or to what is open."""
        body = self._body()
        last = body[-1] if body else None
        if isinstance(last, _WITH_WORDS):
            body[-1] = (
                replace(last, words=doc.text)
                if isinstance(last, tree.Check)
                else replace(last, doc=doc.text)
            )
        elif self.open:
            self.open[-1].doc = doc.text
        else:
            self.doc = doc.text
