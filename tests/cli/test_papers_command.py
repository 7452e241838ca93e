"""`casewright papers`: files in one folder, listed, never replaced unasked."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.main import app

PLAN = Path(__file__).parents[2] / "fixtures" / "plan-two-bays.json"


def run(*args: str) -> Result:
    return CliRunner().invoke(app, ["papers", *args])


def test_all_files_go_to_one_folder_named_after_the_job_and_are_listed(tmp_path: Path) -> None:
    job = tmp_path / "alcove.json"
    job.write_bytes(PLAN.read_bytes())

    done = run(str(job), "--date", "2026-11-25")

    assert done.exit_code == 0, done.output
    made = sorted(path.name for path in (tmp_path / "alcove").rglob("*") if path.is_file())
    assert "papers.pdf" in made
    assert sorted(Path(line.strip()).name for line in done.output.splitlines()[1:]) == made


def test_nothing_is_replaced_without_force(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    assert run(str(PLAN), "-o", str(folder)).exit_code == 0
    before = {path.name: path.read_bytes() for path in folder.glob("*.pdf")}
    (folder / "papers.pdf").write_text("mine", "utf-8")

    refused = run(str(PLAN), "-o", str(folder))
    kept = (folder / "papers.pdf").read_text("utf-8")
    done = run(str(PLAN), "-o", str(folder), "--force")

    assert refused.exit_code == 2
    assert "--force" in refused.output
    assert kept == "mine"
    assert done.exit_code == 0
    assert {path.name: path.read_bytes() for path in folder.glob("*.pdf")} == before


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["--date", "25.11.2026"], "2026-11-25"),
        (["--handover", "soon"], "--handover"),
        (["--option", "99 shelves"], "allowed:"),
    ],
)
def test_bad_words_are_said_and_nothing_is_written(
    tmp_path: Path, args: list[str], said: str
) -> None:
    done = run(str(PLAN), "-o", str(tmp_path / "out"), *args)

    assert done.exit_code == 2
    assert said in done.output
    assert not (tmp_path / "out").exists()
