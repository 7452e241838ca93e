"""`casewright trim`, and the hardware of `casewright buy --explain`, as run by a user."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.main import app
from cli.screen.trim_tables import figure_lines, trade_term
from solver.plan.trimming import Explained

HALL = Path(__file__).parents[2] / "fixtures" / "jobs" / "hall-door.toml"


@pytest.fixture(scope="module")
def hall(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The hall door planned once."""
    path = tmp_path_factory.mktemp("plans") / "hall.json"
    result = CliRunner().invoke(
        app, ["plan", str(HALL), "--no-keep", "--no-near", "--json", str(path), "--quiet"]
    )
    assert result.exit_code == 0, result.output
    return str(path)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(app, list(arguments), env={"COLUMNS": "100"})


def test_the_pilaster_at_the_latch_travels_and_the_other_stays(hall: str) -> None:
    result = run("trim", hall, "--explain")
    assert result.exit_code == 0, result.output
    words = " ".join(result.stdout.split())
    assert "casing leg latch side: travels; clear on the case, on the wall it binds" in words
    assert "casing leg hinge side: stays; on the case it binds at 0°, clear on the wall" in words
    assert "3 flutes 1/2 in wide, 3/8 in apart, a flat of 5/8 in at each edge of 3-1/2 in" in words
    # 80-1/4 + 3/16 - 1/8 - 5-5/8; travelling, 3/4 off the floor and 1/16 under the block as well
    assert "74-11/16 in = lower edge of the head" in words
    assert "B casing leg, travels with the case" in words
    assert "BINDS" not in words


def test_trim_as_data(hall: str) -> None:
    result = run("trim", hall, "--json", "-")
    data = json.loads(result.stdout)
    assert data["schema"] == "casewright/trim/1"
    (case,) = data["cases"]
    legs = {p["id"]: p for p in case["pieces"] if p["name"] == "casing leg"}
    stays, travels = legs["china case/trim-leg-hinge"], legs["china case/trim-leg-latch"]
    assert stays["length"] - travels["length"] == pytest.approx((0.75 + 1 / 16) * 25.4)
    assert stays["cut_length"] == travels["cut_length"]


def test_hardware_in_whole_packs(hall: str) -> None:
    result = run("buy", hall, "--explain")
    assert result.exit_code == 0, result.output
    words = " ".join(result.stdout.split())
    assert "china case: top ends 6, bottom ends 6, shelf ends 30" in words
    assert "pilot 3/32 in, 7/64 in hardwood, clearance 11/64 in through the side" in words
    data = json.loads(run("buy", hall, "--json", "-").stdout)["hardware"]
    assert {"lines", "pin_holes"} == set(data)
    assert {line["key"].split(",")[0] for line in data["lines"]} >= {"hinge", "paint", "glue"}


def test_an_option_that_is_not_there(hall: str) -> None:
    result = run("trim", hall, "--option", "9 shelves")
    assert result.exit_code == 2
    assert "'9 shelves' is no option" in result.stderr


def test_names_of_a_metric_job_are_its_own_and_sources_stay_as_they_are() -> None:
    assert trade_term("head casing, baseboard return", "mm") == "head architrave, skirting return"
    assert trade_term("head casing", "in") == "head casing"
    figure = Explained(
        what="casing", value="1", formula="a", numbers="1", source="example.org door-casing-reveal"
    )
    (line,) = figure_lines((figure,), "mm")
    assert line == "architrave: 1 = a: 1. Source: example.org door-casing-reveal."


def test_check_says_what_trim_is_asked_for() -> None:
    result = run("check", str(HALL))
    assert (
        "china case: classical casing of casing 3-1/2, 3 flutes a leg, edge bands of birch band 7/8"
        in result.stdout
    )
