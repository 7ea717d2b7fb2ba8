"""The syntax tree: one frozen record for each construct, each with its place.

Out of `parser`, into `checker`. Names are tokens turned into `Word`s, which keep their place.
Plain records; nothing here fails.

    Let(place, name=Word("a", place), value=Number(place, Quantity(..., "cm", "length"), "2cm"))
"""

from __future__ import annotations

from dataclasses import dataclass

from godet.base.places import Place
from godet.base.quantities import Quantity


@dataclass(frozen=True, slots=True)
class Word:
    text: str
    place: Place


# --- expressions -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Expression:
    place: Place


@dataclass(frozen=True, slots=True)
class Number(Expression):
    quantity: Quantity
    typed: str


@dataclass(frozen=True, slots=True)
class Text(Expression):
    text: str


@dataclass(frozen=True, slots=True)
class Name(Expression):
    name: str


@dataclass(frozen=True, slots=True)
class Dotted(Expression):
    owner: Expression
    member: Word


@dataclass(frozen=True, slots=True)
class Inherited(Expression):
    """An edge as a piece has it from its base, altered as the piece says; never written."""

    name: Word


@dataclass(frozen=True, slots=True)
class AsCut(Expression):
    curve: Expression


@dataclass(frozen=True, slots=True)
class Argument:
    name: Word | None
    value: Expression


@dataclass(frozen=True, slots=True)
class Call(Expression):
    function: Word
    arguments: tuple[Argument, ...]


@dataclass(frozen=True, slots=True)
class Negative(Expression):
    value: Expression


@dataclass(frozen=True, slots=True)
class Binary(Expression):
    sign: str  # + - * /
    left: Expression
    right: Expression


@dataclass(frozen=True, slots=True)
class Raised(Expression):
    base: Expression
    exponent: Number


@dataclass(frozen=True, slots=True)
class Compared(Expression):
    sign: str  # >= <= > <
    left: Expression
    right: Expression


@dataclass(frozen=True, slots=True)
class IsWord(Expression):
    value: Expression
    word: Word
    negated: bool


@dataclass(frozen=True, slots=True)
class Has(Expression):
    owner: Expression
    member: Word


@dataclass(frozen=True, slots=True)
class Negated(Expression):
    value: Expression


@dataclass(frozen=True, slots=True)
class Both(Expression):
    left: Expression
    right: Expression


@dataclass(frozen=True, slots=True)
class AnyOf(Expression):
    left: Expression
    right: Expression


@dataclass(frozen=True, slots=True)
class Either(Expression):
    condition: Expression
    then: Expression
    otherwise: Expression


# --- points ------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Direction(Expression):
    how: str  # down up outward inward, at, toward, square, along
    by: Expression | None = None  # the angle, the point, the edge


@dataclass(frozen=True, slots=True)
class Move:
    direction: Direction
    distance: Expression


@dataclass(frozen=True, slots=True)
class Moves(Expression):
    start: Expression
    moves: tuple[Move, ...]


@dataclass(frozen=True, slots=True)
class Share(Expression):
    share: Expression | None  # None: midway
    first: Expression
    last: Expression


@dataclass(frozen=True, slots=True)
class AlongEdge(Expression):
    edge: Expression
    end: Expression
    distance: Expression


@dataclass(frozen=True, slots=True)
class Crossing(Expression):
    first: Expression
    second: Expression
    selector: str | None
    reference: Expression | None


@dataclass(frozen=True, slots=True)
class Nearest(Expression):
    """The point of a curve nearest to another."""

    curve: Expression
    to: Expression


@dataclass(frozen=True, slots=True)
class Extreme(Expression):
    """The point of a curve that lies farthest one way."""

    way: str  # lowest, highest, innermost, outermost
    curve: Expression


# --- curves ------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Part:
    place: Place
    curve: Expression
    until: Expression | None
    start: Expression | None
    reversed: bool
    reshaped: Expression | None
    extended: Expression | None


@dataclass(frozen=True, slots=True)
class Segment:
    """A drawn piece of a chain; `first` is None where it goes on from the one before."""

    place: Place
    shape: str  # line, curve, arc
    first: Expression | None
    through: tuple[Expression, ...]
    last: Expression
    leaving: Direction | None = None
    arriving: Direction | None = None
    smoothly: bool = False
    tension: Expression | None = None
    square_to: Expression | None = None


@dataclass(frozen=True, slots=True)
class Parallel:
    place: Place
    curve: Expression
    distance: Expression


@dataclass(frozen=True, slots=True)
class Blended:
    place: Place
    at: Expression
    over: Expression
    fair: bool


@dataclass(frozen=True, slots=True)
class Chain:
    place: Place
    parts: tuple[Part | Segment | Parallel, ...]
    blends: tuple[Blended, ...]


# --- statements --------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Statement:
    place: Place


@dataclass(frozen=True, slots=True)
class Edition(Statement):
    number: Word


