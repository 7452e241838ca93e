"""`casewright price`, `buy` and `steps` as run by a user, and what wrong input gets."""

from __future__ import annotations

import csv
import datetime
import io
import json
import shutil
from decimal import Decimal
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.files.price_file import read_prices
from cli.main import app
from cli.screen.step_tables import working_day
from solver.costing import hardware_catalogue
from solver.errors import CannotBeDoneError
from tests.sample_plans import FIXTURE

ROOT = Path(__file__).parents[2]
PLAN = str(FIXTURE)
EUR = str(ROOT / "fixtures" / "prices" / "sample-eur.toml")
USD = str(ROOT / "fixtures" / "prices" / "sample-usd.csv")


def run(*arguments: str, columns: int = 80) -> Result:
    return CliRunner().invoke(app, list(arguments), env={"COLUMNS": str(columns)})


@pytest.mark.parametrize("columns", [80, 120])
@pytest.mark.parametrize("command", ["price", "buy", "steps"])
def test_no_line_is_wider_than_the_terminal(command: str, columns: int) -> None:
    prices = [] if command == "steps" else ["--prices", EUR]
    result = run(command, PLAN, *prices, columns=columns)
    assert result.exit_code == 0, result.output
    assert max(map(len, result.stdout.splitlines())) <= columns


def test_the_price_says_what_is_missing_and_with_a_list_less_is(tmp_path: Path) -> None:
    without = " ".join(run("price", PLAN).stdout.split())
    assert "Incomplete: the total is too low by what has no price: hour of work;" in without
    with_list = " ".join(run("price", PLAN, "--prices", EUR).stdout.split())
    assert "Incomplete: the total is too low by what has no price: tax." in with_list
    assert "Invented prices, to show the form of a price list" in with_list


def test_price_as_data_is_that_on_the_screen() -> None:
    data = json.loads(run("price", PLAN, "--prices", EUR, "--json", "-").stdout)
    (option,) = data["options"]
    assert (data["schema"], option["complete"]) == ("casewright/price/1", False)
    shown = run("price", PLAN, "--prices", EUR).stdout
    assert f"€{Decimal(option['total']):,.2f}" in shown
    assert sum(Decimal(one["amount"]) for one in option["payments"]) == Decimal(option["total"])


def test_lines_written_are_filled_in_and_read_again(tmp_path: Path) -> None:
    lines = tmp_path / "lines.csv"
    assert run("price", PLAN, "--csv", str(lines)).exit_code == 0
    rows = list(csv.DictReader(io.StringIO(lines.read_text("utf-8"))))
    assert {"survey trip", "glue-up", "primer"} <= {row["what"] for row in rows}
    for row in rows:
        if row["what"] == "glue-up":
            row["hours"], row["amount"] = "2.5", "150"
    with lines.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, rows[0].keys())
        writer.writeheader()
        writer.writerows(rows)
    result = run("price", PLAN, "--prices", EUR, "--actual", str(lines))
    assert result.exit_code == 0, result.output
    table = result.stdout.partition("Estimate against actual")[2]
    (row_shown,) = [one for one in table.splitlines() if one.startswith("glue-up")]
    assert "2.50" in row_shown
    assert "€150.00" in row_shown


def test_buy_list_as_csv_and_json_agree() -> None:
    rows = list(csv.DictReader(io.StringIO(run("buy", PLAN, "--csv", "-").stdout)))
    data = json.loads(run("buy", PLAN, "--json", "-").stdout)
    assert [row["what"] for row in rows] == [line["what"] for line in data["lines"]]
    assert sum(int(row["packs"]) for row in rows) == sum(line["packs"] for line in data["lines"])
    assert data["missing"]


