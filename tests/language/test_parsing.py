"""Reading: well-formed texts give the tree a reader expects."""

from __future__ import annotations

from fractions import Fraction

import pytest
from small_recipes import DRESS, SMALL_LIBRARY

from godet.language import tree
from godet.language.parser import parse


def parsed(text: str) -> tree.File:
    """The tree of a text that is right."""
    file, problems = parse(text, "dress.godet")
    assert problems == ()
    return file


def only(text: str) -> tree.Statement:
    (statement,) = parsed(text).statements
    return statement


def outline(statements: tuple[tree.Statement, ...], depth: int = 0) -> list[str]:
    """One word a statement, the blocks indented: small enough to compare by eye."""
    lines: list[str] = []
    for statement in statements:
        names = getattr(statement, "names", None) or [getattr(statement, "name", None)]
        words = " ".join(name.text for name in names if isinstance(name, tree.Word))
        lines.append(f"{'  ' * depth}{type(statement).__name__} {words}".rstrip())
        if isinstance(statement, tree.Block):
            lines += outline(statement.body, depth + 1)
    return lines


def test_a_recipe_reads_into_its_outline():
    file = parsed(DRESS)
    assert file.doc == "A top carried on below the waist."
    assert outline(file.statements) == [
        "Edition",
        "Recipe plain_dress",
        "Takes top",
        "Makes dress",
        "Use usable_stretch ease_at_hip",
        "Measures hip_girth waist_to_hip",
        "ChooseWords fit",
        "Choose skirt_length",
        "Let hip_width",
        "Piece front back",
        "  PointIs hip_side",
        "  PointIs hem_side",
        "  PointIs hem_centre",
        "  Find hem_depth",
        "  CurveIs side",
        "  CurveIs centre",
        "  CurveIs bottom",
        "  LevelIs hip",
        "  NotchAt",
        "  Allow",
        "Check",
    ]


def test_a_kind_reads_into_its_outline():
    file = parsed((SMALL_LIBRARY / "kinds.godet").read_text(encoding="utf-8"))
    assert outline(file.statements)[:12] == [
        "Edition",
        "Kind bodice",
        "  Piece front back",
        "    KindMembers centre_neck side_neck underarm centre_waist side_waist",
        "    KindMembers shoulder_point",
        "    KindMembers bust_point",
        "    KindMembers bust waist",
        "    KindMembers centre side",
        "    KindMembers neck shoulder bottom",
        "    KindMembers armhole",
        "    KindMembers bust_dart waist_dart",
        "  Piece sleeve pocket",
    ]
    bodice = file.statements[1]
    assert isinstance(bodice, tree.Kind)
    assert bodice.doc.startswith("Worn on the upper body")
    front = bodice.body[0]
    assert isinstance(front, tree.Piece)
    sides = front.body[4]
    assert isinstance(sides, tree.KindMembers)
    assert sides.first_end is not None
    assert (sides.sort, sides.optional, sides.first_end.text) == ("edge", False, "top")


# every form of statement that can stand on a line of its own
FORMS = {
    "edition 1": tree.Edition,
    "use usable_stretch, ease_at_hip from ease": tree.Use,
    "recipe dress": tree.Recipe,
    "takes top: bodice with bust_point without waist_dart = knit_tee": tree.Takes,
    "takes top: bodice": tree.Takes,
    "makes dress": tree.Makes,
    "without top.pocket": tree.LeaveOut,
    "define half(a: length) = a / 2": tree.Define,
    'define pick(f: one of (a, b), more: length = 0cm) = more "words"': tree.Define,
    "measure hip_girth, waist_girth": tree.Measures,
    'choose fit = one of close, loose "how near"': tree.ChooseWords,
    'choose hem = 3cm from 1cm to 5cm "turned up"': tree.Choose,
    "choose hem = 3cm": tree.Choose,
    "let a = b + 2cm": tree.Let,
    "find d from 1cm to 9cm so that length(c) = 30cm": tree.Find,
    "find d from 1cm to 9cm so that length(c) = 30cm, lowest": tree.Find,
    "find d from 1cm to 9cm so that length(c) = 30cm, nearest 5cm": tree.Find,
    "find d from 1cm to 9cm so that length(c) = e, near 5cm": tree.Find,
    "seam s: a.e to b.f, whole(c.g) easing 1cm after t, u": tree.Seam,
    "seam s: a.e to b.f stretched": tree.Seam,
    "seam s: a.e to b.f gathered": tree.Seam,
    "seam s: a.e to a.e easing 1cm when opening is zip or b after t": tree.Seam,
    "match s at a.p, a.q when opening is not zip": tree.Match,
    'require a >= b "too tight"': tree.Check,
    "advise a < b and not c is knit or d": tree.Check,
    "point p = q down 2cm outward 3cm": tree.PointIs,
    "point p = q toward r by 2cm": tree.PointIs,
    "point p = q at 20deg by 12cm": tree.PointIs,
    "point p = 1/3 of the way from q to r": tree.PointIs,
    "point p = midway q and r": tree.PointIs,
    "point p = along side from q by 40 %": tree.PointIs,
    "point p = crossing of side with hip nearest q": tree.PointIs,
    "point p = crossing of side with hip first along side": tree.PointIs,
    "edge e = line p to q": tree.CurveIs,
    "edge e = curve p through q, r to s leaving down arriving square to f": tree.CurveIs,
    "edge e = curve p to q leaving toward r arriving along f": tree.CurveIs,
    "edge e = arc p to q, square to f": tree.CurveIs,
    "edge e = arc p to q leaving outward, then arc to r": tree.CurveIs,
    "edge e = arc p to q arriving at 20deg": tree.CurveIs,
    "edge e = base.e until p, then line to q, blended at p over 8cm": tree.CurveIs,
    "edge e = base.e from p, then curve to q smoothly": tree.CurveIs,
    "edge e = base.e extended by 3cm": tree.CurveIs,
    "edge e = base.e until p from q reversed reshaped to 9cm extended by 3cm": tree.CurveIs,
    "edge e = curve p through q to r leaving down tension 4/3": tree.CurveIs,
    "edge e = line p to q, then curve to r smoothly arriving up tension t": tree.CurveIs,
    "edge e = base.e, then line to q, blended at p over 8cm fair": tree.CurveIs,
    "point p = nearest on side to bust_point down 2cm": tree.PointIs,
    "point p = lowest of hem": tree.PointIs,
    "edge e = parallel to f by 3cm": tree.CurveIs,
    "curve c = line p to q": tree.CurveIs,
    "level hip = across at p": tree.LevelIs,
    "notch side at p": tree.NotchAt,
    "notch side at if a then p else q when b > 3cm": tree.NotchAt,
    "allow 1cm on side, bottom": tree.Allow,
    "allow none on centre": tree.Allow,
    "allow 1cm on neck, shoulder, square at p, rounded at q": tree.Allow,
    "allow 3cm on bottom, folded at p toward q by 1cm, mitred at r": tree.Allow,
    "fold centre": tree.Fold,
    "fold centre when opening is not zip": tree.Fold,
    "fold none": tree.Fold,
    "grain down": tree.Grain,
    "grain at 45deg": tree.Grain,
    "cut 2 of lining, mirrored": tree.CutOf,
    "mark p, q": tree.Mark,
    "mark p, q when a": tree.Mark,
    'title "Front"': tree.Title,
}


