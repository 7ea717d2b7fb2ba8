"""The words printed on a pattern, in one table, so that a translation is a file.

In: the name of a sentence and its facts, or lengths in mm. Out: text as it is printed, harmless
and of limited length (see `lettering`). Fails with `KeyError` only when a name is not in the
table: a mistake in Godet itself.

    printed("cut-on-fold", count=1, cloth="main")  ->  "Cut 1 of main on the fold"
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from godet.output.decimals import decimal_text
from godet.output.lettering import LONGEST, printable

PRINTED: dict[str, str] = {
    # --- on a piece ---
    "piece": "{number} {title}",
    "body": "For {body}",
    "cut": "Cut {count} of {cloth}",
    "cut-mirrored": "Cut {count} of {cloth}, mirrored",
    "cut-on-fold": "Cut {count} of {cloth} on the fold",
    "cut-on-fold-mirrored": "Cut {count} of {cloth} on the fold, mirrored",
    "no-allowance": "No allowance: add it when cutting",
    "without-allowance": "Cut without allowance",
    "allowance": "Allowance {usual}",
    "allowance-but": "Allowance {usual}; {others}",
    "allowance-of-edge": "{edge} {length}",
    "allowance-none": "none",
    "stamp": "Godet {version}, {date}",
    "stamp-undated": "Godet {version}, {digest}",
    "does-not-pass": "Does not pass: {words}",
    "fold": "place on fold",
    "dart": "{name}, {width} wide",
    "pleat": "{name}: fold {width}",
    "tuck": "{name}: fold {width}, sew {length}",
    "tuck-whole": "{name}: fold {width}, sew to the point",
    "gathers": "{name}: gather in {width}",
    "ease": "{name}: ease in {width}",
    "grain": "grain",
    "gather": "gather {length} to {sewn}",
    "stretch": "stretch {length} to {sewn}",
    # --- beside the pieces ---
    "square": "10 cm test square",
    "square-check": "Measure both ways before cutting:",
    "square-check-sides": "each side must be 10 cm long.",
    "square-cure": "If not, print again at 100 %.",
    "completed": "Completed, not in the size table's source: {measures}",
    "estimated": "Estimated, better measured: {measures}",
    # --- on the pages ---
    "page": "Print at 100 %, do not fit to page",
    "pages": "{pages} pages to join, {first} to {last}",
    "one-page": "1 page, {name}",
    "join-here": "{name} joins here",
    "cut-here": "cut along this line, lay it on {name}",
    "corner": "{across} / {down}",
    "how-print": "Print this page first, at 100 %. Do not fit to page. A4 and US Letter both do.",
    "how-measure": "Measure the square on the left: each side must be 10 cm long.",
    "how-cut": "Cut every page along its solid line at the right and at the bottom.",
    "how-join": "Lay the cut edge on the dotted line of the next page, so that the crosses with "
    "the same numbers (mm across / down) lie on one another. Glue or tape.",
    "how-blank": "Pages crossed out on the map are blank and are not printed.",
    "no-blank": "No page is blank; all are printed.",
    "more": "and {count} more lines on the joined sheet",
}


def printed(name: str, /, longest: int = LONGEST, **facts: object) -> str:
    """The sentence of this name; each fact is made harmless and no longer than `longest`."""
    return PRINTED[name].format(
        **{key: printable(str(fact), longest) for key, fact in facts.items()}
    )


def name_words(name: str) -> str:
    """A name of the recipe as it is printed: `high_hip` becomes "high hip"."""
    return printable(name.replace("_", " "))


def length_words(length: float, units: Literal["cm", "in"]) -> str:
    """A length in mm in the reader's unit: "2.5 cm", "5/8 in", "0.61 in" when no 16th is near."""
    if units == "cm":
        return f"{decimal_text(length / 10, 2)} cm"
    inches = length / 25.4
    sixteenths = round(inches * 16)
    if abs(inches * 16 - sixteenths) > 0.01:
        return f"{decimal_text(inches, 2)} in"
    whole, rest = divmod(Fraction(sixteenths, 16), 1)
    return f"{' '.join(str(part) for part in (whole, rest) if part) or '0'} in"
