"""What comes of every dress under every set of its closed choices, as lines of a table and a page.

In: cells. Out: `Line`s, one for each set of choices, with how many bodies are drafted and by which
requirement the others are refused; `whole_product.csv` beside this holds all of them, and
docs/garments.md their sums. Nothing fails; a dress that breaks a rule is told in `Line.broken`.

    lines_of(cell, choosings)    # [Line("shift_dress on knit_tee", "jersey close short", 158, ..)]
"""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby, islice
from pathlib import Path

import numpy as np
from cells import CELLS, DRAFTED, IN_PAIRS_ALONE, Cell
from rules import broken
from trials import Choosing, tried, whole_product
from wearers import few

TABLE = Path(__file__).parent / "whole_product.csv"
PAGE = Path(__file__).parents[2] / "docs" / "garments.md"
_AT_ONCE = 12  # sets of choices in a batch


@dataclass(frozen=True)
class Line:
    cell: str
    choices: str
    bodies: int
    drafted: int
    refused: Mapping[str, int]  # by words, a body by each that it does not meet
    broken: tuple[str, ...] = field(default=(), compare=False)


def lines_of(cell: Cell, sets: Iterable[Choosing]) -> Iterator[Line]:
    """A line for each set of choices, all bodies of a few sets solved at once."""
    bodies = few(cell)
    left = iter(sets)
    while together := tuple(islice(left, _AT_ONCE)):
        trial = tried(cell, bodies, together)
        told = tuple(broken(trial))
        unmet = {
            check.words.partition(":")[0]: trial.unmet(check)
            for check in trial.draft.checks
            if check.level == "require"
        }
        for number, choosing in enumerate(together):
            rows = slice(number * len(bodies), (number + 1) * len(bodies))
            counts = {words: int(np.sum(wrong[rows])) for words, wrong in unmet.items()}
            yield Line(
                cell.name,
                " ".join([choosing.cloth, *choosing.words.values()]),
                len(bodies),
                int(trial.accepted[rows].sum()),
                {words: count for words, count in counts.items() if count},
                told if number == 0 else (),
            )


WHOLE = tuple(cell for cell in DRAFTED if cell.dress not in IN_PAIRS_ALONE)


def every_line() -> Iterator[Line]:
    for cell in WHOLE:
        yield from lines_of(cell, whole_product(cell))


def written(lines: Iterable[Line], file: Path = TABLE) -> None:
    with file.open("w", encoding="utf-8", newline="") as out:
        rows = csv.writer(out, lineterminator="\n")
        rows.writerow(["cell", "choices", "bodies", "drafted", "refused"])
        for line in lines:
            refused = "; ".join(f"{count} {words}" for words, count in line.refused.items())
            rows.writerow([line.cell, line.choices, line.bodies, line.drafted, refused])


def read(file: Path = TABLE) -> list[Line]:
    with file.open(encoding="utf-8", newline="") as text:
        return [
            Line(
                row["cell"],
                row["choices"],
                int(row["bodies"]),
                int(row["drafted"]),
                dict(_counted(each) for each in filter(None, row["refused"].split("; "))),
            )
            for row in csv.DictReader(text)
        ]


def _counted(text: str) -> tuple[str, int]:
    count, _, words = text.partition(" ")
    return words, int(count)


def page(lines: Sequence[Line]) -> str:
    """The sums, as Markdown."""
    parts = [_HEAD]
    for name, group in groupby(lines, key=lambda line: line.cell):
        cell = list(group)
        refused: Counter[str] = Counter()
        for line in cell:
            refused.update(line.refused)
        why = "; ".join(f"{count:,}: {words}" for words, count in refused.most_common()) or "none"
        drafts = sum(line.bodies for line in cell)
        drafted = sum(line.drafted for line in cell)
        row = (f"{name}", cell[0].bodies, len(cell), f"{drafts:,}", f"{drafted:,}", why)
        parts.append("| " + " | ".join(str(value) for value in row) + " |")
    parts.append(_REFUSED_HEAD)
    for cell in CELLS:
        why = cell.refusal or cell.never_met
        if why is not None:
            parts.append(f"| {cell.name} | {why} |")
    return "\n".join(parts) + "\n"


_HEAD = """\
# What was tried

Every dress on every top, with every skirt that it takes, under every set of words of its closed
choices. It was drafted for women of EN 13402-3 (to a bust of 122 cm) and of ASTM D5585 and for
some of the women of bdims; on tops without darts for children of 92 to 164 cm and some of its men
too. Of each draft seams, hems, darts, sleeves and girths were measured, and none was wrong. Who is
not drafted is refused by a requirement, in its words; the last column says how many do not meet it.
Two garments made of a dress with a waist seam, `waisted_separates`, have too many sets of choices,
and are tried with every pair of them.

`pytest -m long tests/long` tries all of it again and writes this page anew.

| garment | bodies | sets of choices | drafts tried | drafted | refused |
|---|---|---|---|---|---|"""

_REFUSED_HEAD = """
## What can't be combined

| garment | because |
|---|---|"""
