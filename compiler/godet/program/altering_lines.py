"""The alterations of a piece, typed.

In: the statements of a piece and its scope. Out: its alteration lines; the names that they add to
those of its base. In an alteration every name is the base's, as it was before the first one; what
the base does not have may be the piece's own. Edges and darts that the base does not have, and
words that are no way of turning a dart, are problems.

    altering_lines(alter, scope)
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import problem
from godet.graph.types import CURVE, DART, DOUBLE_DART, LENGTH, LEVEL, POINT, RATIO, Type
from godet.language import tree
from godet.program import alterations
from godet.program.alterations import MIRRORED, AlterationLine
from godet.program.expressions import evaluate, wanted
from godet.program.members import names_passed_on, type_passed_on
from godet.program.scopes import Inheritance, Scope
from godet.program.values import Broken, PieceMeaning, Value

WAYS = ("flare", "gathers", "ease", "pleat", "tuck")  # what a dart can be turned into
MOST_CUTS = 24  # evenly spaced; each draws the whole piece anew


def names_added(
    steps: tuple[tree.Alteration, ...], scope: Scope, base: Inheritance
) -> dict[str, Type]:
    """The names that alterations give to what they make or bring, with their types."""
    known = {name: base.type_of(name) for name in base.names()}
    found: dict[str, Type] = {}
    for step in steps:
        made = _made(step, scope, known | found)
        found |= made
    return found


def _made(step: tree.Alteration, scope: Scope, known: Mapping[str, Type | None]) -> dict[str, Type]:
    match step:
        case tree.Swing() if step.name is not None:
            return {step.name.text: DART}
        case tree.Divide():
            # the line cuts through each dart with two points, of which one is left on it
            cut = {name: DART for name, type in known.items() if type == DOUBLE_DART}
            return {**cut, step.name.text: CURVE}
        case tree.Unfold():
            return {f"{MIRRORED}{n}": t for n, t in known.items() if t is not None and t != LEVEL}
        case tree.Join():
            return _brought(step, scope, known)
        case _:
            return {}


def _brought(step: tree.Join, scope: Scope, known: Mapping[str, Type | None]) -> dict[str, Type]:
    """What the other piece brings; a name that both have is known with that of the piece."""
    other = _other_piece(step, scope)
    if other is None:
        return {}
    brought = {name: type_passed_on(other, name) for name in names_passed_on(other)}
    return {
        name if name not in known else f"{other.name}_{name}": type
        for name, type in brought.items()
        if type is not None and type != LEVEL
    }


def _other_piece(step: tree.Join, scope: Scope) -> PieceMeaning | None:
    """The piece that is joined, where it is one."""
    owner = step.other.owner if isinstance(step.other, tree.Dotted) else None
    if isinstance(owner, tree.Name):
        return scope.piece(owner.name)
    if isinstance(owner, tree.Dotted):
        meaning = evaluate(owner, _root(scope))
        return meaning if isinstance(meaning, PieceMeaning) else None
    return None


def _root(scope: Scope) -> Scope:
    return scope if scope.parent is None else _root(scope.parent)


def altering_lines(
    steps: tuple[tree.Alteration, ...], scope: Scope, base: Inheritance
) -> tuple[AlterationLine, ...]:
    """The lines of a piece's alterations; those that are wrong are left out."""
    before = Scope(scope.session, scope.define, parent=scope, title=scope.title)
    before.inherits = base
    reading = _Reading(before, base, scope.statements)
    lines = [reading.line(step) for step in steps]
    return tuple(line for line in lines if line is not None)


