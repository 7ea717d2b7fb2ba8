"""How Sphinx builds these pages: `sphinx-build -W -n docs FOLDER`, with the extra `docs`."""

from __future__ import annotations

import sys
from pathlib import Path

from pygments.lexers.special import TextLexer
from sphinx.application import Sphinx

sys.path.insert(0, str(Path(__file__).parent))

from gallery import FOLDER, draw_all
from godet_lexer import GodetLexer

project = "Godet"
author = "the authors of Godet"
extensions = ["myst_parser"]
html_theme = "alabaster"
templates_path = ["_templates"]
html_theme_options = {
    "description": "Sewing patterns written down once, drafted for any body",
    "page_width": "1200px",
    "body_max_width": "900px",
    "sidebar_width": "260px",
    "fixed_sidebar": True,
    "sidebar_collapse": True,
}
pygments_style = "tango"  # its colours can be read on white
html_show_sphinx = False
html_show_copyright = False
html_copy_source = False
myst_heading_anchors = 3


def setup(app: Sphinx) -> None:
    app.connect("builder-inited", lambda app: draw_all(Path(app.srcdir) / FOLDER))
    app.add_lexer("godet", GodetLexer)
    # uncoloured: grammar lines, and files that are also shown with what is wrong in them
    for language in ("lark", "csv", "yaml"):
        app.add_lexer(language, TextLexer)
