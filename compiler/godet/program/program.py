"""A typed program: one recipe, checked, with its open graph; and what its pieces hold.

Out of `recipes`, into `linking`. Node numbers refer to the session's graph; placeholders in it
("taken", "own", "choice", "unknown") are filled in when the program is linked. Plain records.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from godet.base.places import Place
from godet.graph.node import Graph
from godet.graph.types import Type
from godet.language.tree import BlockNamed
from godet.program.alterations import AlterationLine
from godet.program.kinds import Kind
from godet.program.values import BlendNote


@dataclass(frozen=True, slots=True)
class EdgeLine:
    curve: int
    place: Place
    blends: tuple[BlendNote, ...] = ()
    begins_with: str | None = None  # the base's edge, of another name, that its first part is of
    sewn: int | None = None  # its length as sewn, where something on it is taken up


@dataclass(frozen=True, slots=True)
class NotchLine:
    edge: str
    at: int
    place: Place
    name: str
    inherited: bool = False  # from a base whose edge may have been replaced there
    when: int | None = None  # a condition; it is there where this holds


@dataclass(frozen=True, slots=True)
class FoldLine:
    """The edge that is laid on the fold. Where its condition fails the half is cut twice as often,
    mirrored. One that takes the fold of the base away has no edge, and a condition that fails."""

    edge: str
    place: Place
    when: int | None = None
    takes_away: bool = False
    like: str | None = None  # a piece by its title: on the fold where that one is; none once linked


@dataclass(frozen=True, slots=True)
class MarkLine:
    point: str
    when: int | None = None  # a condition; it is there where this holds


DartManner = Literal["dart", "double", "pleat", "tuck", "gathers", "ease"]


@dataclass(frozen=True, slots=True)
class DartLine:
    """A dart, or what takes up as much in another manner."""

    node: int
    manner: DartManner
    place: Place
    edge: str | None = None  # None: it lies inside the piece
    strays: int | None = None  # by how much one leg was lengthened
    moved: int | None = None  # of two that met: how far the lower one was moved to the upper
    wider: int | None = None  # and by how much it was the wider
    sewn_for: int | None = None  # of a tuck: how far it is stitched
    also: tuple[str, ...] = ()  # edges that begin with part of that one, and may have it instead


@dataclass(frozen=True, slots=True)
class CornerLine:
    """How the allowance of an edge ends at one of its corners."""

    at: int  # a point
    shape: str  # square, mitred, rounded or folded
    place: Place
    inherited: bool = False  # from a base whose edge may have been replaced there


CLOTH = "main"  # of a piece whose recipe names none
# cloths that lie under another, so no girth counts them
UNDER = frozenset({"lining", "interfacing"})


@dataclass(frozen=True, slots=True)
class CutLine:
    count: int
    cloth: str
    mirrored: bool
    place: Place


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """By how much an alteration made an edge shorter, as sewn, that ought to stay as it was."""

    edge: str
    shorter: int
    place: Place


@dataclass(frozen=True, slots=True)
class PieceLines:
    """What a piece says of itself; what it does not say comes from its base."""

    name: str
    place: Place
    base: tuple[str, str] | None  # (block, piece); the block "" for a piece of the recipe's own
    points: Mapping[str, int]
    edges: Mapping[str, EdgeLine]
    levels: Mapping[str, int]
    notches: tuple[NotchLine, ...]
    allowances: Mapping[str, int | None]  # by edge; None: none
    fold: FoldLine | None
    grain: int | None  # a direction
    cut: CutLine | None
    marks: tuple[MarkLine, ...]
    title: str
    when: int | None = None
    values: Mapping[str, int] = field(default_factory=dict)  # lets, unknowns, inner curves
    follows: tuple[tuple[str, str], ...] = ()  # (piece, edge): it is drawn anew where these are
    parted: bool = False  # only a part of its base is kept, and not all that was marked on it
    step: bool = False  # drawn on the way to another piece, and never cut
    allowed_at: Mapping[str, Place] = field(default_factory=dict)  # by edge: the line that says so
    corners: Mapping[str, tuple[CornerLine, ...]] = field(default_factory=dict)  # by edge
    darts: Mapping[str, DartLine] = field(default_factory=dict)
    widths: Mapping[str, int] = field(default_factory=dict)  # as sewn, by level; once linked

    changes: tuple[ChangeLine, ...] = ()  # by the alterations of its base
    alterations: tuple[AlterationLine, ...] = ()  # of its base, one after the other

    @property
    def members(self) -> frozenset[str]:
        """The names that a kind may promise of it: of its darts, those sewn as such."""
        darts = {name for name, line in self.darts.items() if line.manner in ("dart", "double")}
        return frozenset({*self.points, *self.edges, *self.levels, *darts})


@dataclass(frozen=True, slots=True)
class FindLine:
    """An unknown: the node of it, its range, and the two sides that must agree."""

    name: str
    unknown: int
    lowest: int
    highest: int
    left: int
    right: int
    selector: str | None
    reference: int | None
    place: Place


@dataclass(frozen=True, slots=True)
class Choice:
    name: str
    type: Type
    default: int  # a node
    node: int  # the chosen value, held to its range
    words: tuple[str, ...]
    doc: str
    place: Place
    typed: str  # the default as written


@dataclass(frozen=True, slots=True)
class Measure:
    name: str
    means: str
    take: str
    type: Type
    lowest: float | None  # mm or radians
    highest: float | None
    estimate: str | None  # its source; None where there is none
    place: Place


@dataclass(frozen=True, slots=True)
class PointLine:
    """A named point of a piece, as a seam speaks of it."""

    piece: str
    name: str
    node: int
    place: Place
    inherited: bool = False  # from a block, whose edge may have been replaced there
    when: int | None = None  # of a match: where it is notched


@dataclass(frozen=True, slots=True)
class SeamLine:
    name: str
    first: tuple[tuple[str, str, bool], ...]  # (piece, edge, whole)
    second: tuple[tuple[str, str, bool], ...]
    manner: str | None
    easing: int | None
    after: tuple[str, ...]
    place: Place
    begun: tuple[PointLine, PointLine] | None = None  # where each side begins
    between: tuple[PointLine, PointLine] | None = None  # of the first side: where it is eased
    matches: tuple[PointLine, ...] = ()  # where both sides are notched
    lengths: tuple[int, int] | None = None  # of both sides as sewn; once linked
    when: int | None = None  # a condition; it is sewn where this holds


@dataclass(frozen=True, slots=True)
class MatchLine:
    """A seam, the recipe's own or one that comes from a block, and where it is notched."""

    seam: str
    points: tuple[PointLine, ...]
    place: Place  # of the seam's name


