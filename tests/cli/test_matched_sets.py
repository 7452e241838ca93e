"""Matched sets from the command line: a column of the list of parts, a wish of a case."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from cli.main import app

JOB = Path(__file__).parents[2] / "fixtures" / "jobs" / "symmetric.toml"
HEAD = "part,length,width,quantity,grain,set\n"


def run(*words: str) -> Any:
    return CliRunner().invoke(app, list(words))


def cut(tmp_path: Path, text: str, *options: str) -> tuple[dict[str, Any], str]:
    """The JSON, and what the terminal says."""
    parts, out = tmp_path / "parts.csv", tmp_path / "cut.json"
    parts.write_text(text, "utf-8")
    done = run("cut", str(parts), "--json", str(out), "--force", *options)
    assert done.exit_code == 0, done.output
    return json.loads(out.read_text("utf-8")), " ".join(done.output.split())


def test_a_granted_set_names_its_sheet_and_order(tmp_path: Path) -> None:
    text = HEAD + "side,60,10,2,length,\nshelf,28,9-1/2,3,length,case 1\n"
    data, said = cut(tmp_path, text, "--sheet", "96x48@65")
    (one,) = data["sets"]
    assert (one["name"], one["granted"], one["sheet"], one["laid"]) == ("case 1", True, 1, "along")
    assert one["parts"] == ["shelf#1", "shelf#2", "shelf#3"]
    pieces = {p["part"]: p for p in data["sheets"][0]["pieces"]}
    starts = [pieces[part]["x"] for part in one["parts"]]
    assert starts == pytest.approx([starts[0] + i * (28 + 1 / 8) * 25.4 for i in range(3)])
    assert (
        "Matched set case 1: granted, on sheet 1, along the sheet from the factory corner: "
        "shelf#1, shelf#2, shelf#3." in said
    )


def test_a_set_that_would_cost_a_sheet_says_its_price(tmp_path: Path) -> None:
    # Of 50 in. a strip takes 30 and 19 or twice 19, not 30 and twice 19.
    text = HEAD + "long,30,5,2,length,\nshelf,19,5,2,length,m\n"
    data, said = cut(tmp_path, text, "--sheet", "50x5@20")
    (one,) = data["sets"]
    assert (one["granted"], one["costs"], one["more_sheets"]) == (False, "20.00", 1)
    assert data["cost"]["total"] == "40.00"
    assert "Matched set m: not granted, it would take $20.00 more (1 sheet more)." in said


def test_a_set_too_large_for_a_sheet_says_so(tmp_path: Path) -> None:
    text = HEAD + "shelf,30,5,2,length,m\n"
    data, said = cut(tmp_path, text, "--sheet", "50x5")
    assert data["sets"][0]["granted"] is False
    assert "not granted, no sheet takes all of them beside each other." in said


def test_sets_are_not_of_mouldings(tmp_path: Path) -> None:
    parts = tmp_path / "lips.csv"
    parts.write_text("part,length,quantity,set\nlip,30,2,m\n", "utf-8")
    done = run("cut", str(parts), "--moulding", "96")
    assert done.exit_code == 2
    assert "line 2, column 4" in done.output
    assert "matched sets are of sheets" in done.output


def test_a_matched_case_has_its_shelves_from_one_sheet_in_sequence(tmp_path: Path) -> None:
    job, out = tmp_path / "job.toml", tmp_path / "plan.json"
    text = JOB.read_text("utf-8").replace(
        'name = "shell case"', 'name = "shell case"\nmatched = true'
    )
    job.write_text(text, "utf-8")
    done = run("plan", str(job), "--full", "--json", str(out))
    assert done.exit_code == 0, done.output
    option = json.loads(out.read_text("utf-8"))["options"][0]
    (one,) = option["sets"]
    assert (one["name"], one["granted"]) == ("shell case: shelves", True)
    assert one["parts"] == [f"shell case/shelf-{k}" for k in range(1, 5)]
    assert "Matched set shell case: shelves: granted" in " ".join(done.output.split())
    assert run("verify", str(out)).exit_code == 0


def test_a_case_is_not_matched_unless_it_says_so(tmp_path: Path) -> None:
    out = tmp_path / "plan.json"
    assert run("plan", str(JOB), "--json", str(out)).exit_code == 0
    plan = json.loads(out.read_text("utf-8"))
    assert plan["job"]["case"][0]["matched"] is False
    assert plan["options"][0]["sets"] == []
