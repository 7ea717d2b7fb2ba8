"""The gallery: every dress on each top that it takes, drawn for one body while the pages are built.

In: the shipped recipes. Out: the page `gallery.md`, which is committed, and an SVG for each picture
on it, which is not: `conf.py` has them drawn into docs/_gallery. A dress that is not drafted is an
error.

    draw(GALLERY[0], Path("docs/_gallery"))    # docs/_gallery/a_line_dress-knit_tee.svg
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from reference.markdown import filled, page

from godet.output.svg import svg
from godet.tools.drafting import draft
from godet.tools.requests import Request

FOLDER = "_gallery"
BODY = "adult_a"
_CLOTHS = {
    "knit_tee": "cotton_jersey",
    "darted_blouse": "linen",
    "cut_in_one_top": "linen",
    "column_dress": "cotton_jersey",
}
_PIXELS = 0.5  # a millimetre of the pattern on the screen, in every picture
# drawn so small, lines are thicker than on paper, and of the words only the titles can be read
_STYLE = """<style>
  .cut { stroke-width: 2.4 } .sew, .dart, .fold, .notch { stroke-width: 1.6 }
  .level, .grain, .mark { stroke-width: 1 } .test-square { stroke-width: 1.6 }
  text { display: none } .label[font-weight="bold"] { display: inline; font-size: 17px }
  g[id*="facing"] .label[font-weight="bold"] { font-size: 8px }
</style>"""


@dataclass(frozen=True)
class Shown:
    dress: str
    block: str  # the top, or the whole dress that is parted
    takes: str = "top"
    choices: Mapping[str, str] = field(default_factory=dict)

    @property
    def name(self) -> str:
        return f"{self.dress}-{self.block}"

    @property
    def cloth(self) -> str:
        return _CLOTHS[self.block]

    @property
    def command(self) -> str:
        """What drafts it."""
        chosen = [f"--choose {name}={word}" for name, word in self.choices.items()]
        words = ("godet draft", self.dress, f"--with {self.takes}={self.block}", *chosen)
        return " ".join([*words, f"--body {BODY} --fabric {self.cloth}"])


def _on(dress: str, *tops: str) -> tuple[Shown, ...]:
    return tuple(Shown(dress, top) for top in tops)


_TEE, _BLOUSE, _CUT_IN_ONE = "knit_tee", "darted_blouse", "cut_in_one_top"

GALLERY = (
    *_on("column_dress", _TEE, _CUT_IN_ONE),
    *_on("shift_dress", _TEE, _CUT_IN_ONE),
    *_on("a_line_dress", _TEE, _BLOUSE, _CUT_IN_ONE),
    *_on("sheath_in_one", _BLOUSE),
    *_on("sheath_dress", _BLOUSE),
    *_on("waisted_a_line_dress", _TEE, _BLOUSE, _CUT_IN_ONE),
    *_on("gathered_dress", _TEE),
    Shown("gathered_dress", _BLOUSE, choices={"opening": "zip"}),
    *_on("gathered_dress", _CUT_IN_ONE),
    Shown("separates", "column_dress", takes="whole_dress"),
    *_on("waisted_separates", _TEE, _BLOUSE, _CUT_IN_ONE),
)


def gallery_page() -> str:
    """The page, in Markdown."""
    words = f"""
        Each dress on each top that it takes, all pieces of it, for the invented body `{BODY}`; all
        pictures are at one scale, the square in each 10 cm wide. The command that drafts it stands
        above each.
        """
    parts = ["# Gallery", filled(words)]
    dress = ""
    for shown in GALLERY:
        if shown.dress != dress:
            dress = shown.dress
            parts.append(f"## {_plain(dress)}")
        block = _plain(shown.block)
        title = f"{_plain(dress)} on {block[0].lower()}{block[1:]}"
        parts += [f"`{shown.command}`", f"![{title}]({FOLDER}/{shown.name}.svg)"]
    return page(parts)


def _plain(name: str) -> str:
    """Its name as it is written in a sentence that it begins."""
    words = name.replace("cut_in_one", "cut-in-one").replace("a_line", "A-line").replace("_", " ")
    return words[0].upper() + words[1:]


def draw(shown: Shown, folder: Path) -> Path:
    """Its picture, written into a folder that is there."""
    drafted = draft(
        Request(
            shown.dress,
            Path(BODY),
            {"main": Path(shown.cloth)},
            {shown.takes: shown.block},
            {name: (word, None) for name, word in shown.choices.items()},
        )
    )
    assert drafted.pattern is not None, [found.sentence for found in drafted.problems]
    file = folder / f"{shown.name}.svg"
    file.write_text(_for_the_screen(svg(drafted.pattern)), encoding="utf-8")
    return file


def _for_the_screen(text: str) -> str:
    head, rest = text.split(">\n <title>", 1)

    def small(size: re.Match[str]) -> str:
        return f'{size[1]}="{float(size[2]) * _PIXELS:.0f}px"'

    head = re.sub(r'\b(width|height)="([\d.]+)mm"', small, head)
    return f"{head}>\n{_STYLE}\n <title>{rest}"


def draw_all(folder: Path) -> None:
    """Every picture of the page."""
    folder.mkdir(exist_ok=True)
    for shown in GALLERY:
        draw(shown, folder)
