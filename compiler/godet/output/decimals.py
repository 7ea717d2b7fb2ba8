"""Numbers as text, the same on every run, so that two versions of a file compare line by line.

In: a number and how many decimals to keep. Out: the shortest text of the rounded number, with no
exponent, no trailing zeros and never `-0`. Fails with `ValueError` on a number that is not finite.

    decimal_text(-0.0000001, 6)  ->  "0"
"""

from __future__ import annotations

import math


def decimal_text(value: float, places: int) -> str:
    """`value` rounded to `places` decimals; `ValueError` when it is infinite or not a number."""
    if not math.isfinite(value):
        raise ValueError(f"{value} cannot be written to a file")
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
