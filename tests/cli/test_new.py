"""`casewright new`: a starter job that is valid as written, and never written over a file."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli.files.job_file import read_job
from cli.files.job_reference import reference
from cli.files.starter import Answers, ask_for, standard, starter
from cli.main import app
from solver.units import Unit, inches, mm

UNITS: list[Unit] = ["in", "mm"]


@pytest.mark.parametrize("unit", UNITS)
def test_the_starter_job_passes_check_as_it_is(tmp_path: Path, unit: Unit) -> None:
    path = tmp_path / "job.toml"
    written = CliRunner().invoke(app, ["new", str(path), "--unit", unit])
    assert written.exit_code == 0, written.output
    assert f"casewright check {path}" in written.output
    checked = CliRunner().invoke(app, ["check", str(path)])
    assert checked.exit_code == 0, checked.output
    assert "Nothing speaks against this job" in checked.output
    assert read_job(str(path)).unit == unit


@pytest.mark.parametrize("unit", UNITS)
def test_every_remark_that_holds_a_key_can_be_switched_on(tmp_path: Path, unit: Unit) -> None:
    lines = starter(standard(unit)).removesuffix(reference(unit)).split("\n")
    switched = [
        line.removeprefix("# ") if line.startswith("# ") and " = " in line.split("#")[1] else line
        for line in lines
    ]
    assert switched != lines
    (tmp_path / "inventory.csv").write_text("name,w,h,d\nmug,80 mm,100 mm,80 mm\n", "utf-8")
    path = tmp_path / "job.toml"
    path.write_text("\n".join(switched), "utf-8")
    job = read_job(str(path))
    assert job.cases[0].uprights == 1
    assert job.cases[0].raised_bottom > 0
    assert all(sheet.price is not None for sheet in job.sheets)
    assert job.items[-1].name == "mug"


def test_an_existing_file_is_kept_unless_forced(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text("mine", "utf-8")
    refused = CliRunner().invoke(app, ["new", str(path)])
    assert refused.exit_code == 2
    assert "--force" in refused.stderr
    assert path.read_text("utf-8") == "mine"
    forced = CliRunner().invoke(app, ["new", str(path), "--force", "--yes"])
    assert forced.exit_code == 0, forced.output
    assert read_job(str(path)).unit == "in"


def test_a_job_can_go_to_standard_output_alone() -> None:
    result = CliRunner().invoke(app, ["new", "-", "--unit", "mm"])
    assert result.stdout == starter(standard("mm"))


@pytest.mark.parametrize("name", ["job.csv", "job"])
def test_another_ending_is_refused(tmp_path: Path, name: str) -> None:
    result = CliRunner().invoke(app, ["new", str(tmp_path / name)])
    assert result.exit_code == 2
    assert "give it that ending" in result.stderr
    assert list(tmp_path.iterdir()) == []


class Talk:
    """Answers questions from a list; an empty answer takes the default."""

    def __init__(self, *answers: str) -> None:
        self.answers = list(answers)
        self.asked: list[tuple[str, str]] = []
        self.told: list[str] = []

    def ask(self, question: str, default: str) -> str:
        self.asked.append((question, default))
        return self.answers.pop(0) or default

    def tell(self, message: str) -> None:
        self.told.append(message)


def answered(folder: Path, unit: Unit, *answers: str) -> tuple[Answers, Talk]:
    talk = Talk(*answers)
    return ask_for(unit, folder, talk.ask, talk.tell), talk


def test_the_few_measurements_are_asked_for_with_their_defaults(tmp_path: Path) -> None:
    answers, talk = answered(tmp_path, "in", "", "", "", "", "", "")
    assert answers == standard("in")
    assert [default for _, default in talk.asked] == ["standing", "30", "60", "9", "4,5", "later"]
    assert talk.told == []


def test_answers_go_into_a_job_that_can_be_read(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text("name,w,h,d\nmug,3,4,3\n", "utf-8")
    said = ("built-in", "39-1/2", "6' 5\"", "open", "4-6", "list.csv")
    answers, _ = answered(tmp_path, "in", *said)
    path = tmp_path / "job.toml"
    path.write_text(starter(answers), "utf-8")
    job = read_job(str(path))
    (case,) = job.cases
    assert (case.kind, case.width, case.height) == ("built-in", inches("39.5"), inches(77))
    assert case.depth is None
    assert case.shelf_counts == (4, 5, 6)
    assert [item.name for item in job.items] == ["mug"]


def test_a_wrong_answer_is_explained_and_asked_again(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text("name,w,h,d\nmug,3,4,\n", "utf-8")
    said = ("hanged", "hung", "wide", "700", "1,800", "1", "1800", "1", "open", "four", "4")
    answers, talk = answered(tmp_path, "mm", *said, "list.doc", "none.csv", "list.csv", "later")
    assert answers == Answers("mm", "hung", "700", "1800", "", "4")
    for part, told in zip(
        (
            "is no kind of case",
            "is not a length",
            "may mean 1800",
            "smaller than 100 mm",
            "less than 50 mm",
            "are not counts",
            "file in the job's folder",
            "there is no such file",
            "the depth is missing",
        ),
        talk.told,
        strict=True,
    ):
        assert part in told


def test_a_written_size_is_read_back_to_the_tick(tmp_path: Path) -> None:
    answers, _ = answered(tmp_path, "mm", "", '30-1/16"', "1520.5", "", "", "")
    path = tmp_path / "job.toml"
    path.write_text(starter(answers), "utf-8")
    (case,) = read_job(str(path)).cases
    assert (case.width, case.height) == (inches("30-1/16"), mm("1520.5"))
