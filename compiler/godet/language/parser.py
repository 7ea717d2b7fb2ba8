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

from lark import Token, Tree

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Fix, Note, Problem, problem
from godet.language import tree
from godet.language.builder import Builder
from godet.language.grammar import Unexpected, parse_line
from godet.language.tokens import COMPASS, OPENING_WORDS, WORDS, Line, cut_lines, place_of

# statements of a piece that give a name
_IN_BLOCKS = (tree.PointIs, tree.CurveIs, tree.LevelIs, tree.Let, tree.Find)
_ONLY_IN_BLOCKS = (
    tree.PointIs | tree.CurveIs | tree.LevelIs | tree.NotchAt | tree.Allow | tree.Fold | tree.Grain
    | tree.CutOf | tree.Mark | tree.Title | tree.KindMembers | tree.Means | tree.Take | tree.Range
    | tree.Estimate
)  # fmt: skip
# a sum of so many terms, or so many brackets in brackets, is no line that a person writes
DEEPEST = 100
# the words that open a statement which gives names
_GIVING = frozenset(
    "recipe takes use kind define measure choose let find piece point edge curve level seam".split()
)
# statements that no block holds: where one comes, the block before it was left open
_OUTSIDE = (
    tree.Edition | tree.Use | tree.Recipe | tree.Takes | tree.Makes | tree.Measures
    | tree.ChooseWords | tree.Choose | tree.Seam | tree.Kind | tree.Define | tree.DefineMeasure
    | tree.DefineCurve | tree.DefinePiece | tree.Deprecated | tree.Set | tree.Check | tree.LeaveOut
)  # fmt: skip


def parse(text: str, file: str) -> tuple[tree.File, tuple[Problem, ...]]:
    """The statements of a text, and what could not be read."""
    problems: list[Problem] = []
    nesting = _Nesting(problems)
    builder = Builder(file)
    broken: list[tree.BrokenLine] = []
    no_names: set[str] = set()
    for line in cut_lines(text):
        try:
            parsed: Any = parse_line(line.tokens)
        except Unexpected as unexpected:
            found = _unreadable(unexpected, line, file)
            # a word of the language taken for a name is used more than once, and told once
            if found.code != "word-is-no-name" or str(unexpected.token) not in no_names:
                problems.append(found)
            if found.code == "word-is-no-name":
                no_names.add(str(unexpected.token))
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
        nesting.add(built)
    statements, doc = nesting.finished()
    broken.extend(nesting.unheaded)
    return tree.File(file, statements, doc, tuple(broken)), tuple(problems)


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


_SPOKEN = {
    "NAME": "a name",
    "NUMBER": "a number",
    "TEXT": "words in quotes",
    "$END": "the end of the line",
    "COMPASS": "`down`, `up`, `outward` or `inward`",
    "EQUAL": "`=`",
    "COMMA": "a comma",
    "COLON": "`:`",
    "DOT": "`.`",
    "LPAR": "`(`",
    "RPAR": "`)`",
}
_OTHER_QUOTES = frozenset("“”„‟«»‘’'`")
_MOST_WANTED = 5  # a longer list of what could stand there helps nobody
# a statement that the words on the line below it belong to
_WITH_WORDS = tree.Check | tree.Choose | tree.ChooseWords | tree.Define | tree.DefineCurve
# what may stand almost anywhere: naming it would hide what is really missing
_EVERYWHERE = frozenset(
    """
    PLUS MINUS TIMES DIVIDED CIRCUMFLEX DOT AT_LEAST AT_MOST MORE LESS IS HAS AND OR
    """.split()
)


def _unreadable(unexpected: Unexpected, line: Line, file: str) -> Problem:
    """What to say of a line that does not parse."""
    first, last, token = line.tokens[0], line.tokens[-1], unexpected.token
    named = sorted(unexpected.accepted - _EVERYWHERE)
    spoken = [_SPOKEN.get(name, f"`{name.lower()}`") for name in named]
    wanted = _or(spoken)
    if token is None:
        where = place_of(last, file)
        return problem("line-stops-short", where, statement=str(first), wanted=wanted)
    where, word = place_of(token, file), str(token)
    if token.type == "UNREADABLE":
        code = "quote-not-closed" if word.startswith('"') else "unreadable-character"
        return problem("other-quotes" if word in _OTHER_QUOTES else code, where, text=word)
    if token is first:
        hint, fix = did_you_mean(word, OPENING_WORDS, where)
        return problem("no-such-statement", where, word=word, hint=hint, fix=fix)
    comma = _decimal_comma(line, token, file)
    if comma is not None:
        return comma
    if unexpected.accepted == {"$END"}:
        return problem("line-goes-on", where, word=word, statement=str(first))
    is_word = "NAME" in unexpected.accepted and word.isidentifier()
    code = "word-is-no-name" if is_word else "unexpected"
    if is_word or len(spoken) <= _MOST_WANTED:
        return problem(code, where, word=word, statement=str(first), wanted=wanted)
    return _out_of_place(word, str(first), unexpected.accepted, where)


def _out_of_place(word: str, statement: str, accepted: frozenset[str], where: Place) -> Problem:
    """Where many things could stand: the word of the language that was meant, if one is near."""
    words = {name.lower() for name in accepted} | (COMPASS if "COMPASS" in accepted else set())
    hint, fix = did_you_mean(word, words & WORDS, where)
    return problem("out-of-place", where, word=word, statement=statement, hint=hint, fix=fix)


def _decimal_comma(line: Line, comma: Token, file: str) -> Problem | None:
    """The problem of a number written `8,5cm`; None where the comma is another."""
    at = line.tokens.index(comma)
    around = line.tokens[at - 1 : at + 2]
    if [token.type for token in around] != ["NUMBER", "COMMA", "NUMBER"]:
        return None
    left, _, right = around
    if left.end_pos != comma.start_pos or right.start_pos != comma.end_pos:
        return None
    where, cure = place_of(left, file).to(place_of(right, file)), f"{left}.{right}"
    fix = Fix(f"write `{cure}`", where, cure)
    return problem("decimal-comma", where, typed=f"{left},{right}", cure=cure, fix=fix)


def _or(words: list[str]) -> str:
    return " or ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


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

    def add(self, statement: tree.Statement) -> None:
        while self.open and self._stands_outside(statement):
            self._left_open(statement.place)
        match statement:
            case tree.End():
                if self._ends_lines_without_heading():
                    self.claimed = self._body()[-1]
                elif self.open:
                    self._close()
                else:
                    self.problems.append(problem("stray-end", statement.place))
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
        opens = first.value in ("kind", "piece") or (
            first.value == "define"
            and len(line.tokens) > 1
            and line.tokens[1].value in ("measure", "piece")
        )
        if opens and line.tokens[-1].value != "optional":
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
