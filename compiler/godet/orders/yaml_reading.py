"""Reads the plain part of YAML that a person's files need: keys, texts, keys within keys.

In: a path. Out: the `Table` at the top of the file, every scalar as text with its place, so that
numbers and units are read by the same reader as in a recipe. Duplicate keys, anchors, tags, more
than one document and anything that is not YAML are problems, as many as can be found in one run.
The table comes with them when the rest of it can still be judged, and is `None` otherwise. Never
raises.

    read_yaml(Path("adult_a.yaml"))[0].entries["units"].value    # Scalar("cm", Place(...))
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.orders.cures import shown, shown_path
from godet.orders.text_files import Read, read_text, whole_file
from godet.orders.yaml_faults import place_of_marks, yaml_fault

# no file of ours goes deeper than three; the composer calls itself at each level
_DEEPEST = 20


@dataclass(frozen=True, slots=True)
class Scalar:
    """One value as text, `""` when nothing was written."""

    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Listing:
    """A YAML list; no file of ours takes one, so only where it stands is kept."""

    place: Place


@dataclass(frozen=True, slots=True)
class Entry:
    """A key, where it stands, and what it holds."""

    key_place: Place
    value: Scalar | Listing | Table


@dataclass(frozen=True, slots=True)
class Table:
    """Keys in the order of the file."""

    entries: Mapping[str, Entry]
    place: Place


class _TooDeepError(Exception):
    def __init__(self, mark: yaml.Mark | None) -> None:
        super().__init__()
        self.mark = mark


class _Loader(yaml.SafeLoader):
    """Composes nodes, notes anchors, aliases and tags as problems, and reads on without them."""

    def __init__(self, text: str, file: str) -> None:
        super().__init__(text)
        self.file = file
        self.text = text
        self.found: list[Problem] = []
        self.depth = 0
        self.has_alias = False

    def compose_node(self, parent: yaml.Node | None, index: int) -> yaml.Node | None:
        event: Any = self.peek_event()  # type: ignore[no-untyped-call]
        place = place_of_marks(self.file, event.start_mark, event.end_mark)
        if self.check_event(yaml.AliasEvent):
            self.get_event()  # type: ignore[no-untyped-call]
            self.found.append(problem("yaml-anchor", place, typed=self._typed(event)))
            self.has_alias = True
            return yaml.ScalarNode("", "", event.start_mark, event.end_mark)
        if event.anchor is not None:
            self.found.append(problem("yaml-anchor", place, typed=self._typed(event)))
            event.anchor = None
        if event.tag is not None:
            self.found.append(problem("yaml-tag", place, typed=self._typed(event)))
            event.tag = None
        if self.depth == _DEEPEST:
            raise _TooDeepError(event.start_mark)
        self.depth += 1
        node = super().compose_node(parent, index)
        self.depth -= 1
        return node

    def _typed(self, event: Any) -> str:
        """The word with which the value begins, as it was typed."""
        return shown(self.text[event.start_mark.index :].split(maxsplit=1)[0].rstrip(",]}"))


def read_yaml(path: Path) -> Read[Table]:
    """The table at the top of a YAML file, and every problem of its YAML."""
    text, problems = read_text(path)
    if text is None:
        return None, problems
    return compose(text, str(path))


def compose(text: str, file: str) -> Read[Table]:
    """The table at the top of a YAML text; `file` is only named in places."""
    node, problems = _node(text, file)
    if node is None:
        return None, problems
    found = list(problems)
    top = _tree(node, file, found)
    if isinstance(top, Table):
        return top, tuple(found)
    return None, (*found, problem("yaml-no-keys", top.place))


def _node(text: str, file: str) -> Read[yaml.Node]:
    try:
        loader = _Loader(text, file)
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, error.position) + 1
        column = error.position - text.rfind("\n", 0, error.position)
        place = Place(file, line, column, line, column + 1)
        return None, (
            problem("yaml-character", place, number=f"U+{ord(text[error.position]):04X}"),
        )
    try:
        node = loader.get_single_node()
    except yaml.composer.ComposerError as error:
        # anchors never reach the composer, so what is left is a second document
        found = problem("yaml-several-documents", place_of_marks(file, error.problem_mark))
    except yaml.MarkedYAMLError as error:
        found = yaml_fault(text, file, error)
    except _TooDeepError as error:
        found = problem("yaml-too-deep", place_of_marks(file, error.mark), deepest=_DEEPEST)
    except (ValueError, OverflowError):
        # an escape such as "\UFFFFFFFF", which names no character
        found = problem("yaml-broken", place_of_marks(file, loader.get_mark()))
    else:
        problems = tuple(loader.found)
        if node is None:  # only comments
            problems += (problem("file-empty", whole_file(file), file=shown_path(Path(file))),)
        # where an alias stood a value is missing, and would be complained of twice
        return (None if loader.has_alias else node), problems
    # a value told of already is mostly what breaks its line, and would be complained of twice
    told = {known.place.line for known in loader.found if known.place is not None}
    if found.place is not None and found.place.line in told:
        return None, tuple(loader.found)
    return None, (*loader.found, found)


def _tree(node: yaml.Node, file: str, found: list[Problem]) -> Scalar | Listing | Table:
    place = place_of_marks(file, node.start_mark, node.end_mark)
    if isinstance(node, yaml.ScalarNode):
        return Scalar(node.value, place)
    if not isinstance(node, yaml.MappingNode):
        return Listing(place)
    entries: dict[str, Entry] = {}
    for key_node, value_node in node.value:
        key_place = place_of_marks(file, key_node.start_mark, key_node.end_mark)
        value = _tree(value_node, file, found)
        if not isinstance(key_node, yaml.ScalarNode):
            found.append(problem("yaml-key-no-text", key_place))
        elif key_node.value in entries:
            first = entries[key_node.value].key_place.line
            name = shown(key_node.value)
            found.append(problem("key-twice", key_place, name=name, first=first))
        else:
            entries[key_node.value] = Entry(key_place, value)
    return Table(entries, place)
