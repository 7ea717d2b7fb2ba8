"""Takes the entries of a table by name, and finds those that have no business there.

In: a `Table` and a key. Out: the value with its place, or the problem; an entry that is simply
left out is `(None, ())`. Never raises.

    text_at(table, "units")    # (Scalar("cm", Place(...)), ())
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import chain

from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.orders.cures import did_you_mean, name_instead, nearest, shown
from godet.orders.text_files import Read
from godet.orders.yaml_reading import Scalar, Table

_LONGEST_LABEL = 80


def all_of(*problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """The problems of several readings, in one tuple."""
    return tuple(chain.from_iterable(problems))


def start_of(table: Table) -> Place:
    """Where a missing entry would have to be written."""
    p = table.place
    return Place(p.file, p.line, p.column, p.line, p.column)


def unknown_keys(table: Table, known: Iterable[str]) -> tuple[Problem, ...]:
    """A problem for each key of the table that is not one of `known`."""
    names = tuple(known)
    return tuple(
        unknown_key(key, entry.key_place, names, "key-unknown")
        for key, entry in table.entries.items()
        if key not in names
    )


def unknown_key(key: str, place: Place, names: Iterable[str], code: str, rest: str = "") -> Problem:
    """The problem `code` that `key` is none of `names`, with the one that was perhaps meant.

    `rest` is what else stands at `place` after the key, and is kept by the fix.
    """
    known = tuple(names)
    meant, fix = nearest(key, known), name_instead(place, key, known, rest)
    return problem(
        code, place, fix=fix, name=shown(key), known=", ".join(known), hint=did_you_mean(meant)
    )


def text_at(table: Table, key: str) -> Read[Scalar]:
    """The text that stands after `key`; a problem when nothing or more than a text stands there."""
    entry = table.entries.get(key)
    if entry is None:
        return None, ()
    if not isinstance(entry.value, Scalar):
        return None, (problem("key-wants-text", entry.key_place, name=shown(key)),)
    if not entry.value.text:
        return None, (problem("key-blank", entry.key_place, name=shown(key)),)
    return entry.value, ()


def table_at(table: Table, key: str, example: str) -> Read[Table]:
    """The keys that stand under `key`; a problem, with an example, when something else does."""
    entry = table.entries.get(key)
    if entry is None:
        return None, ()
    if isinstance(entry.value, Table):
        return entry.value, ()
    if isinstance(entry.value, Scalar) and not entry.value.text:
        return None, (problem("key-blank", entry.key_place, name=shown(key)),)
    return None, (problem("key-wants-keys", entry.key_place, name=key, example=example),)


def key_missing(table: Table, key: str, example: str) -> Problem:
    """The problem that a table lacks a key that it must have."""
    return problem("key-missing", start_of(table), name=key, example=example)


def label_at(table: Table, key: str, example: str) -> Read[Scalar]:
    """The label that a file must give: printable, at most eighty characters."""
    label, problems = text_at(table, key)
    if key not in table.entries:
        return None, (key_missing(table, key, example),)
    if label is None:
        return None, problems
    wrong = wrong_label(key, label)
    return (None, (wrong,)) if wrong else (label, ())


def wrong_label(key: str, label: Scalar) -> Problem | None:
    """The problem with a label that could not be printed on a piece."""
    if len(label.text) > _LONGEST_LABEL:
        length, longest = len(label.text), _LONGEST_LABEL
        return problem("label-too-long", label.place, name=key, length=length, longest=longest)
    if not label.text.isprintable():
        return problem("label-unprintable", label.place, name=key, label=shown(label.text))
    return None


def one_of(table: Table, key: str, allowed: tuple[str, ...]) -> Read[Scalar]:
    """The text after `key`, which must be one of a few words."""
    text, problems = text_at(table, key)
    if text is None or text.text in allowed:
        return text, problems
    wrong = problem(
        "value-not-allowed",
        text.place,
        fix=name_instead(text.place, text.text, allowed),
        name=key,
        typed=shown(text.text),
        allowed=", ".join(allowed),
    )
    return None, (wrong,)
