"""`casewright survey` and `casewright swing`: whole commands, screens, files, exit codes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.files.survey_file import LINES_MOST, WIDTH, blank_form
from cli.main import app
from solver.doorway.old_door import DUTIES
from solver.units import Unit, inches

PANTRY = Path(__file__).parents[2] / "fixtures" / "jobs" / "pantry-door.toml"
SURVEY = """\
[job]
unit = "in"

[[doorway]]
name = "pantry"
widths = ["28-3/8", "28-1/4", "28-5/16"]
heights = ["80-5/16", "80-1/4"]
hinge_lean = { across = "1/8", across_way = "away", over = 78 }

[doorway.old_door]
louvred = "no"
"""


def run(*words: str) -> Result:
    return CliRunner().invoke(app, list(words))


def written(folder: Path, text: str) -> str:
    path = folder / "survey.toml"
    path.write_text(text, encoding="utf-8")
    return str(path)


def stuck(folder: Path) -> str:
    """The pantry case made nine inches deep, which does not pass its jamb."""
    return written(folder, PANTRY.read_text("utf-8").replace('depth = "6-1/4"', 'depth = "9"'))


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_the_blank_form_fits_a_page_and_asks_everything(unit: Unit) -> None:
    result = run("survey", "--unit", unit)
    lines = result.stdout.splitlines()

    assert result.exit_code == 0
    assert result.stdout == blank_form(unit)
    assert len(lines) <= LINES_MOST
    assert max(map(len, lines)) <= WIDTH
    assert result.stdout.isascii()
    assert all(duty.question in result.stdout for duty in DUTIES)


def test_a_survey_alone_is_read_back_judged_and_what_is_missing_is_named(tmp_path: Path) -> None:
    result = run("survey", written(tmp_path, SURVEY))

    assert result.exit_code == 0, result.output
    assert "clear opening 28-1/4 in wide, 80-1/4 in high" in result.stdout
    assert "opens by" in result.stdout
    assert "- both diagonals" in result.stdout
    assert "old door: return_air, appliance" in result.stdout


def test_a_survey_of_a_job_shows_sizes_with_every_deduction() -> None:
    result = run("survey", str(PANTRY), "--explain")

    assert result.exit_code == 0
    for words in ("less hinge gap", "less latch gap to swing", "6-1/4 in of depth", "less head gap",
                  "less highest floor in", "at most", "27-1/4 in", "79-3/8 in",
                  "Sources"):  # fmt: skip
        assert words in result.stdout


def test_a_refused_place_ends_with_code_1_and_the_reason(tmp_path: Path) -> None:
    text = SURVEY.replace('louvred = "no"', 'louvred = "yes"\nappliance = "yes"')
    result = run("survey", written(tmp_path, text))

    assert result.exit_code == 1
    assert "REFUSED" in result.stdout
    assert "an appliance starved of air makes carbon monoxide" in result.stderr


def test_the_survey_as_json_has_sizes_in_millimetres(tmp_path: Path) -> None:
    result = run("survey", str(PANTRY), "--json", "-")
    data = json.loads(result.stdout)

    assert data["schema"] == "casewright/survey/1"
    assert data["sizes"]["spice case"]["width"]["size"] == inches("27-1/4") / 320
    assert data["doorways"][0]["missing"] == []


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[job]\nunit = "in"\n', "there is no [[doorway]] in it"),
        (SURVEY.replace('unit = "in"', 'unit = "cm"'), 'write unit = "in" or unit = "mm"'),
        (SURVEY.replace("heights", "hights"), "did you mean heights?"),
        (SURVEY.replace('"28-1/4", ', '"2-1/4", '), "(57.2− mm) cannot be; from 8 in (203.2 mm)"),
        (SURVEY.replace('louvred = "no"', 'louvred = "perhaps"'), "line 10"),
    ],
)
def test_a_wrong_survey_is_told_with_code_2(tmp_path: Path, text: str, said: str) -> None:
    result = run("survey", written(tmp_path, text))

    assert result.exit_code == 2, result.output
    assert said in result.stderr


def test_a_swing_is_shown_on_one_screen_with_its_three_pictures() -> None:
    result = run("swing", str(PANTRY))

    assert result.exit_code == 0
    assert "spice case in pantry: swings in, hinged left; it clears to 90°." in result.stdout
    assert "at rest" in result.stdout
    assert "tightest, 13°" in result.stdout
    assert "open, 180°" in result.stdout
    assert len(result.stdout.splitlines()) <= 45


def test_explain_gives_the_formula_and_its_numbers() -> None:
    result = run("swing", str(PANTRY), "--explain")

    assert "w = sqrt((W - c)^2 - (p + d)^2) - a" in result.stdout
    assert "sqrt((28-1/4 - 1/8)^2 - (0 + 6-1/4)^2) - 1/8" in result.stdout


def test_a_case_that_does_not_swing_ends_with_code_1_and_its_ways_out(tmp_path: Path) -> None:
    result = run("swing", stuck(tmp_path))

    assert result.exit_code == 1
    assert "IT BINDS at" in result.stdout
    assert "less depth" in result.stdout
    assert "does not swing as it is: spice case" in result.stderr


def test_the_swing_as_json_stands_alone_and_carries_the_explanation(tmp_path: Path) -> None:
    result = run("swing", str(PANTRY), "--json", "-")
    (case,) = json.loads(result.stdout)["cases"]

    assert case["swings"] is True
    assert case["widest"] == pytest.approx(27.2968 * 25.4, abs=0.01)
    assert {one["what"] for one in case["explained"]} >= {"latch gap needed", "widest case"}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--case", "nobody"), "'nobody' is no hung case of this job; hung cases: 'spice case'"),
    ],
)
def test_an_unknown_case_is_told_with_those_there_are(words: tuple[str, ...], said: str) -> None:
    result = run("swing", str(PANTRY), *words)

    assert result.exit_code == 2
    assert said in result.stderr


def test_a_job_without_a_hung_case_is_told_so() -> None:
    result = run("swing", str(PANTRY.parent / "too-tall.toml"))

    assert result.exit_code == 2
    assert 'only kind = "hung" swings' in result.stderr


def test_a_plan_says_that_a_case_does_not_swing(tmp_path: Path) -> None:
    result = run("plan", stuck(tmp_path), "--shelves", "7", "--no-keep", "--no-near",
                 "--time-limit", "60")  # fmt: skip

    assert "case 'spice case' does not swing: case on latch jamb at" in result.stdout
