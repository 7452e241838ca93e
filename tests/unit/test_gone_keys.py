"""Keys that are gone: files that have them still open, and what took their place is said."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli.files.job_file import load_job
from cli.main import app
from solver.intake.load import read_json
from solver.job.gone_keys import GONE, gone_notes
from solver.plan.plan import Plan
from tests.builders import make_job
from tests.sample_plans import good_plan

JOB = """[job]
unit = "in"
[[case]]
width = 30
height = 60
depth = 8
[look]
{look}
[[item]]
name = "jug"
width = 6
height = 9
depth = 4
"""
OLD = 'rhythm_slack = "1/8"\nheadroom_slack = "1/2"\nstep_least = "1/2"\nstep_most = "1-1/2"\n'


def written(folder: Path, look: str) -> str:
    path = folder / "job.toml"
    path.write_text(JOB.format(look=look), "utf-8")
    return str(path)


def test_a_job_file_of_before_opens_and_each_key_is_named(tmp_path: Path) -> None:
    now, old = load_job(written(tmp_path, "")), load_job(written(tmp_path, OLD))
    assert old.job == now.job
    assert now.notes == ()
    assert [note.partition(" is gone: ")[0] for note in old.notes] == [
        *("look.rhythm_slack", "look.headroom_slack", "look.step_least", "look.step_most"),
    ]


def test_a_key_that_never_was_is_still_a_fault(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="'step_leest' is not known here"):
        load_job(written(tmp_path, "step_leest = 1"))


def test_check_says_it_and_does_not_fail(tmp_path: Path) -> None:
    result = CliRunner().invoke(app, ["check", written(tmp_path, OLD)])
    assert result.exit_code == 0, result.output
    said = " ".join(result.stderr.split())
    assert "look.rhythm_slack is gone: openings are now exact to one marking step" in said


def test_a_saved_plan_of_before_opens(tmp_path: Path) -> None:
    data = json.loads(good_plan().to_json())
    data["job"]["look"] |= {key: 3.0 for _, key in GONE}
    assert read_json(Plan, json.dumps(data)) == good_plan()
    path = tmp_path / "old.json"
    path.write_text(json.dumps(data), "utf-8")
    result = CliRunner().invoke(app, ["verify", str(path)])
    assert result.exit_code == 0, result.output
    assert result.stderr.count("is gone: ") == len(GONE)


def test_a_job_of_today_has_none_of_them() -> None:
    assert gone_notes(make_job().model_dump(by_alias=True)) == ()
