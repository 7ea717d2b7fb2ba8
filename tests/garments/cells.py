"""Which dress is drafted on which top and skirt, and why the others are refused.

In: nothing. Out: `CELLS`, every shipped dress on every top, dresses of two blocks with every skirt
too. What a dress wants of its blocks stands in `WANTED`, by hand; a new dress needs a row there.

    Cell("sheath_dress", "knit_tee", "straight_skirt").refusal
    # "`knit_tee` can't serve: it has no dart front.waist_dart"
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

TOPS = ("knit_tee", "darted_blouse", "cut_in_one_top")
SKIRTS = ("straight_skirt", "a_line_skirt", "gathered_skirt", "circle_skirt")
# blocks whose darts end at the waist; of the skirts too, whose waist is as long as the sewn one
_WAIST_DARTS = frozenset({"darted_blouse", "straight_skirt"})

DARTED, DARTLESS, ANY = "darted", "dartless", "any"
# dress: what its top, and what its skirt must be
WANTED: Mapping[str, tuple[str, str | None]] = {
    "a_line_dress": (ANY, None),
    "column_dress": (DARTLESS, None),
    "gathered_dress": (ANY, DARTLESS),
    "sheath_dress": (DARTED, DARTED),
    "sheath_in_one": (DARTED, None),
    "shift_dress": (DARTLESS, None),
    "waisted_a_line_dress": (ANY, DARTLESS),
    "waisted_separates": (ANY, ANY),
}
# blocks of the right kind that no body can wear together, and the words of the requirement
NEVER_MET: Mapping[tuple[str, str | None], str] = {
    ("waisted_a_line_dress", "gathered_skirt"): "the skirt is wider at the waist than the top",
}
# recipes that take a whole dress; tried on dresses, each on a top of its own
OF_DRESSES = ("separates",)
IN_ONE = ("column_dress", "shift_dress", "a_line_dress", "sheath_in_one")
# two garments, each with all its own choices: so many sets that only pairs are tried
IN_PAIRS_ALONE = ("waisted_separates",)
CLOTHS = {
    "knit_tee": ("jersey",),
    "darted_blouse": ("linen",),
    "cut_in_one_top": ("linen", "jersey"),
}
# a blouse of a woven can't be pulled on, and says so; a dress for knits is closed by default
_OPENED = {"opening": "zip"}
USUAL: Mapping[tuple[str, str], Mapping[str, str]] = {("gathered_dress", "darted_blouse"): _OPENED}


@dataclass(frozen=True)
class Cell:
    dress: str
    top: str
    skirt: str | None = None

    @property
    def name(self) -> str:
        return " on ".join(filter(None, (self.dress, self.top))) + (
            f" with {self.skirt}" if self.skirt else ""
        )

    @property
    def blocks(self) -> dict[str, str]:
        """What is written behind `--with`, by the name of the block."""
        if self.dress in OF_DRESSES:
            return {"whole_dress": self.top}
        return {"top": self.top, **({"skirt": self.skirt} if self.skirt else {})}

    @property
    def upper(self) -> str:
        """The top, of a whole dress too."""
        return self.top.partition("(")[2].rstrip(")") or self.top

    @property
    def cloths(self) -> tuple[str, ...]:
        return CLOTHS[self.upper]

    @property
    def usual(self) -> Mapping[str, str]:
        """What somebody must choose who takes these blocks, over the defaults."""
        return USUAL.get((self.dress, self.top), {})

    @property
    def never_met(self) -> str | None:
        """Of the requirement that no body meets here."""
        return NEVER_MET.get((self.dress, self.skirt))

    @property
    def refusal(self) -> str | None:
        """What the message must say; None where the cell is drafted."""
        if self.dress in OF_DRESSES:
            return None
        wanted_top, wanted_skirt = WANTED[self.dress]
        return _refused(self.top, wanted_top) or _refused(self.skirt, wanted_skirt)


def _refused(block: str | None, wanted: str | None) -> str | None:
    if block is None or wanted in (ANY, None):
        return None
    if (block in _WAIST_DARTS) is (wanted == DARTED):
        return None
    why = (
        "it has no dart front.waist_dart"
        if wanted == DARTED
        else "it must not have front.waist_dart"
    )
    return f"`{block}` can't serve: {why}"


def _cells() -> list[Cell]:
    cells = []
    for dress, (_, skirt) in WANTED.items():
        skirts = (None,) if skirt is None else SKIRTS
        cells += [Cell(dress, top, below) for top in TOPS for below in skirts]
    whole = [Cell(dress, top) for dress in IN_ONE for top in TOPS]
    cells += [Cell("separates", f"{c.dress}({c.top})") for c in whole if c.refusal is None]
    return cells


CELLS = tuple(_cells())
DRAFTED = tuple(cell for cell in CELLS if cell.refusal is None and cell.never_met is None)
NEVER_WORN = tuple(cell for cell in CELLS if cell.never_met is not None and cell.refusal is None)
REFUSED = tuple(cell for cell in CELLS if cell.refusal is not None)
