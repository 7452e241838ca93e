"""`casewright tradeoff` as a whole: what is shown, what is written, how it ends."""

from __future__ import annotations

import csv
import json
import os
import signal
import threading
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.main import app
from cli.screen.wording import tag_words
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.plan.price_front import TradeOff
from solver.tradeoff.trade_off import trade_off
from tests.builders import make_job

JOB = """
[job]
title = "hall case"
unit = "in"
[[case]]
name = "hall"
width = "22"
height = "30"
depth = "8"
shelves = [1, 2]
[[item]]
name = "urn"
width = "10"
height = "11"
depth = "5"
[[item]]
name = "cup"
width = "10"
height = "6"
depth = "5"
"""


@pytest.fixture(autouse=True)
def in_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("job.toml").write_text(JOB, encoding="utf-8")


def casewright(*words: str) -> Result:
    return CliRunner().invoke(app, list(words))


def test_the_front_is_shown_with_the_reason_and_written() -> None:
    done = casewright("tradeoff", "job.toml", "--json", "f.json", "--csv", "f.csv")

    assert done.exit_code == 0, done.output
    front = TradeOff.model_validate_json(Path("f.json").read_text())
    assert front.recommendation is not None
    assert front.recommendation in " ".join(done.stdout.split())
    with Path("f.csv").open(newline="") as file:
        rows = list(csv.DictReader(file))
    assert [int(row["number"]) for row in rows] == [point.number for point in front.points]
    assert {row["tags"] for row in rows} >= {", ".join(tag_words(p.option)) for p in front.points}


def test_json_on_standard_output_stands_alone() -> None:
    done = casewright("tradeoff", "job.toml", "--json", "-")

    assert json.loads(done.stdout)["schema"] == "casewright/tradeoff/1"


def test_the_quick_form_takes_a_pasted_list() -> None:
    words = ("tradeoff", "-", "--inside", "20x28x8", "--shelves", "1,2")
    done = CliRunner().invoke(app, list(words), input="urn 10 x 11 x 5\ncup 10 x 6 x 5\n")

    assert done.exit_code == 0, done.output
    assert "is recommended" in done.stdout


def test_where_nothing_fits_the_front_is_empty_written_and_the_reason_said() -> None:
    Path("job.toml").write_text(JOB.replace('height = "11"', 'height = "31"'), encoding="utf-8")
    done = casewright("tradeoff", "job.toml", "--json", "f.json")

    assert done.exit_code == 1
    assert "1 shelf: 1 thing would find no place" in done.stderr
    assert json.loads(Path("f.json").read_text())["points"] == []


def test_an_existing_file_is_kept_without_force() -> None:
    Path("f.json").write_text("mine")
    done = casewright("tradeoff", "job.toml", "--json", "f.json")

    assert done.exit_code == 2
    assert Path("f.json").read_text() == "mine"


def test_a_misspelt_job_writes_nothing() -> None:
    Path("job.toml").write_text("[jobb]\n")
    done = casewright("tradeoff", "job.toml", "--json", "f.json")

    assert done.exit_code == 2
    assert not Path("f.json").exists()


def test_an_interrupted_front_is_shown_as_such(monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(job: Job, limits: Limits, progress: Callable[[str], None]) -> TradeOff:
        heard = threading.Event()
        limits.stopper.register(heard.set)
        threading.Timer(0.1, lambda: os.kill(os.getpid(), signal.SIGINT)).start()
        assert heard.wait(20)
        return sample().model_copy(update={"stopped": True, "complete": False})

    monkeypatch.setattr("solver.tradeoff.trade_off.trade_off", stopped)
    done = casewright("tradeoff", "job.toml", "--json", "f.json")

    assert done.exit_code == 130
    assert "this is the front so far" in done.stderr
    assert json.loads(Path("f.json").read_text())["stopped"] is True


@cache
def sample() -> TradeOff:
    things = [
        {"name": "urn", "width": "10", "height": "11", "depth": "5"},
        {"name": "cup", "width": "10", "height": "6", "depth": "5"},
    ]
    case = {"width": "22", "height": "30", "depth": "8", "shelves": [1, 2]}
    return trade_off(make_job(case=case, items=things))


def test_the_option_taken_becomes_the_plan() -> None:
    """It is kept beside the job, written, and planned again from; the front too can be checked."""
    done = casewright("tradeoff", "job.toml", "--take", "1", "--plan", "p.json", "--json", "f.json")

    assert done.exit_code == 0, done.output
    front = TradeOff.model_validate_json(Path("f.json").read_text())
    plan = Plan.model_validate_json(Path("p.json").read_text())
    assert plan.options == (front.points[0].option,)
    assert "Marking out" in done.stdout
    assert Path("job.last-plan.json").read_text() == Path("p.json").read_text()
    for file in ("p.json", "f.json"):
        checked = casewright("verify", file)
        assert checked.exit_code == 0, checked.output
    held = casewright("plan", "job.toml", "--hold", "urn=opening 0", "--json", "held.json")
    assert held.exit_code == 0, held.output
    assert Plan.model_validate_json(Path("held.json").read_text()).comparison is not None


def test_an_option_is_taken_from_a_front_written_before() -> None:
    casewright("tradeoff", "job.toml", "--json", "f.json")

    done = casewright("tradeoff", "f.json", "--take", "best-looking", "--plan", "p.json")

    assert done.exit_code == 0, done.output
    plan = Plan.model_validate_json(Path("p.json").read_text())
    assert "best-looking" in plan.options[0].tags
    assert not list(Path().glob("*last-plan*"))


@pytest.mark.parametrize(
    ("which", "said"),
    [("99", "--take: 99 is not there; the options are 1"), ("nice", "'nice' is neither a number")],
)
def test_an_option_that_is_not_there_ends_with_2(which: str, said: str) -> None:
    casewright("tradeoff", "job.toml", "--json", "f.json")

    done = casewright("tradeoff", "f.json", "--take", which, "--plan", "p.json")

    assert done.exit_code == 2
    assert said in done.stderr
    assert not Path("p.json").exists()


def test_over_a_band_of_thickness_every_option_holds_at_both_ends() -> None:
    sheet = """
[[sheet]]
name = "ply"
material = "ply"
length = "96"
width = "48"
thickness = { least = "11/16", most = "3/4" }
"""
    case = JOB.replace('depth = "8"', 'depth = "8"\nback = "none"')
    Path("job.toml").write_text(case + sheet, encoding="utf-8")

    done = casewright("tradeoff", "job.toml", "--json", "f.json")

    assert done.exit_code == 0, done.output
    front = TradeOff.model_validate_json(Path("f.json").read_text())
    assert all(point.option.band is not None for point in front.points)
