"""Bodies over which the shipped library is tried, as measures in mm.

In: nothing. Out: `Bodies`, a label and its measures for each. All invented, within the ranges that
size tables print: busts of 76 to 152 cm, children of 92 to 164 cm of height.

    ADULTS["bust 100, 168 tall"]["bust_girth"]   # 1000.0
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from godet.base.shipped import shipped
from godet.language.library import Library
from godet.orders.bodies import read_body
from godet.orders.records import Body
from godet.tools.vocabulary import vocabulary

Measures = Mapping[str, float]
Bodies = Mapping[str, Measures]


def _adult(bust: float, height: float) -> Measures:
    waist = bust - 16
    hip = bust + 8 if bust <= 104 else 112 + (bust - 104) * 5 / 6
    given = {"bust_girth": bust, "waist_girth": waist, "hip_girth": hip, "height": height}
    return {name: value * 10 for name, value in given.items()}


ADULTS: Bodies = {
    f"bust {bust}, {height} tall": _adult(bust, height)
    for bust in range(76, 153, 4)
    for height in (156, 168, 178)
}

# height, bust, waist and hip in cm
_CHILDREN = (
    (92, 52, 50.5, 54), (98, 54, 52, 57), (104, 56, 53.5, 60), (110, 58, 55, 62),
    (116, 60, 55.5, 64), (122, 63, 57, 67), (128, 66, 59, 70), (134, 69, 61, 73),
    (140, 72, 62, 77), (146, 76, 63, 81), (152, 80, 64.5, 85), (158, 83, 65.5, 88),
    (164, 84, 66, 91),
)  # fmt: skip

CHILDREN: Bodies = {
    f"child {height}": {
        "height": height * 10.0,
        "bust_girth": bust * 10.0,
        "waist_girth": waist * 10.0,
        "hip_girth": hip * 10.0,
    }
    for height, bust, waist, hip in _CHILDREN
}


def measures_of(bodies: Iterable[Body]) -> Bodies:
    """Bodies of a file, a size table or a data set as measures in mm."""
    return {
        body.label: {name: measure.value for name, measure in body.measures.items()}
        for body in bodies
    }


def _shipped_bodies() -> Bodies:
    known = vocabulary(Library(shipped("recipes")))
    bodies = []
    for path in sorted((shipped("recipes") / "bodies").glob("*.yaml")):
        body, problems = read_body(path, known)
        assert body is not None, problems
        bodies.append(body)
    return measures_of(bodies)


SHIPPED: Bodies = _shipped_bodies()
EVERYBODY: Bodies = {**ADULTS, **CHILDREN, **SHIPPED}
