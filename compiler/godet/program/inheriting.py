"""What a piece has from the one it is drafted from, worked out when it is first asked for.

In: the scope of a piece, and a name. Out: what the name means there: a point, an edge, a level or a
dart of the base; of a base that is altered a placeholder, since that is known only when the whole
base is. Nothing fails here.

    FromBase(scope).find("side", place, asking)
"""

from __future__ import annotations

from dataclasses import dataclass

from godet.base.places import Place
from godet.graph.types import DOUBLE_DART, Type
from godet.program.altering_lines import names_added
from godet.program.members import (
    SORT_OF_TYPE,
    altered,
    names_passed_on,
    passed_on,
    type_passed_on,
)
from godet.program.scopes import Scope
from godet.program.values import Meaning, PieceMeaning, Value


@dataclass(frozen=True, slots=True)
class FromBase:
    """What a piece has from its base, which is worked out when first asked for."""

    scope: Scope

    def find(self, name: str, place: Place, asking: Scope) -> Meaning | None:
        base = self._base()
        return passed_on(base, name, place, asking) if base is not None else None

    def names(self) -> tuple[str, ...]:
        base = self._base()
        return names_passed_on(base) if base is not None else ()

    def type_of(self, name: str) -> Type | None:
        base = self._base()
        return type_passed_on(base, name) if base is not None else None

    def _base(self) -> PieceMeaning | None:
        base = self.scope.own("base")
        return base if isinstance(base, PieceMeaning) else None


@dataclass(frozen=True, slots=True)
class FromAltered:
    """What a piece has from its base once that is altered: known only when the whole base is."""

    scope: Scope
    base: FromBase

    def find(self, name: str, place: Place, asking: Scope) -> Meaning | None:
        scope = self.scope
        added = self._added().get(name)
        # a dart that is cut through is there where the base has it
        sure = added is not None and self.base.type_of(name) != DOUBLE_DART
        known = Value(added, 0) if added and sure else self.base.find(name, place, asking)
        if not isinstance(known, Value):
            return known
        type = added or known.type
        sort = SORT_OF_TYPE[type]
        found = altered(scope.title, sort, name, type, place, scope)
        return Value(found.type, found.node, (scope.title, name)) if sort == "edge" else found

    def names(self) -> tuple[str, ...]:
        return (*self.base.names(), *self._added())

    def type_of(self, name: str) -> Type | None:
        return self._added().get(name) or self.base.type_of(name)

    def _added(self) -> dict[str, Type]:
        scope = self.scope
        if scope.added is None:
            scope.added = {}  # of pieces joined to each other neither brings what it got that way
            scope.added = names_added(scope.alterations, scope, self.base)
        return scope.added
