"""Writes files whole or not at all.

In: a folder and the files' contents by name. Out: the paths written. All contents are ready before
the first is written; each is written beside its place and moved there at the end, so a full disk or
a stop half-way leaves no half file and keeps what was there. What can't be written raises
`Problems`.

    write_files(Path("out"), {"draft.json": b"{}"})
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from errno import EISDIR
from pathlib import Path

from godet.base.problems import Problems, problem


def write_files(folder: Path, contents: Mapping[str, bytes]) -> tuple[Path, ...]:
    """The paths of the files, in the order given."""
    waiting: list[tuple[str, Path]] = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name in contents:
            if (folder / name).is_dir():
                raise IsADirectoryError(EISDIR, f"{name} is a folder there")
        for name, content in contents.items():
            handle, temporary = tempfile.mkstemp(dir=folder, prefix=f".{name}.")
            waiting.append((temporary, folder / name))
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            os.chmod(temporary, 0o644)
        for temporary, path in waiting:
            os.replace(temporary, path)
    except OSError as error:
        reason = error.strerror or "unknown reason"
        raise Problems([problem("cannot-write", None, folder=folder, reason=reason)]) from error
    finally:
        # those that were moved to their place are no longer there
        for temporary, _ in waiting:
            Path(temporary).unlink(missing_ok=True)
    return tuple(path for _, path in waiting)
