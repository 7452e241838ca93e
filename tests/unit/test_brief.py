"""The short answer: forty lines of eighty columns, the gravest first, nothing grave left out."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from rich.console import Console
from typer.testing import CliRunner

from cli.main import app
from cli.screen.brief import print_brief
from cli.screen.warnings import PLACE, grave, more_cautions, warnings
from solver.plan.plan import Plan
from solver.strength.cautions import cautions_of
from tests.sample_display import sample_plan
from tests.sample_plans import good_plan

LINES_MOST = 40
JOBS = Path(__file__).parents[2] / "fixtures" / "jobs"


def shown(plan: Plan, width: int = 80) -> list[str]:
    out = io.StringIO()
    console = Console(file=out, width=width, markup=False, emoji=False, highlight=False)
    print_brief(console, plan, plain=False)
    return out.getvalue().splitlines()


@pytest.mark.parametrize("width", [80, 120])
@pytest.mark.parametrize("plan", [good_plan(), sample_plan()], ids=["two bays", "several counts"])
def test_an_ordinary_plan_fits_forty_lines(plan: Plan, width: int) -> None:
    lines = shown(plan, width)

    assert len(lines) <= LINES_MOST
    assert max(map(len, lines)) <= width


@pytest.mark.parametrize("name", ["pins", "hall-door", "too-tall"])
def test_a_planned_fixture_fits_forty_lines(name: str) -> None:
    runner = CliRunner(env={"COLUMNS": "80"})
    done = runner.invoke(app, ["plan", str(JOBS / f"{name}.toml"), "--no-keep"])
    lines = done.stdout.splitlines()

    assert done.exit_code == (1 if name == "too-tall" else 0)
    assert len(lines) <= LINES_MOST
    assert max(map(len, lines)) <= 80
    assert not {line for line in lines if len(line) > 20} & set(done.stderr.splitlines())


def test_the_short_answer_names_marks_price_and_what_shows_more() -> None:
    plan = good_plan()
    text = "\n".join(shown(plan))

    assert "Marks of 2 shelves" in text
    assert "price" in text
    assert "--full" in text


def test_every_caution_is_a_warning_or_is_counted() -> None:
    plan = good_plan()
    option = plan.options[0]
    of_place = [one for one in cautions_of(plan.job, option) if one.key in PLACE]

    told = warnings(plan.job, option)

    assert len(of_place) + more_cautions(plan.job, option) == len(cautions_of(plan.job, option))
    assert len(told) >= len(of_place)


def test_what_forbids_building_it_comes_first() -> None:
    """A tall case that nothing holds up tips: that is said before the pictures; held, it is not."""
    loose = CliRunner(env={"COLUMNS": "80"}).invoke(
        app, ["plan", "-", "--outside", "24x72x9", "--shelves", "3"], input="jar 6 x 9 x 6, 2 lb\n"
    )
    low = CliRunner(env={"COLUMNS": "80"}).invoke(
        app, ["plan", "-", "--outside", "24x14x16", "--shelves", "0"], input="jar 6 x 9 x 6, 2 lb\n"
    )
    early = "\n".join(loose.stdout.splitlines()[:8])

    assert "NOT ENOUGH" in early
    assert "tips" in early
    assert "tips it, loaded" not in low.stdout
    assert not grave(good_plan().options[0]) or "NOT ENOUGH" in "".join(shown(good_plan())[:8])