def test_metric_jobs_are_sent_to_the_merchant_and_a_us_one_to_the_yard(tmp_path: Path) -> None:
    assert "Timber merchant: sheets" in run("buy", PLAN).stdout


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("item,price\nglue,-3\n", "line 2: price: '-3' is not an amount from 0 to 999,999.99"),
        ("item,price\nglue,3.005\n", "line 2: price: '3.005' is not an amount"),
        ("item,price,pack\nglue,3,0\n", "line 2: pack: '0' is given; allowed: a whole number"),
        ("item,pack\nglue,half\n", "line 2: pack: 'half' is given; allowed: a whole number"),
        ("item,on hand\nglue,-1\n", "line 2: on_hand: '-1' is given; allowed: a whole number"),
        ("item,price,currency\nglue,3,euro\n", "currency: 'euro' is given; allowed: three capital"),
        ("item,price,currency\nglue,3,USD\n", "the price list is in USD and the job in EUR"),
        ("item,price,currency\na,3,USD\nb,3,EUR\n", "one currency for the whole list, not"),
        ("item,prise\nglue,3\n", "'prise' is no column here; did you mean price?"),
        ("price\n3\n", "the column item is missing"),
        ("item,price\nglue,3\nGlue,4\n", "given twice: 'glue'"),
        ("item,price\n", "there are no prices in it"),
        ("", "nothing is listed"),
    ],
)
def test_price_lists_that_cannot_be(tmp_path: Path, text: str, says: str) -> None:
    path = tmp_path / "prices.csv"
    path.write_text(text, encoding="utf-8")
    result = run("price", PLAN, "--prices", str(path))
    assert result.exit_code == 2
    assert says in " ".join(result.output.split())


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('[[price]]\nitem = "glue"\nprice = -3\n', "[[price]] 1: price: -3 is not an amount"),
        ('[[price]]\nitem = "glue"\npacks = 3\n', "'packs' is not known here; allowed: item"),
        ('[price]\nitem = "glue"\n', "write [[price]] with double brackets"),
        ('currency = "Dollar"\n[[price]]\nitem = "glue"\n', "'Dollar' is given; allowed: three"),
        ('curency = "USD"\n', "'curency' is not known here; allowed: currency, note"),
        ("[[price]\n", "not valid TOML"),
    ],
)
def test_toml_price_lists_that_cannot_be(tmp_path: Path, text: str, says: str) -> None:
    path = tmp_path / "prices.toml"
    path.write_text(text, encoding="utf-8")
    result = run("buy", PLAN, "--prices", str(path))
    assert result.exit_code == 2
    assert says in " ".join(result.output.split())


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("what,hours\nglu-up,2\n", "'glu-up' is no line of the estimate; did you mean 'glue-up'?"),
        ("what,hours\nglue-up,-2\n", "hours: '-2' is given; allowed: a number from 0"),
        ("what,hours\nglue-up,soon\n", "hours: 'soon' is given; allowed: a number from 0"),
        ("what,hours\nglue-up,2\nlabour,9\n", "'labour' and 'glue-up' both count 'glue-up'"),
    ],
)
def test_actuals_that_cannot_be(tmp_path: Path, text: str, says: str) -> None:
    path = tmp_path / "actual.csv"
    path.write_text(text, encoding="utf-8")
    result = run("price", PLAN, "--actual", str(path))
    assert result.exit_code == 2
    assert says in " ".join(result.output.split())


def test_a_near_name_of_the_list_is_asked_about(tmp_path: Path) -> None:
    path = tmp_path / "prices.csv"
    path.write_text("item,price\nwood fillers,3\n", encoding="utf-8")
    words = " ".join(run("buy", PLAN, "--prices", str(path)).stdout.split())
    assert "the price list has 'wood fillers'; is 'wood filler' meant?" in words


SMALL = """
[job]
unit = "in"
[[case]]
width = 30
height = 40
depth = 9
shelves = 2
[[item]]
name = "jug"
width = 5
height = 8
depth = 5
weight = "2 lb"
"""


