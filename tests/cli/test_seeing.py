"""The commands that show how things are understood: check, items and defaults."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli.main import app
from solver.intake.precheck import even_clear
from solver.job.defaults import DEFAULTS
from solver.units import Unit, format_length, inches

ROOT = Path(__file__).parents[2]
JOBS = [ROOT / "cli" / "demo" / "clock-alcove.toml", *sorted(ROOT.glob("fixtures/jobs/*.toml"))]
HEAD = '[job]\nunit = "in"\n'
JUG = '[[item]]\nname = "jug"\nwidth = 6\nheight = 9\ndepth = 4\n'


def run(*words: str, stdin: str | None = None, columns: int = 100) -> str:
    """Run a command that must work, and return what it printed."""
    result = CliRunner().invoke(app, list(words), input=stdin, env={"COLUMNS": str(columns)})
    assert result.exit_code == 0, result.output
    return result.stdout


def job_file(folder: Path, text: str) -> str:
    path = folder / "job.toml"
    path.write_text(text, "utf-8")
    return str(path)


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
@pytest.mark.parametrize("columns", [80, 120])
def test_each_fixture_job_is_checked_within_the_width(path: Path, columns: int) -> None:
    shown = run("check", str(path), columns=columns)
    assert max(map(len, shown.splitlines())) <= columns
    assert "openings" in shown


def test_check_shows_sizes_and_the_clear_height_of_even_spacing(tmp_path: Path) -> None:
    case = '[[case]]\nwidth = 30\nheight = 60\ndepth = 9\nshelves = [4, 5]\nsizes = "inside"\n'
    shown = run("check", job_file(tmp_path, HEAD + case + JUG))
    t = inches("23/32")
    assert f"{format_length(inches(30) + 2 * t, 'in')} x" in shown
    assert "30 x 60 x 9" in shown
    for shelves in (4, 5):
        clear = format_length(even_clear(inches(60), shelves, t), "in")
        (row,) = [
            r for r in shown.splitlines() if r.split()[1:3] == [str(shelves), str(shelves + 1)]
        ]
        assert row.split()[-1] == clear


def test_check_says_which_weights_are_assumed(tmp_path: Path) -> None:
    case = "[[case]]\nwidth = 30\nheight = 60\n"
    shown = run("check", job_file(tmp_path, HEAD + case + JUG))
    assert "Weight not given, the standard load assumed: jug" in shown
    known = run("check", job_file(tmp_path, HEAD + case + JUG + 'weight = "2 lb"\n'))
    assert "assumed" not in known


def test_check_echoes_how_each_line_of_a_list_was_read(tmp_path: Path) -> None:
    (tmp_path / "list.txt").write_text("# mine\n\n2 jugs 6 x 9 x 4\n", "utf-8")
    case = '[[case]]\nwidth = "30"\nheight = "60"\n'
    shown = run("check", job_file(tmp_path, f'{HEAD}items = "list.txt"\n{case}'))
    told = "2 things of 1 kind on 3 lines; 2 lines without a thing (blank, comment)"
    assert told in " ".join(shown.split())
    assert "read as width x" in shown


def test_check_notes_openings_that_would_be_too_low(tmp_path: Path) -> None:
    case = "[[case]]\nwidth = 30\nheight = 60\nshelves = 14\n"
    shown = run("check", job_file(tmp_path, HEAD + case + JUG))
    assert "14 shelves: even openings would be lower than clear_least, 4 in" in " ".join(
        shown.split()
    )


def test_check_names_every_thing_that_cannot_stand_anywhere(tmp_path: Path) -> None:
    case = '[[case]]\nwidth = 30\nheight = 60\ndepth = 9\nback = "none"\n'
    more = JUG.replace("jug", "rug").replace("width = 6", "width = 40")
    deep = JUG.replace("jug", "chest").replace("depth = 4", "depth = 12")
    path = job_file(tmp_path, HEAD + case + JUG + more + deep)
    result = CliRunner().invoke(app, ["check", path])
    assert result.exit_code == 1
    assert "'rug' cannot stand in case 'case': " in result.stderr
    assert "'chest' cannot stand in case 'case': 3 in too deep" in result.stderr
    assert "'jug'" not in result.stderr


def test_check_of_a_list_shows_how_pasted_lines_are_understood() -> None:
    shown = run("check", "-", stdin="3 x [red]jug[/red] 6 x 9 x 4, 6 lb\n# note\nmug 3 x 4 x 3\n")
    assert "[red]jug[/red]" in shown
    assert "6 x 9 x 4" in shown
    assert "6.0 lb" in shown
    assert "skipped: comment" in shown
    assert "4 things of 2 kinds on 3 lines; 1 line without a thing (comment)" in shown


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_check_of_a_list_reads_sizes_in_the_unit_asked_for(unit: Unit) -> None:
    sizes = {"in": "15 x 23 x 10", "mm": "150 x 230 x 100"}[unit]
    shown = run("check", "-", "--unit", unit, stdin=f"jug {sizes}\n")
    assert {"in": "sizes in inches", "mm": "sizes in millimetres"}[unit] in shown
    assert sizes in shown


def test_check_of_a_list_shows_what_was_read_beside_all_unreadable_lines() -> None:
    result = CliRunner().invoke(app, ["check", "-"], input="jug 6 x 9\nmug 3 x 4 x 3\ncup\n")
    assert result.exit_code == 2
    assert "mug" in result.stdout
    assert result.stdout.count("not read, see below") == 2
    assert 'pasted list line 1: "jug 6 x 9": the depth is missing' in result.stderr
    assert 'pasted list line 3: "cup": no sizes are found' in result.stderr


def test_check_of_a_list_reads_the_named_worksheet() -> None:
    path = str(ROOT / "fixtures" / "inventories" / "collection.xlsx")
    result = CliRunner().invoke(app, ["check", path, "--sheet", "nowhere"])
    assert result.exit_code == 2
    assert "there is no worksheet 'nowhere'" in result.stderr


@pytest.mark.parametrize("words", [("--unit", "mm"), ("--sheet", "one")])
def test_a_job_file_says_unit_and_worksheet_itself(words: tuple[str, ...], tmp_path: Path) -> None:
    path = job_file(tmp_path, HEAD + JUG)
    result = CliRunner().invoke(app, ["check", path, *words])
    assert result.exit_code == 2
    assert "go with a list of things" in result.stderr


@pytest.mark.parametrize("columns", [80, 120])
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_defaults_lists_every_default_within_the_width(unit: Unit, columns: int) -> None:
    shown = run("defaults", "--unit", unit, columns=columns)
    assert max(map(len, shown.splitlines())) <= columns
    first_words = {line.split()[0] for line in shown.splitlines() if line.strip()}
    assert {default.key for default in DEFAULTS} <= first_words
    assert {"[job]", "[[case]]", "[look]", "[shop]", "[[sheet]]", "shelf_load"} <= first_words


def test_defaults_as_json_hold_values_meanings_and_sources() -> None:
    data = json.loads(run("defaults", "--json", "-", "--unit", "mm"))
    assert (data["schema"], data["unit"]) == ("casewright/defaults/1", "mm")
    rows = {(row["table"], row["key"]): row for row in data["defaults"]}
    for default in DEFAULTS:
        row = rows[default.table, default.key]
        assert row["value"] == (
            list(default.metric) if isinstance(default.metric, tuple) else default.metric
        )
        assert (row["meaning"], row["source"]) == (default.meaning, default.source)
    pounds, foot = 0.45359237, 0.3048
    load = f"{40 * pounds / foot**2:.0f} kg/m2, at most {200 * pounds:.1f} kg"
    assert rows["look", "shelf_load"]["value"] == load
    assert sum(row["table"] == "sheet" for row in data["defaults"]) == 2


def test_defaults_never_overwrite_a_file_without_force(tmp_path: Path) -> None:
    path = tmp_path / "defaults.json"
    run("defaults", "--json", str(path))
    result = CliRunner().invoke(app, ["defaults", "--json", str(path)])
    assert result.exit_code == 2
    assert "--force" in result.stderr
