"""What can be asked of a dart: `bust_dart.width`.

In: a dart and the name behind the dot. Out: a `Meaning`; a name it does not have is a problem.

    dart_member(bust_dart, "bust_dart", written, scope)   # Value(LENGTH, 40)
"""

from __future__ import annotations

from godet.base.near_names import did_you_mean
from godet.base.problems import problem
from godet.graph.types import ANGLE, DART, LENGTH, POINT, Type
from godet.language import tree
from godet.program.scopes import Scope
from godet.program.values import Meaning, Value

# what can be asked of a dart: the operation, its row where it is one of the dart's points, a type
_OF_A_DART: dict[str, tuple[str, int | None, Type]] = {
    "first_leg": ("dart_row", 0, POINT),  # where the legs end on the edge
    "last_leg": ("dart_row", 2, POINT),
    "tip": ("dart_row", 3, POINT),
    "pivot": ("dart_row", 4, POINT),
    "middle": ("dart_middle", None, POINT),
    "width": ("dart_width", None, LENGTH),
    "leg": ("dart_leg", None, LENGTH),
    "angle": ("dart_angle", None, ANGLE),
}
_OF_A_DOUBLE: dict[str, tuple[str, int | None, Type]] = {
    "upper_tip": ("dart_row", 1, POINT),
    "lower_tip": ("dart_row", 3, POINT),
    "middle": ("dart_middle", None, POINT),
    "width": ("dart_width", None, LENGTH),
}

OF_A_DART = frozenset(
    operation for members in (_OF_A_DART, _OF_A_DOUBLE) for operation, _, _ in members.values()
)


def dart_member(owner: Value, called: str, written: tree.Dotted, scope: Scope) -> Meaning:
    """What `bust_dart.width` means; the dart is `called` that where it has no such member."""
    members = _OF_A_DART if owner.type == DART else _OF_A_DOUBLE
    name = written.member
    if name.text not in members:
        hint, fix = did_you_mean(name.text, members, name.place)
        hint = hint or f" It has {', '.join(members)}."
        return scope.session.report(
            problem("no-such-member", name.place, owner=called, name=name.text, hint=hint, fix=fix)
        )
    operation, row, type = members[name.text]
    constants = {} if row is None else {"row": row}
    return scope.session.node(operation, owner, type=type, place=written.place, **constants)
