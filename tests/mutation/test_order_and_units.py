"""Shipped recipes written otherwise and meaning the same: in another order, in other units."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from judging import SHIPPED
from mutants import blocks, ends_at, starts_at

from godet.base.quantities import read_quantity
from godet.base.shipped import shipped
from godet.language import library
from godet.language.parser import parse
from godet.language.tokens import Line, cut_lines
from godet.orders.bodies import read_body
from godet.orders.fabrics import read_fabric
from godet.output.draft_json import draft_json
from godet.program.draft import Draft
from godet.tools.compiling import compile_recipe
from godet.tools.drafting import draft_all, prepared_for
from godet.tools.vocabulary import vocabulary

RECIPES = ("column_dress", "knit_tee")  # written otherwise in many ways; the others in one
OTHERS = sorted(
    Path(name).stem
    for name, text in SHIPPED.items()
    if "\nrecipe " in text and Path(name).stem not in RECIPES
)
# mm in one, exactly: the international agreement of 1959 on yard and pound
MILLIMETRES = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
    "yd": Fraction(9144, 10),
}


@pytest.fixture(autouse=True, scope="module")
def _library_read_once() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(library, "parse", cache(parse))
        yield


def linked(recipe: str, text: str) -> Draft:
    (path,) = (p for room in ("recipes", "stdlib") for p in shipped(room).glob(f"{recipe}.godet"))
    made = compile_recipe(str(path), instead={str(path): text})
    assert made.draft is not None, [(p.sentence, p.place) for p in made.problems]
    return made.draft


def drawn(recipe: str, text: str) -> Any:
    """The whole draft as its file tells it, but for the lines and the order of the text."""
    room = shipped("recipes")
    body, _ = read_body(room / "bodies" / "adult_a.yaml", vocabulary(library.Library(room)))
    cloth, _ = read_fabric(room / "fabrics" / "cotton_jersey.yaml")
    assert body is not None
    assert cloth is not None
    prepared = prepared_for([body], {"main": cloth, "rib": cloth}, {}, linked(recipe, text))
    (pattern,), problems = draft_all(prepared)
    assert pattern is not None, [p.sentence for p in problems]
    written = _without_lines(json.loads(draft_json(pattern)))
    # checks are listed, and numbered, as the text does; reports too
    written["checks"] = sorted(
        ({**check, "name": ""} for check in written["checks"]), key=lambda check: check["words"]
    )
    written["reports"] = sorted(written["reports"], key=lambda report: report["words"])
    return written


def _without_lines(written: Any) -> Any:
    if isinstance(written, dict):
        return {k: _without_lines(v) for k, v in written.items() if k != "from_line"}
    return [_without_lines(each) for each in written] if isinstance(written, list) else written


# --- order ---------------------------------------------------------------------------------------


def units(lines: list[Line], text: str) -> list[str]:
    """Statements and whole blocks as text; words on a line of their own stay with theirs."""
    ends = {starts_at(heading): end for heading, end in blocks(cut_lines(text))}
    found: list[str] = []
    behind = 0
    for line in lines:
        if starts_at(line) < behind:
            continue
        last = ends.get(starts_at(line), line)
        behind = ends_at(last)
        written = text[starts_at(line) : behind]
        if line.tokens[0].type == "TEXT" and found:
            found[-1] += f"\n{written}"
        else:
            found.append(written)
    return found


def shuffled(text: str, shuffle: random.Random) -> str:
    """The statements of a recipe, and those of each piece, in another order."""
    lines = list(cut_lines(text))
    for heading, end in reversed(list(blocks(tuple(lines)))):
        inside = [line for line in lines if ends_at(heading) <= starts_at(line) < starts_at(end)]
        mixed = units(inside, text)
        doc = [mixed.pop(0)] if mixed and mixed[0].startswith('"') else []  # stays by its heading
        shuffle.shuffle(mixed)
        body = "\n".join([*doc, *mixed])
        text = f"{text[: ends_at(heading)]}\n{body}\n{text[starts_at(end) :]}"
    edition, *rest = units(list(cut_lines(text)), text)
    shuffle.shuffle(rest)
    return "\n".join([edition, *rest]) + "\n"


@pytest.mark.parametrize("recipe", RECIPES)
@settings(max_examples=12, deadline=None)
@given(shuffle=st.randoms(use_true_random=False))
def test_the_order_of_statements_means_nothing(recipe: str, shuffle: random.Random):
    text = SHIPPED[f"{recipe}.godet"]
    other = shuffled(text, shuffle)
    assert sorted(parsed_kinds(other)) == sorted(parsed_kinds(text))
    assert linked(recipe, other).digest == linked(recipe, text).digest


@pytest.mark.parametrize("recipe", OTHERS)
def test_neither_order_nor_units_mean_anything_in_the_rest_of_the_library(recipe: str):
    text = SHIPPED[f"{recipe}.godet"]
    other = in_other_units(shuffled(text, random.Random(3)), random.Random(3))
    assert other != text
    assert linked(recipe, other).digest == linked(recipe, text).digest


def parsed_kinds(text: str) -> list[str]:
    """The opening word of each statement: nothing is lost where texts are only shuffled."""
    return [line.tokens[0].value for line in cut_lines(text)]


@pytest.mark.parametrize("recipe", RECIPES)
def test_the_drawing_does_not_depend_on_the_order_of_statements(recipe: str):
    text = SHIPPED[f"{recipe}.godet"]
    assert drawn(recipe, shuffled(text, random.Random(5))) == drawn(recipe, text)


# --- units ---------------------------------------------------------------------------------------


def in_other_units(text: str, pick: random.Random) -> str:
    """Every length written in another unit, as an exact fraction."""
    for line in reversed(cut_lines(text)):
        for token in reversed(line.tokens):
            quantity = read_quantity(token.value) if token.type == "NUMBER" else None
            if quantity is None or quantity.unit not in MILLIMETRES:
                continue
            unit = pick.choice(sorted(MILLIMETRES))
            number = quantity.number * MILLIMETRES[quantity.unit] / MILLIMETRES[unit]
            whole, rest = divmod(number, 1)
            mixed = f"{whole} {rest}" if whole and rest else str(number)
            written = f"{pick.choice([mixed, str(number)])} {unit}"
            text = text[: token.start_pos] + written + text[token.end_pos :]
    return text


@pytest.mark.parametrize("recipe", RECIPES)
@settings(max_examples=12, deadline=None)
@given(pick=st.randoms(use_true_random=False))
def test_the_unit_in_which_a_length_is_written_means_nothing(recipe: str, pick: random.Random):
    text = SHIPPED[f"{recipe}.godet"]
    other = in_other_units(text, pick)
    assert other != text
    assert linked(recipe, other).digest == linked(recipe, text).digest


@pytest.mark.parametrize("recipe", RECIPES)
def test_closed_lists_keep_their_order(recipe: str):
    text = SHIPPED[f"{recipe}.godet"]
    words = {n: c.words for n, c in linked(recipe, text).choices.items() if c.words}
    other = linked(recipe, shuffled(text, random.Random(7)))
    assert words
    assert {n: c.words for n, c in other.choices.items() if c.words} == words
