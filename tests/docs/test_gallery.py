"""The gallery shows every dress on every top that it takes, as its commands draft it."""

from __future__ import annotations

import re
import subprocess
import sys
from itertools import product
from pathlib import Path

from cells import IN_ONE, OF_DRESSES, TOPS, WANTED, Cell
from fences import DOCS
from svgelements import SVG, Group
from svgelements import Path as Outline

PAGE = (DOCS / "gallery.md").read_text(encoding="utf-8")
PICTURES = re.findall(r"^!\[.+\]\(_gallery/([\w-]+)\.svg\)$", PAGE, re.MULTILINE)


def test_every_dress_is_shown_on_every_top_that_it_takes():
    # with the skirt that a dress takes by itself
    usual = {
        "sheath_dress": "straight_skirt",
        "gathered_dress": "gathered_skirt",
        "waisted_a_line_dress": "a_line_skirt",
        "waisted_separates": "straight_skirt",
    }
    cells = [Cell(dress, top, usual.get(dress)) for dress, top in product(WANTED, TOPS)]
    wanted = {f"{cell.dress}-{cell.top}" for cell in cells if cell.refusal is None}
    parted = [name for name in PICTURES if name.partition("-")[0] in OF_DRESSES]
    assert len(PICTURES) == len(set(PICTURES))
    assert set(PICTURES) - set(parted) == wanted
    assert {name.partition("-")[0] for name in parted} == set(OF_DRESSES)
    assert {name.partition("-")[2] for name in parted} <= set(IN_ONE)


def test_a_picture_is_drawn_with_all_its_pieces_at_the_scale_of_the_others(tmp_path: Path):
    program = (
        "import sys, gallery as g; from pathlib import Path;"
        "[g.draw(s, Path(sys.argv[1])) for s in g.GALLERY if s.name == sys.argv[2]]"
    )
    name = "sheath_dress-darted_blouse"
    subprocess.run([sys.executable, "-c", program, str(tmp_path), name], cwd=DOCS, check=True)
    picture = SVG.parse(tmp_path / f"{name}.svg", ppi=96)
    drawn = {group.id: group for group in picture if isinstance(group, Group) and group.id}
    assert {"front", "back", "skirt_front", "skirt_back", "sleeve"} <= set(drawn)
    square = next(e for e in drawn["test-square"].select() if isinstance(e, Outline))
    left, top, right, bottom = square.bbox()
    # 10 cm, half a pixel to a millimetre; the sheet is rounded to whole pixels
    assert abs((right - left) - 50) < 0.2
    assert abs((bottom - top) - 50) < 0.2


def test_each_picture_has_its_command():
    commands = re.findall(r"^`godet draft (\w+) --with \w+=(\w+) .*`$", PAGE, re.MULTILINE)
    assert [f"{dress}-{block}" for dress, block in commands] == PICTURES
