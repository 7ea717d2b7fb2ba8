"""`check --prove`: proved, held on the bodies tried, or fails on some; never one for another."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from small_recipes import HEADING, SMALL_LIBRARY

from godet.tools.command import main

TEXT = f"""{HEADING}measure hip_girth, waist_girth
choose wide = 5cm from 2cm to 8cm
piece front
  point upper = origin
  point lower = origin down hip_girth / 4 outward wide
  edge side   = line upper to lower
end
piece back
  point upper = origin
  point lower = origin down hip_girth / 4 inward wide
  edge side   = line upper to lower
end
piece strip
  point upper = origin
  point lower = origin down 25cm outward wide
  edge side   = line upper to lower
end
seam side: front.side to back.side
seam strip_side: front.side to strip.side
require wide >= 2cm
require hip_girth >= waist_girth  # of most bodies
  "the hip is narrower than the waist"
advise hip_girth <= 110cm
"""
LINES = ["require wide >= 2cm", "require hip_girth >= waist_girth", "advise hip_girth <= 110cm"]
BODIES = {"slim": (100, 70), "round": (100, 104), "tall": (120, 90)}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for module in SMALL_LIBRARY.glob("*.godet"):
        (tmp_path / module.name).write_text(module.read_text("utf-8"), encoding="utf-8")
    (tmp_path / "tried.godet").write_text(TEXT, encoding="utf-8")
    for label, (hip, waist) in BODIES.items():
        (tmp_path / f"{label}.yaml").write_text(
            f"body: {label}\nunits: cm\nmeasures: {{hip_girth: {hip}, waist_girth: {waist}}}\n"
        )
    monkeypatch.chdir(tmp_path)
    return tmp_path


def proved(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["check", "tried.godet", "--prove", *arguments])


def verdicts(*bodies: str) -> dict[str, tuple[str, Sequence[str]]]:
    arguments = [part for body in bodies for part in ("--body", f"{body}.yaml")]
    told = json.loads(proved("--json", *arguments).stdout)
    return {
        line["text"]: (line["verdict"], tuple(line.get("bodies", ()))) for line in told["proofs"]
    }


@pytest.mark.usefixtures("folder")
def test_without_a_body_a_line_is_proved_or_not():
    told = verdicts()
    assert told[LINES[0]] == ("proved", ())
    assert told[LINES[1]] == told[LINES[2]] == ("not proved", ())
    assert told["seam side: front.side to back.side"] == ("proved", ())
    assert told["seam strip_side: front.side to strip.side"] == ("not proved", ())
    result = proved()
    assert result.exit_code == 0
    assert result.stdout == (
        "tried.godet\n"
        "  not proved\n"
        "    tried.godet:23  require hip_girth >= waist_girth\n"
        "    tried.godet:25  advise hip_girth <= 110cm\n"
        "    tried.godet:21  seam strip_side: front.side to strip.side\n"
        "  proved for every body\n"
        "    tried.godet:22  require wide >= 2cm\n"
        "    tried.godet:20  seam side: front.side to back.side\n"
    )


@pytest.mark.usefixtures("folder")
def test_bodies_are_tried_where_there_is_no_proof():
    told = verdicts("slim", "round", "tall")
    assert told[LINES[0]] == ("proved", ())
    assert told[LINES[1]] == ("fails", ("round",))
    assert told[LINES[2]] == ("fails", ("tall",))
    # a quarter of the hip is 25 cm for two of them
    assert told["seam strip_side: front.side to strip.side"] == ("fails", ("tall",))
    assert verdicts("slim")[LINES[1]] == ("held", ("slim",))


@pytest.mark.usefixtures("folder")
def test_what_fails_where_it_must_not_ends_with_1_and_advice_does_not():
    result = proved("--body", "slim.yaml", "--body", "round.yaml")
    assert result.exit_code == 1
    assert "fails on round, of 2 tried" in result.stdout
    assert "not proved; held on 2 bodies tried" in result.stdout
    assert proved("--body", "slim.yaml").exit_code == 0
    assert json.loads(proved("--json", "--body", "round.yaml").stdout)["ok"] is False


@pytest.mark.usefixtures("folder")
def test_a_body_beyond_what_is_plausible_is_no_proof_against_its_own_failing():
    # proved for plausible hips, which end at 190 cm
    Path("tried.godet").write_text(
        f"{HEADING}measure hip_girth\nrequire hip_girth < 195cm\n", encoding="utf-8"
    )
    assert verdicts() == {"require hip_girth < 195cm": ("proved", ())}
    Path("giant.yaml").write_text("body: giant\nunits: cm\nmeasures: {hip_girth: 200}\n")
    assert verdicts("giant") == {"require hip_girth < 195cm": ("fails", ("giant",))}


@pytest.mark.usefixtures("folder")
def test_a_body_for_which_a_line_cannot_be_worked_out_is_not_counted():
    Path("tried.godet").write_text(
        f"{HEADING}measure hip_girth\nrequire 1cm / (hip_girth - 1m) < 1\n", encoding="utf-8"
    )
    assert list(verdicts("slim").values()) == [("not proved", ())]


@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize(
    "arguments",
    [["--body", "slim.yaml"], ["--prove", "--fix"], ["--prove", "--choose", "wide=3cm"]],
)
def test_options_that_do_not_go_together_are_refused(arguments: list[str]):
    result = CliRunner().invoke(main, ["check", "tried.godet", *arguments])
    assert result.exit_code == 2


@pytest.mark.usefixtures("folder")
def test_a_text_with_mistakes_is_told_them_and_nothing_is_proved():
    Path("tried.godet").write_text(f"{HEADING}require nothing >= 2cm\n", encoding="utf-8")
    result = proved()
    assert result.exit_code == 1
    assert "[unknown-name]" in result.stderr
    assert result.stdout == ""
    missing = proved("--body", "nobody.yaml", "--json")
    assert missing.exit_code == 1