class _Reading:
    def __init__(self, scope: Scope, base: Inheritance, own: Collection[str]) -> None:
        self.scope = scope  # in which names are the base's
        self.base = base
        self.own = own  # what the piece names itself
        self.made: dict[str, Type] = {}  # names that the steps so far have made

    def line(self, step: tree.Alteration) -> AlterationLine | None:
        found = self._read(step)
        base = self.scope.inherits
        assert base is not None
        known = {name: base.type_of(name) for name in base.names()}
        self.made |= _made(step, self.scope, known | self.made)
        return found

    def _read(self, step: tree.Alteration) -> AlterationLine | None:
        match step:
            case tree.Swing():
                return self._swing(step)
            case tree.Convert():
                return self._convert(step)
            case tree.Spread():
                return self._spread(step)
            case tree.Divide():
                return self._divide(step)
            case tree.Join():
                return self._join(step)
            case tree.Unfold():
                return (
                    alterations.Unfold(step.place, step.edge.text)
                    if self._is(step.edge, CURVE)
                    else None
                )

    def _is(self, name: tree.Word | None, type: Type) -> bool:
        """Whether a name is an edge, or a dart, of the piece as it is now."""
        if name is None or self.made.get(name.text) == type:
            return True
        meaning = self.scope.meaning(name.text, name.place, type)
        if isinstance(meaning, Broken):
            return False
        right = (
            isinstance(meaning, Value) and meaning.type == type and (type == DART or meaning.edge)
        )
        of_base = name.text in self.base.names()
        if right and of_base:
            return True
        what = "dart" if type == DART else "edge"
        found = "drawn only here" if right else str(meaning)
        self.scope.session.report(
            problem("alters-no-such", name.place, what=what, name=name.text, found=found)
        )
        return False

    def _is_free(self, name: tree.Word | None, given_up: str | None = None) -> bool:
        """Whether what a step makes may have that name; `given_up` is one it does away with."""
        if name is None or name.text == given_up:
            return True
        taken = {*self.base.names(), *self.made, *self.own}
        if name.text in taken:
            self.scope.session.report(problem("given-twice", name.place, name=name.text))
        return name.text not in taken

    def _may_replace(self, step: tree.Divide) -> bool:
        """Whether the new edge has the name of one that may lie beyond the line: if it does is told
        when the edges are known."""
        name, ends = step.name.text, {step.first.text, step.last.text, step.keeping.text}
        if name in {*ends, *self.own}:
            return False
        type = self.made.get(name) or self.base.type_of(name)
        return type == CURVE

    def _value(self, written: tree.Expression | None, type: Type, what: str) -> int | None:
        if written is None:
            return None
        value = wanted(written, self.scope, type, what)
        return value.node if isinstance(value, Value) else None

    def _swing(self, step: tree.Swing) -> AlterationLine | None:
        sound = self._is(step.dart, DART) and self._is(step.edge, CURVE)
        sound = sound and self._is(step.into, DART) and self._is(step.holding, CURVE)
        sound = sound and self._is_free(step.name, step.dart.text if step.share is None else None)
        share = self._value(step.share, RATIO, "the share of a dart")
        at = self._value(step.at, POINT, "`swing`")
        if step.share is not None and step.into is None and step.name is None:
            self.scope.session.report(problem("swing-needs-name", step.place))
            return None
        if (
            not sound
            or (share is None) != (step.share is None)
            or (at is None) != (step.at is None)
        ):
            return None
        return alterations.Swing(
            step.place,
            step.dart.text,
            share,
            _text(step.edge),
            at,
            _text(step.into),
            _text(step.name) or step.dart.text,
            _text(step.holding),
        )

    def _convert(self, step: tree.Convert) -> AlterationLine | None:
        if step.into.text not in WAYS:
            hint, fix = did_you_mean(step.into.text, WAYS, step.into.place)
            hint = hint or f" There are {', '.join(WAYS)}."
            self.scope.session.report(
                problem("converts-into", step.into.place, name=step.into.text, hint=hint, fix=fix)
            )
            return None
        sound = self._is(step.dart, DART) and self._is(step.edge, CURVE)
        sound = sound and self._is(step.holding, CURVE)
        over = self._value(step.over, LENGTH, "`over`")
        at = self._value(step.at, POINT, "`convert`")
        flare, evenly = step.into.text == "flare", step.into.text in ("gathers", "ease")
        lacks = (flare and step.edge is None) or (evenly and step.over is None)
        if lacks:
            wanted_words = "`on` an edge `at` a place" if flare else "`over` a length"
            self.scope.session.report(
                problem("convert-needs", step.place, into=step.into.text, wanted=wanted_words)
            )
            return None
        if step.over is not None and not (evenly or step.into.text == "tuck"):
            self._needless(step, "over", step.over.place)
            return None
        if step.edge is not None and not flare:
            self._needless(step, "on", step.edge.place)
            return None
        if step.holding is not None and not flare:
            self._needless(step, "holding", step.holding.place)
            return None
        if not sound or (over is None) != (step.over is None) or (at is None) != (step.at is None):
            return None
        return alterations.Convert(
            step.place,
            step.dart.text,
            step.into.text,
            over,
            _text(step.edge),
            at,
            _text(step.holding),
        )

    def _needless(self, step: tree.Convert, word: str, place: Place) -> None:
        self.scope.session.report(
            problem("convert-needless", place, into=step.into.text, word=word)
        )

    def _spread(self, step: tree.Spread) -> AlterationLine | None:
        sound = all(self._is(each, CURVE) for each in (step.edge, step.other, step.holding))
        by = self._value(step.by, LENGTH, "`spread .. by`")
        other_by = self._value(step.other_by, LENGTH, "`spread .. by`")
        at = self._value(step.at, POINT, "`spread .. at`")
        other_at = self._value(step.other_at, POINT, "`spread .. at`")
        count = 1
        if step.count is not None:
            given = step.count.quantity
            whole = given.kind == "bare" and given.value.denominator == 1
            if not whole or not 1 <= given.value <= MOST_CUTS:
                wrong = problem(
                    "spread-count", step.count.place, count=step.count.typed, most=MOST_CUTS
                )
                self.scope.session.report(wrong)
                return None
            count = int(given.value)
        if step.count is None and step.other_at is None:
            self.scope.session.report(
                problem("spread-needs-place", step.other.place, edge=step.other.text)
            )
            return None
        pairs = ((other_by, step.other_by), (at, step.at), (other_at, step.other_at))
        if not sound or by is None or any((n is None) != (w is None) for n, w in pairs):
            return None
        return alterations.Spread(
            step.place,
            step.edge.text,
            by,
            at,
            count,
            step.other.text,
            other_by,
            other_at,
            _text(step.holding),
        )

    def _divide(self, step: tree.Divide) -> AlterationLine | None:
        edges = (step.first, step.last, step.keeping)
        along = self._value(step.along, CURVE, "`divide along`")
        known = [self._is(each, CURVE) for each in edges]  # each is told of
        free = self._may_replace(step) or self._is_free(step.name)
        if not all(known) or not free or along is None:
            return None
        first, last, keeping = (each.text for each in edges)
        return alterations.Divide(step.place, along, first, last, step.name.text, keeping)

    def _join(self, step: tree.Join) -> AlterationLine | None:
        if not self._is(step.edge, CURVE):
            return None
        other = wanted(step.other, _root(self.scope), CURVE, "`join`")
        if isinstance(other, Broken):
            return None
        if other.edge is None or other.edge[0] == self.scope.title:
            self.scope.session.report(problem("join-needs-edge", step.other.place))
            return None
        return alterations.Join(step.place, *other.edge, step.edge.text)


def _text(word: tree.Word | None) -> str | None:
    return word.text if word is not None else None
