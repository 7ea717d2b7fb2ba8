"""Chains of curves: `base.side until side_waist, then curve to hip_side arriving down, blended ..`.

In: a tree chain and its scope. Out: the node of the whole curve, and for each blend a node that
tells how much width it gives. A blend at a point where no two parts meet is a problem.

    drawn = draw(chain, scope);  drawn.curve, drawn.blends
"""

from __future__ import annotations

from dataclasses import dataclass, field

from godet.base.places import Place
from godet.base.problems import Fix, problem
from godet.graph.types import CURVE, DIRECTION, LENGTH, OFFSET, POINT, RATIO
from godet.language import tree
from godet.program.expressions import direction, wanted
from godet.program.scopes import Scope
from godet.program.values import BROKEN, BlendNote, Broken, Value


@dataclass(frozen=True, slots=True)
class Drawn:
    curve: Value
    blends: tuple[BlendNote, ...]


@dataclass(slots=True)
class _Part:
    curve: Value
    end: int  # the node of its last point, by which a blend finds its joint
    blends: tuple[BlendNote, ...] = ()  # of a drawn curve that it is


@dataclass(slots=True)
class _Chain:
    scope: Scope
    parts: list[_Part] = field(default_factory=list)

    def node(self, operation: str, *inputs: Value, place: Place, **constants: bool) -> Value:
        type = POINT if operation == "end_point" else CURVE
        return self.scope.session.node(operation, *inputs, type=type, place=place, **constants)


def draw(chain: tree.Chain, scope: Scope) -> Drawn | Broken:
    """The curve of a chain."""
    drawing = _Chain(scope)
    for part in chain.parts:
        drawn: _Part | Broken
        match part:
            case tree.Part():
                drawn = _part(part, drawing)
            case tree.Segment():
                drawn = _segment(part, drawing)
            case tree.Parallel():
                drawn = _parallel(part, drawing)
        if isinstance(drawn, Broken):
            return BROKEN
        drawing.parts.append(drawn)
    return _assembled(chain, drawing)


def _part(part: tree.Part, chain: _Chain) -> _Part | Broken:
    scope = chain.scope
    curve = wanted(part.curve, scope, CURVE, "a curve")
    until = wanted(part.until, scope, POINT, "`until`") if part.until is not None else None
    start = wanted(part.start, scope, POINT, "`from`") if part.start is not None else None
    reshaped = (
        wanted(part.reshaped, scope, LENGTH, "`reshaped to`") if part.reshaped is not None else None
    )
    extended = (
        wanted(part.extended, scope, LENGTH, "`extended by`") if part.extended is not None else None
    )
    if isinstance(curve, Broken) or isinstance(until, Broken):
        return BROKEN
    if isinstance(start, Broken) or isinstance(reshaped, Broken) or isinstance(extended, Broken):
        return BROKEN
    end = None
    if until is not None:
        curve, end = chain.node("until", curve, until, place=part.place), until.node
    if start is not None:
        curve = chain.node("from_point", curve, start, place=part.place)
    if part.reversed:
        curve, end = chain.node("reversed", curve, place=part.place), None
    if reshaped is not None:
        curve = chain.node("reshaped", curve, reshaped, place=part.place)
    if extended is not None:
        curve, end = chain.node("extended", curve, extended, place=part.place), None
    # a blend is told where its curve stands whole, whichever way it is travelled
    whole = all(asked is None for asked in (until, start, reshaped, extended))
    blends = scope.session.blends.get(curve.node, ()) if whole else ()
    if end is None:
        end = chain.node("end_point", curve, place=part.place).node
    return _Part(curve, end, blends)


def _parallel(part: tree.Parallel, chain: _Chain) -> _Part | Broken:
    curve = wanted(part.curve, chain.scope, CURVE, "`parallel to`")
    distance = wanted(part.distance, chain.scope, LENGTH, "`parallel .. by`")
    if isinstance(curve, Broken) or isinstance(distance, Broken):
        return BROKEN
    drawn = chain.node("parallel", curve, distance, place=part.place)
    return _Part(drawn, chain.node("end_point", drawn, place=part.place).node)


