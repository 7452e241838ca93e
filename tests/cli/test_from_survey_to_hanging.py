"""From the survey to the hanging sheet, for one job of each kind: every figure is explained."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli.main import app

ROOT = Path(__file__).parents[2]
JOBS = {
    "hung": (ROOT / "fixtures/jobs/pantry-door.toml", ("{ least = 7, most = 9 }", "8")),
    "built-in": (ROOT / "cli/demo/clock-alcove.toml", ("shelves = [6, 7]", "shelves = 6")),
    "wall": (ROOT / "fixtures/jobs/symmetric.toml", ('kind = "standing"', 'kind = "wall"')),
    "standing": (ROOT / "fixtures/jobs/symmetric.toml", ("", "")),
}
"""A job of each kind, and what is put in place of what to have one option only."""


def run(*args: str, code: int = 0) -> str:
    result = CliRunner().invoke(app, list(args))
    assert result.exit_code == code, result.output
    return result.output


@pytest.mark.parametrize("kind", JOBS)
def test_a_job_goes_from_the_survey_to_the_hanging_sheet(kind: str, tmp_path: Path) -> None:
    path, (old, new) = JOBS[kind]
    text = path.read_text(encoding="utf-8")
    assert old in text
    job, out = tmp_path / "job.toml", tmp_path / "plan.json"
    job.write_text(text.replace(old, new) if old else text, encoding="utf-8")

    if "[[doorway]]" in text:
        said = run("survey", str(job), "--explain")
        assert "Sources" in said
        assert "at most" in said
    planned = run(
        *("plan", str(job), "--full", "--no-near", "--no-keep", "--json", str(out)),
        *("--time-limit", "60"),
    )
    assert "What holds it: " in planned
    if kind == "hung":
        assert "3 hinges, rated for" in " ".join(planned.split())
        assert "at rest" in run("swing", str(job), "--explain")
    sheet = json.loads(out.read_text("utf-8"))["options"][0]["hanging"]["cases"][0]
    weak = any(one["ok"] is False for one in sheet["figures"])
    assert ("NOT ENOUGH" in " ".join(planned.split())) is weak
    shown = " ".join(run("hang", str(out), "--explain", code=int(weak)).split())

    assert sheet["kind"] == kind
    assert sheet["figures"]
    for figure in sheet["figures"]:
        assert f"{figure['what']}: {figure['formula']}. {figure['numbers']}." in shown
        assert f"Source: {figure['source']}" in shown
