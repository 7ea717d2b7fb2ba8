"""Checking a recipe of 500 statements, against parsing the same bytes with lark alone.

    pytest tests/bench/test_checking.py --benchmark-enable -n0 -s

prints how many times longer checking takes (wanted: at most three times): reading the library,
cutting, parsing, building the tree, typing and linking. lark alone is its LALR parser with the
project's own grammar, fed with the same tokens, making its own plain trees. Without
`--benchmark-enable` the recipe is checked once.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from statistics import median
from time import process_time
from typing import Any

from lark import Lark, Token
from lark.lexer import Lexer
from pytest_benchmark.fixture import BenchmarkFixture

from godet.language.grammar import grammar_text
from godet.language.tokens import cut_lines
from godet.tools.checking import check

STATEMENTS = 500
ROUNDS = 15


def _piece(number: int) -> str:
    """A piece of 20 statements, its `end` counted."""
    width = f"width_{number}"
    return f"""\
let {width} = (hip_girth + ease) / 4 - min(2cm, height / 100) * {number}
piece panel_{number}
  point top       = origin down {number}cm
  point side_top  = top outward {width} / 2
  point waist_in  = side_top down waist_to_hip inward hem_taper
  point hem       = top down skirt_length
  point side_hem  = hem outward {width} + 2 * hem_taper
  point half_way  = midway top and side_top
  edge centre = line top to hem
  edge side   = curve side_top to waist_in leaving down arriving down,
                then curve to side_hem leaving down
  edge upper  = line top to side_top
  edge bottom = arc hem to side_hem, square to centre
  level hip   = across at waist_in
  notch side at waist_in
  allow 1cm on side, upper
  allow 2.5cm on bottom
  fold centre
  grain down
  cut 1 of main
end
"""


def recipe() -> str:
    heading = """\
edition 1
recipe many_panels
measure hip_girth, waist_to_hip, height
choose skirt_length = 60cm from 20cm to 130cm "down the side"
choose ease         = 4cm  from 0cm  to 20cm  "all round"
choose hem_taper    = 1cm  from 0cm  to 5cm   "at the hem"
require girth(hip) >= hip_girth
  "too narrow at the hip"
"""
    text = heading
    while len(cut_lines(text)) < STATEMENTS:
        text += _piece(text.count("piece "))
    return text


class GivenTokens(Lexer):
    """Hands lark the tokens of one line."""

    def __init__(self, _conf: Any) -> None:
        pass

    def lex(self, data: tuple[Token, ...]) -> Iterator[Token]:  # type: ignore[override]
        yield from data


def lark_alone() -> Lark:
    return Lark(
        grammar_text(),
        parser="lalr",
        lexer=GivenTokens,
        propagate_positions=True,
        maybe_placeholders=True,
    )


def test_time_of_checking_against_lark_alone(tmp_path: Path, benchmark: BenchmarkFixture) -> None:
    text, lark = recipe(), lark_alone()
    path = tmp_path / "many_panels.godet"
    path.write_text(text, encoding="utf-8")

    def parse_alone() -> int:
        trees = [lark.parse(line.tokens) for line in cut_lines(text)]  # type: ignore[arg-type]
        return len(trees)

    assert parse_alone() >= STATEMENTS
    assert (
        benchmark.pedantic(  # type: ignore[no-untyped-call]
            lambda: check([str(path)]).problems, rounds=ROUNDS, warmup_rounds=1
        )
        == ()
    )
    if benchmark.stats is not None:
        # by turns, in the time of this process alone: others may be at work beside it
        times = [(seconds(parse_alone), seconds(lambda: check([str(path)]))) for _ in range(ROUNDS)]
        alone, checking = (median(column) for column in zip(*times, strict=True))
        benchmark.extra_info.update(lark_seconds=alone, ratio=checking / alone)
        print(f"\nchecking: {checking / alone:.1f} times as long as lark alone ({alone:.3f} s)")


def seconds(work: Any) -> float:
    start = process_time()
    work()
    return process_time() - start
