"""What is left of a dart with two points where a line cuts through it: an ordinary dart.

In: a dart (B, 4, 2), the line (B, n, 4, 2) that divides the piece, and the outline (B, m, 4, 2) of
the part that is kept, closed. Out: a dart (B, 5, 2) on the line, its mouth between the places where
the line crosses the two sides of the old dart, its point that of the old one's points which the
part has. Both legs are made equally long, as those of any dart on an edge. Fails with
"dart-not-cut" where the line does not run between the two points, with "dart-cut-beyond" {narrower}
where the dart's widest place lies inside the part and straight legs would be narrower there, and as
a dart on an edge does.

    cut_dart(waist_dart, waist_line, upper_part).value[:, 3]      # the upper point
"""

from __future__ import annotations

import numpy as np

from godet.geometry.angles import direction_on
from godet.geometry.bodies import finite, matched, strung
from godet.geometry.crossings import crossing
from godet.geometry.darts import closed_dart
from godet.geometry.dual import Values, value_of
from godet.geometry.ends import start_point
from godet.geometry.guards import Breach, Guarded
from godet.geometry.lines import line
from godet.geometry.locating import closest_place
from godet.geometry.moving import belongs
from godet.geometry.points import dot, norm, unit

_NARROWER = 2.0  # mm: by so much the dart may be narrower where it was widest (ours)


@np.errstate(all="ignore")
def cut_dart(dart: Values, dividing: Values, kept: Values) -> Guarded:
    """The dart (B, 5, 2) that is left of one with two points on the side that is kept."""
    dart, dividing, kept = matched(dart, dividing, kept)
    upper, lower = dart[:, 1], dart[:, 3]
    has = [belongs(kept, start_point(kept), each) for each in (upper, lower)]
    tip, beyond = (np.where(has[0][:, None], *pair) for pair in ((upper, lower), (lower, upper)))
    ends, missed = [], has[0] == has[1]
    for widest in (dart[:, 0], dart[:, 2]):
        side = strung([line(tip, widest).value, line(widest, beyond).value], axis=1)
        found = crossing(dividing, side, "nearest", widest)
        missed = missed | next(b.failed for b in found.breaches if b.code == "no-crossing")
        ends.append(found.value)
    known = finite(dart, dividing, kept)
    missed = missed & known
    whole = ~missed & known
    places = [closest_place(dividing, end) for end in ends]
    in_order = value_of(places[0].parameter) <= value_of(places[1].parameter)
    first, last = (np.where(in_order[:, None], *pair) for pair in (ends, ends[::-1]))
    ways = [direction_on(dividing, closest_place(dividing, e)).value for e in (first, last)]
    none_short = np.zeros(len(in_order))
    found = closed_dart(first, last, tip, none_short, (ways[0], ways[1]), "")
    narrower = _narrower(dart, tip, first, last)
    return Guarded(
        np.where(known[:, None, None], found.value, np.nan),
        (
            Breach("dart-not-cut", missed, {}),
            Breach("dart-cut-beyond", whole & (narrower > _NARROWER), {"narrower": narrower}),
            *(Breach(b.code, whole & b.failed, b.numbers) for b in found.breaches),
        ),
    )


def _narrower(dart: Values, tip: Values, first: Values, last: Values) -> Values:
    """By how much (B,) straight legs from the ends of the mouth to the tip are nearer together than
    the old ones were at the widest place, where that lies between."""
    one, other = value_of(dart[:, 0]), value_of(dart[:, 2])
    point, mouth = value_of(tip), (value_of(first), value_of(last))
    middle = (one + other) / 2.0
    axis = unit(middle - point)
    deep = dot(middle - point, axis)
    cut = dot((mouth[0] + mouth[1]) / 2.0 - point, axis)
    straight = norm(mouth[1] - mouth[0]) * deep / cut
    return np.where(cut > deep, norm(other - one) - straight, 0.0)
