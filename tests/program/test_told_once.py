"""What one slip breaks in many places is told once: at the first of them, with the others noted."""

from __future__ import annotations

import pytest
from small_recipes import DRESS, HEADING, WITH_TOP, compiled, told

from godet.base.problems import Problem

SHIFT = (
    "piece shift\n  point a = origin\n  point b = a down 9cm\n  point c = a outward 4cm\n"
    "  edge long = line a to b\n  edge wide = line a to c\n  edge slant = line b to c\nend\n"
)


def faults(text: str) -> list[tuple[str, int | None]]:
    return told(compiled(text).problems)


def noted(problem: Problem) -> list[int]:
    return [note.place.line for note in problem.notes if note.place is not None]


def test_a_name_that_is_nowhere_is_told_where_it_is_first_asked_for():
    text = f"{HEADING}let a = b + wide\nlet b = wide\nlet c = 2 * wide\n"
    (problem,) = compiled(text).problems
    assert told([problem]) == [("unknown-name", 3)]
    assert noted(problem) == [4, 5]


def test_a_lost_point_is_told_once_and_not_also_missed_by_its_kind():
    line = next(line for line in DRESS.splitlines() if "point hip_side" in line)
    assert [code for code, _ in faults(DRESS.replace(line, ""))] == ["unknown-name"]


def test_a_lost_measure_line_is_told_once_with_the_line_that_is_lacking():
    text = f"{HEADING}let a = hip_girth + height\nlet b = bust_girth\n"
    (problem,) = compiled(text).problems
    assert told([problem]) == [("measure-not-asked", 3)]
    assert "`measure bust_girth, height, hip_girth`" in problem.sentence
    assert noted(problem) == [3, 4]


def test_a_lost_use_line_is_told_once_with_the_line_that_is_lacking():
    text = (
        f"{HEADING}let a = ease_at_hip(fabric, close)\n"
        "let b = usable_stretch(fabric)\nlet c = ease_at_hip(fabric, loose)\n"
    )
    (problem,) = compiled(text).problems
    assert told([problem]) == [("function-not-used", 3)]
    assert "`use ease_at_hip, usable_stretch from ease`" in problem.sentence


def test_a_lost_takes_line_is_told_once_whatever_was_drafted_from_the_block():
    text = f"{WITH_TOP}piece front from top.front\n  point p = side_waist down 2cm\nend\n"
    lost = text.replace("  takes top: bodice = plain_top", "")
    assert faults(lost) == [("unknown-name", 4)]


def test_the_lines_of_a_piece_that_lost_its_heading_are_told_once_with_their_end():
    text = HEADING + SHIFT.removeprefix("piece shift\n") + "let a = length(shift.long)\n"
    assert faults(text) == [("not-at-top", 3), ("unknown-name", 10)]


def test_the_lines_of_a_kind_that_lost_a_heading_are_told_once_with_their_end():
    text = (
        f"{HEADING}kind k\n  point a\n  level b\n  end\n  piece back\n    point c\n  end\nend\n"
        "let a = 1cm\n"
    )
    assert faults(text)[0] == ("not-in-a-kind", 4)
    assert [code for code, _ in faults(text) if code == "stray-end"] == []
    lost = f"{HEADING}  piece front\n    point a\n    level b\n  end\nend\n"
    assert faults(lost) == [("not-in-a-piece", 4), ("stray-end", 7)]


def test_an_end_too_many_behind_lines_without_heading_is_still_one_too_many():
    text = HEADING + SHIFT.removeprefix("piece shift\n") + "end\n"
    assert faults(text) == [("not-at-top", 3), ("stray-end", 10)]


def test_a_value_of_the_wrong_type_is_told_once_however_many_functions_it_is_given_to():
    text = (
        f"{HEADING}define f(a: length) = a\ndefine g(a: length) = 2 * a\nlet wide = 20deg\n"
        "let b = f(wide)\nlet c = g(wide)\nlet d = f(wide) + g(wide)\n"
    )
    (problem,) = compiled(text).problems
    assert told([problem]) == [("wrong-type", 6)]
    assert noted(problem) == [7, 8, 8]


def test_a_value_asked_for_names_inside_is_told_once():
    text = f"{HEADING}choose sleeve = one of short, long\nlet a = sleeve.cap + sleeve.hem\n"
    assert faults(text) == [("no-members", 4)]


def test_a_piece_called_like_a_block_does_not_hide_the_block():
    text = (
        f"{WITH_TOP}piece front, top from top.front, top.back\nend\n"
        "let a = width(top.front, waist)\n"
    )
    assert ("given-twice", 4) in faults(text)
    assert all(code != "no-such-member" for code, _ in faults(text))


@pytest.mark.parametrize(
    ("range", "code"),
    [("from 45deg to 200cm", "wrong-type"), ("from 45 to 200cm", "bare-number")],
)
def test_a_measure_whose_range_goes_from_one_thing_to_another_is_told_in_its_range(
    range: str, code: str
):
    measure = (
        f'define measure calf_girth\n  means "m"\n  take "t"\n  {range}\nend\n'
        'define measure shin\n  means "m"\n  take "t"\n  from 1cm to 90cm\n'
        '  estimate calf_girth / 2 "ours"\nend\n'
    )
    text = "edition 1\n" + measure
    made = compiled(f"{HEADING}measure calf_girth, shin\n", beside={"measures.godet": text})
    assert [(p.code, p.place and p.place.line) for p in made.problems if p.code == code] == [
        (code, 5)
    ]
    assert [p.code for p in made.problems] == [code]


def test_problems_are_told_from_the_top_of_the_text():
    text = f"{HEADING}let a = 1cm + 20deg\nlet b = wide\nlet c = 2 kg\npiece p\n  fold side\nend\n"
    lines = [line for _, line in faults(text)]
    assert lines == [3, 4, 5, 7]