@dataclass(frozen=True, slots=True)
class Use(Statement):
    names: tuple[Word, ...]
    module: Word  # "ease", or "own.ease" for one in a folder below


@dataclass(frozen=True, slots=True)
class Recipe(Statement):
    name: Word


@dataclass(frozen=True, slots=True)
class BlockNamed:
    """A block by its recipe's name, with the blocks it is given: `turtleneck(knit_tee)`."""

    place: Place
    name: Word
    given: tuple[tuple[Word | None, BlockNamed], ...] = ()  # (what the recipe calls it, the block)


@dataclass(frozen=True, slots=True)
class Takes(Statement):
    name: Word
    kind: Word
    asked: tuple[tuple[str, Word], ...]  # ("with" | "without", member)
    default: BlockNamed | None


@dataclass(frozen=True, slots=True)
class Makes(Statement):
    """`name` is the kind, or the taken block whose kind it is."""

    name: Word
    kind_of: bool


@dataclass(frozen=True, slots=True)
class LeaveOut(Statement):
    block: Word
    piece: Word


@dataclass(frozen=True, slots=True)
class Doc(Statement):
    text: str


@dataclass(frozen=True, slots=True)
class End(Statement):
    pass


@dataclass(frozen=True, slots=True)
class KindMembers(Statement):
    sort: str  # point, level, edge, dart
    names: tuple[Word, ...]
    optional: bool
    first_end: Word | None = None  # edges: "from the ..."
    double: bool = False  # darts: with two points


@dataclass(frozen=True, slots=True)
class TypeName:
    place: Place
    name: str  # length, ..., "words", or a kind
    words: tuple[str, ...] = ()
    piece: str | None = None  # `bodice.front`: a piece as the kind promises it


@dataclass(frozen=True, slots=True)
class KindChoices(Statement):
    names: tuple[Word, ...]
    type: TypeName
    optional: bool


@dataclass(frozen=True, slots=True)
class Parameter:
    name: Word
    type: TypeName
    default: Expression | None


@dataclass(frozen=True, slots=True)
class Define(Statement):
    name: Word
    parameters: tuple[Parameter, ...]
    value: Expression
    doc: str


@dataclass(frozen=True, slots=True)
class DefineCurve(Statement):
    name: Word
    parameters: tuple[Parameter, ...]
    chain: Chain
    doc: str


@dataclass(frozen=True, slots=True)
class Deprecated(Statement):
    """A name that is on its way out: since and until which edition, and what to write instead."""

    name: Word
    since: Word  # editions
    until: Word
    now: Word | None


@dataclass(frozen=True, slots=True)
class Means(Statement):
    text: str


@dataclass(frozen=True, slots=True)
class Take(Statement):
    text: str


@dataclass(frozen=True, slots=True)
class Range(Statement):
    lowest: Expression
    highest: Expression


@dataclass(frozen=True, slots=True)
class Estimate(Statement):
    value: Expression
    source: str


@dataclass(frozen=True, slots=True)
class Measures(Statement):
    names: tuple[Word, ...]


@dataclass(frozen=True, slots=True)
class ChooseWords(Statement):
    name: Word
    words: tuple[Word, ...]
    doc: str


@dataclass(frozen=True, slots=True)
class Choose(Statement):
    name: Word
    default: Expression
    lowest: Expression | None
    highest: Expression | None
    doc: str


@dataclass(frozen=True, slots=True)
class Let(Statement):
    name: Word
    value: Expression


@dataclass(frozen=True, slots=True)
class Base(Statement):
    """What a piece is drafted from: known inside it as `base`."""

    value: Expression


@dataclass(frozen=True, slots=True)
class Set(Statement):
    """A choice of a taken block, set by the recipe."""

    block: Word
    choice: Word
    value: Expression


@dataclass(frozen=True, slots=True)
class Find(Statement):
    name: Word
    lowest: Expression
    highest: Expression
    left: Expression
    right: Expression
    selector: str | None
    reference: Expression | None


@dataclass(frozen=True, slots=True)
class Seam(Statement):
    name: Word
    first: tuple[Expression, ...]
    second: tuple[Expression, ...]
    manner: str | None  # easing, stretched, gathered
    easing: Expression | None
    after: tuple[Word, ...]
    begun: tuple[Expression, Expression] | None = None  # where each side begins
    between: tuple[Expression, Expression] | None = None  # points of the first side
    when: Expression | None = None


@dataclass(frozen=True, slots=True)
class Match(Statement):
    seam: Word
    points: tuple[Expression, ...]
    when: Expression | None = None


@dataclass(frozen=True, slots=True)
class Check(Statement):
    level: str  # require, advise
    condition: Expression
    words: str


@dataclass(frozen=True, slots=True)
class PointIs(Statement):
    name: Word
    value: Expression


@dataclass(frozen=True, slots=True)
class CurveIs(Statement):
    name: Word
    chain: Chain
    edge: bool  # an edge of the outline, or a curve inside


@dataclass(frozen=True, slots=True)
class LevelIs(Statement):
    name: Word
    at: Expression


