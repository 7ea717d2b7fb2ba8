"""Kinds: what a block promises to whoever takes it.

In: the tree of a `kind`. Out: a `Kind`, or a `KindView` of it with the members a recipe asks for or
forbids. A kind that names a member twice, or opens a piece inside a piece, is a problem.

    kind.pieces["front"].edges["side"].first_end   ->  "top"
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.graph.types import BY_NAME, Quantity, Type, Words
from godet.language import tree
from godet.program.type_names import type_named


@dataclass(frozen=True, slots=True)
class Member:
    name: str
    sort: str  # point, level, edge, dart
    optional: bool
    first_end: str | None = None  # edges: centre or top
    double: bool = False  # darts: with two points


@dataclass(frozen=True, slots=True)
class KindPiece:
    name: str
    optional: bool
    members: Mapping[str, Member]


@dataclass(frozen=True, slots=True)
class KindChoice:
    """A choice that a block of the kind lets its taker set."""

    name: str
    type: Type
    optional: bool


@dataclass(frozen=True, slots=True)
class Kind:
    name: str
    doc: str
    pieces: Mapping[str, KindPiece]
    choices: Mapping[str, KindChoice]
    place: Place
    also: frozenset[str] = frozenset()  # the kinds that a block of it is as well

    def asking(self, wanted: frozenset[str], forbidden: frozenset[str]) -> Kind:
        """This kind where the wanted optional members are sure, and the forbidden ones gone."""
        pieces = {}
        for name, piece in self.pieces.items():
            members = {
                m.name: replace(m, optional=m.optional and m.name not in wanted)
                for m in piece.members.values()
                if m.name not in forbidden
            }
            pieces[name] = replace(piece, members=members)
        return replace(self, pieces=pieces)


FIRST_ENDS = ("centre", "top")


def kind_from(block: tree.Kind) -> tuple[Kind, list[Problem]]:
    """The kind that a tree describes, and what is wrong with it."""
    problems: list[Problem] = []
    pieces: dict[str, KindPiece] = {}
    choices: dict[str, KindChoice] = {}
    misplaced = False
    for statement in block.body:
        if isinstance(statement, tree.KindChoices):
            type = type_named(statement.type)
            if not isinstance(type, Quantity | Words):
                named = statement.type
                amounts = [name for name, type in BY_NAME.items() if isinstance(type, Quantity)]
                hint, fix = did_you_mean(named.name, amounts, named.place)
                problems.append(
                    problem("kind-choice-type", named.place, name=named.name, hint=hint, fix=fix)
                )
                continue
            for name in statement.names:
                if name.text in choices:
                    problems.append(problem("given-twice", name.place, name=name.text))
                choices[name.text] = KindChoice(name.text, type, statement.optional)
            continue
        # told of the first of such lines: they have one heading too few
        if not isinstance(statement, tree.Piece) and not misplaced:
            problems.append(problem("not-in-a-kind", statement.place))
        misplaced = not isinstance(statement, tree.Piece)
        if not isinstance(statement, tree.Piece):
            continue
        members: dict[str, Member] = {}
        for inner in statement.body:
            if not isinstance(inner, tree.KindMembers):
                problems.append(problem("not-in-a-kind", inner.place))
                continue
            end = inner.first_end
            if end is not None and end.text not in FIRST_ENDS:
                hint, fix = did_you_mean(end.text, FIRST_ENDS, end.place)
                problems.append(
                    problem("no-such-end", end.place, name=end.text, hint=hint, fix=fix)
                )
                end = None
            for name in inner.names:
                if name.text in members:
                    problems.append(problem("given-twice", name.place, name=name.text))
                first_end = end.text if end is not None else None
                members[name.text] = Member(
                    name.text, inner.sort, inner.optional, first_end, inner.double
                )
        for name in statement.names:
            if name.text in pieces:
                problems.append(problem("given-twice", name.place, name=name.text))
            pieces[name.text] = KindPiece(name.text, statement.optional, members)
    return Kind(block.name.text, block.doc, pieces, choices, block.place), problems
