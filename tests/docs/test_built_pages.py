"""The pages that are made are current, and all of them build into a site without a warning."""

from __future__ import annotations

import html
import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

from fences import DOCS, pages

from godet.base.words import WORDS


def test_the_pages_made_from_the_library_are_current():
    # after a change to the library or an operation: python docs/reference_pages.py
    program = "import json, reference_pages as r; print(json.dumps(r.reference_pages()))"
    run = subprocess.run(
        [sys.executable, "-c", program], cwd=DOCS, capture_output=True, text=True, check=True
    )
    made = json.loads(run.stdout)
    assert {name for name in made if not name.startswith("library/")} == {
        "gallery.md",
        "operations.md",
    }
    assert {f"library/{p.name}" for p in (DOCS / "library").glob("*.md")} < set(made)
    for name, text in made.items():
        assert (DOCS / name).read_text(encoding="utf-8") == text, name


def test_the_site_builds_without_a_warning(tmp_path: Path):
    docs, site = tmp_path / "docs", tmp_path / "site"
    shutil.copytree(DOCS, docs, ignore=shutil.ignore_patterns("__pycache__"))
    for code in WORDS:  # the problems whose pages are still to come
        page = docs / "problems" / f"{code}.md"
        if not page.exists():
            page.write_text(f"# {code}\n", encoding="utf-8")
    command = [sys.executable, "-m", "sphinx", "-q", "-W", "-n", str(docs), str(site)]
    run = subprocess.run(command, capture_output=True, text=True)
    assert run.returncode == 0, run.stderr
    for page in pages():
        built = (site / page.relative_to(DOCS)).with_suffix(".html").read_text("utf-8")
        title = page.read_text("utf-8").splitlines()[0].removeprefix("# ").replace("`", "")
        heading = re.search(r"<h1>(.*?)<a", built, re.DOTALL)
        assert heading is not None, page
        assert html.unescape(re.sub(r"<[^>]*>", "", heading[1])) == title
    coloured = (site / "language" / "points.html").read_text("utf-8")
    assert '<span class="kd">point</span>' in coloured
