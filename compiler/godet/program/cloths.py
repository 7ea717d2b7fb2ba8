"""What a recipe can ask of a cloth.

fabric.stretch_across, fabric.structure is knit
"""

from __future__ import annotations

from godet.base.near_names import did_you_mean
from godet.base.problems import problem
from godet.graph.types import LENGTH, RATIO, Type, Words
from godet.language import tree
from godet.program.scopes import Scope
from godet.program.values import ClothMeaning, Meaning

PROPERTIES: dict[str, Type] = {
    "structure": Words(("knit", "woven")),
    "stretch_across": RATIO,
    "stretch_along": RATIO,
    "width": LENGTH,
}


def cloth_member(owner: ClothMeaning, name: tree.Word, scope: Scope) -> Meaning:
    """A property of the cloth, as a node the solver fills in."""
    type = PROPERTIES.get(name.text)
    if type is None:
        several = sum(each.startswith(name.text) for each in PROPERTIES) > 1  # as `stretch`
        near = () if several else PROPERTIES
        hint, fix = did_you_mean(name.text, near, name.place)
        names = ", ".join(PROPERTIES)
        return scope.session.report(
            problem("no-such-property", name.place, name=name.text, names=names, hint=hint, fix=fix)
        )
    return scope.session.node(
        "cloth", type=type, place=name.place, cloth=owner.cloth, property=name.text
    )
