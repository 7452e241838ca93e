"""Near misses and changes that would do, as they stand on the screen and in the file."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.main import app

STRIPS = """
[job]
unit = "in"
currency = "USD"
[[case]]
name = "case"
width = 60
height = 90
depth = 12
shelves = 0
back = "none"
material = "ply"
[[sheet]]
name = "ply"
material = "ply"
length = 96
width = 48
thickness = "3/4"
price = 92
[[item]]
name = "jug"
width = 4
height = 4
depth = 4
weight = "2 lb"
[shop]
kerf = "1/8"
edge_trim = 0
"""
"""Four parts of 12 in, each longer than half a sheet: 48-3/8 in with their saw cuts."""
TOO_TALL = Path(__file__).parent.parent.parent / "fixtures" / "jobs" / "too-tall.toml"


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("strips.toml").write_text(STRIPS)


def planned(*arguments: str, columns: int = 80) -> Result:
    return CliRunner(env={"COLUMNS": str(columns)}).invoke(app, ["plan", *arguments, "--no-keep"])


@pytest.mark.parametrize("columns", [80, 120])
def test_a_near_miss_says_what_to_change_and_what_it_saves(columns: int) -> None:
    shown = planned("strips.toml", "--full", columns=columns).stdout

    assert "Near misses (each solved again, with room to spare: 1/32 in)" in shown
    assert "1/8 in less depth, 11-7/8 in   1 sheet less, saves $92.00" in shown
    assert all(len(line) <= columns for line in shown.splitlines())


def test_near_misses_are_in_the_file_in_millimetres_and_money() -> None:
    planned("strips.toml", "--json", "p.json")
    (first, *_) = json.loads(Path("p.json").read_text())["near"]

    assert first["gains"] == "saves"
    assert first["saves"] == "92.00"
    assert first["alters"][0]["by"] == 25.4 / 8
    assert first["smallest"] is True


def test_near_misses_are_left_off_where_they_are_not_wanted() -> None:
    assert "Near misses" not in planned("strips.toml", "--no-near").stdout


def test_what_would_do_stands_a_line_each_the_smallest_first() -> None:
    done = planned(str(TOO_TALL))
    lines = [line.strip() for line in done.stderr.splitlines() if "would do:" in line]

    assert done.exit_code == 1
    # 58-1/2 is wanted and 58-1/8 there: 3/8 more, or 1/8 less over each of three
    assert lines[0] == "would do: headroom 7/8 in instead of 1 in (proven least)"
    assert "would do: 3/8 in more height, 61-1/2 in (proven least)" in lines
    assert "would do" not in done.stdout
    assert lines[-1].startswith("would do: leave out 1 x ")
