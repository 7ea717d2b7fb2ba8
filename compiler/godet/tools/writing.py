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
    at = Path()
    try:
        for at in contents:
            target = at.resolve()
            if target.is_dir():
                raise IsADirectoryError(EISDIR, f"{at.name} is a folder there")
            if target.exists() and not os.access(target, os.W_OK):
                raise PermissionError(EACCES, f"{at.name} may not be changed")
        for at, content in contents.items():
            target = at.resolve()
            mode = S_IMODE(target.stat().st_mode) if target.exists() else 0o644
            handle, temporary = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
            waiting.append((temporary, target))
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            os.chmod(temporary, mode)
        for temporary, target in waiting:
            os.replace(temporary, target)
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
