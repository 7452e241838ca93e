"""`casewright papers`: files in one folder, listed, never replaced unasked."""

from __future__ import annotations

import json
from pathlib import Path

import pypdfium2
import pytest
from typer.testing import CliRunner, Result

from cli.files.signed_files import named_after, signed_path
from cli.main import app
from solver.job.job import Job

PLAN = Path(__file__).parents[2] / "fixtures" / "plan-two-bays.json"


def run(*args: str, command: str = "papers") -> Result:
    return CliRunner().invoke(app, [command, *args])


def test_all_files_go_to_one_folder_are_listed_and_never_replaced_unasked(tmp_path: Path) -> None:
    job = tmp_path / "alcove.json"
    job.write_bytes(PLAN.read_bytes())

    done = run(str(job), "--date", "2026-11-25")

    assert done.exit_code == 0, done.output
    made = sorted(path.name for path in (tmp_path / "alcove").rglob("*") if path.is_file())
    assert "papers.pdf" in made
    listed = [line.strip() for line in done.output.splitlines() if line.startswith("  ")]
    assert sorted(Path(name).name for name in listed) == made

    before = {path.name: path.read_bytes() for path in (tmp_path / "alcove").glob("*.pdf")}
    (tmp_path / "alcove" / "papers.pdf").write_text("mine", "utf-8")

    refused = run(str(job), "--date", "2026-11-25")
    kept = (tmp_path / "alcove" / "papers.pdf").read_text("utf-8")
    done = run(str(job), "--date", "2026-11-25", "--force")

    assert refused.exit_code == 2
    assert "--force" in refused.output
    assert kept == "mine"
    assert done.exit_code == 0
    after = {path.name: path.read_bytes() for path in (tmp_path / "alcove").glob("*.pdf")}
    assert after == before


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


def test_a_signed_revision_is_kept_once_and_its_date_is_on_the_papers(tmp_path: Path) -> None:
    job = tmp_path / "alcove.json"
    job.write_bytes(PLAN.read_bytes())

    kept = run(str(job), "--date", "2026-11-20", command="freeze")
    again = run(str(job), "--date", "2026-11-21", command="freeze")
    done = run(str(job))

    assert kept.exit_code == 0, kept.output
    assert "revision 1, 2026-11-20" in kept.output
    assert again.exit_code == 2
    assert "nothing differs" in again.output
    assert sorted(path.name for path in tmp_path.glob("*.signed-*")) == ["alcove.signed-1.json"]
    assert done.exit_code == 0, done.output
    first = pypdfium2.PdfDocument(str(tmp_path / "alcove" / "papers.pdf"))[0]
    assert "revision 1, date 2026-11-20" in first.get_textpage().get_text_bounded()


def test_a_changed_plan_brings_a_change_order_with_what_is_cut(tmp_path: Path) -> None:
    job = tmp_path / "alcove.json"
    job.write_bytes(PLAN.read_bytes())
    assert run(str(job), "--date", "2026-11-20", command="freeze").exit_code == 0
    data = json.loads(PLAN.read_text("utf-8"))
    data["job"]["job"]["notes"] = "the client wants it by spring"
    data["job_hash"] = Job.model_validate_json(json.dumps(data["job"])).hash
    job.write_text(json.dumps(data), "utf-8")

    cut = run(str(job), "--cut", "1", command="freeze")
    wrong = run(str(job), "--cut", "99", command="freeze")
    done = run(str(job))

    assert cut.exit_code == 0, cut.output
    assert wrong.exit_code == 2
    assert "allowed: 1" in wrong.output
    assert "01-change-order.pdf" in done.output
    assert "already-cut.csv" in done.output


def test_nothing_can_be_cut_before_it_is_signed(tmp_path: Path) -> None:
    job = tmp_path / "alcove.json"
    job.write_bytes(PLAN.read_bytes())

    done = run(str(job), "--cut", "1", command="freeze")

    assert done.exit_code == 2
    assert "nothing is signed yet" in done.output


def test_plans_of_a_job_share_its_signed_revision_and_folder() -> None:
    for job in ("a/alcove.toml", "a/alcove.plan.json", "a/alcove.last-plan.json", "a/alcove.json"):
        assert named_after(job) == Path("a/alcove")
        assert signed_path(job, 2) == Path("a/alcove.signed-2.json")
    assert named_after("a/hall.v2.toml") == Path("a/hall.v2")
