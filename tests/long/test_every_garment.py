"""Every dress on every top under every set of choices: some ten minutes to an hour.

pytest -m long tests/long -s
"""

from __future__ import annotations

import pytest
from product_table import PAGE, every_line, page, read, written


@pytest.mark.long
def test_every_garment_keeps_the_rules_whatever_is_chosen():
    lines = []
    for line in every_line():
        if not lines or lines[-1].cell != line.cell:
            print(line.cell)
        lines.append(line)
    written(lines)
    PAGE.write_text(page(read()), encoding="utf-8")
    assert [words for line in lines for words in line.broken] == []