@pytest.mark.parametrize("text", FORMS)
def test_every_form_of_statement_reads(text: str):
    statement = only(text)
    assert type(statement) is FORMS[text]
    place = statement.place
    assert (place.line, place.column, place.end_column) == (1, 1, len(text) + 1)


@pytest.mark.parametrize(
    ("typed", "value", "kind"),
    # an inch is 25.4 mm and a yard 36 inches, exactly (international agreement of 1959)
    [
        ("14 3/8 in", Fraction(115, 8) * Fraction(254, 10), "length"),
        ("1/2 yd", Fraction(4572, 10), "length"),
        ("2.5cm", Fraction(25), "length"),
        ("6 mm", Fraction(6), "length"),
        ("1/3", Fraction(1, 3), "bare"),
        ("12 %", Fraction(12, 100), "ratio"),
        ("12%", Fraction(12, 100), "ratio"),
        ("20deg", Fraction(20), "angle"),
    ],
)
def test_a_number_keeps_its_exact_value_and_how_it_was_typed(
    typed: str, value: Fraction, kind: str
):
    let = only(f"let a = {typed}")
    assert isinstance(let, tree.Let)
    number = let.value
    assert isinstance(number, tree.Number)
    assert (number.typed, number.quantity.value, number.quantity.kind) == (typed, value, kind)


def test_in_is_a_unit_behind_a_number_and_a_word_elsewhere():
    assert isinstance(only("choose a = 1 in from 1/2 in to 2 in"), tree.Choose)
    _, problems = parse("let in = 2cm", "dress.godet")
    assert [p.code for p in problems] == ["word-is-no-name"]


def test_a_line_that_ends_in_a_comma_goes_on_over_comments_and_empty_lines():
    edge = only("edge e = base.e until p,   # the old part\n\n  then line to q")
    assert isinstance(edge, tree.CurveIs)
    assert len(edge.chain.parts) == 2
    assert (edge.place.line, edge.place.end_line) == (1, 3)


def test_the_lines_of_windows_and_a_mark_of_byte_order_read_the_same():
    unix = outline(parsed(DRESS).statements)
    assert outline(parsed(DRESS.replace("\n", "\r\n")).statements) == unix


def test_arithmetic_binds_as_at_school():
    let = only("let a = b + c * d ^ 2 - -e")
    assert isinstance(let, tree.Let)

    def spelled(e: tree.Expression) -> str:
        match e:
            case tree.Binary():
                return f"({spelled(e.left)} {e.sign} {spelled(e.right)})"
            case tree.Negative():
                return f"(-{spelled(e.value)})"
            case tree.Raised():
                return f"({spelled(e.base)} ^ {e.exponent.typed})"
            case tree.Name():
                return e.name
        raise AssertionError(e)

    assert spelled(let.value) == "((b + (c * (d ^ 2))) - (-e))"


def test_moves_bind_last():
    point = only("point p = q down a - b outward c")
    assert isinstance(point, tree.PointIs)
    assert isinstance(point.value, tree.Moves)
    down, outward = point.value.moves
    assert isinstance(down.distance, tree.Binary)
    assert (down.direction.how, outward.direction.how) == ("down", "outward")
