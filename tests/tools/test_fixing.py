"""`godet check --fix`: what a machine can cure is cured, whole or not at all, and told."""

from __future__ import annotations

import json
import os
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from small_recipes import DRESS, SMALL_LIBRARY, faults

from godet.base.problems import Problems
from godet.tools import fixing
from godet.tools.command import main
from godet.tools.fixing import fix, write_fixed

# a dress with three slips of the pen, each of which a machine can cure
SLIPS = (
    DRESS.replace("hip_side down (", "hip_sid down (")
    .replace("= 60cm", "= 60")
    .replace("inward 2cm", "inward 2,5cm")
)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The small library as the folder one works in."""
    shutil.copytree(SMALL_LIBRARY, tmp_path, dirs_exist_ok=True)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def write(file: str, text: str) -> None:
    Path(file).write_bytes(text.encode())


def read(file: str) -> str:
    return Path(file).read_bytes().decode()


def godet(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments))


@pytest.mark.usefixtures("folder")
def test_all_that_a_machine_can_cure_is_cured_in_one_go_and_told():
    write("mine.godet", SLIPS)
    result = godet("check", "mine.godet", "--fix")
    assert result.exit_code == 0, result.output
    assert read("mine.godet") == DRESS.replace("inward 2cm", "inward 2.5cm")
    assert "wrote `hip_side` for `hip_sid`" in result.stdout
    assert "wrote `60cm` for `60`" in result.stdout
    assert "wrote `2.5cm` for `2,5cm`" in result.stdout
    assert result.stdout.endswith("nothing is wrong\n")


@pytest.mark.usefixtures("folder")
def test_without_fix_nothing_is_written():
    write("mine.godet", SLIPS)
    assert godet("check", "mine.godet").exit_code == 1
    assert read("mine.godet") == SLIPS


@pytest.mark.usefixtures("folder")
def test_what_no_machine_can_cure_is_left_and_still_told():
    text = SLIPS.replace("allow 3cm on bottom", "allow 3deg on bottom")
    assert text != SLIPS
    write("mine.godet", text)
    result = godet("check", "mine.godet", "--fix")
    assert result.exit_code == 1
    assert "[wrong-type]" in result.stderr
    assert "wrote `60cm` for `60`" in result.stdout
    assert "[bare-number]" not in result.stderr
    assert "3deg" in read("mine.godet")
    assert "hip_sid " not in read("mine.godet")


@pytest.mark.usefixtures("folder")
def test_the_recipe_and_the_module_beside_it_are_both_mended():
    write("widths.godet", "edition 1\ndefine ease_of(girth: length) = grth / 20\n")
    recipe = "edition 1\nrecipe mine\nuse ease_of from widths\nlet a = ease_of(90 cm) + 2\n"
    write("mine.godet", recipe)
    result = godet("check", "mine.godet", "--fix", "--json")
    assert result.exit_code == 0, result.output
    assert "girth / 20" in read("widths.godet")
    assert "ease_of(90 cm) + 2cm" in read("mine.godet")
    told = json.loads(result.stdout)
    assert sorted(told["files"]) == ["mine.godet", "widths.godet"]
    assert {(m["code"], m["before"], m["after"]) for m in told["mended"]} == {
        ("unknown-name", "grth", "girth"),
        ("bare-number", "2", "2cm"),
    }
    assert [found["severity"] for found in told["problems"]] == ["advice"]
    assert told["declined"] == []


@pytest.mark.usefixtures("folder")
def test_a_cure_that_would_bring_another_mistake_is_left_out_and_the_others_are_not():
    # the only name near `shoulder_poin` is a point, which can't be doubled
    text = (
        "edition 1\nrecipe mine\nchoose drop = 4 from 1cm to 9cm\npiece flap\n"
        "  point shoulder_point = origin down drop\n  let wide = 2 * shoulder_poin\nend\n"
    )
    write("mine.godet", text)
    result = godet("check", "mine.godet", "--fix")
    assert result.exit_code == 1
    assert read("mine.godet") == text.replace("= 4 from", "= 4cm from")
    assert "[unknown-name]" in result.stderr
    assert "1 not cured" in result.stdout


@pytest.mark.usefixtures("folder")
def test_a_mistake_that_a_cure_uncovers_is_cured_too():
    # the comma hides the name from whoever looks for names
    write("mine.godet", "edition 1\nrecipe mine\nmeasure hip_girth\nlet a = hip_girt / 4,5\n")
    fixed = fix(["mine.godet"])
    assert faults(fixed.checked.problems) == []
    assert fixed.texts["mine.godet"].endswith("let a = hip_girth / 4.5\n")
    assert [mended.code for mended in fixed.mended] == ["decimal-comma", "unknown-name"]


@pytest.mark.usefixtures("folder")
def test_a_comma_whose_cure_uncovers_what_no_machine_can_cure_is_left():
    text = "edition 1\nrecipe mine\nmeasure hip_girth\nlet a = zebra / 4,5\n"
    write("mine.godet", text)
    result = godet("check", "mine.godet", "--fix")
    assert result.exit_code == 1
    assert read("mine.godet") == text


@pytest.mark.parametrize("end", ["\r\n", "\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.usefixtures("folder")
def test_line_ends_and_byte_order_mark_stay_as_they_were(end: str, mark: str):
    write("mine.godet", mark + SLIPS.replace("\n", end))
    assert godet("check", "mine.godet", "--fix").exit_code == 0
    right = DRESS.replace("inward 2cm", "inward 2.5cm")
    assert read("mine.godet") == mark + right.replace("\n", end)


@pytest.mark.usefixtures("folder")
def test_a_file_of_mixed_line_ends_changes_only_where_it_was_wrong():
    before = "edition 1\r\nrecipe mine\nlet a = 2cm\r\nlet b = min(a, 3)\n# end"
    write("mine.godet", before)
    assert godet("check", "mine.godet", "--fix").exit_code == 0
    assert read("mine.godet") == before.replace("3)", "3cm)")


def test_shipped_files_are_never_touched(folder: Path, monkeypatch: pytest.MonkeyPatch):
    write("mine.godet", SLIPS)
    monkeypatch.setattr(fixing, "shipped", lambda _room: folder)
    result = godet("check", "mine.godet", "--fix")
    assert result.exit_code == 1
    assert read("mine.godet") == SLIPS


def test_a_file_that_cannot_be_written_is_told_and_left_as_it_was(folder: Path):
    # its name leaves no room for that of the file it is written to first
    name = f"{'a' * 246}.godet"
    write(name, SLIPS)
    write("other.godet", SLIPS)
    result = godet("check", "other.godet", name, "--fix")
    assert result.exit_code == 1
    assert "[cannot-write]" in result.stderr
    assert "[bare-number]" in result.stderr
    assert read(name) == read("other.godet") == SLIPS
    assert not [path for path in folder.iterdir() if path.name.startswith(".")]


@pytest.mark.usefixtures("folder")
def test_a_file_that_may_not_be_changed_is_left(monkeypatch: pytest.MonkeyPatch):
    write("mine.godet", SLIPS)
    # the superuser may change every file, whatever its permissions
    monkeypatch.setattr(os, "access", lambda _path, mode: mode != os.W_OK)
    assert "[cannot-write]" in godet("check", "mine.godet", "--fix").stderr
    assert read("mine.godet") == SLIPS


@pytest.mark.usefixtures("folder")
def test_a_file_that_goes_away_meanwhile_is_no_crash():
    write("mine.godet", SLIPS)
    fixed = fix(["mine.godet"])
    Path("mine.godet").unlink()
    with pytest.raises(Problems) as caught:
        write_fixed(fixed)
    assert [p.code for p in caught.value.problems] == ["cannot-write"]


def test_a_link_and_the_permissions_of_a_file_are_kept(folder: Path):
    write("kept.godet", SLIPS)
    Path("kept.godet").chmod(0o640)
    Path("mine.godet").symlink_to(folder / "kept.godet")
    assert godet("check", "mine.godet", "--fix").exit_code == 0
    assert Path("mine.godet").is_symlink()
    assert "hip_sid " not in read("kept.godet")
    assert Path("kept.godet").stat().st_mode & 0o777 == 0o640


@pytest.mark.usefixtures("folder")
def test_a_recipe_that_is_right_is_left_alone():
    write("mine.godet", DRESS)
    before = Path("mine.godet").stat().st_mtime_ns
    result = godet("check", "mine.godet", "--fix")
    assert (result.exit_code, result.stdout) == (0, "nothing is wrong\n")
    assert Path("mine.godet").stat().st_mtime_ns == before


def test_a_recipe_that_is_not_there_is_told(folder: Path):
    assert "[no-such-recipe]" in godet("check", str(folder / "none"), "--fix").stderr
