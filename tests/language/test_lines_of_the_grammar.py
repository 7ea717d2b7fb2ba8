"""Lines that the grammar itself makes: each is read, and what they mean together is checked.

hypothesis draws them from `grammar.lark` (hypothesis.extra.lark), so that every form of every
statement is met, with names that mostly mean nothing.
"""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from hypothesis.extra.lark import from_lark
from places import outside
from small_recipes import DRESS, WITH_TOP, compiled

from godet.language.grammar import built, grammar_text
from godet.language.parser import parse
from godet.language.tokens import COMPASS

NAMES = "a b front top side waist hip_side hip_girth fabric base origin main length words".split()
NUMBERS = ["2cm", "1 1/2 in", "0cm", "30deg", "12 %", "3", "1/3", "4 kg"]
TEXTS = ['"words"', '""']

GRAMMAR = built(grammar_text())
DRAWN = {
    "NAME": st.sampled_from(NAMES),
    "NUMBER": st.sampled_from(NUMBERS),
    "TEXT": st.sampled_from(TEXTS),
    "COMPASS": st.sampled_from(sorted(COMPASS)),
}
# every word and sign as it is written, with the space that keeps it from the next
WRITTEN = {t.name: st.just(t.pattern.value) for t in GRAMMAR.terminals if t.name not in DRAWN}
EXPLICIT = {name: drawn.map(lambda w: f"{w} ") for name, drawn in {**WRITTEN, **DRAWN}.items()}
# a comma at the end of a line says that it goes on
LINES = from_lark(GRAMMAR, start="start", explicit=EXPLICIT).filter(lambda line: line[-2:] != ", ")

quietly = settings(
    deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)


@settings(quietly, max_examples=150)
@given(LINES)
def test_a_line_that_the_grammar_makes_is_read(line: str):
    _, problems = parse(line, "tried.godet")
    # what a single line can't be: a block without its end, an end without its block, too deep
    assert {p.code for p in problems} <= {"missing-end", "stray-end", "nested-too-deep"}
    assert outside(line, problems) == []


@st.composite
def texts(draw: st.DrawFn) -> str:
    """A recipe with lines of the grammar in it, at its level or in a piece."""
    lines = draw(st.lists(LINES, min_size=1, max_size=6))
    inside = draw(st.booleans())
    block = [*(["piece front from top.front"] if inside else []), *lines, *["end"] * inside]
    return draw(st.sampled_from([WITH_TOP, DRESS])) + "\n".join(block) + "\n"


@settings(quietly, max_examples=60)
@given(texts())
def test_what_the_grammar_makes_is_checked_without_a_crash(text: str):
    problems = [
        p for p in compiled(text).problems if p.place and p.place.file.endswith("tried.godet")
    ]
    assert outside(text, problems) == []