def test_only_the_price_changed_needs_no_new_plan(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = tmp_path / "small.toml"
    job.write_text(SMALL, encoding="utf-8")
    assert run("plan", str(job), "--no-near", "--quiet").exit_code == 0

    def planned_again(*_: object, **__: object) -> None:
        pytest.fail("it was planned again")

    monkeypatch.setattr("cli.run.plan_of.checked_plan", planned_again)
    assert "hour of work" in run("price", str(job)).stdout
    job.write_text(SMALL + "[price]\nhourly = 50\ntax = 19\n", encoding="utf-8")
    result = run("price", str(job))
    assert result.exit_code == 0, result.output
    assert "tax, 19 %" in result.stdout
    assert "hour of work" not in result.stdout


def test_steps_with_a_calendar_of_working_days() -> None:
    result = run("steps", PLAN, "--start", "2026-12-04", "--people", "2")
    assert result.exit_code == 0, result.output
    assert "Fri" in result.stdout
    assert "Mon" in result.stdout
    assert "Sat" not in result.stdout.partition("Sundays off")[2]
    data = json.loads(run("steps", PLAN, "--start", "2026-12-04", "--json", "-").stdout)
    dates = data["calendars"][0]["dates"]
    assert dates[:2] == ["2026-12-04", "2026-12-07"]
    assert len(dates) == data["calendars"][0]["days"]
    alone = sum(one["minutes"] for one in data["steps"] if one["later"] is None)
    assert data["calendars"][0]["work"] == alone


@pytest.mark.parametrize("number", range(12))
def test_working_days_leave_out_week_ends(number: int) -> None:
    start = datetime.date(2026, 12, 5)  # a Saturday
    days = [start + datetime.timedelta(days=one) for one in range(40)]
    wanted = [day for day in days if day.weekday() < 5][number]
    assert working_day(start, number) == wanted


@pytest.mark.parametrize("given", ["1.12.2026", "2026-13-01", "soon"])
def test_a_day_that_is_none(given: str) -> None:
    result = run("steps", PLAN, "--start", given)
    assert result.exit_code == 2
    assert f"'{given}' is no day; write year, month and day, such as 2026-12-01" in result.output


def test_an_option_that_is_none_is_told_with_those_there_are() -> None:
    result = run("buy", PLAN, "--option", "9 shelves")
    assert result.exit_code == 2
    assert "'9 shelves' is no option with a layout; allowed: '2 shelves'" in result.output


def test_a_file_that_exists_is_kept(tmp_path: Path) -> None:
    path = tmp_path / "buy.json"
    path.write_text("mine", encoding="utf-8")
    assert run("buy", PLAN, "--json", str(path)).exit_code == 2
    assert path.read_text("utf-8") == "mine"


@pytest.mark.parametrize("path", [EUR, USD])
def test_the_sample_price_lists_name_every_kind_of_hardware(path: str) -> None:
    prices = read_prices(path)
    assert prices is not None
    every = [
        one.key
        for one in vars(hardware_catalogue).values()
        if isinstance(one, hardware_catalogue.Kind)
    ]
    assert [key for key in every if prices.of(key) is None] == []


def test_the_sample_price_lists_say_that_they_are_invented() -> None:
    for name in ("sample-usd.csv", "sample-eur.toml"):
        assert "Invented prices" in (ROOT / "fixtures" / "prices" / name).read_text("utf-8")


@pytest.mark.parametrize("command", ["price", "buy", "papers", "show"])
def test_prices_in_another_currency_are_refused_before_any_planning(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def begun(*_: object, **__: object) -> None:
        msg = "planning begins"
        raise CannotBeDoneError(msg)

    monkeypatch.setattr("solver.planning.plan_job.plan_job", begun)
    monkeypatch.chdir(tmp_path)
    job = str(shutil.copy(ROOT / "fixtures" / "jobs" / "symmetric.toml", "hall.toml"))
    refused = run(command, job, "--prices", EUR)
    assert refused.exit_code == 2
    assert "the price list is in EUR and the job in USD" in refused.output
    assert "planning begins" in run(command, job, "--prices", USD).output
