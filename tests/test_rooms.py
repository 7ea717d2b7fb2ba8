"""The rooms of the compiler: which may import which, and what stays unloaded until it is needed."""

from __future__ import annotations

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest

import godet
from godet.base.shipped import shipped

PACKAGE = Path(godet.__file__).parent
DRESS = shipped("recipes") / "column_dress.godet"

# room: the rooms it may import from, besides itself
ALLOWED = {
    "base": set(),
    "geometry": set(),
    "operations": {"base", "geometry"},
    "language": {"base"},
    "orders": {"base"},
    "graph": {"base", "operations"},
    "program": {"base", "graph", "language"},
    "solve": {"base", "geometry", "graph", "operations", "program"},
    "proof": {"base", "graph", "operations", "program"},
    "pattern": {"base", "geometry", "graph", "program"},
    "output": {"base", "pattern", "geometry"},
}
# a backend flattens curves and does nothing else with geometry
FLATTENING = {"godet.geometry.flattening"}


def imported(path: Path) -> set[str]:
    """Every module of the package that a file imports, wherever in the file."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path} imports relatively"
            names.add(node.module or "")
    return {name for name in names if name.split(".")[0] == "godet"}


def room_of(module: str) -> str:
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else ""


FILES = sorted(p for p in PACKAGE.rglob("*.py") if p.parent != PACKAGE)


def test_every_room_is_known():
    rooms = {path.relative_to(PACKAGE).parts[0] for path in FILES}
    assert rooms == {*ALLOWED, "tools"}


@pytest.mark.parametrize("room", ALLOWED)
def test_a_room_imports_only_from_the_rooms_below_it(room: str):
    for path in (PACKAGE / room).glob("*.py"):
        for module in imported(path):
            assert room_of(module) in {room, *ALLOWED[room]}, f"{path.name} imports {module}"


def test_a_backend_only_flattens():
    for path in (PACKAGE / "output").glob("*.py"):
        geometry = {module for module in imported(path) if room_of(module) == "geometry"}
        assert geometry <= FLATTENING, path.name


def test_the_kernel_knows_numpy_and_nothing_else():
    standard = sys.stdlib_module_names
    for path in (PACKAGE / "geometry").glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [a.name for a in node.names] if isinstance(node, ast.Import) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            for name in names:
                top = name.split(".")[0]
                assert top in {"numpy", "godet"} or top in standard, f"{path.name} imports {name}"


HEAVY = {"numpy", "sympy", "scipy", "reportlab", "svgwrite"}

LIGHT_WORK = """
import sys
from pathlib import Path
import godet
from godet.language.parser import parse
from godet.tools.compiling import compile_recipe
from godet.tools.vocabulary import vocabulary
from godet.orders.bodies import read_body
from godet.base.shipped import shipped
from godet.tools import command, showing
compiled = compile_recipe("column_dress")
assert compiled.draft is not None and compiled.problems == ()
file = shipped("recipes") / "bodies" / "adult_a.yaml"
body, problems = read_body(file, vocabulary(compiled.library))
assert body is not None and problems == ()
print(" ".join(sorted(name for name in sys.modules if "." not in name)))
"""


def loaded_by(program: str) -> set[str]:
    path = os.pathsep.join([str(PACKAGE.parent), os.environ.get("PYTHONPATH", "")])
    run = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": path},
    )
    return set(run.stdout.split())


def test_checking_a_text_and_reading_a_body_load_no_heavy_library():
    loaded = loaded_by(LIGHT_WORK)
    assert "godet" in loaded
    assert not HEAVY & loaded


@pytest.mark.parametrize("arguments", [["check", "column_dress"], ["fmt", "--check", str(DRESS)]])
def test_checking_and_laying_out_on_the_command_line_load_no_heavy_library(arguments: list[str]):
    program = (
        "import sys\nfrom godet.tools.command import main\n"
        f"try:\n    main({arguments!r})\n"
        "except SystemExit as stop:\n    assert not stop.code\n"
        "print(' '.join(sorted(name for name in sys.modules if '.' not in name)))\n"
    )
    loaded = loaded_by(program)
    assert "lark" in loaded
    assert not HEAVY & loaded
