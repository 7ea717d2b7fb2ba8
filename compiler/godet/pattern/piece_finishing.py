"""One finished piece: outline, cutting line, levels, notches, marks and grain.

In: the piece's lines, the solved values of a body, and how its edges are sewn. Out: the `Piece`,
what was done that its maker should know, and problems; no piece where one of these is an error.

    piece, reports, problems = finished_piece(1, lines, draft.graph, values, order, sewn)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from godet.base.places import Place
from godet.base.problems import Problem, has_errors, problem
from godet.base.quantities import spoken
from godet.geometry.areas import area
from godet.geometry.flattening import flattened
from godet.geometry.locating import locate
from godet.graph.node import Graph
from godet.pattern.allowances import allowances, folds_back
from godet.pattern.corners_asked import Asked, Missing, Twice, asked_corners
from godet.pattern.crossing_itself import crossing_itself, lies_inside
from godet.pattern.cut_lines import FLATNESS, Crosses, TooTight, cut_line
from godet.pattern.darts import dart_notches, finished_darts
from godet.pattern.darts_across import darts_across
from godet.pattern.folding import FOLD_TOLERANCE, fold_strays
from godet.pattern.grain_line import grain_line
from godet.pattern.level_lines import Missed, level_line
from godet.pattern.moving_out import Side
from godet.pattern.naming import title
from godet.pattern.notching import ON_EDGE, cuts, notch_at
from godet.pattern.order import Order
from godet.pattern.outline import Break, chained, walked
from godet.pattern.paths import closed, length
from godet.pattern.pieces import (
    Cut,
    Dart,
    Edge,
    Level,
    Mark,
    Notch,
    OutlineStep,
    Path,
    Piece,
    Point,
    Report,
)
from godet.pattern.reports import hollow_words
from godet.pattern.seams import Sewing
from godet.pattern.sewn_edges import sewn_edge
from godet.pattern.short_lengths import short_length
from godet.pattern.solved import BodyValues
from godet.program.program import CLOTH, PieceLines

_DOWN: Point = (0.0, 1.0)


def finished_piece(
    number: int,
    lines: PieceLines,
    graph: Graph,
    values: BodyValues,
    order: Order,
    sewn: Sewing,
) -> tuple[Piece | None, tuple[Report, ...], tuple[Problem, ...]]:
    """The piece with this printed number."""
    finishing = _Finishing(lines, graph, values, order, sewn)
    piece = finishing.piece(number)
    return piece, tuple(finishing.reports), tuple(finishing.problems)


@dataclass
class _Finishing:
    """One piece in the making; reports and problems are gathered on the way."""

    lines: PieceLines
    graph: Graph
    values: BodyValues
    order: Order
    sewn: Sewing
    reports: list[Report] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def piece(self, number: int) -> Piece | None:
        lines, values = self.lines, self.values
        paths = {name: values.path(line.curve) for name, line in lines.edges.items()}
        amounts = allowances(lines, values)
        if not self._sound(paths, amounts):
            return None
        walk = chained(paths, self._first_edge())
        if isinstance(walk, Break):
            self._report_break(walk)
            return None
        sewing_line = closed(walked(paths, walk))
        darts = finished_darts(lines, values, paths)
        across = darts_across(lines, self.graph, values)
        if across is not None:
            self._report(
                "darts-overlap",
                max(lines.darts[name].place for name in across),
                first=across[0],
                second=across[1],
            )
            return None
        if not self._simple(paths, walk):
            return None
        cutting_line = self._cutting_line(paths, walk, amounts)
        levels = self._levels(paths)
        notches = self._notches(paths, walk, darts)
        if cutting_line is None or has_errors(self.problems):
            return None
        fold = lines.fold.edge if lines.fold is not None else None
        points = {name: values.point(node) for name, node in sorted(lines.points.items())}
        return Piece(
            name=lines.name,
            title=lines.title or title(lines.name),
            number=number,
            drawn="half" if fold is not None else "whole",
            points=points,
            edges={s.edge: self._edge(s.edge, paths[s.edge], amounts[s.edge]) for s in walk},
            outline=walk,
            cut_line=cutting_line,
            levels=levels,
            notches=notches,
            marks=self._marks(points, sewing_line),
            cut=Cut(lines.cut.count, lines.cut.cloth, fold, lines.cut.mirrored)
            if lines.cut is not None
            else Cut(1, CLOTH, fold, mirrored=False),
            grain=grain_line(flattened(sewing_line, FLATNESS), self._grain()),
            area_drawn=float(area(sewing_line[None])[0]),
            area_cut=float(area(cutting_line[None])[0]),
            darts=darts,
        )

    def _marks(self, points: Mapping[str, Point], sewing_line: Path) -> tuple[Mark, ...]:
        """The points that are marked; of a part of a piece those that lie in it."""
        marks = [
            Mark(n, points[n])
            for n in dict.fromkeys(m.point for m in self.lines.marks)
            if n in points
        ]
        if not self.lines.parted:
            return tuple(marks)
        chain = flattened(sewing_line, FLATNESS)
        return tuple(mark for mark in marks if lies_inside(chain, mark.at))

    def _report(self, code: str, place: Place | None, **facts: Any) -> None:
        self.problems.append(
            problem(code, place, body=self.order.body, piece=self.lines.name, **facts)
        )

    def _own(self, *places: Place) -> Place:
        """The first of these places that stands in the text of the piece itself: what came from its
        base was right before."""
        own = [place for place in places if place.file == self.lines.place.file]
        return (own or places)[0]

    def _grain(self) -> Point:
        return _DOWN if self.lines.grain is None else self.values.point(self.lines.grain)

    def _first_edge(self) -> str:
        fold = self.lines.fold
        return fold.edge if fold is not None else min(self.lines.edges)

    def _edge(self, name: str, path: Path, allowance: float) -> Edge:
        line, cut = self.lines.edges[name], length(path)
        sewn = self.values.number(line.sewn) if line.sewn is not None else cut
        on_fold = self.lines.fold is not None and name == self.lines.fold.edge
        return Edge(name, path, cut, sewn, allowance, on_fold, line.place)

    def _sound(self, paths: Mapping[str, Path], amounts: Mapping[str, float]) -> bool:
        """Whether there is an outline to walk: edges with a length, allowances that can be."""
        units = self.order.units
        if not paths:
            self._report("piece-without-edges", self.lines.place)
        for name, path in sorted(paths.items()):
            if not len(path):
                self._report("zero-length", self.lines.edges[name].place)
        self._report_negative(amounts)
        if self.lines.fold is not None:
            edge, place = self.lines.fold.edge, self.lines.fold.place
            stray = fold_strays(paths[edge], self._grain()) if len(paths[edge]) else 0.0
            if stray > FOLD_TOLERANCE:
                place = self._own(place, self.lines.edges[edge].place)
                self._report(
                    "fold-not-straight", place, edge=edge, stray=short_length(stray, units)
                )
        return not has_errors(self.problems)

    def _report_negative(self, amounts: Mapping[str, float]) -> None:
        """Allowances below nothing: one problem for each line that says so."""
        lines: dict[Place, list[str]] = {}
        for name in sorted(amounts):
            if amounts[name] < 0.0:
                place = self.lines.allowed_at.get(name, self.lines.place)
                lines.setdefault(place, []).append(name)
        for place, names in lines.items():
            amount = short_length(amounts[names[0]], self.order.units)
            edges = ", ".join(f"`{name}`" for name in names)
            self._report("allowance-negative", place, edges=edges, allowance=amount)

    def _report_break(self, found: Break) -> None:
        self._report(
            found.code,
            self._own(*(self.lines.edges[name].place for name in (found.edge, found.other))),
            edge=found.edge,
            other=found.other,
            gap=short_length(found.gap, self.order.units),
        )

    def _simple(self, paths: Mapping[str, Path], walk: tuple[OutlineStep, ...]) -> bool:
        """Whether the sewing line keeps clear of itself."""
        parts = walked(paths, walk)
        chains = [flattened(path, FLATNESS)[:-1] for path in parts]
        crossed = crossing_itself(np.concatenate(chains))
        if crossed is None:
            return True
        steps = np.repeat(np.arange(len(walk)), [len(chain) for chain in chains])
        first, second = (walk[steps[stretch]].edge for stretch in crossed)
        place = self._own(self.lines.edges[first].place, self.lines.edges[second].place)
        self._report("outline-crosses", place, edge=first, other=second)
        return False

    def _cutting_line(
        self,
        paths: Mapping[str, Path],
        walk: tuple[OutlineStep, ...],
        amounts: Mapping[str, float],
    ) -> Path | None:
        fold = self.lines.fold
        sides = [
            Side(
                path,
                amounts[step.edge],
                on_fold=fold is not None and step.edge == fold.edge,
                folds_back=folds_back(number, walk, amounts, self.sewn.joined),
            )
            for number, (step, path) in enumerate(zip(walk, walked(paths, walk), strict=True))
        ]
        asked = self._asked_corners(paths, walk)
        found = cut_line(sides, [each.shape for each in asked])
        if isinstance(found, TooTight):
            units = self.order.units
            self._report(
                "radius-too-small",
                self.lines.edges[walk[found.edge].edge].place,
                radius=spoken(found.radius, units),
                distance=spoken(sides[found.edge].allowance, units),
            )
            return None
        if isinstance(found, Crosses):
            self._report("allowance-crosses", self.lines.place)
            return None
        for each in asked:
            if each.shape in found.not_drawn:
                edge = walk[each.shape.edge].edge
                self._report("corner-not-drawn", each.place, edge=edge, shape=each.shape.shape)
        for hollow in found.trimmed:
            line = self.lines.edges[walk[hollow.edge].edge]
            name = f"{self.lines.name}.{walk[hollow.edge].edge}"
            points = {n: self.values.point(node) for n, node in self.lines.points.items()}
            allowance = sides[hollow.edge].allowance
            words = hollow_words(name, hollow, allowance, points, self.order.units)
            self.reports.append(Report(words, line.place))
        return found.path

    def _asked_corners(
        self, paths: Mapping[str, Path], walk: tuple[OutlineStep, ...]
    ) -> list[Asked]:
        asked = []
        for each in asked_corners(self.lines.corners, walk, walked(paths, walk), self.values):
            match each:
                case Asked():
                    asked.append(each)
                case Missing(edge, distance, place):
                    away = short_length(distance, self.order.units)
                    self._report("corner-missing", place, edge=edge, distance=away)
                case Twice(edge, other, place):
                    self._report("corner-twice", place, edge=edge, other=other)
        return asked

    def _levels(self, paths: Mapping[str, Path]) -> dict[str, Level]:
        levels = []
        for name, node in self.lines.levels.items():
            at = self.values.number(node)
            found = level_line(name, at, paths)
            if isinstance(found, Level):
                sewn = self.values.number(self.lines.widths[name]) if self.lines.darts else None
                levels.append(replace(found, sewn=sewn))
                continue
            self._report_missed(found, at, self.graph.places[node])
        return {level.name: level for level in sorted(levels, key=lambda lv: (lv.at, lv.name))}

    def _report_missed(self, missed: Missed, at: float, place: Place | None) -> None:
        down, highest, lowest = (
            spoken(mm, self.order.units) for mm in (at, missed.highest, missed.lowest)
        )
        self._report("level-misses", place, down=down, highest=highest, lowest=lowest)

    def _notches(
        self,
        paths: Mapping[str, Path],
        walk: tuple[OutlineStep, ...],
        darts: Mapping[str, Dart],
    ) -> tuple[Notch, ...]:
        """In the order of the outline. A notch of the piece's own that misses its edge is told; one
        that came with the base goes with the part of the edge that was replaced."""
        found: dict[tuple[str, str | Point], Notch] = {}  # by edge and name: given again, replaced
        turned = {step.edge: step.turned for step in walk}
        for line in self.lines.notches:
            at = self.values.point(line.at)
            count = cuts(
                self.lines.name,
                line.name,
                sewn_to_front=line.edge in self.sewn.to_front,
                on_fold=self._on_fold(at, paths),
            )
            edge = sewn_edge(self.lines.edges[line.edge], paths[line.edge], self.graph, self.values)
            against = turned[line.edge]
            notch = notch_at(line.edge, line.name, at, edge, turned=against, count=count)
            if isinstance(notch, Notch):
                found[line.edge, line.name or at] = notch
            elif not line.inherited:
                self._report(
                    "notch-off-edge",
                    line.place,
                    edge=line.edge,
                    distance=short_length(notch, self.order.units),
                )
        for dart in darts.values():
            if dart.edge is not None:
                drawn = self.lines.edges[dart.edge]
                edge = sewn_edge(drawn, paths[dart.edge], self.graph, self.values)
                for notch in dart_notches(dart, edge):
                    found[dart.edge, notch.name] = notch
        rank = {step.edge: number for number, step in enumerate(walk)}
        return tuple(sorted(found.values(), key=lambda notch: (rank[notch.edge], notch.along)))

    def _on_fold(self, at: Point, paths: Mapping[str, Path]) -> bool:
        if self.lines.fold is None:
            return False
        _, away = locate(paths[self.lines.fold.edge][None], np.array([at]))
        return float(away[0]) <= ON_EDGE
