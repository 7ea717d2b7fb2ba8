"""Every shipped text with one slip of the hand: nobody is left without a word, or misled.

A mutant either means something else, which shows in the drawing, a check, a choice, a word or a
name that can be asked; or it is refused, in few words and at the right place; or a named reason
says why it means the same. All of them run with `-m long -s`, which prints how many of each kind
there are; some hundred, always the same, run with every change.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

import pytest
from judging import SHIPPED, Shelf, at_the_right_place, reason, standing
from mutants import Mutant, mutants

MOST_MESSAGES = 3  # or one for each name that the change took away
RIGHT_PLACE = 0.98
OF_EACH_SORT = 20
# the texts of which some slips are tried in every run; those of all texts take a long one
SOME_TEXTS = ("column_dress", "knit_tee", "ease", "kinds", "measures")


@dataclass
class Tally:
    counts: Counter[tuple[str, str]] = field(default_factory=Counter)
    misplaced: list[str] = field(default_factory=list)
    too_many: list[str] = field(default_factory=list)
    silent: list[str] = field(default_factory=list)

    def refused(self) -> int:
        return sum(count for (_, what), count in self.counts.items() if what == "refused")


def tried(some: list[tuple[str, Mutant]], shelf: Shelf) -> Tally:
    """What becomes of mutants, as (file, mutant); a traceback is the test's own."""
    shipped = {file: shelf.judged(file, SHIPPED[file]) for file in {file for file, _ in some}}
    tally = Tally()
    for file, mutant in some:
        named = f"{file}:{mutant.lines.start}: {mutant.sort}: {mutant.what}"
        judged = shelf.judged(file, mutant.text)
        if judged.refused:
            what = "refused"
            if not at_the_right_place(file, mutant, judged.problems[0]):
                tally.misplaced.append(f"{named}: {judged.problems[0].sentence}")
            if len(judged.problems) > max(MOST_MESSAGES, len(mutant.names)):
                tally.too_many.append(named)
        elif judged.meanings != shipped[file].meanings:
            what = "means something else"
        elif judged.problems:
            what = "is advised against"
        else:
            why = reason(mutant, SHIPPED[file])
            what = f"means the same: {why}"
            if why is None:
                tally.silent.append(named)
        tally.counts[mutant.sort, what] += 1
    return tally


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shelf]:
    with standing(tmp_path_factory.mktemp("shelf")) as shelf:
        yield shelf


def every_mutant() -> list[tuple[str, Mutant]]:
    return [(file, mutant) for file, text in SHIPPED.items() for mutant in mutants(text)]


def assert_told(tally: Tally) -> None:
    assert tally.silent == []
    assert tally.too_many == []
    assert len(tally.misplaced) <= (1 - RIGHT_PLACE) * tally.refused(), tally.misplaced


def test_some_slips_are_told_at_their_place_and_in_few_words(shelf: Shelf):
    chance = random.Random(20)
    by_sort: dict[str, list[tuple[str, Mutant]]] = {}
    for file, mutant in every_mutant():
        if file.removesuffix(".godet") not in SOME_TEXTS:
            continue
        by_sort.setdefault(mutant.sort, []).append((file, mutant))
    assert len(by_sort) == 6
    some = [each for of_sort in by_sort.values() for each in chance.sample(of_sort, OF_EACH_SORT)]
    assert_told(tried(some, shelf))


@pytest.mark.long
def test_every_slip_is_told_at_its_place_and_in_few_words(shelf: Shelf):
    tally = tried(every_mutant(), shelf)
    for (sort, what), count in sorted(tally.counts.items()):
        print(f"{count:5d}  {sort}: {what}")
    print(f"refused at the wrong place: {len(tally.misplaced)} of {tally.refused()}")
    assert_told(tally)


@pytest.mark.parametrize("file", sorted(SHIPPED))
def test_a_text_as_shipped_is_told_of_nothing(shelf: Shelf, file: str):
    assert not shelf.judged(file, SHIPPED[file]).refused
