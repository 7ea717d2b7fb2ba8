"""Turns lark's parse of one line into a record of `tree`.

In: a lark tree over the tokens of one logical line, and the file's name. Out: a `Statement`. Each
method is named for its rule in `grammar.lark`. Nothing fails: what parses can be built.
"""

from __future__ import annotations

from typing import Any

from lark import Token, Transformer, v_args
from lark.tree import Meta

from godet.base.places import Place
from godet.base.quantities import read_quantity
from godet.language import tree
from godet.language.tokens import place_of


def _text(token: Token | None) -> str:
    return token.value[1:-1] if token is not None else ""


@v_args(inline=True, meta=True)
class Builder(Transformer[Token, tree.Statement]):
    def __init__(self, file: str) -> None:
        super().__init__(visit_tokens=False)
        self._file = file

    def _at(self, meta: Meta) -> Place:
        return Place(self._file, meta.line, meta.column, meta.end_line, meta.end_column)

    def _word(self, token: Token) -> tree.Word:
        return tree.Word(str(token), place_of(token, self._file))

    # --- whole statements -----------------------------------------------------------------------

    def names(self, meta: Meta, *names: Token) -> tuple[tree.Word, ...]:
        return tuple(self._word(name) for name in names)

    words = names

    def sewn_before(self, meta: Meta, *seams: tree.Word) -> tuple[tree.Word, ...]:
        return seams

    def edition(self, meta: Meta, number: Token) -> tree.Edition:
        return tree.Edition(self._at(meta), self._word(number))

    def use(self, meta: Meta, names: tuple[tree.Word, ...], module: tree.Word) -> tree.Use:
        return tree.Use(self._at(meta), names, module)

    def module(self, meta: Meta, *folders_and_name: Token) -> tree.Word:
        return tree.Word(".".join(folders_and_name), self._at(meta))

    def recipe(self, meta: Meta, name: Token) -> tree.Recipe:
        return tree.Recipe(self._at(meta), self._word(name))

    def asked(self, meta: Meta, how: Token, name: Token) -> tuple[str, tree.Word]:
        return str(how), self._word(name)

    def takes(self, meta: Meta, name: Token, kind: Token, *rest: Any) -> tree.Takes:
        *asked, default = rest
        return tree.Takes(
            self._at(meta),
            self._word(name),
            self._word(kind),
            tuple(asked),
            default,
        )

    def block(
        self, meta: Meta, name: Token, *given: tuple[tree.Word | None, tree.BlockNamed] | None
    ) -> tree.BlockNamed:
        blocks = tuple(each for each in given if each is not None)
        return tree.BlockNamed(self._at(meta), self._word(name), blocks)

    def block_argument(
        self, meta: Meta, name: Token | None, block: tree.BlockNamed
    ) -> tuple[tree.Word | None, tree.BlockNamed]:
        return self._word(name) if name is not None else None, block

    def makes(self, meta: Meta, kind: Token) -> tree.Makes:
        return tree.Makes(self._at(meta), self._word(kind), kind_of=False)

    def makes_kind_of(self, meta: Meta, block: Token) -> tree.Makes:
        return tree.Makes(self._at(meta), self._word(block), kind_of=True)

    def leave_out(self, meta: Meta, _without: Token, block: Token, piece: Token) -> tree.LeaveOut:
        return tree.LeaveOut(self._at(meta), self._word(block), self._word(piece))

    def doc(self, meta: Meta, text: Token) -> tree.Doc:
        return tree.Doc(self._at(meta), _text(text))

    def end(self, meta: Meta) -> tree.End:
        return tree.End(self._at(meta))

    def kind(self, meta: Meta, name: Token, serves_as: tuple[tree.Word, ...] | None) -> tree.Kind:
        return tree.Kind(self._at(meta), name=self._word(name), serves_as=serves_as or ())

    def kind_points(
        self, meta: Meta, names: tuple[tree.Word, ...], optional: Token | None
    ) -> tree.KindMembers:
        return tree.KindMembers(self._at(meta), "point", names, optional is not None)

    def kind_levels(
        self, meta: Meta, names: tuple[tree.Word, ...], optional: Token | None
    ) -> tree.KindMembers:
        return tree.KindMembers(self._at(meta), "level", names, optional is not None)

    def kind_edges(
        self,
        meta: Meta,
        names: tuple[tree.Word, ...],
        first_end: Token | None,
        optional: Token | None,
    ) -> tree.KindMembers:
        end = self._word(first_end) if first_end is not None else None
        return tree.KindMembers(self._at(meta), "edge", names, optional is not None, end)

    def kind_darts(
        self,
        meta: Meta,
        double: Token | None,
        names: tuple[tree.Word, ...],
        optional: Token | None,
    ) -> tree.KindMembers:
        return tree.KindMembers(
            self._at(meta), "dart", names, optional is not None, double=double is not None
        )

    def kind_choices(
        self,
        meta: Meta,
        names: tuple[tree.Word, ...],
        type: tree.TypeName,
        optional: Token | None,
    ) -> tree.KindChoices:
        return tree.KindChoices(self._at(meta), names, type, optional is not None)

    def type(self, meta: Meta, name: Token, piece: Token | None) -> tree.TypeName:
        of_kind = str(piece) if piece is not None else None
        return tree.TypeName(self._at(meta), str(name), piece=of_kind)

    def type_word(self, meta: Meta, word: Token) -> Token:
        return word

    def words_type(self, meta: Meta, words: tuple[tree.Word, ...]) -> tree.TypeName:
        return tree.TypeName(self._at(meta), "words", tuple(w.text for w in words))

    def parameter(
        self, meta: Meta, name: Token, type: tree.TypeName, default: tree.Expression | None
    ) -> tree.Parameter:
        return tree.Parameter(self._word(name), type, default)

    def parameters(
        self, meta: Meta, *parameters: tree.Parameter | None
    ) -> tuple[tree.Parameter, ...]:
        return tuple(p for p in parameters if p is not None)

    def define(
        self,
        meta: Meta,
        name: Token,
        parameters: tuple[tree.Parameter, ...],
        value: tree.Expression,
        doc: Token | None,
    ) -> tree.Define:
        return tree.Define(self._at(meta), self._word(name), parameters, value, _text(doc))

    def define_curve(
        self,
        meta: Meta,
        name: Token,
        parameters: tuple[tree.Parameter, ...],
        chain: tree.Chain,
        doc: Token | None,
    ) -> tree.DefineCurve:
        return tree.DefineCurve(self._at(meta), self._word(name), parameters, chain, _text(doc))

    def define_piece(
        self,
        meta: Meta,
        name: Token,
        parameters: tuple[tree.Parameter, ...],
        base: tree.Expression | None,
    ) -> tree.DefinePiece:
        return tree.DefinePiece(
            self._at(meta), name=self._word(name), parameters=parameters, base=base
        )

    def deprecated(
        self, meta: Meta, name: Token, since: Token, until: Token, now: Token | None
    ) -> tree.Deprecated:
        instead = self._word(now) if now is not None else None
        editions = (self._word(since), self._word(until))
        return tree.Deprecated(self._at(meta), self._word(name), *editions, instead)

    def define_measure(self, meta: Meta, name: Token) -> tree.DefineMeasure:
        return tree.DefineMeasure(self._at(meta), name=self._word(name))

    def means(self, meta: Meta, text: Token) -> tree.Means:
        return tree.Means(self._at(meta), _text(text))

    def take(self, meta: Meta, text: Token) -> tree.Take:
        return tree.Take(self._at(meta), _text(text))

    def range(self, meta: Meta, low: tree.Expression, high: tree.Expression) -> tree.Range:
        return tree.Range(self._at(meta), low, high)

    def estimate(self, meta: Meta, value: tree.Expression, source: Token) -> tree.Estimate:
        return tree.Estimate(self._at(meta), value, _text(source))

    def measures(self, meta: Meta, names: tuple[tree.Word, ...]) -> tree.Measures:
        return tree.Measures(self._at(meta), names)

    def choose_words(
        self, meta: Meta, name: Token, words: tuple[tree.Word, ...], doc: Token | None
    ) -> tree.ChooseWords:
        return tree.ChooseWords(self._at(meta), self._word(name), words, _text(doc))

    def choose(
        self,
        meta: Meta,
        name: Token,
        default: tree.Expression,
        low: tree.Expression | None,
        high: tree.Expression | None,
        doc: Token | None,
    ) -> tree.Choose:
        return tree.Choose(self._at(meta), self._word(name), default, low, high, _text(doc))

    def let(self, meta: Meta, name: Token, value: tree.Expression) -> tree.Let:
        return tree.Let(self._at(meta), self._word(name), value)

    def set(self, meta: Meta, block: Token, choice: Token, value: tree.Expression) -> tree.Set:
        return tree.Set(self._at(meta), self._word(block), self._word(choice), value)

    def root(self, meta: Meta, how: Token, near: tree.Expression | None = None) -> Any:
        return str(how), near

    def find(
        self,
        meta: Meta,
        name: Token,
        low: tree.Expression,
        high: tree.Expression,
        left: tree.Expression,
        right: tree.Expression,
        root: tuple[str, tree.Expression | None] | None,
    ) -> tree.Find:
        how, near = root if root is not None else (None, None)
        return tree.Find(self._at(meta), self._word(name), low, high, left, right, how, near)

    def bases(self, meta: Meta, *bases: tree.Expression) -> tuple[tree.Expression, ...]:
        return bases

    def piece(
        self,
        meta: Meta,
        names: tuple[tree.Word, ...],
        bases: tuple[tree.Expression, ...] | None,
        follows: tuple[tree.Expression, ...] | None,
        when: tree.Expression | None,
        optional: Token | None,
    ) -> tree.Piece:
        return tree.Piece(
            self._at(meta),
            names=names,
            bases=bases or (),
            follows=follows or (),
            when=when,
            optional=optional is not None,
        )

    def edges(self, meta: Meta, *edges: tree.Expression) -> tuple[tree.Expression, ...]:
        return edges

    def manner(self, meta: Meta, how: Token, easing: tree.Expression | None = None) -> Any:
        return str(how), easing

    def seam(
        self,
        meta: Meta,
        name: Token,
        first: tuple[tree.Expression, ...],
        second: tuple[tree.Expression, ...],
        begun: tuple[tree.Expression, tree.Expression] | None,
        manner: tuple[str, tree.Expression | None] | None,
        between: tuple[tree.Expression, tree.Expression] | None,
        when: tree.Expression | None,
        after: tuple[tree.Word, ...] | None,
    ) -> tree.Seam:
        how, easing = manner if manner is not None else (None, None)
        return tree.Seam(
            self._at(meta),
            self._word(name),
            first=first,
            second=second,
            manner=how,
            easing=easing,
            after=after or (),
            begun=begun,
            between=between,
            when=when,
        )

    def begun(self, meta: Meta, first: tree.Expression, second: tree.Expression) -> Any:
        return first, second

    def between(self, meta: Meta, first: tree.Expression, second: tree.Expression) -> Any:
        return first, second

    def match(self, meta: Meta, seam: Token, *rest: Any) -> tree.Match:
        *points, when = rest
        return tree.Match(self._at(meta), self._word(seam), tuple(points), when)

    def require(self, meta: Meta, condition: tree.Expression, words: Token | None) -> tree.Check:
        return tree.Check(self._at(meta), "require", condition, _text(words))

    def advise(self, meta: Meta, condition: tree.Expression, words: Token | None) -> tree.Check:
        return tree.Check(self._at(meta), "advise", condition, _text(words))

    def point(self, meta: Meta, name: Token, value: tree.Expression) -> tree.PointIs:
        return tree.PointIs(self._at(meta), self._word(name), value)

    def edge(self, meta: Meta, name: Token, chain: tree.Chain) -> tree.CurveIs:
        return tree.CurveIs(self._at(meta), self._word(name), chain, edge=True)

    def curve(self, meta: Meta, name: Token, chain: tree.Chain) -> tree.CurveIs:
        return tree.CurveIs(self._at(meta), self._word(name), chain, edge=False)

    def level(self, meta: Meta, name: Token, at: tree.Expression) -> tree.LevelIs:
        return tree.LevelIs(self._at(meta), self._word(name), at)

    def on_edge(
        self,
        meta: Meta,
        edge: Token,
        at: tree.Expression,
        amount: tree.Expression,
        pivot: tree.Expression,
        short: tree.Expression | None,
        pressed: Token | None,
    ) -> tuple[Any, ...]:
        way = str(pressed) if pressed is not None else None
        return tree.DartOn, self._word(edge), at, amount, pivot, short, way

    def double(self, meta: Meta, *parts: tree.Expression) -> tuple[Any, ...]:
        return tree.DoubleDart, *parts

    def meeting(self, meta: Meta, *darts: tree.Expression) -> tuple[Any, ...]:
        return tree.MeetingDarts, *darts

    def dart(self, meta: Meta, name: Token, made: tuple[Any, ...]) -> tree.DartIs:
        record, *parts = made
        found: tree.DartIs = record(self._at(meta), self._word(name), *parts)
        return found

    # --- alterations ------------------------------------------------------------------------------

    def _maybe(self, name: Token | None) -> tree.Word | None:
        return self._word(name) if name is not None else None

    def alter(self, meta: Meta, *steps: tree.Alteration) -> tree.Alter:
        return tree.Alter(self._at(meta), steps)

    def swing_to(
        self, meta: Meta, edge: Token, at: tree.Expression, name: Token | None
    ) -> tuple[tree.Word, tree.Expression, None, tree.Word | None]:
        return self._word(edge), at, None, self._maybe(name)

    def swing_into(self, meta: Meta, dart: Token) -> tuple[None, None, tree.Word, None]:
        return None, None, self._word(dart), None

    def holding(self, meta: Meta, edge: Token) -> tree.Word:
        return self._word(edge)

    def swing(
        self,
        meta: Meta,
        share: tree.Expression | None,
        dart: Token,
        where: tuple[tree.Word | None, tree.Expression | None, tree.Word | None, tree.Word | None],
        holding: tree.Word | None,
    ) -> tree.Swing:
        return tree.Swing(self._at(meta), share, self._word(dart), *where, holding)

    def convert_on(
        self, meta: Meta, edge: Token, at: tree.Expression
    ) -> tuple[tree.Word, tree.Expression]:
        return self._word(edge), at

    def convert(
        self,
        meta: Meta,
        dart: Token,
        into: Token,
        over: tree.Expression | None,
        where: tuple[tree.Word, tree.Expression] | None,
        holding: tree.Word | None,
    ) -> tree.Convert:
        edge, at = where if where is not None else (None, None)
        words = self._word(dart), self._word(into)
        return tree.Convert(self._at(meta), *words, over, edge, at, holding)

    def spread_at(self, meta: Meta, at: tree.Expression) -> tuple[tree.Expression, None]:
        return at, None

    def spread_in(self, meta: Meta, count: Token) -> tuple[None, tree.Number]:
        return None, self.number(meta, count)

    def spread_both(
        self, meta: Meta, edge: Token, by: tree.Expression, at: tree.Expression | None
    ) -> tuple[tree.Word, tree.Expression | None, tree.Expression | None]:
        return self._word(edge), by, at

    def spread_hinged(
        self, meta: Meta, edge: Token, at: tree.Expression | None
    ) -> tuple[tree.Word, tree.Expression | None, tree.Expression | None]:
        return self._word(edge), None, at

    def spread(
        self,
        meta: Meta,
        edge: Token,
        by: tree.Expression,
        where: tuple[tree.Expression | None, tree.Number | None],
        other: tuple[tree.Word, tree.Expression | None, tree.Expression | None],
        holding: tree.Word | None,
    ) -> tree.Spread:
        (at, count), (other_edge, other_by, other_at) = where, other
        return tree.Spread(
            self._at(meta), self._word(edge), by, at, count, other_edge, other_by, other_at, holding
        )

    def divide(
        self,
        meta: Meta,
        along: tree.Expression,
        first: Token,
        last: Token,
        name: Token,
        keeping: Token,
    ) -> tree.Divide:
        words = (self._word(each) for each in (first, last, name, keeping))
        return tree.Divide(self._at(meta), along, *words)

    def join(self, meta: Meta, other: tree.Expression, edge: Token) -> tree.Join:
        return tree.Join(self._at(meta), other, self._word(edge))

    def unfold(self, meta: Meta, edge: Token) -> tree.Unfold:
        return tree.Unfold(self._at(meta), self._word(edge))

    # --- finishing --------------------------------------------------------------------------------

    def notch(
        self, meta: Meta, edge: Token, at: tree.Expression, when: tree.Expression | None
    ) -> tree.NotchAt:
        return tree.NotchAt(self._at(meta), self._word(edge), at, when)

    def allow(
        self, meta: Meta, amount: tree.Expression | Token, *rest: Token | tree.Cornered
    ) -> tree.Allow:
        given = None if isinstance(amount, Token) else amount
        edges = tuple(self._word(each) for each in rest if isinstance(each, Token))
        corners = tuple(each for each in rest if isinstance(each, tree.Cornered))
        return tree.Allow(self._at(meta), given, edges, corners)

    def cornered(self, meta: Meta, *rest: Any) -> tree.Cornered:
        *shape, at = rest  # `square` is a word of other rules too, and leaves no token here
        return tree.Cornered(self._at(meta), str(shape[0]) if shape else "square", at)

    def fold(self, meta: Meta, edge: Token, when: tree.Expression | None) -> tree.Fold:
        return tree.Fold(self._at(meta), self._word(edge), when)

    def fold_as(self, meta: Meta, edge: Token, like: tree.Expression) -> tree.Fold:
        return tree.Fold(self._at(meta), self._word(edge), like=like)

    def fold_none(self, meta: Meta, _none: Token) -> tree.Fold:
        return tree.Fold(self._at(meta), None)

    def grain(self, meta: Meta, direction: tree.Direction) -> tree.Grain:
        return tree.Grain(self._at(meta), direction)

    def cut(self, meta: Meta, count: Token, cloth: Token, mirrored: Token | None) -> tree.CutOf:
        number = self._number(count)
        return tree.CutOf(self._at(meta), number, self._word(cloth), mirrored is not None)

    def mark(
        self, meta: Meta, names: tuple[tree.Word, ...], when: tree.Expression | None
    ) -> tree.Mark:
        return tree.Mark(self._at(meta), names, when)

    def title(self, meta: Meta, text: Token) -> tree.Title:
        return tree.Title(self._at(meta), _text(text))

    # --- curves ---------------------------------------------------------------------------------

    def chain(self, meta: Meta, *parts: Any) -> tree.Chain:
        drawn = tuple(p for p in parts if not isinstance(p, tree.Blended))
        blends = tuple(p for p in parts if isinstance(p, tree.Blended))
        return tree.Chain(self._at(meta), drawn, blends)

    def part(
        self,
        meta: Meta,
        curve: tree.Expression,
        until: tree.Expression | None,
        start: tree.Expression | None,
        backward: Token | None,
        reshaped: tree.Expression | None,
        extended: tree.Expression | None,
    ) -> tree.Part:
        turned = backward is not None
        return tree.Part(self._at(meta), curve, until, start, turned, reshaped, extended)

    def through(self, meta: Meta, *points: tree.Expression | None) -> tuple[tree.Expression, ...]:
        return tuple(p for p in points if p is not None)

    def leaving(self, meta: Meta, direction: tree.Direction | None) -> tree.Direction | None:
        return direction

    arriving = leaving

    def tension(self, meta: Meta, tension: tree.Expression | None) -> tree.Expression | None:
        return tension

    def line(self, meta: Meta, first: tree.Expression, last: tree.Expression) -> tree.Segment:
        return tree.Segment(self._at(meta), "line", first, (), last)

    def line_on(self, meta: Meta, last: tree.Expression) -> tree.Segment:
        return tree.Segment(self._at(meta), "line", None, (), last)

    def smooth(
        self,
        meta: Meta,
        first: tree.Expression | None,
        through: tuple[tree.Expression, ...],
        last: tree.Expression,
        leaving: tree.Direction | Token | None,
        arriving: tree.Direction | None,
        tension: tree.Expression | None,
    ) -> tree.Segment:
        smoothly = isinstance(leaving, Token)
        return tree.Segment(
            self._at(meta),
            "curve",
            first,
            through,
            last,
            leaving=None if isinstance(leaving, Token) else leaving,
            arriving=arriving,
            smoothly=smoothly,
            tension=tension,
        )

    def smooth_on(self, meta: Meta, *parts: Any) -> tree.Segment:
        through, last, leaving, arriving, tension = parts
        return tree.Segment(
            self._at(meta),
            "curve",
            None,
            through,
            last,
            leaving=None if isinstance(leaving, Token) else leaving,
            arriving=arriving,
            smoothly=isinstance(leaving, Token),
            tension=tension,
        )

    def arc(
        self, meta: Meta, first: tree.Expression, last: tree.Expression, end: Any
    ) -> tree.Segment:
        how, by = end
        return tree.Segment(
            self._at(meta),
            "arc",
            first,
            (),
            last,
            leaving=by if how == "leaving" else None,
            arriving=by if how == "arriving" else None,
            square_to=by if how == "square" else None,
        )

    def arc_square(self, meta: Meta, edge: tree.Expression) -> tuple[str, tree.Expression]:
        return "square", edge

    def arc_leaving(self, meta: Meta, direction: tree.Direction) -> tuple[str, tree.Expression]:
        return "leaving", direction

    def arc_arriving(self, meta: Meta, direction: tree.Direction) -> tuple[str, tree.Expression]:
        return "arriving", direction

    def arc_on(self, meta: Meta, last: tree.Expression) -> tree.Segment:
        return tree.Segment(self._at(meta), "arc", None, (), last, smoothly=True)

    def parallel(
        self, meta: Meta, curve: tree.Expression, distance: tree.Expression
    ) -> tree.Parallel:
        return tree.Parallel(self._at(meta), curve, distance)

    def blended(
        self, meta: Meta, at: tree.Expression, over: tree.Expression, fair: Token | None
    ) -> tree.Blended:
        return tree.Blended(self._at(meta), at, over, fair is not None)

    def compass(self, meta: Meta, way: Token) -> tree.Direction:
        return tree.Direction(self._at(meta), str(way))

    def at_angle(self, meta: Meta, angle: tree.Expression) -> tree.Direction:
        return tree.Direction(self._at(meta), "at", angle)

    def toward(self, meta: Meta, point: tree.Expression) -> tree.Direction:
        return tree.Direction(self._at(meta), "toward", point)

    def square(self, meta: Meta, edge: tree.Expression) -> tree.Direction:
        return tree.Direction(self._at(meta), "square", edge)

    def along_edge(self, meta: Meta, edge: tree.Expression) -> tree.Direction:
        return tree.Direction(self._at(meta), "along", edge)

    # --- expressions ----------------------------------------------------------------------------

    def either(
        self, meta: Meta, test: tree.Expression, then: tree.Expression, other: tree.Expression
    ) -> tree.Either:
        return tree.Either(self._at(meta), test, then, other)

    def any_of(self, meta: Meta, left: tree.Expression, right: tree.Expression) -> tree.AnyOf:
        return tree.AnyOf(self._at(meta), left, right)

    def both(self, meta: Meta, left: tree.Expression, right: tree.Expression) -> tree.Both:
        return tree.Both(self._at(meta), left, right)

    def negated(self, meta: Meta, value: tree.Expression) -> tree.Negated:
        return tree.Negated(self._at(meta), value)

    def compared(
        self, meta: Meta, left: tree.Expression, sign: Token, right: tree.Expression
    ) -> tree.Compared:
        return tree.Compared(self._at(meta), str(sign), left, right)

    def is_word(
        self, meta: Meta, value: tree.Expression, negated: Token | None, word: Token
    ) -> tree.IsWord:
        return tree.IsWord(self._at(meta), value, self._word(word), negated is not None)

    def has(self, meta: Meta, owner: tree.Expression, member: Token) -> tree.Has:
        return tree.Has(self._at(meta), owner, self._word(member))

    def moves(self, meta: Meta, start: tree.Expression, *moves: tree.Move) -> tree.Moves:
        return tree.Moves(self._at(meta), start, moves)

    def move_compass(self, meta: Meta, way: Token, distance: tree.Expression) -> tree.Move:
        return tree.Move(tree.Direction(place_of(way, self._file), str(way)), distance)

    def move_toward(
        self, meta: Meta, point: tree.Expression, distance: tree.Expression
    ) -> tree.Move:
        return tree.Move(tree.Direction(self._at(meta), "toward", point), distance)

    def move_at(self, meta: Meta, angle: tree.Expression, distance: tree.Expression) -> tree.Move:
        return tree.Move(tree.Direction(self._at(meta), "at", angle), distance)

    def share(
        self, meta: Meta, share: tree.Expression, first: tree.Expression, last: tree.Expression
    ) -> tree.Share:
        return tree.Share(self._at(meta), share, first, last)

    def midway(self, meta: Meta, first: tree.Expression, last: tree.Expression) -> tree.Share:
        return tree.Share(self._at(meta), None, first, last)

    def along(
        self, meta: Meta, edge: tree.Expression, end: tree.Expression, by: tree.Expression
    ) -> tree.AlongEdge:
        return tree.AlongEdge(self._at(meta), edge, end, by)

    def selector(self, meta: Meta, how: Any, reference: tree.Expression | None = None) -> Any:
        if isinstance(how, Token):
            return str(how), reference
        return "first", how

    def crossing(
        self,
        meta: Meta,
        first: tree.Expression,
        second: tree.Expression,
        selector: tuple[str, tree.Expression | None] | None,
    ) -> tree.Crossing:
        how, reference = selector if selector is not None else (None, None)
        return tree.Crossing(self._at(meta), first, second, how, reference)

    def nearest(self, meta: Meta, curve: tree.Expression, to: tree.Expression) -> tree.Nearest:
        return tree.Nearest(self._at(meta), curve, to)

    def extreme(self, meta: Meta, way: Token, curve: tree.Expression) -> tree.Extreme:
        return tree.Extreme(self._at(meta), str(way), curve)

    def binary(
        self, meta: Meta, left: tree.Expression, sign: Token, right: tree.Expression
    ) -> tree.Binary:
        return tree.Binary(self._at(meta), str(sign), left, right)

    def negative(self, meta: Meta, _minus: Token, value: tree.Expression) -> tree.Negative:
        return tree.Negative(self._at(meta), value)

    def raised(self, meta: Meta, base: tree.Expression, exponent: Token) -> tree.Raised:
        return tree.Raised(self._at(meta), base, self._number(exponent))

    def _number(self, token: Token) -> tree.Number:
        quantity = read_quantity(str(token))
        assert quantity is not None  # else the lexer had called it unreadable
        return tree.Number(place_of(token, self._file), quantity, str(token))

    def number(self, meta: Meta, token: Token) -> tree.Number:
        return self._number(token)

    def text(self, meta: Meta, token: Token) -> tree.Text:
        return tree.Text(place_of(token, self._file), _text(token))

    def name(self, meta: Meta, token: Token) -> tree.Name:
        return tree.Name(place_of(token, self._file), str(token))

    none = name

    def as_cut(self, meta: Meta, curve: tree.Expression) -> tree.AsCut:
        return tree.AsCut(self._at(meta), curve)

    def dotted(self, meta: Meta, owner: tree.Expression, member: Token) -> tree.Dotted:
        return tree.Dotted(self._at(meta), owner, self._word(member))

    def argument(self, meta: Meta, name: Token | None, value: tree.Expression) -> tree.Argument:
        return tree.Argument(self._word(name) if name is not None else None, value)

    def arguments(self, meta: Meta, *arguments: tree.Argument | None) -> tuple[tree.Argument, ...]:
        return tuple(a for a in arguments if a is not None)

    def call(self, meta: Meta, name: Token, arguments: tuple[tree.Argument, ...]) -> tree.Call:
        return tree.Call(self._at(meta), self._word(name), arguments)
