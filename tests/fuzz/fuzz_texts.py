"""Bytes that look for a crash: the coverage of the compiler steers what is tried next.

    nice python tests/fuzz/fuzz_texts.py [FOLDER of finds kept] [-max_total_time=600] [-seed=1]

In: atheris, and the shipped texts to begin with. Out: nothing while all is well; else the bytes of
a text that raises, or whose problems stand outside it, in a file `crash-...`. Each find becomes a
case of tests/language/test_broken_texts.py and is mended. The bytes choose words of the language,
names, numbers and marks, and stretches of the shipped texts, so that most of what they make reads
far into a line.
"""

from __future__ import annotations

import sys
import tempfile
from functools import lru_cache
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["godet"]):
    from godet.language import library
    from godet.language.parser import parse
    from godet.language.tokens import WORDS
    from godet.tools.checking import check

sys.path.insert(0, str(Path(__file__).parents[1]))
from places import outside

STDLIB = Path(__file__).parents[2] / "stdlib"
TEXTS = [path.read_text(encoding="utf-8") for path in sorted(STDLIB.glob("*.godet"))]
LINES = sorted({line for text in TEXTS for line in text.splitlines() if line.strip()})
PARTS = [
    *sorted(WORDS),
    *"a b front side waist hip_girth fabric base origin".split(),
    *"2cm 1/3 12% 30deg 14 0 3/0 8,5cm".split(),
    *'= , : . ( ) + - * / ^ > < >= <= "words" " #'.split(),
]
HEADING = "edition 1\nrecipe fuzzed\n  takes top: bodice = knit_tee\n"


def text_from(data: bytes) -> str:
    """A text: lines of the shipped ones, lines of parts, or whatever the bytes say."""
    given = atheris.FuzzedDataProvider(data)
    lines = [HEADING] if given.ConsumeBool() else []
    while given.remaining_bytes() and len(lines) < 60:
        match given.ConsumeIntInRange(0, 3):
            case 0:
                lines.append(given.PickValueInList(LINES))
            case 1:
                lines.append(given.ConsumeUnicodeNoSurrogates(40))
            case 2:
                words = given.PickValueInList(LINES).split(" ")
                at = given.ConsumeIntInRange(0, len(words) - 1)
                words[at] = given.PickValueInList(PARTS)
                lines.append(" ".join(words))
            case _:
                count = given.ConsumeIntInRange(1, 12)
                lines.append(" ".join(given.PickValueInList(PARTS) for _ in range(count)))
    return "\n".join(lines)


def try_bytes(data: bytes) -> None:
    text = text_from(data)
    _, problems = parse(text, "fuzzed.godet")
    assert outside(text, problems) == []
    name = f"{FOLDER}/fuzzed.godet"
    found = check([name], {name: text}).problems
    assert outside(text, [p for p in found if p.place is not None and p.place.file == name]) == []


FOLDER = tempfile.mkdtemp()
if __name__ == "__main__":
    (Path(FOLDER) / "fuzzed.godet").touch()
    library.parse = lru_cache(maxsize=32)(parse)  # the library's own texts stay the same
    atheris.Setup(sys.argv, try_bytes)
    atheris.Fuzz()
