"""Finds and reads the texts a recipe depends on: the one reader through which all files come.

In: a module's name (`ease`, or `own.ease` for one in a folder below). Out: its parsed `tree.File`,
looked for beside the file that uses it, then in the shipped library; never outside those folders. A
file that is missing, unreadable or led out of the folder by a link is a problem. A
text that is not written yet can be read `instead` of what its file holds.

    library = Library(Path("recipes"));  library.module("ease", place)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Problem, problem
from godet.base.shipped import shipped
from godet.language import tree
from godet.language.parser import parse

SUFFIX = ".godet"


@dataclass(slots=True)
class Library:
    root: Path  # the recipe's own folder
    problems: list[Problem] = field(default_factory=list)
    texts: dict[str, str] = field(default_factory=dict)  # by file name as shown, to underline in
    instead: Mapping[str, str] = field(default_factory=dict)  # by file name as shown
    _files: dict[Path, tree.File | None] = field(default_factory=dict)

    def module(self, name: str, place: Place | None) -> tree.File | None:
        """The file of that name, or None when there is none, which is reported."""
        beside = Path(place.file).parent if place is not None else self.root
        folders = (beside, shipped("stdlib"), shipped("recipes"))
        for folder in folders:
            path = folder / f"{name.replace('.', '/')}{SUFFIX}"
            if not path.is_file():
                continue
            # a link may lead anywhere
            if not path.resolve().is_relative_to(folder.resolve()):
                self.problems.append(problem("file-outside", place, name=path, folder=folder))
                return None
            return self.file(path)
        file = name.replace(".", "/")
        near = {path.stem for each in folders for path in each.glob(f"*{SUFFIX}")}
        hint, fix = did_you_mean(file, near, place)
        self.problems.append(
            problem(
                "no-such-module",
                place,
                name=file,
                file=place.file if place is not None else beside,
                hint=hint,
                fix=fix,
            )
        )
        return None

    def file(self, path: Path) -> tree.File | None:
        """A parsed file; what is wrong with it goes to `problems`, once."""
        if path not in self._files:
            self._files[path] = self._read(path)
        return self._files[path]

    def _read(self, path: Path) -> tree.File | None:
        try:
            text = self.instead.get(str(path))
            text = path.read_text(encoding="utf-8-sig") if text is None else text
        except UnicodeDecodeError:
            self.problems.append(problem("not-text", None, file=path))
            return None
        except OSError as error:
            self.problems.append(
                problem("cannot-read", None, file=path, reason=error.strerror or "unknown reason")
            )
            return None
        self.texts[str(path)] = text
        file, problems = parse(text, str(path))
        self.problems.extend(problems)
        return file
