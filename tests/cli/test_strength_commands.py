"""`casewright deflection` and `casewright hang` as whole commands."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli.main import app

PANTRY = Path(__file__).parents[2] / "fixtures" / "jobs" / "pantry-door.toml"
ASKED = ["deflection", "--span", "32", "--depth", "9", "--thickness", "3/4", "--load", "50psf"]


def run(*args: str) -> tuple[int, str]:
    result = CliRunner().invoke(app, list(args))
    return result.exit_code, result.output


def test_the_single_question_is_answered_as_span_over_n() -> None:
    # 5 q L4 / (384 E I) with q = 50/144 psi, E = 1.0 M psi: L/n, n = 384 E t3 / (60 q L3)
    ratio = 384 * 1e6 * 0.75**3 / (60 * 50 / 144 * 32**3)
    code, said = run(*ASKED, "--board", "veneer-core plywood")

    assert code == 0
    assert f"L/{int(ratio)}" in said


def test_the_same_question_in_millimetres_has_the_same_answer() -> None:
    metric = ["deflection", "--unit", "mm", "--span", "812.8", "--depth", "228.6", "--json"]
    metric += ["--thickness", "19.05", "--load", f"{50 * 4.8824276:.6f} kg/m2"]
    inches = json.loads(run(*ASKED, "--json")[1])
    found = json.loads(run(*metric)[1])

    assert found["first_day_mm"] == pytest.approx(inches["first_day_mm"], abs=0.001)
    assert found["limits"] == [
        {**one, "most_load_n": pytest.approx(one["most_load_n"], abs=0.2)}
        for one in inches["limits"]
    ]


def test_a_figure_is_never_shown_without_its_assumptions() -> None:
    assert "simply supported" in run(*ASKED)[1]
    assert any(
        "simply supported" in line for line in json.loads(run(*ASKED, "--json")[1])["assumed"]
    )


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (["--load", "50 furlongs"], "is not a load; forms that work"),
        (["--span", "0"], "a length above 0 is wanted"),
        (["--board", "balsa"], "allowed: board of unknown core"),
        (["--lip", "3/4"], "two sizes are wanted"),
        (["--lip", "3/4x1/2"], "does not cover the shelf's edge"),
        (["--lip", "10x2"], "give more depth"),
    ],
)
def test_bad_input_is_told_with_what_would_work(change: list[str], words: str) -> None:
    code, said = run(*ASKED, *change)

    assert code == 2
    assert words in " ".join(said.split())


def test_the_sheet_of_a_hung_case_shows_hinges_and_explains_each_figure(tmp_path: Path) -> None:
    job = tmp_path / "pantry.toml"
    text = PANTRY.read_text(encoding="utf-8")
    job.write_text(text.replace("{ least = 7, most = 9 }", "8"), encoding="utf-8")
    out = tmp_path / "sheet.json"
    code, said = run("hang", str(job), "--explain", "--json", str(out))

    assert code == 0, said
    assert "old mortise" in said
    assert "Where the figures come from" in said
    data = json.loads(out.read_text(encoding="utf-8"))
    (case,) = data["cases"]
    assert case["kind"] == "hung"
    assert len(case["hinges"]) == 3
    assert all(one["source"] and one["formula"] and one["numbers"] for one in case["figures"])
    assert data["strength"]["shelves"]
    assert data["cautions"]
    assert run("hang", str(job), "--option", "80 shelves")[0] == 2
