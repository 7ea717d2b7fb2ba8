"""How Sphinx builds these pages: `sphinx-build -W -n docs FOLDER`, with the extra `docs`."""

from __future__ import annotations

import sys
from pathlib import Path

from pygments.lexers.special import TextLexer
from sphinx.application import Sphinx

sys.path.insert(0, str(Path(__file__).parent))

from godet_lexer import GodetLexer  # noqa: E402 - it lies beside this file

project = "Godet"
author = "the authors of Godet"
extensions = ["myst_parser"]
html_theme = "alabaster"
html_theme_options = {
    "description": "Sewing patterns written down once, drafted for any body",
    "page_width": "1080px",
    "sidebar_width": "250px",
    "fixed_sidebar": True,
    "sidebar_collapse": True,
}
html_show_sphinx = False
html_copy_source = False
myst_heading_anchors = 3


def setup(app: Sphinx) -> None:
    app.add_lexer("godet", GodetLexer)
    app.add_lexer("lark", TextLexer)  # grammar lines, uncoloured
