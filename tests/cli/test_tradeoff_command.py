"""`casewright tradeoff` as a whole: what is shown, what is written, how it ends."""

from __future__ import annotations

import csv
import json
import os
import signal
import threading
from collections.abc import Callable
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.main import app
from cli.screen.front_tables import chart, front_notes, points_shown, print_front
from cli.screen.wording import tag_words
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.plan.price_front import FrontPoint, OpenPart, TradeOff
from solver.tradeoff.trade_off import trade_off
from solver.units import inches
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
    def stopped(
        job: Job, limits: Limits, progress: Callable[[str], None], *, every: bool
    ) -> TradeOff:
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


# --- Table and chart -------------------------------------------------------------------------


@cache
def sample() -> TradeOff:
    things = [
        {"name": "urn", "width": "10", "height": "11", "depth": "5"},
        {"name": "cup", "width": "10", "height": "6", "depth": "5"},
    ]
    case = {"width": "22", "height": "30", "depth": "8", "shelves": [1, 2]}
    return trade_off(make_job(case=case, items=things))


def points(*figures: tuple[str, int, int]) -> tuple[FrontPoint, ...]:
    """Points of these prices, rhythms for each opening and headrooms [tick]; the first best."""
    one = sample().points[0]
    return tuple(
        one.model_copy(
            update={
                "number": n,
                "price": Decimal(price),
                "area": 0.0,
                "rhythm": rhythm,
                "headroom": headroom,
                "option": one.option.model_copy(update={"tags": ("recommended",) * (n == 1)}),
            }
        )
        for n, (price, rhythm, headroom) in enumerate(figures, start=1)
    )


def drawn(front_points: tuple[FrontPoint, ...], width: int = 80, *, plain: bool = False) -> str:
    front = sample().model_copy(update={"points": front_points})
    lines = chart(front, front_points, width, plain=plain)
    assert all(len(line) <= width for line in lines)
    return "\n".join(lines)


@pytest.mark.parametrize("width", [60, 80, 120])
def test_every_point_is_on_the_line_of_its_price(width: int) -> None:
    made = points(("92.00", 0, inches("1")), ("184.00", inches("2"), 0))
    lines = drawn(made, width).splitlines()

    assert lines[1].startswith("$92.00")
    assert lines[1].endswith("○1*")
    assert lines[2].startswith("$184.00")
    assert lines[2].endswith("●2")
    assert lines[1].index("○") < lines[2].index("●")


def test_plain_terminals_get_plain_signs() -> None:
    assert drawn(points(("1.00", 0, 9), ("1.00", 5, 0)), plain=True).isascii()


def test_points_at_one_spot_stand_below_each_other() -> None:
    made = points(("92.00", 0, 0), ("92.00", 0, 0), ("92.00", inches("3"), 0))
    first, second = drawn(made).splitlines()[1:3]

    assert "1*" in first
    assert "2" not in first.removeprefix("$92.00")
    assert second.strip() == "●2"


def test_one_option_alone_needs_no_chart() -> None:
    assert chart(sample(), sample().points[:1], 80, plain=False) == []


def test_many_that_look_alike_are_told_apart_only_when_asked() -> None:
    one = sample().points[0]
    many = tuple(
        one.model_copy(update={"number": n, "option": one.option.model_copy(update={"tags": ()})})
        for n in range(1, 21)
    )
    front = sample().model_copy(update={"points": many})

    assert len(points_shown(front, every=False)) == 1
    assert len(points_shown(front, every=True)) == len(many)
    assert any("19 more options" in note for note in front_notes(front))


def test_an_open_front_never_says_proven() -> None:
    front = sample().model_copy(update={"complete": False})

    assert front_notes(sample())[0].startswith("Proven")
    assert front_notes(front)[0].startswith("Not proven")


@pytest.mark.parametrize("width", [80, 120])
def test_no_line_is_wider_than_the_terminal(width: int) -> None:
    import io

    from rich.console import Console

    screen = io.StringIO()
    print_front(Console(file=screen, width=width), sample(), every=False)

    assert max(len(line.rstrip()) for line in screen.getvalue().splitlines()) <= width


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


@pytest.mark.parametrize(
    ("price", "said"),
    [("92.00", "Open: 4 shelves at $92.00: too soon."), (None, "Open: 4 shelves: too soon.")],
)
def test_what_is_open_is_told_with_its_price_where_there_is_one(
    price: str | None, said: str
) -> None:
    part = OpenPart(
        name="4 shelves",
        shelf_counts={"alcove": (4,)},
        price=price,
        rhythm_least=None,
        headroom_least=None,
        empty_least=None,
        why="too soon",
    )
    front = sample().model_copy(update={"open_parts": (part,)})
    assert said in front_notes(front)
