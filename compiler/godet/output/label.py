"""What a piece says about itself: the lines of its label, most important first.

In: a finished pattern and one of its pieces. Out: lines of text. Nothing fails.

    label_lines(pattern, front)  ->  ("1 Front", "Column dress", "For adult_a", ...)
"""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Iterable

from godet.output.lettering import printable
from godet.output.printed import length_words, name_words, printed
from godet.pattern.pieces import Pattern, Piece

_WRAP = 44  # characters
_SENTENCE = 160  # characters


def piece_title(piece: Piece) -> str:
    """Number and title: "1 Front"."""
    return printed("piece", number=piece.number, title=piece.title)


def stamp(pattern: Pattern) -> str:
    """Version and date; the digest, shortened, where the pattern has no date."""
    if pattern.date:
        return printed("stamp", version=pattern.version, date=pattern.date)
    return printed("stamp-undated", version=pattern.version, digest=pattern.digest[:8])


def cut_words(piece: Piece) -> str:
    """How often, from which cloth and how: "Cut 1 of main on the fold"."""
    name = "cut-on-fold" if piece.cut.fold else "cut"
    if piece.cut.mirrored:
        name += "-mirrored"
    return printed(name, count=piece.cut.count, cloth=name_words(piece.cut.cloth))


def allowance_words(pattern: Pattern, piece: Piece) -> str:
    """The allowance that most edges have, then the edges that have another; a fold has none."""
    sewn = _allowances(piece)
    if not any(sewn.values()):
        # beside pieces that have their allowance, one without is meant so: interfacing, elastic
        meant = any(any(_allowances(other).values()) for other in pattern.pieces)
        return printed("without-allowance" if meant else "no-allowance")
    usual = Counter(sewn.values()).most_common(1)[0][0]
    others = ", ".join(
        printed(
            "allowance-of-edge",
            edge=name_words(name),
            length=_allowance(allowance, pattern),
        )
        for name, allowance in sewn.items()
        if allowance != usual
    )
    if not others:
        return printed("allowance", usual=_allowance(usual, pattern))
    # the list is whole however long: an allowance left unsaid is cut wrong
    return printed("allowance-but", longest=10_000, usual=_allowance(usual, pattern), others=others)


def _allowances(piece: Piece) -> dict[str, float]:
    """In mm, by edge; a fold has none."""
    edges = [piece.edges[step.edge] for step in piece.outline]
    return {edge.name: edge.allowance for edge in edges if not edge.on_fold}


def failed_checks(pattern: Pattern) -> tuple[str, ...]:
    """A line for every requirement that the pattern does not meet."""
    return tuple(
        printed("does-not-pass", longest=_SENTENCE, words=check.words or name_words(check.name))
        for check in pattern.checks
        if check.level == "require" and not check.ok
    )


def estimates(pattern: Pattern) -> tuple[str, ...]:
    """A line with all measures that the size table completed, and one with all that were
    estimated; the sources of these stand in draft.json."""
    told = (("completed", pattern.completed), ("estimated", sorted(pattern.estimated)))
    # the lists are whole however long: a measure left unsaid would pass for measured
    return tuple(
        printed(code, longest=10_000, measures=", ".join(name_words(name) for name in names))
        for code, names in told
        if names
    )


def label_lines(pattern: Pattern, piece: Piece) -> tuple[str, ...]:
    """One fact to a line, long ones wrapped, for a piece about as broad as it is long."""
    return wrapped(_facts(pattern, piece))


def wrapped(lines: Iterable[str]) -> tuple[str, ...]:
    """The lines, each broken into several where it is longer than a label is wide."""
    return tuple(part for line in lines for part in textwrap.wrap(line, _WRAP))


def label_strip(pattern: Pattern, piece: Piece) -> tuple[str, ...]:
    """The same in a title and two long lines, for a band."""
    title, *facts = _facts(pattern, piece)
    half = (len(facts) + 1) // 2
    return title, " · ".join(facts[:half]), " · ".join(facts[half:])


def _facts(pattern: Pattern, piece: Piece) -> tuple[str, ...]:
    facts = (
        piece_title(piece),
        printable(pattern.title),
        printed("body", body=pattern.body),
        cut_words(piece),
        allowance_words(pattern, piece),
        stamp(pattern),
        *failed_checks(pattern),
    )
    return tuple(fact for fact in facts if fact)


def _allowance(allowance: float, pattern: Pattern) -> str:
    if not allowance:
        return printed("allowance-none")
    return length_words(allowance, pattern.units)
