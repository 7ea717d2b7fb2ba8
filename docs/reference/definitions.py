"""The pages of what the library defines: modules, measures, kinds.

In: a text of the library. Out: a Markdown page. Nothing fails.

    module_page(ShippedText(path))
"""

from __future__ import annotations

from collections.abc import Iterator

from godet.language import tree
from reference.markdown import anchor, code, filled, item, page, sentence
from reference.shipped_text import ShippedText


def module_page(text: ShippedText) -> str:
    """What a module defines, with its parameters and what it says of itself."""
    parts = [f"# `{text.name}`", f"Brought in with `use NAME from {text.name}`."]
    for statement in text.file.statements:
        match statement:
            case tree.Define() | tree.DefineCurve() | tree.DefinePiece():
                name = statement.name.text
                parameters = ", ".join(_parameter(each, text) for each in statement.parameters)
                used = f"`{name}({parameters})`{_SORTS[type(statement)]}"
                parts += [f"## {name}", filled(used), filled(statement.doc)]
    return page(parts)


_SORTS = {tree.Define: "", tree.DefineCurve: ", a curve", tree.DefinePiece: ", a piece"}


def _parameter(parameter: tree.Parameter, text: ShippedText) -> str:
    default = f" = {text.written(parameter.default.place)}" if parameter.default else ""
    return f"{parameter.name.text}: {_type(parameter.type)}{default}"


def _type(type: tree.TypeName) -> str:
    if type.name == "words":
        return f"one of ({', '.join(type.words)})"
    return f"{type.name}.{type.piece}" if type.piece else type.name


def measures_page(text: ShippedText) -> str:
    """The vocabulary of measures, with how to take each."""
    words = """
        The names to which a body's file can give a value. A value outside its range is asked about,
        and a measure that is left out is estimated where an estimate is told here. Measure what can
        be measured.
        """
    parts = ["# Measures of the body", filled(words)]
    for block in text.all(tree.DefineMeasure):
        told = [
            sentence(line.text) for line in block.body if isinstance(line, tree.Means | tree.Take)
        ]
        facts = "\n".join(_facts(block, text))
        parts += [f"## {block.name.text}", filled(" ".join(told)), facts]
    return page(parts)


def _facts(block: tree.DefineMeasure, text: ShippedText) -> Iterator[str]:
    for line in block.body:
        match line:
            case tree.Range():
                low, high = text.written(line.lowest.place), text.written(line.highest.place)
                yield item(f"to be expected: {low} to {high}")
            case tree.Estimate():
                yield item(f"estimated as `{text.written(line.value.place)}` ({line.source})")


def kinds_page(text: ShippedText) -> str:
    """The kinds, each with the pieces it promises and their members."""
    words = """
        What a block of each kind promises to a recipe that takes it; see
        [`kind`](../language/kinds.md). What is optional has to be asked for.
        """
    parts = ["# Kinds", filled(words)]
    for kind in text.all(tree.Kind):
        pieces = [_promise(part) for part in kind.body if isinstance(part, tree.Piece)]
        choices = [_choice(part) for part in kind.body if isinstance(part, tree.KindChoices)]
        parts += [f"## {kind.name.text}", filled(f"{kind.doc}{_also(kind)}"), *pieces, *choices]
    return page(parts)


def _also(kind: tree.Kind) -> str:
    links = [f"[{word.text}]({anchor(word.text)})" for word in kind.serves_as]
    return f" It is also {', '.join(links)}." if links else ""


def _promise(piece: tree.Piece) -> str:
    names = code(name.text for name in piece.names)
    lines = [f"Pieces {names}{', optional' if piece.optional else ''}"]
    for members in (part for part in piece.body if isinstance(part, tree.KindMembers)):
        sort = f"{'double ' if members.double else ''}{members.sort}"
        sort += "s" if len(members.names) > 1 else ""
        start = f", from the {members.first_end.text}" if members.first_end else ""
        optional = ", optional" if members.optional else ""
        named = code(name.text for name in members.names)
        lines.append(item(f"{sort} {named}{start}{optional}"))
    lines[0] += ":" if lines[1:] else "."
    return "\n".join([lines[0], "", *lines[1:]]).rstrip()


def _choice(choices: tree.KindChoices) -> str:
    names = code(name.text for name in choices.names)
    optional = ", optional" if choices.optional else ""
    return filled(f"Its taker may set {names}: {_type(choices.type)}{optional}.")
