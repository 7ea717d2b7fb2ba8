"""What a name or an expression can mean while a program is built.

A `Value` is a node of the graph with its type. Pieces, blocks, cloths and functions are no graph
values: they only own members or can be called. `BROKEN` stands for what is already reported, so
that one mistake gives one message.

    Value(LENGTH, 12)
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from godet.base.places import Place
from godet.base.problems import Fix, Problem, problem
from godet.graph.types import Type
from godet.program.kinds import Kind, KindPiece

if TYPE_CHECKING:
    from godet.language import tree
    from godet.program.scopes import Scope


@dataclass(frozen=True, slots=True)
class Value:
    type: Type
    node: int
    edge: tuple[str, str] | None = None  # the piece and name, where the value is a named edge

    def __str__(self) -> str:
        return str(self.type)


@dataclass(frozen=True, slots=True)
class BlendNote:
    gives: int  # a node: mm of width that the blend gives, negative when it takes
    strays: int  # a node: mm from the corner to the rounding
    over: int
    at: str  # the point's name, or words for it
    place: Place


@dataclass(frozen=True, slots=True, eq=False)
class PieceMeaning:
    """A piece: of this recipe (`scope`) or of a taken block (`block`, as its kind promises it)."""

    name: str
    scope: Scope | None = None
    block: str | None = None
    promise: KindPiece | None = None

    @property
    def title(self) -> str:
        """As it is known in messages and in the draft: `front`, `top.front`."""
        return f"{self.block}.{self.name}" if self.block is not None else self.name

    def __str__(self) -> str:
        return "a piece"


@dataclass(frozen=True, slots=True)
class BlockMeaning:
    name: str
    kind: Kind

    def __str__(self) -> str:
        return "a block"


@dataclass(frozen=True, slots=True)
class ClothMeaning:
    cloth: str

    def __str__(self) -> str:
        return "a cloth"


@dataclass(frozen=True, slots=True, eq=False)
class FunctionMeaning:
    """A `define`d function, curve or piece, with the scope its body is read in."""

    define: tree.Definition
    scope: Scope

    def __str__(self) -> str:
        return "a function"


@dataclass(frozen=True, slots=True)
class WholeEdge:
    """An edge counted as often as its piece is cut: `whole(front.neck)`."""

    edge: Value
    times: int  # a node

    def __str__(self) -> str:
        return "a whole edge"


@dataclass(frozen=True, slots=True)
class Broken:
    """What is already reported."""

    def __str__(self) -> str:
        return "something that could not be read"


BROKEN = Broken()


def wrong_type(
    place: Place, what: str, wanted: object, found: object, hint: str = "", fix: Fix | None = None
) -> Problem:
    """The problem of a meaning that is not of the type needed for `what`."""
    return problem("wrong-type", place, what=what, wanted=wanted, found=found, hint=hint, fix=fix)


Meaning = Value | PieceMeaning | BlockMeaning | ClothMeaning | FunctionMeaning | WholeEdge | Broken
