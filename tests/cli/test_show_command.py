"""`casewright show`: what is shown, written and kept, and how it ends."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.main import app
from solver.plan.plan import Plan
from solver.units import inches
from tests.sample_plans import good_plan

JOB = """
[job]
unit = "in"
title = "Hall"
[[case]]
name = "case"
width = 30
height = 40
depth = 8
shelves = 2
[[item]]
name = "jug"
width = 4
height = 4
depth = 4
weight = "2 lb"
"""


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("job.toml").write_text(JOB)
    Path("saved.json").write_text(good_plan().to_json(), "utf-8")


def show(*words: str, code: int = 0) -> Result:
    done = CliRunner().invoke(app, ["show", *words])
    assert done.exit_code == code, done.output
    return done


def test_a_job_is_planned_kept_and_shown_and_shown_again_as_it_was() -> None:
    first = show("job.toml")
    page = Path("job.html").read_bytes()
    again = show("job.toml", "-o", "again.html")
    planned = show("job.toml", "-o", "fresh.html", "--fresh")

    assert "job.html is written" in first.stdout
    assert Path("job.last-plan.json").is_file()
    assert "shown as kept" not in first.output + planned.output
    assert "shown as kept in job.last-plan.json" in again.stderr
    assert page == Path("again.html").read_bytes() == Path("fresh.html").read_bytes()


def test_a_job_that_has_changed_is_planned_again() -> None:
    show("job.toml")
    Path("job.toml").write_text(JOB.replace("height = 40", "height = 41"))

    assert "shown as kept" not in show("job.toml", "--force").output
    assert "41" in Path("job.html").read_text("utf-8")


def test_decisions_held_since_are_shown_and_not_lost() -> None:
    runner = CliRunner()
    runner.invoke(app, ["plan", "job.toml", "--quiet", "--hold", "shelf1=15"])
    kept = Path("job.last-plan.json").read_bytes()

    assert "shown as kept" in show("job.toml").output
    assert Path("job.last-plan.json").read_bytes() == kept
    plan = Plan.model_validate_json(kept)
    assert plan.options[0].cases[0].bays[0].shelves[0].underside == inches(15)
    assert f'"marks":[{inches(15)},' in Path("job.html").read_text("utf-8")


def test_a_saved_plan_is_shown_and_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[str] = []

    def browser(url: str) -> bool:
        seen.append(url)
        return True

    monkeypatch.setattr("webbrowser.open", browser)

    show("saved.json", "-o", "page.html", "--open", "--quiet")

    assert seen == [Path("page.html").resolve().as_uri()]
    assert "hall case" in Path("page.html").read_text("utf-8")
    assert not Path("saved.last-plan.json").exists()


def test_nothing_is_overwritten_without_being_told() -> None:
    Path("page.html").write_text("mine")

    refused = show("saved.json", "-o", "page.html", code=2)
    assert "--force" in refused.stderr
    assert Path("page.html").read_text() == "mine"
    show("saved.json", "-o", "page.html", "--force")
    assert "hall case" in Path("page.html").read_text("utf-8")


def test_the_page_may_go_to_standard_output() -> None:
    assert show("saved.json", "-o", "-").stdout.startswith("<!DOCTYPE html>")


def test_what_does_not_fit_is_shown_and_ends_with_1() -> None:
    Path("job.toml").write_text(JOB.replace("height = 4\n", "height = 30\n"))

    done = show("job.toml", code=1)

    assert "would do" in done.stderr
    assert "Does not fit" in Path("job.html").read_text("utf-8")
    assert not Path("job.last-plan.json").exists()


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("none.toml",), "no such file"),
        (("job.toml", "-o", "none/page.html"), "folder does not exist"),
        (("job.toml", "-o", "job.toml", "--force"), "would replace the job itself"),
        (("saved.json", "-o", "-", "--open"), "--open goes with a file"),
        (("things.csv",), "a job file or a saved plan"),
        (("broken.json",), "not JSON"),
    ],
)
def test_wrong_words_end_with_2_and_nothing_is_written(words: tuple[str, ...], said: str) -> None:
    Path("broken.json").write_text("{")
    before = sorted(Path().iterdir())

    assert said in show(*words, code=2).stderr
    assert sorted(Path().iterdir()) == before
