"""Darts that can't all be sewn, and those that only look like it."""

from __future__ import annotations

import pytest
from marked_examples import Example, run

SKIRT = """\
edition 1
recipe skirt
piece front
  point waist_centre = origin
  point waist_side   = origin outward 20cm
  point hem_side     = origin down 60cm outward 24cm
  point hem_centre   = origin down 60cm
  point hip_point    = origin down 14cm outward 10cm
  edge centre = line waist_centre to hem_centre
  edge waist  = line waist_centre to waist_side
  edge side   = line waist_side to hem_side
  edge hem    = line hem_centre to hem_side
  dart waist_dart = on waist at along waist from waist_centre by 10cm by 3cm to hip_point
{}end
"""


def codes(line: str, tmp_path: object) -> list[str]:
    found = run(Example.of("godet draft=adult_a", SKIRT.format(f"  {line}\n")), {}, tmp_path)  # type: ignore[arg-type]
    return [problem.code for problem in found.problems]


@pytest.mark.parametrize(
    "line",
    ["dart more = on waist at along waist from waist_centre by 11cm by 2cm to hip_point",
     "dart more = on waist at along waist from waist_centre by 10cm by 2cm to hip_point",
     "dart more = on waist at along waist from waist_centre by 5cm by 1cm to hip_point outward 6cm",
     "dart more = at hip_point up 3cm by 1cm from hip_point up 6cm to hip_point down 6cm",
     "dart more = on hem at along hem from hem_centre by 11cm by 2cm to hip_point up 9cm"],
)  # fmt: skip
def test_two_darts_do_not_fold_the_same_cloth(line: str, tmp_path: object):
    assert codes(line, tmp_path) == ["darts-overlap"]


@pytest.mark.parametrize(
    "line",
    ["dart more = on waist at along waist from waist_centre by 14cm by 2cm to hip_point",
     "dart more = on side at along side from waist_side by 14cm by 2cm to hip_point",
     "dart more = at hip_point down 6cm by 1cm from hip_point to hip_point down 12cm"],
)  # fmt: skip
def test_darts_that_end_in_one_point_may_be_sewn(line: str, tmp_path: object):
    assert codes(line, tmp_path) == []
