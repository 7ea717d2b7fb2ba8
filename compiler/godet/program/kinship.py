"""Kinds that are other kinds as well: `kind dress is hanging, necked`.

In: a file with kinds, and the kinds known before. Out: the file's kinds, each with the names of all
that it is, of what these are in turn, and with what they call optional and it does not name. A kind
that there is none of, one that does not promise what it says it is, and one that is itself by a
circle are problems.

    kinds, problems = kinds_in(file, {});  kinds["dress"].also   ->  {"hanging", "necked"}
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from godet.base.near_names import did_you_mean
from godet.base.problems import Note, Problem, problem
from godet.language import tree
from godet.program.kinds import Kind, KindPiece, Member, kind_from

_Promise = TypeVar("_Promise")


def kinds_in(file: tree.File, known: Mapping[str, Kind]) -> tuple[dict[str, Kind], list[Problem]]:
    """The kinds of a file by name, and what is wrong with them."""
    problems: list[Problem] = []
    written: dict[str, tree.Kind] = {}
    kinds: dict[str, Kind] = {}
    for statement in file.statements:
        if isinstance(statement, tree.Kind):
            name = statement.name.text
            written[name] = statement
            kinds[name], found = kind_from(statement)
            problems.extend(found)
    lost = frozenset(name for line in file.broken for name in line.names)
    kin = _Kin(kinds, written, known, lost, problems)
    return {name: kin.whole(name) for name in kinds}, problems


@dataclass
class _Kin:
    kinds: Mapping[str, Kind]  # as they are written
    written: Mapping[str, tree.Kind]
    known: Mapping[str, Kind]
    lost: frozenset[str]  # names of lines that could not be read
    problems: list[Problem]
    done: dict[str, Kind] = field(default_factory=dict)
    way: list[tree.Word] = field(default_factory=list)  # the names by which this one was come to

    def whole(self, name: str) -> Kind:
        """A kind with all that it has from those that it is."""
        if name not in self.done:
            kind, written = self.kinds[name], self.written[name]
            self.way.append(written.name)
            for word in written.serves_as:
                other = self._other(word)
                if other is not None:
                    kind = self._joined(kind, other, word)
            self.way.pop()
            self.done[name] = kind
        return self.done[name]

    def _other(self, word: tree.Word) -> Kind | None:
        names = [each.text for each in self.way]
        if word.text in names:
            round_ = self.way[names.index(word.text) :]
            path = " is ".join([*(each.text for each in round_), word.text])
            notes = [Note(f"`{each.text}` is described here", each.place) for each in round_]
            self.problems.append(problem("kinds-in-circle", word.place, path=path, notes=notes))
            return None
        if word.text in self.kinds:
            return self.whole(word.text)
        if word.text not in self.known and word.text not in self.lost:
            self.problems.append(unknown_kind(word, {**self.known, **self.kinds}))
        return self.known.get(word.text)

    def _joined(self, kind: Kind, other: Kind, word: tree.Word) -> Kind:
        """A kind with the name of another that it is, and with what is optional there."""
        missing = ", ".join(_missing(kind, other))
        if missing:
            self.problems.append(
                problem(
                    "kind-is-not", word.place, kind=kind.name, other=other.name, missing=missing
                )
            )
        pieces = _added(kind.pieces, other.pieces)
        for name in other.pieces.keys() & kind.pieces.keys():
            members = _added(kind.pieces[name].members, other.pieces[name].members)
            pieces[name] = replace(kind.pieces[name], members=members)
        choices = _added(kind.choices, other.choices)
        also = kind.also | other.also | {other.name}
        return replace(kind, pieces=pieces, choices=choices, also=also)


def _added(mine: Mapping[str, _Promise], other: Mapping[str, _Promise]) -> dict[str, _Promise]:
    """What a kind promises, and behind it what another does besides."""
    return {**mine, **{name: each for name, each in other.items() if name not in mine}}


def unknown_kind(word: tree.Word, kinds: Mapping[str, Kind]) -> Problem:
    """The problem of a kind that there is none of."""
    hint, fix = did_you_mean(word.text, kinds, word.place)
    names = ", ".join(sorted(kinds))
    return problem("unknown-kind", word.place, name=word.text, names=names, hint=hint, fix=fix)


def _missing(kind: Kind, other: Kind) -> Iterator[str]:
    """What a kind does not promise as the other does, in words."""
    for piece in other.pieces.values():
        mine = kind.pieces.get(piece.name)
        if mine is not None:
            yield from _missing_in(mine, piece)
        if not piece.optional and (mine is None or mine.optional):
            yield _said(f"piece {piece.name}", mine is not None)
    for choice in other.choices.values():
        has = kind.choices.get(choice.name)
        if has is not None and has.type != choice.type:
            yield f"choice {choice.name}, {choice.type}"
        elif not choice.optional and (has is None or has.optional):
            yield _said(f"choice {choice.name}", has is not None)


def _missing_in(mine: KindPiece, piece: KindPiece) -> Iterator[str]:
    for member in piece.members.values():
        name, has = f"{piece.name}.{member.name}", mine.members.get(member.name)
        if has is not None and not _alike(has, member):
            yield _described(member, name)
        elif not member.optional and (has is None or has.optional):
            yield _said(_described(member, name), has is not None)


def _alike(mine: Member, other: Member) -> bool:
    """Whether what is known of a member of the other kind is true of this one."""
    same_end = other.first_end in (None, mine.first_end)
    return mine.sort == other.sort and mine.double == other.double and same_end


def _described(member: Member, name: str) -> str:
    end = f" from the {member.first_end}" if member.first_end is not None else ""
    points = "double " if member.double else ""
    return f"{points}{member.sort} {name}{end}"


def _said(what: str, optional: bool) -> str:
    return f"{what} (there not optional)" if optional else what
