"""Where the shipped library and recipes lie.

In an installed wheel they stand inside the package; in a checkout two folders up. Nothing else in
Godet knows.

    shipped("stdlib") / "ease.godet"
"""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def shipped(name: str) -> Path:
    """The folder of that name (`stdlib` or `recipes`)."""
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent.parent / name
