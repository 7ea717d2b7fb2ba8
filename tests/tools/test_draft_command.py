"""`godet draft`: what a maker sees when all is well, and when something in her files is wrong."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from godet.base.shipped import shipped
from godet.tools.command import main

DRESS = (shipped("recipes") / "column_dress.godet").read_text()
BODY = """\
body: anyone
units: cm
measures: {bust_girth: 94, waist_girth: 76, hip_girth: 102, waist_to_hip: 20.5, height: 168}
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a dress, a body and a cloth of the maker's own."""
    monkeypatch.chdir(tmp_path)
    Path("dress.godet").write_text(DRESS)
    Path("body.yaml").write_text(BODY)
    Path("jersey.yaml").write_text(
        "fabric: jersey\nstructure: knit\nstretch: {across: 40 %, along: 15 %}\n"
    )
    return tmp_path


def draft(*options: str, recipe: str = "dress.godet") -> Result:
    command = ["draft", recipe, "--body", "body.yaml", "--fabric", "jersey.yaml", *options]
    return CliRunner().invoke(main, command)


def refused(result: Result, folder: Path, code: str, *told: str) -> None:
    """Exit 1, the code, every told part of the message, no traceback, and nothing written."""
    assert result.exit_code == 1, result.output
    assert f"[{code}]" in result.stderr
    for part in told:
        assert part in result.stderr, result.stderr
    assert "Traceback" not in result.output
    written = {p.name for p in folder.iterdir()}
    assert not {p for p in written if p.startswith(("dress-", "column_dress", "out"))}


def test_a_dress_is_written_in_three_files_named_on_the_screen(folder: Path):
    result = draft("--out", "mine")
    assert result.exit_code == 0, result.output
    assert {p.name for p in (folder / "mine").iterdir()} == {
        "draft.json",
        "pieces.svg",
        "print.pdf",
    }
    for name in ("draft.json", "pieces.svg", "print.pdf"):
        assert str(Path("mine") / name) in result.output
    assert "estimated" in result.output


def test_the_same_order_gives_the_same_bytes(folder: Path):
    for out in ("one", "two"):
        assert draft("--out", out).exit_code == 0
    for name in ("draft.json", "pieces.svg", "print.pdf"):
        assert (folder / "one" / name).read_bytes() == (folder / "two" / name).read_bytes()


def test_json_tells_files_and_checks_as_one_object(folder: Path):
    result = draft("--out", "mine", "--as", "json", "--json")
    told = json.loads(result.stdout)
    assert told["ok"]
    assert told["files"] == [str(Path("mine") / "draft.json")]
    assert {check["level"] for check in told["checks"]} == {"require", "advise"}


def test_an_unknown_name_is_underlined_with_the_name_that_was_meant(folder: Path):
    text = DRESS.replace(
        "side_waist down waist_to_hip outward", "side_wast down waist_to_hip outward"
    )
    Path("dress.godet").write_text(text)
    line = next(n for n, t in enumerate(text.splitlines(), 1) if "side_wast" in t)
    refused(
        draft(), folder, "unknown-name", f"dress.godet:{line}:", "side_wast",
        "Did you mean `side_waist`?", "^^^^^^^^^",
    )  # fmt: skip


def test_a_wrong_dimension_names_both(folder: Path):
    text = DRESS.replace("(hip_girth + hip_ease) / 2 -", "(hip_girth + hip_ease) / 2cm -")
    Path("dress.godet").write_text(text)
    refused(draft(), folder, "different-dimensions", "dress.godet:", "A length", "a ratio")


def test_a_module_is_nothing_that_can_be_drafted(folder: Path):
    Path("dress.godet").write_text("edition 1\ndefine twice(a: length) = a * 2\n")
    refused(draft(), folder, "no-recipe", "dress.godet")


def test_a_measure_that_is_given_needs_nothing_for_its_estimate(folder: Path):
    Path("dress.godet").write_text(
        "edition 1\nrecipe strip\nmeasure waist_to_knee\npiece strip\n  point a = origin\n"
        "  point b = a outward 9cm\n  point c = a down waist_to_knee\n  edge top = line a to b\n"
        "  edge slant = line b to c\n  edge left = line c to a\nend\n"
    )
    Path("body.yaml").write_text("body: anyone\nunits: cm\nmeasures: {waist_to_knee: 58}\n")
    drafted = draft()
    assert drafted.exit_code == 0, drafted.stderr
    assert "estimated" not in drafted.stdout


def test_a_missing_measure_says_how_to_take_it(folder: Path):
    Path("body.yaml").write_text(BODY.replace("hip_girth: 102, ", ""))
    refused(draft(), folder, "missing-measure", "anyone", "hip_girth", "Measure it:")


def test_a_hip_in_inches_in_a_file_of_centimetres_is_recognised(folder: Path):
    Path("body.yaml").write_text(BODY.replace("hip_girth: 102", "hip_girth: 40"))
    result = draft()
    assert result.exit_code == 1
    assert "body.yaml:3:" in result.stderr
    assert "hip_girth" in result.stderr
    assert "40 in" in result.stderr
    assert not (folder / "column_dress-anyone").exists()


def test_a_block_of_another_kind_is_refused_by_name_and_reason(folder: Path):
    refused(
        draft("--with", "top=column_dress"), folder, "wrong-kind",
        "dress.godet:", "needs a bodice", "column_dress", "makes a dress",
    )  # fmt: skip


