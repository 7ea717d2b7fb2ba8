"""`godet check`, `measures` and `explain` on the command line."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from small_recipes import DRESS, SMALL_LIBRARY

from godet.tools.command import VERBS, main


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The small library, a body and a cloth, as the folder one works in."""
    shutil.copytree(SMALL_LIBRARY, tmp_path, dirs_exist_ok=True)
    (tmp_path / "body.yaml").write_text(
        "body: anyone\nunits: cm\n"
        "measures: {bust_girth: 92, waist_girth: 74, hip_girth: 98, height: 168}\n"
    )
    monkeypatch.chdir(tmp_path)
    return tmp_path


def godet(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments))


@pytest.mark.parametrize("verb", VERBS)
def test_every_verb_has_help(verb: str):
    result = godet(verb, "--help")
    assert result.exit_code == 0
    assert "Usage" in result.stdout


def test_the_verbs_are_listed_with_what_they_do():
    result = godet("--help")
    for verb, does in VERBS.items():
        assert verb in result.stdout
        assert does.split()[0] in result.stdout


@pytest.mark.usefixtures("folder")
def test_a_recipe_that_is_right_is_said_to_be():
    result = godet("check", "plain_dress")
    assert (result.exit_code, result.stdout) == (0, "nothing is wrong\n")
    result = godet("check", "plain_dress", "plain_top.godet", "ease")
    assert result.exit_code == 0


def test_all_problems_are_told_in_one_run_and_underlined(folder: Path):
    text = DRESS.replace("hip_side down (", "hip_sid down (").replace("= 60cm", "= 60")
    (folder / "wrong.godet").write_text(text)
    result = godet("check", "wrong.godet")
    assert result.exit_code == 1
    assert "[unknown-name]" in result.stderr
    assert "[bare-number]" in result.stderr
    lines = result.stderr.split("\n")
    at = next(n for n, line in enumerate(lines) if "hip_sid down" in line)
    assert lines[at + 1].strip("| ") == "^" * len("hip_sid")
    assert lines[at].index("hip_sid") == lines[at + 1].index("^")


def test_the_underline_stays_in_its_line_whatever_stands_in_the_comments(folder: Path):
    text = DRESS.replace("# ", "# \x0c\u2028 ").replace("use ", "# a\x0b\u2028b\nuse ", 1)
    (folder / "wrong.godet").write_text(text.replace("hip_side down (", "hip_sid down ("))
    result = godet("check", "wrong.godet")
    assert "hip_sid down" in result.stderr


def test_json_tells_each_problem_with_code_place_and_cure(folder: Path):
    (folder / "wrong.godet").write_text(DRESS.replace("= 60cm", "= 60"))
    result = godet("check", "wrong.godet", "--json")
    assert result.exit_code == 1
    told = json.loads(result.stdout)
    assert told["ok"] is False
    (problem,) = told["problems"]
    assert problem["code"] == "bare-number"
    assert problem["fix"]["replacement"] == "60cm"
    assert problem["place"]["file"] == "wrong.godet"


@pytest.mark.parametrize("name", ["nowhere", "nowhere.godet", "", ".", "/"])
def test_a_recipe_that_is_not_there_is_a_problem_and_no_crash(name: str):
    result = godet("check", name)
    assert result.exit_code == 1
    assert "[no-such-recipe]" in result.stderr


@pytest.mark.usefixtures("folder")
def test_measures_tells_the_needed_ones_first():
    result = godet("measures", "plain_dress")
    assert result.exit_code == 0
    needed, estimated = result.stdout.split("better measured")
    for name in ("bust_girth", "waist_girth", "hip_girth"):
        assert name in needed
    assert "waist_to_hip" in estimated
    assert "Lay the tape round, feet together" in needed


@pytest.mark.usefixtures("folder")
def test_explain_tells_a_point_with_and_without_a_body():
    result = godet("explain", "plain_dress", "front.hip_side")
    assert result.exit_code == 0, result.output
    assert "down = waist_to_hip + 42" in result.stdout
    result = godet("explain", "plain_dress", "front.hip_side", "--body", "body.yaml")
    assert result.exit_code == 0, result.output
    assert "on anyone" in result.stdout
    # 98 cm of hip and 2 cm of ease, a quarter
    assert "across 25 cm" in result.stdout
    assert "waist_to_hip is estimated: ours" in result.stdout


@pytest.mark.usefixtures("folder")
def test_explain_as_json_holds_numbers_and_sentences():
    result = godet("explain", "plain_dress", "front.hip_side", "--body", "body.yaml", "--json")
    told = json.loads(result.stdout)
    assert told["ok"] is True
    explanation = told["explanation"]
    # 98 cm of hip and 2 cm of ease, a quarter
    assert explanation["value"]["across"] == pytest.approx(250.0)
    effects = {effect["cause"]: effect for effect in explanation["effects"]}
    assert effects["hip_girth"]["moves"][0]["by"] == [pytest.approx(2.5), pytest.approx(0.0)]
    assert effects["hip_girth"]["sentence"].startswith(
        "1 cm more hip_girth moves hip_side outward 2.5 mm"
    )


@pytest.mark.usefixtures("folder")
def test_explain_of_a_name_that_is_not_there_suggests():
    result = godet("explain", "plain_dress", "front.hip_sid")
    assert result.exit_code == 1
    assert "`front.hip_side`" in result.stderr