@dataclass(frozen=True, slots=True)
class CheckLine:
    level: str
    condition: int
    measured: int | None  # the two sides of a comparison
    wanted: int | None
    sign: str
    words: str
    place: Place


@dataclass(frozen=True, slots=True)
class SetLine:
    """A choice of a taken block that the recipe sets."""

    block: str
    choice: str
    value: int
    place: Place


@dataclass(frozen=True, slots=True)
class Taken:
    name: str
    kind: Kind
    default: BlockNamed | None
    place: Place
    forbidden: frozenset[str]  # members the recipe can't work with


@dataclass(frozen=True, slots=True)
class Program:
    name: str
    doc: str
    edition: int
    file: str
    graph: Graph
    takes: tuple[Taken, ...]
    makes: Kind | None
    makes_kind_of: str | None  # the taken block whose kind it is
    makes_place: Place | None
    left_out: tuple[tuple[str, str], ...]
    settings: tuple[SetLine, ...]
    measures: Mapping[str, Measure]
    choices: Mapping[str, Choice]
    lets: Mapping[str, int]
    finds: tuple[FindLine, ...]
    pieces: Mapping[str, PieceLines]
    seams: tuple[SeamLine, ...]
    matches: tuple[MatchLine, ...]
    checks: tuple[CheckLine, ...]
    place: Place
