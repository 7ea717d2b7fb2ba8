"""Writes files whole or not at all.

In: a folder and the files' contents by name, or contents by path. Out: the paths written. All
contents are ready before the first is written; each is written beside its place and moved there at
the end, so a full disk or a stop half-way leaves no half file and keeps what was there. What can't
be written raises `Problems`.

    write_files(Path("out"), {"draft.json": b"{}"})
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from errno import EACCES, EISDIR
from pathlib import Path
from stat import S_IMODE

from godet.base.problems import Problems, problem


def write_files(folder: Path, contents: Mapping[str, bytes]) -> tuple[Path, ...]:
    """The paths of the files, in the order given; the folder is made if it is not there."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise _cannot_write(folder, error) from error
    return write_paths({folder / name: content for name, content in contents.items()})


def write_paths(contents: Mapping[Path, bytes]) -> tuple[Path, ...]:
    """The same for files anywhere; a file that was there keeps its permissions, a link its file."""
    waiting: list[tuple[str, Path]] = []
    places = {path: path.resolve() for path in contents}
    at = Path()
    try:
        for at, path in places.items():
            if path.is_dir():
                raise IsADirectoryError(EISDIR, f"{path.name} is a folder there")
            if path.exists() and not os.access(path, os.W_OK):
                raise PermissionError(EACCES, f"{path.name} may not be changed")
        for at, path in places.items():
            mode = S_IMODE(path.stat().st_mode) if path.exists() else 0o644
            handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
            waiting.append((temporary, path))
            with os.fdopen(handle, "wb") as file:
                file.write(contents[at])
            os.chmod(temporary, mode)
        for temporary, path in waiting:
            os.replace(temporary, path)
    except OSError as error:
        raise _cannot_write(at.parent, error) from error
    finally:
        # those that were moved to their place are no longer there
        for temporary, _ in waiting:
            Path(temporary).unlink(missing_ok=True)
    return tuple(contents)


def _cannot_write(folder: Path, error: OSError) -> Problems:
    reason = error.strerror or "unknown reason"
    return Problems([problem("cannot-write", None, folder=folder, reason=reason)])