def _segment(segment: tree.Segment, chain: _Chain) -> _Part | Broken:
    scope, place = chain.scope, segment.place
    last = wanted(segment.last, scope, POINT, f"the end of {_a(segment.shape)}")
    start: Value | Broken
    if segment.first is not None:
        start = wanted(segment.first, scope, POINT, f"the start of {_a(segment.shape)}")
    else:
        start = chain.node("end_point", chain.parts[-1].curve, place=place)
    through = [wanted(point, scope, POINT, "`through`") for point in segment.through]
    if isinstance(last, Broken) or isinstance(start, Broken):
        return BROKEN
    between = [point for point in through if isinstance(point, Value)]
    if len(between) < len(through):
        return BROKEN
    if segment.shape == "line":
        return _Part(chain.node("line", start, last, place=place), last.node)
    if segment.square_to is not None:
        edge = wanted(segment.square_to, scope, CURVE, "`square to`")
        if isinstance(edge, Broken):
            return BROKEN
        return _Part(chain.node("square_arc", start, last, edge, place=place), last.node)
    points = [start, *between, last]
    leaving = _leaving(segment, points, chain)
    arriving = _arriving(segment, points, chain)
    if isinstance(leaving, Broken) or isinstance(arriving, Broken):
        return BROKEN
    if segment.shape == "arc":
        way = leaving if leaving is not None else arriving
        assert way is not None  # the grammar asks for one
        curve = chain.node("arc", start, last, way, place=place, at_end=leaving is None)
        return _Part(curve, last.node)
    tension = None
    if segment.tension is not None:
        tension = wanted(segment.tension, scope, RATIO, "`tension`")
    if isinstance(tension, Broken):
        return BROKEN
    given = {"leaving": leaving, "arriving": arriving, "tension": tension}
    curve = chain.node(
        "spline",
        *points,
        *(value for value in given.values() if value is not None),
        place=place,
        **{name: value is not None for name, value in given.items()},
    )
    return _Part(curve, last.node)


def _a(shape: str) -> str:
    return "an arc" if shape == "arc" else f"a {shape}"


def _leaving(segment: tree.Segment, points: list[Value], chain: _Chain) -> Value | Broken | None:
    if segment.smoothly:
        session = chain.scope.session
        before = chain.parts[-1].curve
        return session.node("end_direction", before, type=DIRECTION, place=segment.place)
    if segment.leaving is None:
        return None
    return direction(segment.leaving, points[0], points[1], chain.scope)


def _arriving(segment: tree.Segment, points: list[Value], chain: _Chain) -> Value | Broken | None:
    if segment.arriving is None:
        return None
    # an edge is met in the sense in which the curve travels: ahead lies beyond the end
    session, place = chain.scope.session, segment.place
    travel = session.node("offset", points[-2], points[-1], type=OFFSET, place=place)
    ahead = session.node("shifted", points[-1], travel, type=POINT, place=place)
    return direction(segment.arriving, points[-1], ahead, chain.scope)


def _meant_joint(chain: tree.Chain, blended: tree.Blended) -> tuple[str, Fix | None]:
    """Where parts meet, as a sentence to follow another, and the fix where it can only be one."""
    ends = [
        part.last if isinstance(part, tree.Segment) else part.until
        for part in chain.parts[:-1]
        if not isinstance(part, tree.Parallel)
    ]
    names = [end.name for end in ends if isinstance(end, tree.Name)]
    if not names:
        return "", None
    place = blended.at.place
    fix = Fix(f"write `{names[0]}`", place, names[0]) if len(chain.parts) == 2 else None
    return f" Parts meet at {' and '.join(f'`{name}`' for name in names)}.", fix


def _assembled(chain: tree.Chain, drawing: _Chain) -> Drawn | Broken:
    scope = drawing.scope
    session = scope.session
    over_at: dict[int, tuple[Value, tree.Blended]] = {}  # joint: behind which part
    joints = [part.end for part in drawing.parts[:-1]]
    for blended in chain.blends:
        at = wanted(blended.at, scope, POINT, "`blended at`")
        over = wanted(blended.over, scope, LENGTH, "`over`")
        if isinstance(at, Broken) or isinstance(over, Broken):
            return BROKEN
        if at.node not in joints:
            hint, fix = _meant_joint(chain, blended)
            return session.report(
                problem("blend-not-at-joint", blended.at.place, hint=hint, fix=fix)
            )
        over_at[joints.index(at.node)] = (over, blended)
    parts = [drawing.parts[0].curve]
    notes = [note for part in drawing.parts for note in part.blends]
    for position, part in enumerate(drawing.parts[1:]):
        if position not in over_at:
            parts.append(part.curve)
            continue
        over, blended = over_at[position]
        inputs, place = (parts[-1], part.curve, over), blended.place
        parts[-1] = drawing.node("blend", *inputs, place=place, fair=blended.fair)
        gives, strays = (
            session.node(name, *inputs, type=LENGTH, place=place, fair=blended.fair)
            for name in ("blend_gives", "blend_strays")
        )
        at_name = blended.at.name if isinstance(blended.at, tree.Name) else "the joint"
        notes.append(BlendNote(gives.node, strays.node, over.node, at_name, place))
    curve = parts[0]
    if len(parts) > 1:
        curve = drawing.node("joined", *parts, place=chain.place)
    return Drawn(curve, tuple(notes))
