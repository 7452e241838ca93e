"""Advice and slack of `casewright cut` and `casewright plan`, on the console and in the JSON."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from cli.main import app
from solver.units import TICKS_PER_MM, inches

TRAP = "part,length,width,quantity,grain\nside,90,12,4,length\n"
"""Four strips of 12 in: 48-3/8 in with three saw cuts."""


@pytest.fixture
def trap(tmp_path: Path) -> Path:
    path = tmp_path / "parts.csv"
    path.write_text(TRAP, "utf-8")
    return path


def run(*arguments: str, columns: int = 100) -> str:
    result = CliRunner().invoke(app, list(arguments), env={"COLUMNS": str(columns)})
    assert result.exit_code == 0, result.output
    return result.output


def cut(path: Path, *options: str) -> dict[str, Any]:
    data: dict[str, Any] = json.loads(
        run("cut", str(path), "--sheet", "96x48@65", "--json", "-", *options)
    )
    return data


def test_the_json_has_the_advice_with_exact_figures(trap: Path) -> None:
    (first, *_) = cut(trap)["advice"]

    assert first["what"] == "narrower"
    assert first["parts"] == [f"side#{i}" for i in range(1, 5)]
    assert first["by"] == inches("1/8") / TICKS_PER_MM
    assert first["to"] == inches("11-7/8") / TICKS_PER_MM
    assert (first["sheets_saved"], first["saves"]) == (1, "65.00")
    assert first["text"] == "4 x side: 1/8 in narrower, 11-7/8 in wide"


def test_the_json_has_the_slack_of_every_strip(trap: Path) -> None:
    data = cut(trap)
    strips = [strip for sheet in data["sheets"] for strip in sheet["slack"]["strips"]]

    assert sorted(part for strip in strips for part in strip["parts"]) == [
        f"side#{i}" for i in range(1, 5)
    ]
    assert {strip["along"] for strip in strips} == {inches(6) / TICKS_PER_MM}
    assert data["least_slack"] == min(sheet["slack"]["least"] for sheet in data["sheets"])


def test_no_advice_where_none_is_wanted(trap: Path) -> None:
    data = cut(trap, "--no-advice")

    assert (data["advice"], data["advice_note"]) == ([], None)
    assert "Advice" not in run("cut", str(trap), "--no-advice")


@pytest.mark.parametrize("columns", [80, 120])
def test_advice_and_slack_are_shown_within_the_width(trap: Path, columns: int) -> None:
    lines = run("cut", str(trap), "--sheet", "96x48@65", columns=columns).splitlines()

    assert any(line.startswith("4 x side: 1/8 in narrower") and "$65.00" in line for line in lines)
    assert any(line.startswith("Slack (in") for line in lines)
    assert max(map(len, lines)) <= columns


def test_a_list_without_advice_says_so_in_one_sentence(tmp_path: Path) -> None:
    path = tmp_path / "parts.csv"
    path.write_text("part,length,width,quantity\nside,90,40,2\n", "utf-8")

    text = " ".join(run("cut", str(path)).split())

    assert "Advice: no small change found that saves a sheet; proven for shorter parts" in text


def test_a_piece_as_long_as_the_sheet_leaves_no_slack(tmp_path: Path) -> None:
    path = tmp_path / "parts.csv"
    path.write_text("part,length,width,quantity,grain\nside,96,12,1,length\n", "utf-8")

    text = " ".join(run("cut", str(path)).split())

    assert "No slack to spare in sheet 1, strip 1: " in text


def test_the_margin_is_slack_that_stays(tmp_path: Path) -> None:
    path = tmp_path / "parts.csv"
    # 2 x (47-3/4 + 1/16) + 1/8 = 95-3/4.
    path.write_text("part,length,width,quantity,grain\nside,47-3/4,40,2,length\n", "utf-8")

    data = cut(path, "--margin", "1/16")

    (strip,) = data["sheets"][0]["slack"]["strips"]
    assert strip["along"] == inches("3/8") / TICKS_PER_MM  # 96 - 2 x 47-3/4 - 1/8
    assert strip["along"] >= 2 * inches("1/16") / TICKS_PER_MM


def test_mouldings_have_slack_and_advice(tmp_path: Path) -> None:
    path = tmp_path / "lips.csv"
    path.write_text("part,length,quantity\nlip,32,3\n", "utf-8")

    data = json.loads(run("cut", str(path), "--moulding", "96@9.60", "--json", "-"))

    lengths = sorted(round(stick["slack"] / 25.4, 3) for stick in data["mouldings"])
    assert lengths == [96 - 2 * 32 - 1 / 8, 96 - 32]
    assert [(one["what"], one["stock"], one["saves"]) for one in data["advice"]] == [
        ("shorter", "stick", "9.60")
    ]


def test_the_same_list_gets_the_same_advice(trap: Path) -> None:
    one, other = cut(trap), cut(trap)

    assert {**one, "timing": None} == {**other, "timing": None}


def test_a_plan_shows_slack_and_what_is_known_of_advice() -> None:
    job = Path(__file__).parents[2] / "fixtures" / "jobs" / "symmetric.toml"
    text = " ".join(run("plan", str(job), "--full").split())

    assert "left beyond pieces and saw cuts, margin included)" in text
    assert "Least slack: " in text
    assert "Advice: no small change found that saves a sheet; proven for a thinner blade" in text
