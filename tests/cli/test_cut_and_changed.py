"""A job that is changed when some of it is cut, from the signature to the papers."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.main import app
from solver.errors import CannotBeDoneError
from solver.plan.plan import Plan

JOB = """
[job]
unit = "in"
title = "hall"
[[case]]
name = "hall"
sizes = "outside"
width = 30
height = 40
depth = 12
shelves = 2
back = "none"
material = "ply"
[[sheet]]
name = "ply, 4 x 4 ft"
material = "ply"
length = 48
width = 48
thickness = "3/4"
price = 60
[[item]]
name = "urn"
width = 10
height = 9
depth = 5
weight = "1 lb"
"""
CUP = """
[[item]]
name = "cup"
width = 5
height = 6
depth = 5
weight = "1 lb"
"""
AROUND = "casewright plan hall.toml --have hall.signed-1.json"


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("hall.toml").write_text(JOB)


def run(*words: str, code: int = 0) -> Result:
    result = CliRunner().invoke(app, list(words))
    assert result.exit_code == code, result.output
    return result


def bought() -> int:
    plan = Plan.model_validate_json(Path("hall.last-plan.json").read_text("utf-8"))
    return plan.options[0].sheet_count


def signed(*cut: str) -> None:
    run("plan", "hall.toml", "--quiet", "--no-near")
    run("freeze", "hall.toml", "--date", "2026-11-25")
    if cut:
        run("freeze", "hall.toml", *cut)


def test_a_changed_job_is_planned_around_what_is_cut_and_its_papers_are_of_that_plan(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    signed("--cut", "1")
    sheets = bought()
    Path("hall.toml").write_text(JOB + CUP)

    plain = run("plan", "hall.toml", "--no-near")
    assert AROUND in plain.stderr
    assert bought() == sheets
    assert AROUND in " ".join(run("papers", "hall.toml").stdout.split())

    around = run("plan", "hall.toml", "--no-near", "--have", "hall.signed-1.json")
    assert "revision 1 of 2026-11-25, cut by now: " in around.stderr
    assert AROUND not in around.stderr
    assert bought() == sheets - 1

    def begun(*_: object, **__: object) -> None:
        msg = "planned anew"
        raise CannotBeDoneError(msg)

    monkeypatch.setattr("solver.planning.plan_job.plan_job", begun)
    papers = run("papers", "hall.toml", "--force").stdout
    assert "01-change-order.pdf" in papers
    assert "--have" not in papers
    Path("hall.toml").write_text(JOB + CUP.replace("5", "4"))  # another job: the plan is no more
    assert "planned anew" in run("papers", "hall.toml", "--force", code=1).output


def test_nothing_is_said_where_nothing_is_cut_and_there_is_nothing_to_plan_around() -> None:
    signed()
    assert "--have" not in run("plan", "hall.toml", "--no-near").stderr
    none = run("plan", "hall.toml", "--have", "hall.signed-1.json", code=2)
    assert "nothing of this revision is cut yet; casewright freeze JOB --cut 1,2" in none.stderr
    wrong = run("plan", "hall.toml", "--have", "hall.last-plan.json", code=2)
    assert "this is no signed revision as written by casewright freeze" in wrong.stderr
