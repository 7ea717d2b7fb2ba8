"""`find`: unknowns against closed forms and against scipy's brentq."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from small_recipes import HEADING, MEASURES, draft, inputs, solved, values

from godet.solve.roots import roots

HIP = f"{HEADING}measure hip_girth, waist_girth\n"


def found(line: str, **measures: object) -> list[float]:
    made = draft(f"{HIP}let a = x\n{line}\n")
    return values(made, "a", inputs(made, {**MEASURES, **measures}))


def failure(line: str, **measures: object) -> tuple[str, dict[str, float]]:
    made = draft(f"{HIP}let a = x\n{line}\n")
    outcome = solved(made, ["a"], inputs(made, {**MEASURES, **measures}))
    (only,) = outcome.failures
    return only.code, dict(only.numbers)


@pytest.mark.parametrize(
    ("equation", "root"),
    # worked out by hand, in mm: hip 980, waist 740
    [
        ("x * x = hip_girth * waist_girth", (980.0 * 740.0) ** 0.5),
        ("x + waist_girth = hip_girth", 240.0),
        ("hip_girth / x = 7", 140.0),
        ("x ^ 3 = hip_girth * hip_girth * 1cm", (980.0 * 980.0 * 10.0) ** (1 / 3)),
        ("sqrt(x * 1cm) = 5cm", 250.0),
    ],
)
def test_an_unknown_is_what_the_equation_says(equation: str, root: float):
    (x,) = found(f"find x from 1cm to 100cm so that {equation}")
    assert x == pytest.approx(root, abs=1e-10)


@settings(max_examples=60, deadline=None)
@given(
    st.floats(-3.0, 3.0), st.floats(-3.0, 3.0), st.floats(-3.0, 3.0), st.floats(-2.0, 2.0)
)  # fmt: skip
def test_a_root_is_where_brentq_finds_it(a: float, b: float, c: float, d: float):
    def f(x: float) -> float:
        return float(a * x**3 + b * x**2 + c * x + d + np.sin(2.0 * x))

    grid = np.linspace(0.0, 2.0, 17)
    sides = np.array([f(x) for x in grid])
    changes = np.nonzero(sides[:-1] * sides[1:] < 0.0)[0]
    assume(len(changes) == 1 and np.all(np.abs(sides) > 1e-3))
    low, high = grid[changes[0]], grid[changes[0] + 1]
    answer = roots(
        lambda x, _: a * x**3 + b * x**2 + c * x + d + np.sin(2.0 * x),
        np.array([0.0]),
        np.array([2.0]),
        None,
        None,
    )
    expected = brentq(f, low, high, xtol=4e-16, rtol=1e-15)  # scipy
    slope = abs((f(expected + 1e-6) - f(expected - 1e-6)) / 2e-6)
    assume(slope > 1e-2)
    assert answer.count[0] == 1
    assert answer.root[0] == pytest.approx(expected, abs=1e-12)


CURVED = (
    f"{HEADING}measure hip_girth\npiece flap\n"
    "  point a = origin\n  point b = a outward 20cm down x\n"
    "  edge low = curve a to b leaving down arriving outward\n"
    "  edge back = line b to a\n"
    "  find x from 1cm to 60cm so that length(low) = hip_girth / 2\n"
    "end\n"
)


def test_an_unknown_in_a_piece_meets_a_length_along_a_curve():
    made = draft(CURVED)
    hips = [800.0, 900.0, 980.0, 1100.0]
    given_ = inputs(made, {"hip_girth": hips})
    roots_ = values(made, "flap.x", given_)
    # with the depth put in as it was found, the length asked for comes out (and scipy's brentq on
    # the recipe with the depth as a choice finds the same one)
    open_text = CURVED.replace(
        "piece flap\n",
        "choose x = 10cm from 1cm to 60cm\nlet low_length = length(flap.low)\npiece flap\n",
    )
    open_text = "\n".join(line for line in open_text.split("\n") if "find x" not in line)
    by_choice = draft(open_text)

    def apart(x: float, hip: float) -> float:
        given_x = inputs(by_choice, {"hip_girth": hip}, {"x": x})
        return float(values(by_choice, "low_length", given_x)[0]) - hip / 2

    for hip, root in zip(hips, roots_, strict=True):
        assert root == pytest.approx(brentq(apart, 10.0, 600.0, args=(hip,), xtol=1e-12), abs=1e-9)
        assert abs(apart(root, hip)) < 1e-9


def test_no_answer_tells_how_near_it_came_and_where():
    code, numbers = failure("find x from 1cm to 50cm so that x * x = hip_girth * 30cm")
    assert code == "no-answer-in-range"
    assert numbers == {"lowest": 10.0, "highest": 500.0, "closest": 44_000.0, "at": 500.0}


def test_a_linear_answer_outside_its_range_is_told_with_its_value():
    code, numbers = failure("find x from 1cm to 50cm so that x + waist_girth = 2 * hip_girth")
    assert code == "answer-outside-range"
    assert numbers == {"lowest": 10.0, "highest": 500.0, "value": 2 * 980.0 - 740.0}


def test_a_linear_equation_may_lose_its_unknown_for_a_body():
    line = "find x from 1cm to 50cm so that x * (hip_girth / waist_girth - 1) = {}"
    assert failure(line.format("3cm"), waist_girth=980.0) == (
        "sides-always-apart",
        {"apart": 30.0},
    )
    assert failure(line.format("0cm"), waist_girth=980.0) == ("unknown-not-settled", {})
    assert found(line.format("3cm"), waist_girth=490.0) == [pytest.approx(30.0, abs=1e-10)]


TWO = "find x from 1cm to 9cm so that (x - 3cm) * (x - 7cm) = 0cm * x"


def test_several_answers_are_an_error_that_says_how_many():
    code, numbers = failure(TWO)
    assert code == "many-answers"
    assert numbers["count"] == 2


@pytest.mark.parametrize(
    ("selector", "root"),
    [("lowest", 30.0), ("highest", 70.0), ("nearest 4cm", 30.0), ("nearest hip_girth", 70.0)],
)
def test_of_several_answers_the_text_says_which(selector: str, root: float):
    assert found(f"{TWO}, {selector}") == [pytest.approx(root, abs=1e-10)]


def test_the_nearest_answer_is_chosen_for_each_body_on_its_own():
    line = f"{TWO}, nearest waist_girth"
    answers = found(line, hip_girth=[980.0] * 2, waist_girth=[20.0, 60.0])
    assert answers == [pytest.approx(30.0, abs=1e-10), pytest.approx(70.0, abs=1e-10)]


def test_an_answer_at_either_end_of_the_range_is_found():
    assert found("find x from 1cm to 9cm so that x = 1cm") == [10.0]
    assert found("find x from 1cm to 9cm so that x = 9cm") == [90.0]


def test_a_jump_is_no_answer():
    code, _ = failure("find x from 1cm to 9cm so that (if x > 4.4cm then 1cm else -1cm) = 0cm")
    assert code == "no-answer-in-range"


def test_an_unknown_may_need_another_that_does_not_need_it():
    text = f"{HIP}find x from 1cm to 100cm so that x = hip_girth / 2\n"
    text += "find y from 1cm to 100cm so that y * y = x * 1cm\nlet a = y\n"
    made = draft(text)
    assert values(made, "a", inputs(made, MEASURES)) == [pytest.approx(4900.0**0.5, abs=1e-10)]


def test_a_measure_missing_in_an_equation_is_told_as_missing():
    made = draft(f"{HIP}let a = x\nfind x from 1cm to 100cm so that x * x = hip_girth * 1cm\n")
    outcome = solved(made, ["a"], inputs(made, {"hip_girth": [980.0, np.nan]}))
    assert [(f.body, f.code) for f in outcome.failures] == [(1, "missing-measure")]
    assert outcome.value(made.names["a"], 0) == pytest.approx(9800.0**0.5, abs=1e-10)


@pytest.mark.parametrize(
    "line",
    [
        "from 1cm to hip_girth so that x * x = 4cm * x",
        "from 1cm to 9cm so that x * x = 4cm * x, nearest hip_girth",
    ],
)
def test_a_measure_missing_in_a_range_is_told_as_missing(line: str):
    code, _ = failure(f"find x {line}", hip_girth=float("nan"))
    assert code == "missing-measure"


def test_an_equation_that_no_trial_can_make_is_told_by_what_stands_in_the_way():
    code, _ = failure("find x from 1cm to 9cm so that sqrt(x * (x - hip_girth)) = 3cm")
    assert code == "root-of-negative"


def test_the_girth_of_a_whole_garment_can_be_asked_for():
    text = (
        f"{HEADING}measure hip_girth\npiece front, back\n  point a = origin\n"
        "  point b = a down 20cm\n  point c = b outward wide\n  point d = a outward wide\n"
        "  edge centre = line a to b\n  edge low = line b to c\n  edge side = line c to d\n"
        "  edge top = line d to a\n  level hip = across at midway a and b\n  fold centre\nend\n"
        "find wide from 1cm to 60cm so that girth(hip) = hip_girth + 6cm\n"
        "let found = wide\n"
    )
    made = draft(text)
    # two pieces on the fold: a quarter each
    assert values(made, "found", inputs(made, MEASURES)) == [pytest.approx(260.0, abs=1e-10)]


def test_the_nearest_root_is_the_nearest_itself_not_its_step_of_the_range():
    # roots at 1.95 and 3.95 cm; 2.6 cm is nearer to the first
    (x,) = found(
        "find x from 0cm to 16cm so that (x - 1.95cm) * (x - 3.95cm) = 0cm * 1cm, nearest 2.6cm"
    )
    assert x == pytest.approx(19.5, abs=1e-10)


def test_two_roots_equally_near_are_ambiguous():
    code, numbers = failure(
        "find x from 0cm to 16cm so that (x - 3cm) * (x - 5cm) = 0cm * 1cm, nearest 4cm"
    )
    assert code == "many-answers"
    assert numbers["count"] == 2


def test_a_jump_in_the_range_hides_no_root():
    # the sides change sign at 2.03 cm without meeting, and meet at 9.3 cm
    (x,) = found("find x from 0cm to 16cm so that (x - 9.3cm) / (x - 2.03cm) = 0")
    assert x == pytest.approx(93.0, abs=1e-10)


def test_a_range_from_the_larger_to_the_smaller_is_told():
    code, numbers = failure("find x from 16cm to 0cm so that x = 3cm")
    assert code == "range-upside-down"
    assert numbers == {"lowest": 160.0, "highest": 0.0}


@pytest.mark.parametrize("power", [3, 5])
def test_an_equation_that_only_grazes_its_answer_is_told_with_the_answer(power: int):
    line = f"find x from 10cm to 47cm so that (x - 25cm) ^ {power} = 0cm ^ {power}"
    code, numbers = failure(line)
    assert code == "equation-flat"
    assert numbers["value"] == pytest.approx(250.0, abs=1.0)
    assert (numbers["lowest"], numbers["highest"]) == (100.0, 470.0)


def test_an_equation_that_is_flat_elsewhere_is_no_hindrance():
    # steep at the answer, where the power is 15 cm, and flat at 25 cm
    (root,) = found("find x from 10cm to 47cm so that (x - 25cm) ^ 3 = (15cm) ^ 3")
    assert root == pytest.approx(400.0)
