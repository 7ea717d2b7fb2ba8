"""Unknowns that need each other: against closed forms, scipy's `root` and numpy's `solve`."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import root
from small_recipes import HEADING, MEASURES, compiled, draft, inputs, solved, told, values

from godet.program.draft import Draft
from godet.program.unknowns import groups
from godet.solve.outcome import Failure
from godet.solve.schedule import find_step

HIP = f"{HEADING}measure hip_girth, waist_girth\n"


def found(lines: str, names: str = "x y", **measures: object) -> list[list[float]]:
    """The values of the unknowns (a list each, over bodies)."""
    lets = "".join(f"let found_{name} = {name}\n" for name in names.split())
    made = draft(HIP + lets + lines)
    given_ = inputs(made, {**MEASURES, **measures})
    return [values(made, f"found_{name}", given_) for name in names.split()]


def failures(lines: str, **measures: object) -> tuple[list[Failure], Draft]:
    made = draft(f"{HIP}let both = x + y\n{lines}")
    return list(solved(made, ["both"], inputs(made, {**MEASURES, **measures})).failures), made


def failure(lines: str, **measures: object) -> tuple[str, str, dict[str, float], dict[str, float]]:
    """The code, the unknown blamed, the numbers, and the other unknowns with theirs."""
    (only,), made = failures(lines, **measures)
    names = {line.unknown: line.name for line in made.finds}
    others = {names[node]: apart for node, apart in only.others.items()}
    return only.code, names[only.node], dict(only.numbers), others


# --- linear ---------------------------------------------------------------------------------------

SKIRT = (
    # four gores and a yoke: the gore is as much wider than the yoke as the hip than the waist
    "find x from 1cm to 60cm so that 2 * x + 2 * y = hip_girth\n"
    "find y from 1cm to 60cm so that x - y = (hip_girth - waist_girth) / 4\n"
)


def test_two_linear_equations_are_solved_for_every_body():
    hips, waists = np.array([980.0, 1100.0, 840.0]), np.array([740.0, 900.0, 600.0])
    x, y = found(SKIRT, hip_girth=hips, waist_girth=waists)
    # by hand: x + y = hip / 2 and x - y = (hip - waist) / 4
    np.testing.assert_allclose(x, hips / 4 + (hips - waists) / 8, atol=1e-10)
    np.testing.assert_allclose(y, hips / 4 - (hips - waists) / 8, atol=1e-10)


def test_an_equation_may_leave_its_own_unknown_to_the_others():
    x, y = found(
        "find x from 1cm to 60cm so that y = 12cm\nfind y from 1cm to 60cm so that x + y = 20cm\n"
    )
    assert (x, y) == ([80.0], [120.0])


numbers = st.integers(-40, 40).map(lambda n: n / 8)


@settings(max_examples=40, deadline=None)
@given(st.integers(2, 4), st.data())
def test_a_linear_system_is_solved_as_numpy_solves_it(size: int, data: st.DataObject):
    slopes = np.array(data.draw(st.lists(numbers, min_size=size * size, max_size=size * size)))
    slopes = slopes.reshape(size, size)
    assume(np.linalg.cond(slopes) < 100.0)
    sides = np.array(data.draw(st.lists(numbers, min_size=size, max_size=size)))
    names = "pqrs"[:size]
    # every equation names every unknown, so that they are one group
    lines = "".join(
        f"find {name} from -9m to 9m so that "
        + " + ".join(f"({slope}) * {other}" for slope, other in zip(row, names, strict=True))
        + f" = {side}cm\n"
        for name, row, side in zip(names, slopes, sides, strict=True)
    )
    expected = np.linalg.solve(slopes, sides * 10.0)  # numpy, by LAPACK; in mm
    assume(np.all(np.abs(expected) < 8_999.0))
    got = found(lines.replace("= -", "= -1 * "), " ".join(names))
    np.testing.assert_allclose(np.ravel(got), expected, atol=1e-9)


@pytest.mark.parametrize(
    ("equation", "linear"),
    [
        ("2 * x - y / 4 = -(x + 3cm)", True),
        ("across_from(a, b) = 30cm - y", True),
        ("down_from(a, 1/3 of the way from a to b) = y", True),
        ("across_from(a, a + (b - a)) = y", True),
        ("across_from(a, midway a and b) + y = hip_girth * sin(20deg)", True),
        ("(if hip_girth > 90cm then x else 2 * x) + y = 40cm", True),
        ("down_from(a, a toward c by x) = y", True),
        ("x * y = 30cm * 1cm", False),
        ("x / y = 3", False),
        ("distance(a, b) = y", False),
        ("length(slant) = y", False),
        ("max(x, 2cm) = y", False),
        ("(if x > 3cm then x else 2 * x) = y", False),
        ("across_from(a, a at slope(x, 3cm) by 3cm) = y", False),
        ("down_from(a, a toward b by 3cm) = y", False),
        ("down_from(a, x / 1m of the way from a to b) = y", False),
    ],
)
def test_it_is_told_from_the_text_whether_an_equation_is_linear(equation: str, linear: bool):
    made = draft(
        f"{HIP}piece flap\n  point a = origin\n  point b = a outward x down x / 2\n"
        "  point c = a outward 10cm down 10cm\n  edge slant = line a to b\n"
        f"  find x from 1cm to 60cm so that {equation}\n"
        "  find y from 1cm to 60cm so that x + y = 70cm\nend\n"
    )
    (group,) = groups(made.graph, made.finds)
    assert [line.name for line in group] == ["flap.x", "flap.y"]
    assert find_step(made.graph, group).linear is linear


@pytest.mark.parametrize(
    ("second", "code", "numbers", "others"),
    [
        ("2 * x + 2 * y = 9cm", "equations-contradict", {"apart": 10.0}, {"x": 0.0}),
        ("2 * x + 2 * y = 8cm", "equation-redundant", {}, {"x": 0.0}),
    ],
)
def test_an_equation_that_repeats_another_and_one_that_gainsays_it_are_told_apart(
    second: str, code: str, numbers: dict[str, float], others: dict[str, float]
):
    lines = "find x from 0cm to 5cm so that x + y = 4cm\n"
    lines += f"find y from 0cm to 5cm so that {second}\n"
    assert failure(lines) == (code, "y", numbers, others)


def test_an_unknown_of_which_no_equation_speaks_for_a_body_is_told():
    lines = (
        "find x from 1cm to 9cm so that y = 4cm\n"
        "find y from 1cm to 9cm so that (hip_girth / waist_girth - 1) * x + 2 * y = 8cm + 1mm\n"
    )
    # with hip and waist alike x falls out, and y is settled twice over
    told_ = failure(lines.replace(" + 1mm", ""), waist_girth=980.0)
    assert told_ == ("unknown-not-settled", "x", {}, {})
    # y can't be 4 cm and 4.05 cm; for the other body x is 1 mm
    found_, _ = failures(lines, hip_girth=[980.0, 980.0], waist_girth=[980.0, 490.0])
    assert [(f.body, f.code) for f in found_] == [
        (0, "equations-contradict"),
        (1, "answer-outside-range"),
    ]
    assert found_[1].numbers == {
        "lowest": 10.0,
        "highest": 90.0,
        "value": pytest.approx(1.0, abs=1e-10),
    }


def test_of_three_equations_only_those_that_quarrel_are_blamed():
    lines = (
        "find x from 0cm to 9cm so that x + y + z = 9cm\n"
        "find y from 0cm to 9cm so that x - y = 1cm\n"
        "find z from 0cm to 9cm so that 2 * x - 2 * y + 0 * z = {}\n"
    )
    code, name, numbers, others = failure(lines.format("6cm"))
    assert code == "equations-contradict"
    assert {name, *others} == {"y", "z"}
    assert numbers["apart"] in (pytest.approx(40.0), pytest.approx(20.0))
    code, name, _, others = failure(lines.format("2cm"))
    assert code == "equation-redundant"
    assert {name, *others} == {"y", "z"}


@settings(max_examples=40, deadline=None)
@given(st.integers(2, 4), st.integers(1, 3), st.booleans(), st.data())
def test_a_system_is_deficient_exactly_where_numpy_finds_its_rank_deficient(
    size: int, rank: int, consistent: bool, data: st.DataObject
):
    rank = min(rank, size)
    small = st.integers(-4, 4).map(float)

    def drawn(rows: int, columns: int) -> np.ndarray:
        cells = data.draw(st.lists(small, min_size=rows * columns, max_size=rows * columns))
        return np.array(cells).reshape(rows, columns)

    slopes = drawn(size, rank) @ drawn(rank, size)
    answer = data.draw(st.lists(small, min_size=size, max_size=size))
    sides = slopes @ np.array(answer) + (0.0 if consistent else drawn(size, 1)[:, 0])
    names = "xyzw"[:size]
    lines = "".join(
        f"find {name} from -9m to 9m so that "
        + " + ".join(f"({slope}) * {other}" for slope, other in zip(row, names, strict=True))
        + f" = ({side}) * 1cm\n"
        for name, row, side in zip(names, slopes, sides, strict=True)
    )
    whole = np.linalg.matrix_rank(slopes)
    together = np.linalg.matrix_rank(np.column_stack([slopes, sides]))
    made = draft(f"{HIP}let both = {' + '.join(names)}\n{lines}")
    outcome = solved(made, ["both"], inputs(made, MEASURES))
    codes = {failure.code for failure in outcome.failures}
    if whole == size:
        assert codes <= {"answer-outside-range"}
    elif whole == together:
        assert codes
        assert codes <= {"equation-redundant", "unknown-not-settled"}
    else:
        assert codes
        assert codes <= {"equations-contradict", "sides-always-apart"}


# --- not linear -----------------------------------------------------------------------------------

OBLONG = (
    # an oblong as large as asked for, and as much longer than wide
    "find x from 1cm to 90cm so that x * y = hip_girth * 20cm{}\n"
    "find y from 1cm to 90cm so that y - x = waist_girth / 4\n"
)


def oblong(hip: np.ndarray, waist: np.ndarray) -> np.ndarray:
    """The width of the oblong, by the formula of the quadratic equation."""
    return np.sqrt((waist / 8) ** 2 + hip * 200.0) - waist / 8


def test_two_equations_that_are_not_linear_are_solved_for_every_body():
    hips, waists = np.array([980.0, 1100.0, 840.0]), np.array([740.0, 900.0, 600.0])
    x, y = found(OBLONG.format(""), hip_girth=hips, waist_girth=waists)
    np.testing.assert_allclose(x, oblong(hips, waists), atol=1e-10)
    np.testing.assert_allclose(y, oblong(hips, waists) + waists / 4, atol=1e-10)


def test_unknowns_of_two_pieces_may_need_each_other():
    piece = (
        "piece {}\n  point a = origin\n  point b = a outward wide\n  point c = b outward 4cm "
        "down {}\n  edge top = line a to b\n  edge slant = line b to c\n  edge low = line c to a\n"
        "  find wide from 2cm to 80cm so that {}\nend\n"
    )
    text = (
        HIP
        + piece.format("front", "14cm", "length(front.low) + length(back.low) = hip_girth / 2")
        + piece.format("back", "10cm", "length(low) = length(front.low) + front.wide / 10")
    )
    made = draft(text)
    hips = [840.0, 980.0, 1200.0]
    given_ = inputs(made, {**MEASURES, "hip_girth": hips})
    outcome = solved(made, ["front.wide", "back.wide"], given_)
    assert outcome.failures == ()
    for body, hip in enumerate(hips):

        def apart(wide: np.ndarray, hip: float = hip) -> list[float]:
            front, back = np.hypot(wide[0] + 40.0, 140.0), np.hypot(wide[1] + 40.0, 100.0)
            return [front + back - hip / 2, back - front - wide[0] / 10]

        expected = root(apart, [200.0, 200.0], tol=1e-13).x  # scipy
        got = [outcome.value(made.names[f"{p}.wide"], body) for p in ("front", "back")]
        np.testing.assert_allclose(got, expected, atol=1e-9)


def test_girths_and_widths_of_whole_pieces_may_stand_in_equations_of_several():
    piece = (
        "piece {0}\n  point a = origin\n  point b = a down 20cm\n"
        "  point c = b outward {0}_width\n  point d = a outward {0}_width\n"
        "  edge centre = line a to b\n  edge low = line b to c\n  edge side = line c to d\n"
        "  edge top = line d to a\n  level hip = across at midway a and b\n  fold centre\nend\n"
    )
    front, back = found(
        piece.format("front")
        + piece.format("back")
        + "find front_width from 1cm to 60cm so that girth(hip) = hip_girth + 6cm\n"
        "find back_width from 1cm to 60cm so that width(front, hip) = width(back, hip) + 2cm\n",
        "front_width back_width",
    )
    # both on the fold: half of 98 + 6 cm, of which the front has 2 cm more
    assert (*front, *back) == pytest.approx((270.0, 250.0), abs=1e-10)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(10, 40), min_size=3, max_size=3), st.integers(1, 6))
def test_three_unknowns_are_where_scipy_finds_them(answer: list[int], pull: int):
    p, q, r = (float(part) for part in answer)  # cm
    k = pull / 20
    # as many digits as a text can hold
    sides = [p + k * q * r / 10, q + k * np.sqrt(p * r), r - k * p * p / 40]
    sides = [round(side, 8) for side in sides]
    lines = (
        f"find p from 5cm to 50cm so that p + {k} * q * r / 10cm = {sides[0]:.8f}cm\n"
        f"find q from 5cm to 50cm so that q + {k} * sqrt(p * r) = {sides[1]:.8f}cm\n"
        f"find r from 5cm to 50cm so that r - {k} * p * p / 40cm = ({sides[2]:.8f}) * 1cm\n"
    )

    def apart(v: np.ndarray) -> list[float]:
        return [
            v[0] + k * v[1] * v[2] / 10 - sides[0],
            v[1] + k * np.sqrt(abs(v[0] * v[2])) - sides[1],
            v[2] - k * v[0] ** 2 / 40 - sides[2],
        ]

    expected = root(apart, [27.5] * 3, tol=1e-13)  # scipy
    assume(expected.success and np.all((expected.x > 5.0) & (expected.x < 50.0)))
    slopes = np.array(
        [[1, k * expected.x[2] / 10, k * expected.x[1] / 10],
         [k * np.sqrt(expected.x[2] / expected.x[0]) / 2, 1,
          k * np.sqrt(expected.x[0] / expected.x[2]) / 2],
         [-k * expected.x[0] / 20, 0, 1]]
    )  # fmt: skip
    assume(abs(np.linalg.det(slopes)) > 0.05)
    made = draft(f"{HIP}let both = p + q + r\n{lines}")
    outcome = solved(made, ["both"], inputs(made, MEASURES))
    got = [float(outcome.value(line.unknown, 0)) / 10 for line in made.finds]
    assert not outcome.failures, (got, expected.x)
    # either may have come to another answer than the one the sides were made of
    assert np.abs(apart(np.array(got))).max() < 1e-10
    if np.allclose(got, expected.x, atol=0.1):
        np.testing.assert_allclose(got, expected.x, atol=1e-9)


@pytest.mark.parametrize(("near", "answer"), [("1.5cm", (20.0, 30.0)), ("4.5cm", (30.0, 20.0))])
def test_of_two_answers_the_text_says_near_which_the_search_begins(
    near: str, answer: tuple[float, float]
):
    x, y = found(
        f"find x from 1cm to 5cm so that x * y = 6cm * 1cm, near {near}\n"
        f"find y from 1cm to 5cm so that x + y = 5cm, near 5cm - {near}\n"
    )
    assert (*x, *y) == pytest.approx(answer, abs=1e-10)


def test_a_start_where_the_equations_lean_on_nothing_is_left():
    # in the middle of both ranges, 3 cm, both equations slope alike
    x, y = found(
        "find x from 1cm to 5cm so that x * x + y * y = 13cm * 1cm\n"
        "find y from 1cm to 5cm so that x * y = 6cm * 1cm\n"
    )
    assert sorted([*x, *y]) == pytest.approx([20.0, 30.0], abs=1e-10)


def test_an_answer_that_is_not_found_tells_each_equation_and_the_unknown_furthest_off():
    code, name, numbers, others = failure(
        "find x from 1cm to 5cm so that x * x + y * y = 1cm * 1cm\n"
        "find y from 1cm to 5cm so that x = y + x * y * 0 / 1cm\n"
    )
    assert code == "unknowns-not-found"
    # nearest at the lower ends, where the squares are 100 mm2 too much and the others agree
    assert numbers["at"] == pytest.approx(10.0)
    apart = {name: numbers["apart"], **others}
    assert apart == {"x": pytest.approx(100.0), "y": pytest.approx(0.0, abs=1e-9)}


def test_equations_that_are_not_linear_and_say_the_same_settle_nothing():
    first = "find x from 1cm to 5cm so that x * y = 6cm * 1cm\n"
    code, _, _, _ = failure(f"{first}find y from 1cm to 5cm so that 2 * x * y = 12cm * 1cm\n")
    assert code == "unknown-not-settled"
    code, _, _, _ = failure(f"{first}find y from 1cm to 5cm so that 2 * x * y = 13cm * 1cm\n")
    assert code == "unknowns-not-found"


def test_equations_that_only_touch_settle_nothing():
    code, _, _, _ = failure(
        "find x from 1cm to 4cm so that x * y = 4cm * 1cm\n"
        "find y from 1cm to 5cm so that x + y = 4cm\n"
    )
    assert code == "unknown-not-settled"


def test_a_body_without_a_measure_is_told_so_and_spoils_no_other():
    found_, _ = failures(OBLONG.format(""), hip_girth=[np.nan, 980.0])
    assert [(f.body, f.code) for f in found_] == [(0, "missing-measure")]


def test_equations_that_the_first_trial_breaks_are_told_by_what_stands_in_the_way():
    code = failures(
        "find x from 1cm to 5cm so that sqrt(x - 9cm) * y = 3cm * sqrt(1cm)\n"
        "find y from 1cm to 5cm so that x + y = 4cm\n"
    )[0][0].code
    assert code == "root-of-negative"


def test_one_range_upside_down_is_told_of_that_unknown():
    code, name, _, _ = failure(OBLONG.format("").replace("y from 1cm", "y from 91cm"))
    assert (code, name) == ("range-upside-down", "y")


# --- what no body can change ----------------------------------------------------------------------


def test_an_equation_that_depends_on_no_unknown_of_its_group_is_told():
    text = (
        f"{HIP}find x from 1cm to 5cm so that x + y = 4cm\n"
        "find y from 1cm to 5cm so that x - y = 2cm\n"
        "find z from 1cm to 5cm so that x = 2cm\n"
    )
    assert told(compiled(text).problems) == [("unknown-unused", 6)]


def test_an_equation_is_not_blamed_for_one_that_is_broken():
    text = (
        f"{HIP}find x from 1cm to 5cm so that y = 4cm\n"
        "find y from 1cm to 5cm so that x + nothing_such = 2cm\n"
    )
    assert told(compiled(text).problems) == [("unknown-name", 5)]


# --- bits and bodies ------------------------------------------------------------------------------


@pytest.mark.parametrize("lines", [SKIRT, OBLONG.format("")], ids=["linear", "not linear"])
def test_unknowns_have_the_same_bits_alone_and_in_any_batch(lines: str):
    random = np.random.default_rng(5)
    hips, waists = random.uniform(600.0, 1400.0, 200), random.uniform(300.0, 1200.0, 200)
    hips[7] = np.nan
    made = draft(f"{HIP}let both = x + y\n{lines}")

    def both(rows: np.ndarray) -> np.ndarray:
        given_ = inputs(made, {"hip_girth": hips[rows], "waist_girth": waists[rows]})
        outcome = solved(made, ["both"], given_)
        return np.array(
            [[outcome.value(f.unknown, b) for f in made.finds] for b in range(len(rows))]
        )

    whole = both(np.arange(200))
    assert np.isfinite(whole).sum() > 200
    shuffled = random.permutation(200)
    np.testing.assert_array_equal(both(shuffled), whole[shuffled])
    for body in (0, 7, *shuffled[:10]):
        np.testing.assert_array_equal(both(np.array([body])), whole[[body]])