@dataclass(frozen=True, slots=True)
class DartOn(Statement):
    """A dart on an edge, `amount` wide or of that angle, sewn to a point `short` of its pivot."""

    name: Word
    edge: Word
    at: Expression
    amount: Expression
    pivot: Expression
    short: Expression | None
    pressed: str | None  # down, up, outward, inward


@dataclass(frozen=True, slots=True)
class DoubleDart(Statement):
    """A dart inside the piece, with a point above and one below."""

    name: Word
    middle: Expression
    width: Expression
    upper: Expression
    lower: Expression


@dataclass(frozen=True, slots=True)
class MeetingDarts(Statement):
    """Two darts that meet at a seam, as one with two points."""

    name: Word
    upper: Expression
    lower: Expression


DartIs = DartOn | DoubleDart | MeetingDarts


@dataclass(frozen=True, slots=True)
class Swing:
    """A dart, or a share of it, to a place on another edge or into another dart."""

    place: Place
    share: Expression | None  # None: all of it
    dart: Word
    edge: Word | None
    at: Expression | None
    into: Word | None
    name: Word | None  # of the new dart; None: it keeps its own
    holding: Word | None  # the edge that stays where it is


@dataclass(frozen=True, slots=True)
class Convert:
    """A dart turned into something else that takes up as much, or into flare."""

    place: Place
    dart: Word
    into: Word  # flare, gathers, ease, pleat, tuck
    over: Expression | None
    edge: Word | None
    at: Expression | None
    holding: Word | None


@dataclass(frozen=True, slots=True)
class Spread:
    """Cuts from one edge to another, opened at one end or at both."""

    place: Place
    edge: Word
    by: Expression  # over all cuts together
    at: Expression | None
    count: Number | None  # of cuts evenly spaced; None: one, `at` a place
    other: Word
    other_by: Expression | None  # None: hinged there
    other_at: Expression | None
    holding: Word | None


@dataclass(frozen=True, slots=True)
class Divide:
    """The part of a piece on one side of a line; `name` is its new edge."""

    place: Place
    along: Expression
    first: Word
    last: Word
    name: Word
    keeping: Word


@dataclass(frozen=True, slots=True)
class Join:
    """Another piece laid to an edge, and both made one."""

    place: Place
    other: Expression
    edge: Word


@dataclass(frozen=True, slots=True)
class Unfold:
    """A half piece made whole over one of its edges."""

    place: Place
    edge: Word


Alteration = Swing | Convert | Spread | Divide | Join | Unfold


@dataclass(frozen=True, slots=True)
class Alter(Statement):
    steps: tuple[Alteration, ...]


@dataclass(frozen=True, slots=True)
class NotchAt(Statement):
    edge: Word
    at: Expression
    when: Expression | None = None


@dataclass(frozen=True, slots=True)
class Cornered:
    place: Place
    shape: str  # square, mitred, rounded, folded
    at: Expression


@dataclass(frozen=True, slots=True)
class Allow(Statement):
    amount: Expression | None  # None: none
    edges: tuple[Word, ...]
    corners: tuple[Cornered, ...]


@dataclass(frozen=True, slots=True)
class Fold(Statement):
    edge: Word | None  # none: the fold of the base is taken away
    when: Expression | None = None
    like: Expression | None = None  # a piece: on the fold where that one is


@dataclass(frozen=True, slots=True)
class Grain(Statement):
    direction: Direction


@dataclass(frozen=True, slots=True)
class CutOf(Statement):
    count: Expression
    cloth: Word
    mirrored: bool


@dataclass(frozen=True, slots=True)
class Mark(Statement):
    names: tuple[Word, ...]
    when: Expression | None = None


@dataclass(frozen=True, slots=True)
class Title(Statement):
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Block(Statement):
    """A statement that holds others until its `end`."""

    body: tuple[Statement, ...] = ()
    doc: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind(Block):
    name: Word
    serves_as: tuple[Word, ...] = ()  # the kinds that it is as well


@dataclass(frozen=True, slots=True, kw_only=True)
class DefineMeasure(Block):
    name: Word


@dataclass(frozen=True, slots=True, kw_only=True)
class DefinePiece(Block):
    """A way of drafting a piece, with its parameters; `base` is what it is drafted from."""

    name: Word
    parameters: tuple[Parameter, ...]
    base: Expression | None


Definition = Define | DefineCurve | DefinePiece


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece(Block):
    names: tuple[Word, ...]
    bases: tuple[Expression, ...]
    follows: tuple[Expression, ...]
    when: Expression | None
    optional: bool


@dataclass(frozen=True, slots=True)
class BrokenLine:
    """What can be told of a line that does not parse: its first word, and the names it gives."""

    opening: str
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class File:
    """All statements of a text, nested; broken lines are left out and stand in the problems."""

    name: str
    statements: tuple[Statement, ...]
    doc: str
    broken: tuple[BrokenLine, ...] = ()
