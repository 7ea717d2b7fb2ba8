"""The rules tell of a slip in a recipe, each of another one."""

from __future__ import annotations

import pytest
import trials
from cells import Cell
from rules import broken
from wearers import six

from godet.base.shipped import shipped
from godet.tools.compiling import compile_recipe

_SHIFT = Cell("shift_dress", "knit_tee")
_COLUMN = Cell("column_dress", "knit_tee")
_A_LINE = Cell("a_line_dress", "darted_blouse")
_SHEATH = Cell("sheath_dress", "darted_blouse", "straight_skirt")
_GATHERED = Cell("gathered_dress", "darted_blouse", "gathered_skirt")
_CIRCLE = Cell("gathered_dress", "knit_tee", "circle_skirt")
_WAISTED = Cell("waisted_a_line_dress", "darted_blouse", "a_line_skirt")

# the cell, the file, what stands in it, what a slip makes of that, what is told
SLIPS = [
    (_SHIFT, "recipes/shift_dress", "point hem_centre = centre_waist down ",
     "point hem_centre = centre_waist down 5 mm + ", "hem of front is not level"),
    (_COLUMN, "recipes/column_dress", "then curve to hem_side leaving down arriving down",
     "then line to hem_side", "hem of front at the side"),
    (_A_LINE, "recipes/a_line_dress", "then arc to hem_side", "then line to hem_side",
     "hem of back at the side"),
    (_SHEATH, "recipes/sheath_dress", "length(front.to_dart)", "length(front.to_dart) + 3 mm",
     "darts of front"),
    (_SHIFT, "stdlib/knit_tee", "length(back.armhole) + cap_ease",
     "length(back.armhole) + cap_ease + 2 mm", "the cap of the sleeve"),
    (_GATHERED, "recipes/gathered_dress", "skirt.back_waist   = length(back.bottom)",
     "skirt.back_waist   = length(back.bottom as cut)", "gathers of back"),
    (_CIRCLE, "stdlib/skirt_panels", "hem_centre   = centre_waist down long",
     "hem_centre   = centre_waist down long + 8 mm", "hem of skirt_front is not level"),
    (_WAISTED, "recipes/waisted_a_line_dress", "skirt.front_waist  = length(front.bottom)",
     "skirt.front_waist  = length(front.bottom) + 3 mm", "seam waist"),
    (Cell("waisted_a_line_dress", "knit_tee", "a_line_skirt"), "recipes/waisted_a_line_dress",
     "advise opening is not zip or", "advise opening is zip or", "only the skirt opens"),
    (_SHIFT, "stdlib/knit_tee", "bust_width  = (bust_girth + bust_ease) / 4",
     "bust_width  = (bust_girth + bust_ease) / 5", "a standard size is refused"),
    (_COLUMN, "recipes/column_dress", "require girth(hip) >= hip_girth",
     "require girth(hip) >= 70 % * hip_girth", "narrower than the hip_girth"),
    (_SHIFT, "recipes/shift_dress", "over min(10cm, 7/4 * length(side_above))", "over 50cm",
     "statements fail"),
]  # fmt: skip
# a slip alone that another check would tell of
_WITH = {"narrower than the hip_girth": ("/ 2 - width(top.front", "/ 3 - width(top.front")}


@pytest.mark.parametrize(
    ("cell", "file", "text", "slip", "told"), SLIPS, ids=[slip[-1] for slip in SLIPS]
)
def test_a_slip_is_told(
    cell: Cell, file: str, text: str, slip: str, told: str, monkeypatch: pytest.MonkeyPatch
):
    room, _, name = file.partition("/")
    path = shipped(room) / f"{name}.godet"
    written = path.read_text(encoding="utf-8")
    for right, wrong in ((text, slip), *filter(None, (_WITH.get(told),))):
        assert right in written
        written = written.replace(right, wrong)
    made = compile_recipe(cell.dress, cell.blocks, instead={str(path): written})
    assert made.draft is not None, [found.sentence for found in made.problems]
    monkeypatch.setattr(trials, "draft_of", lambda cell: made.draft)
    trial = trials.tried(cell, six(cell), trials.choosings(cell)[:1])
    assert any(told in sentence for sentence in broken(trial))
