"""`casewright batch`: what it prints and writes, and how it ends."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.main import app
from tests.batches import JOB_FILE


def run(*args: str) -> Result:
    return CliRunner().invoke(app, ["batch", *args])


def write(name: str, height: int = 40, price: str = "90.00", more: str = "") -> str:
    Path(f"{name}.toml").write_text(
        JOB_FILE.format(name=name, height=height, price=price, more=more)
    )
    return f"{name}.toml"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "100")
    return tmp_path


def test_two_jobs_share_one_sheet() -> None:
    """Two cases of 2 x 40 + 4 x 22-1/2 in by 11 in: 2 x (80 + 90) of 4 x 95-1/2 in of strip."""
    done = run(write("hill"), write("mill"), "--json", "b.json")

    batch = json.loads(Path("b.json").read_text())
    assert done.exit_code == 0
    assert batch["schema"] == "casewright/batch/1"
    assert (batch["sheet_count"], batch["alone_sheets"]) == (1, 2)
    assert [job["share"] for job in batch["jobs"]] == ["45.00", "45.00"]
    assert "Saved: $90.00." in done.stdout
    assert "hill: 6, mill: 6" in done.stdout


def test_other_prices_are_not_shared_and_that_is_told() -> None:
    done = run(write("hill"), write("mill", price="95.00"), "--json", "b.json")

    batch = json.loads(Path("b.json").read_text())
    assert (batch["sheet_count"], batch["alone_sheets"]) == (2, 2)
    assert [job["share"] for job in batch["jobs"]] == ["90.00", "95.00"]
    assert "oak ply is not shared by all jobs" in " ".join(done.stdout.split())


def test_a_folder_gets_the_plan_of_each_job_and_the_batch(folder: Path) -> None:
    jobs = write("hill"), write("mill")

    assert run(*jobs, "--out", "plans", "--quiet").exit_code == 0
    names = {path.name for path in (folder / "plans").iterdir()}
    assert names == {"hill.plan.json", "mill.plan.json", "batch.json"}
    for name in names:
        assert CliRunner().invoke(app, ["verify", f"plans/{name}"]).exit_code == 0
    again = run(*jobs, "--out", "plans")
    assert again.exit_code == 2
    assert "--force" in again.stderr
    assert run(*jobs, "--out", "plans", "--force", "--quiet").exit_code == 0


def test_a_kerf_that_differs_is_told_and_can_be_given() -> None:
    jobs = write("hill"), write("mill", more='[shop]\nkerf = "3/32"')

    refused = run(*jobs)

    assert refused.exit_code == 2
    assert "kerf differs: 1/8 in in hill; 3/32 in in mill" in refused.stderr
    assert run(*jobs, "--kerf", "1/8", "--quiet").exit_code == 0
    assert run(*jobs, "--shop", "mill.toml", "--quiet").exit_code == 0
    assert run(*jobs, "--shop", "vale", "--quiet").exit_code == 2


def test_faults_of_all_jobs_are_told_at_once() -> None:
    done = run("nix.toml", write("hill", price="ninety"), write("mill"))

    assert done.exit_code == 2
    assert "nix.toml: there is no such file" in done.stderr
    assert "hill.toml line" in done.stderr


def test_a_job_that_cannot_be_built_ends_with_1_and_nothing_written() -> None:
    tall = write("hill", height=16)  # three openings of 4 in and more, a jug of 7 in and 1 in over

    done = run(tall, write("mill"), "--json", "b.json")

    assert done.exit_code == 1
    assert "hill: " in done.stderr
    assert not Path("b.json").exists()


def test_two_files_of_one_name_are_told_apart(folder: Path) -> None:
    (folder / "a").mkdir()
    write("hill")
    Path("a/hill.toml").write_text(Path("hill.toml").read_text())

    assert run("hill.toml", "a/hill.toml", "--json", "b.json", "--quiet").exit_code == 0
    names = [job["name"] for job in json.loads(Path("b.json").read_text())["jobs"]]
    assert names == ["hill", "hill-2"]


def test_a_job_that_is_begun_is_planned_by_itself() -> None:
    begun = write("hill", more='[[have]]\nwhat = "cut"\nname = "alcove/top"')

    done = run(begun, write("mill"))

    assert done.exit_code == 2
    assert "hill: [[have]] says what is there already" in done.stderr


def test_a_plan_of_a_batch_serves_as_any_plan_and_names_the_common_sheets() -> None:
    """What is made of plans is made of one whose sheets are those of the batch."""
    done = run(write("hill"), write("mill"), "--out", "out")
    assert done.exit_code == 0, done.output
    plan = "out/hill.plan.json"
    data = json.loads(Path(plan).read_text(encoding="utf-8"))["options"][0]

    assert data["sheets"] == []
    assert set(data["shared"]["sheets"]) == {part["id"] for part in data["parts"]}
    for words in (["verify", plan], ["price", plan], ["buy", plan], ["steps", plan]):
        result = CliRunner().invoke(app, words)
        assert result.exit_code == 0, result.output
        assert "share of the batch" in result.output or words[0] == "verify"