def test_a_blend_longer_than_its_edge_says_both_lengths(folder: Path):
    Path("dress.godet").write_text(DRESS.replace("over 8cm", "over 60cm"))
    refused(draft(), folder, "blend-too-long", "dress.godet:", "30 cm", "anyone", "blend over less")


def test_a_skirt_shorter_than_the_hip_depth_is_told_both_lengths(folder: Path):
    result = draft("--choose", "skirt_length=20cm")
    assert result.exit_code == 1
    told = "the skirt must end below the hip line (20 cm, wanted more than 20.5 cm)"
    assert told in result.stderr
    assert not list(folder.glob("column_dress-*"))


def test_a_bare_number_in_a_body_without_units_is_cured_by_a_line(folder: Path):
    Path("body.yaml").write_text(BODY.replace("units: cm\n", ""))
    result = draft()
    assert result.exit_code == 1
    assert "body.yaml:2:" in result.stderr
    assert "units: cm" in result.stderr


def test_a_top_that_ends_above_the_waist_is_refused_with_the_missing_length(folder: Path):
    tee = (shipped("stdlib") / "knit_tee.godet").read_text()
    tee = tee.replace("recipe knit_tee", "recipe cropped_tee")
    tee = tee.replace("point hem_centre     = centre_waist down length_below_waist",
                      "point hem_centre     = centre_waist up 6cm")  # fmt: skip
    tee = tee.replace("curve underarm through side_waist to hem_side leaving down arriving down",
                      "line underarm to hem_side")  # fmt: skip
    tee = "\n".join(line for line in tee.splitlines() if "notch side at side_waist" not in line)
    Path("cropped_tee.godet").write_text(tee)
    refused(draft("--with", "top=cropped_tee"), folder, "off-edge", "dress.godet:", "6", "cm")


def test_a_choice_out_of_its_range_is_told_the_range(folder: Path):
    refused(
        draft("--choose", "hem_taper=12cm"), folder, "choice-out-of-range",
        "hem_taper", "12 cm", "0 cm", "8 cm",
    )  # fmt: skip


def test_a_misspelt_choice_is_told_the_right_one(folder: Path):
    refused(draft("--choose", "skirt_lenght=60cm"), folder, "no-such-choice", "skirt_length")


def test_a_failing_requirement_writes_nothing_unless_asked(folder: Path):
    linen = "fabric: linen\nstructure: woven\nwidth: 140 cm\n"
    Path("jersey.yaml").write_text(linen)
    tight = draft("--choose", "hip_ease=-6cm", "--out", "out")
    assert tight.exit_code == 1
    assert "narrower at the hip" in tight.stderr
    assert not (folder / "out").exists()
    anyway = draft("--choose", "hip_ease=-6cm", "--out", "anyway", "--anyway")
    assert anyway.exit_code == 0, anyway.output
    assert "Does not pass" in (folder / "anyway" / "pieces.svg").read_text()


def test_what_was_there_stays_when_a_folder_cannot_be_written(folder: Path):
    (folder / "out").write_text("a file of that name")
    result = draft("--out", "out")
    assert result.exit_code == 1
    assert "[cannot-write]" in result.stderr
    assert (folder / "out").read_text() == "a file of that name"


def test_a_misused_command_ends_with_two(folder: Path):
    assert draft("--as", "gold").exit_code == 2
    assert draft("--choose", "skirt_length").exit_code == 2


def test_a_docket_drafts_all_it_names(folder: Path):
    Path("order.yaml").write_text(
        "recipe: dress\nbody: body.yaml\nfabrics: {main: jersey.yaml}\n"
        "with: {top: knit_tee}\nchoose: {skirt_length: 62 cm, top.sleeve: long}\ndate: 2027-03-01\n"
    )
    result = CliRunner().invoke(main, ["draft", "order.yaml", "--out", "out", "--as", "json"])
    assert result.exit_code == 0, result.output
    told = json.loads((folder / "out" / "draft.json").read_text())
    assert told["choices"]["skirt_length"] == "62 cm"
    assert told["choices"]["top.sleeve"] == "long"
    assert told["seams"]


def test_a_folder_in_the_place_of_a_file_leaves_every_other_file_alone(folder: Path):
    (folder / "out" / "print.pdf").mkdir(parents=True)
    (folder / "out" / "pieces.svg").write_text("of last year")
    result = draft("--out", "out")
    assert result.exit_code == 1
    assert "[cannot-write]" in result.stderr
    assert (folder / "out" / "pieces.svg").read_text() == "of last year"
    assert {p.name for p in (folder / "out").iterdir()} == {"print.pdf", "pieces.svg"}


def test_a_cloth_that_no_piece_is_cut_of_is_told(folder: Path):
    result = draft("--fabric", "ribb=jersey.yaml", "--out", "out", "--as", "json")
    assert result.exit_code == 0
    assert "[cloth-not-used]" in result.stderr
    assert "rib" in result.stderr


def test_a_skirt_too_short_for_its_taper_is_refused_with_the_cure(folder: Path):
    result = draft("--choose", "skirt_length=25cm", "--out", "out")
    assert result.exit_code == 1
    assert "make it longer, or hem_taper less" in result.stderr
    assert "2.5 cm, wanted at most 1.5 cm" in result.stderr
    assert not (folder / "out").exists()
