"""`casewright plan` and `demo`: what is read, shown and written, and how they end."""

from __future__ import annotations

import json
import os
import signal
import threading
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.main import app
from cli.run.plan_pipeline import what_would_do
from cli.screen.advice_tables import change_text
from solver.job.job import Job
from solver.outcome import Limits, Status
from solver.plan.plan import Option, Plan, Timing
from tests.sample_display import infeasible_option
from tests.sample_plans import good_plan

JOB = """
[job]
unit = "in"
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
Progress = Callable[[str], None] | None
Planner = Callable[[Job, Limits, Progress], Plan]


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("job.toml").write_text(JOB)
    Path("things.csv").write_text("name,w,h,d,count\njug,4,5,6,2\nclock,9 1/2,12,5,1\n")


@pytest.fixture
def jobs(monkeypatch: pytest.MonkeyPatch) -> list[Job]:
    """The jobs that reach the planner, which always gives the same checked plan."""
    seen: list[Job] = []

    def planner(job: Job, limits: Limits, progress: Progress = None, **_: bool) -> Plan:
        seen.append(job)
        return good_plan()

    plans_with(monkeypatch, planner)
    return seen


def plans_with(monkeypatch: pytest.MonkeyPatch, planner: Planner) -> None:
    monkeypatch.setattr("solver.planning.plan_job.plan_job", planner)


def casewright(*arguments: str, typed: str | None = None) -> Result:
    return CliRunner().invoke(app, arguments, input=typed)


def here() -> set[str]:
    return {path.name for path in Path().iterdir()} - {"job.toml", "things.csv"}


def test_a_job_is_planned_shown_and_written(jobs: list[Job]) -> None:
    done = casewright("plan", "job.toml", "--json", "p.json", "--csv", "tables", "--xlsx", "p.xlsx")

    assert done.exit_code == 0
    assert [job.items[0].name for job in jobs] == ["jug"]
    assert "hall case" in done.stdout
    assert json.loads(Path("p.json").read_text()) == json.loads(good_plan().to_json())
    assert here() == {"p.json", "tables", "p.xlsx", "job.last-plan.json"}


def test_json_to_standard_output_stands_there_alone(jobs: list[Job]) -> None:
    done = casewright("plan", "job.toml", "--json", "-")

    assert done.stdout == good_plan().to_json()


def test_quiet_prints_nothing(jobs: list[Job]) -> None:
    done = casewright("plan", "things.csv", "--inside", "30x60x8", "--quiet")

    assert done.exit_code == 0
    assert done.output == ""


def test_the_same_plan_is_shown_in_the_same_bytes(jobs: list[Job]) -> None:
    assert casewright("plan", "job.toml").stdout == casewright("plan", "job.toml").stdout


def test_with_all_the_details_of_every_option_are_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    twice = good_plan()
    option = twice.options[0]
    both = twice.model_copy(
        update={"options": (option, option.model_copy(update={"name": "other", "tags": ()}))}
    )
    plans_with(monkeypatch, lambda *_, **__: both)
    monkeypatch.setattr("cli.run.plan_pipeline.check", lambda _: ())

    assert casewright("plan", "job.toml", "--full").stdout.count("Marking out") == 1
    assert casewright("plan", "job.toml", "--all").stdout.count("Marking out") == 2


@pytest.mark.parametrize("option", ["--json", "--xlsx"])
def test_an_existing_file_is_refused_before_the_work_and_replaced_with_force(
    jobs: list[Job], option: str
) -> None:
    Path("out").write_text("mine")

    refused = casewright("plan", "job.toml", option, "out")
    assert (refused.exit_code, jobs) == (2, [])
    assert "--force" in refused.stderr
    assert Path("out").read_text() == "mine"

    assert casewright("plan", "job.toml", option, "out", "--force").exit_code == 0
    assert Path("out").read_bytes() != b"mine"


def test_a_workbook_cannot_go_to_standard_output(jobs: list[Job]) -> None:
    done = casewright("plan", "job.toml", "--xlsx", "-")

    assert (done.exit_code, jobs) == (2, [])
    assert "name of a file" in done.stderr


def test_the_quick_form_says_how_the_list_and_the_sizes_were_read(jobs: list[Job]) -> None:
    done = casewright("plan", "things.csv", "--inside", "25-1/2x71x7", "--shelves", "4,5")

    assert done.exit_code == 0
    assert "things.csv: 2 lines read, 2 kinds, 3 things in all" in done.stderr
    assert "case, inside: 25-1/2 wide x 71 high x 7 in deep" in done.stderr
    assert jobs[0].cases[0].shelf_counts == (4, 5)


def test_a_list_may_be_pasted(jobs: list[Job]) -> None:
    typed = "3 x mantel clock 9 1/2 x 12 1/4 x 5 1/2, 6 lb\n"
    done = casewright("plan", "-", "--outside", "30x60x8", typed=typed)

    assert done.exit_code == 0
    assert [(item.name, item.count) for item in jobs[0].items] == [("mantel clock", 3)]
    assert jobs[0].cases[0].sizes == "outside"


def test_words_of_the_command_line_outweigh_those_of_the_job_file(jobs: list[Job]) -> None:
    words = ("--rhythm", "to-fit", "--prefer", "look", "--headroom", "2", "--shelves", "3-4")
    look = ("--tallest", "top", "--shelf-style", "grouped")
    casewright("plan", "job.toml")
    casewright("plan", "job.toml", *words, *look)

    before, after = jobs
    assert (before.look.rhythm, before.look.prefer) == ("steady", "price")
    assert (after.look.rhythm, after.look.prefer) == ("to-fit", "look")
    assert (before.look.tallest, before.look.shelf_style) == ("low", "mirrored")
    assert (after.look.tallest, after.look.shelf_style) == ("top", "grouped")
    assert after.look.headroom == 2 * before.look.headroom  # the default is 1 in
    assert after.cases[0].shelf_counts == (3, 4)


def test_further_things_may_come_from_a_list_in_the_unit_of_the_job(jobs: list[Job]) -> None:
    Path("more.csv").write_text("name,w,h,d\ntin,100,100,100\n")
    Path("metric.toml").write_text(JOB.replace('"in"', '"mm"').replace("= 4\n", "= 100\n"))
    Path("metric.toml").write_text(
        Path("metric.toml").read_text().replace("= 30", "= 750").replace("= 40", "= 1000")
    )
    Path("metric.toml").write_text(Path("metric.toml").read_text().replace("= 8\n", "= 200\n"))

    done = casewright("plan", "metric.toml", "--items", "more.csv")

    assert done.exit_code == 0, done.output
    assert [item.width for item in jobs[0].items] == [100 * 320, 100 * 320]


@pytest.mark.parametrize(
    ("arguments", "reason"),
    [
        (["things.csv"], "--inside or --outside"),
        (["things.csv", "--inside", "30x60", "--outside", "30x60"], "--inside or --outside"),
        (["things.csv", "--inside", "30"], "forms that work"),
        (["things.csv", "--inside", "30x60x8", "--items", "things.csv"], "--items goes with"),
        (["job.toml", "--inside", "30x60x8"], "--inside goes with a list"),
        (["job.toml", "--unit", "mm"], "--unit goes with a list"),
        (["job.toml", "--headroom", "tall"], "is not a length"),
        (["job.toml", "--rhythm", "odd"], "graduated"),
        (["missing.toml"], "no such file"),
        (["job.toml", "--json", "missing/p.json"], "folder does not exist"),
    ],
)
def test_wrong_words_end_with_2_and_say_what_would_do(
    jobs: list[Job], arguments: list[str], reason: str
) -> None:
    done = casewright("plan", *arguments)

    assert (done.exit_code, jobs) == (2, [])
    assert reason in done.stderr
    assert done.stdout == ""
    assert here() == set()


def test_shelves_for_a_job_of_several_cases_are_set_in_the_file(jobs: list[Job]) -> None:
    case = JOB.split("[[item]]", maxsplit=1)[0].split("[[case]]")[1].replace('"case"', '"other"')
    Path("job.toml").write_text(JOB.replace("[[item]]", f"[[case]]{case}[[item]]"))

    done = casewright("plan", "job.toml", "--shelves", "3")

    assert (done.exit_code, jobs) == (2, [])
    assert "several cases" in done.stderr


def test_what_the_checker_refuses_is_neither_shown_nor_written(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    wrong = good_plan().model_copy(update={"job_hash": "0"})
    plans_with(monkeypatch, lambda *_, **__: wrong)

    done = casewright("plan", "job.toml", "--json", "p.json")

    assert done.exit_code == 70
    assert done.stdout == ""
    (report,) = here()
    assert report.startswith("casewright-report-")
    assert report in done.stderr
    kept = json.loads(Path(report).read_text())
    assert Job.model_validate_json(json.dumps(kept["job"])) == wrong.job
    assert kept["details"]


def test_a_fault_while_planning_keeps_the_job(monkeypatch: pytest.MonkeyPatch) -> None:
    def planner(*_: object) -> Plan:
        raise ZeroDivisionError

    plans_with(monkeypatch, planner)
    done = casewright("plan", "job.toml")

    assert done.exit_code == 70
    assert "Traceback" not in done.stderr
    (report,) = here()
    assert json.loads(Path(report).read_text())["job"]["item"][0]["name"] == "jug"


def without(option: Option) -> Plan:
    """A plan that holds only this option, whatever the checker thinks of it."""
    return good_plan().model_copy(update={"options": (option,)})


def test_where_nothing_works_the_plan_is_written_and_the_reason_said(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    plan = without(infeasible_option(good_plan().job, 12))
    plans_with(monkeypatch, lambda *_, **__: plan)
    monkeypatch.setattr("cli.run.plan_pipeline.check", lambda _: ())

    done = casewright("plan", "job.toml", "--json", "p.json")

    assert done.exit_code == 1
    assert "12 shelves: the openings would be lower than the tallest things" in done.stderr
    assert "4-1/2 in more height" in done.stderr
    assert json.loads(Path("p.json").read_text())["options"][0]["status"] == "infeasible"


def test_what_would_do_names_every_option() -> None:
    plan = without(infeasible_option(good_plan().job, 3))

    assert what_would_do(plan).splitlines()[1].startswith("3 shelves: ")


@pytest.mark.parametrize(("options", "lines", "end"), [(3, 7, "  would"), (4, 8, "and 1 more")])
def test_what_would_do_stands_on_lines_of_its_own_and_of_the_first_options_only(
    options: int, lines: int, end: str
) -> None:
    one = infeasible_option(good_plan().job, 3)
    each = tuple(
        one.model_copy(update={"name": f"{n} shelves", "why": f"{n}", "notes": ()})
        for n in range(options)
    )
    said = what_would_do(without(one).model_copy(update={"options": each})).splitlines()

    assert len(one.changes) == 1  # a line for each option, and one for its change
    assert len(said) == lines
    assert said[1:3] == ["0 shelves: 0", f"  {change_text(one.changes[0])}"]
    assert said[-1].startswith(end)


def interrupted_after(plan: Plan) -> Planner:
    """A planner that is interrupted while it searches, and gives `plan` then."""

    def planner(job: Job, limits: Limits, progress: Progress = None, **_: bool) -> Plan:
        stopped = threading.Event()
        limits.stopper.register(stopped.set)
        threading.Timer(0.1, lambda: os.kill(os.getpid(), signal.SIGINT)).start()
        assert stopped.wait(20)
        return plan

    return planner


def test_an_interrupted_plan_is_shown_and_written_and_ends_with_130(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    plans_with(monkeypatch, interrupted_after(good_plan()))

    done = casewright("plan", "job.toml", "--json", "p.json")

    assert done.exit_code == 130
    assert "hall case" in done.stdout
    assert "best plan so far" in done.stderr
    assert Path("p.json").exists()


def test_an_interrupt_before_anything_is_found_writes_nothing(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    nothing = infeasible_option(good_plan().job, 3).model_copy(update={"status": Status.UNKNOWN})
    plans_with(monkeypatch, interrupted_after(without(nothing)))
    monkeypatch.setattr("cli.run.plan_pipeline.check", lambda _: ())

    done = casewright("plan", "job.toml", "--json", "p.json")

    assert (done.exit_code, done.stdout) == (130, "")
    assert here() == set()


def test_limits_and_seed_reach_the_planner(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[Limits] = []

    def planner(job: Job, limits: Limits, progress: Progress = None, **_: bool) -> Plan:
        seen.append(limits)
        return good_plan()

    plans_with(monkeypatch, planner)
    casewright("plan", "job.toml", "--time-limit", "7", "--seed", "3")

    assert (seen[0].seconds, seen[0].seed) == (7, 3)


def test_the_demo_needs_no_file(jobs: list[Job]) -> None:
    done = casewright("demo")

    assert done.exit_code == 0
    assert jobs[0].head.title == "Clock alcove"
    assert "swings" not in done.stdout


def test_the_demo_in_a_doorway_shows_the_swing_first_and_then_what_holds_it(
    jobs: list[Job],
) -> None:
    done = casewright("demo", "doorway")

    assert done.exit_code == 0, done.output
    assert jobs[0].head.title == "Larder door"
    places = [done.stdout.index(text) for text in ("it clears to 90", "2 shelves", "weight")]
    assert places == sorted(places)
    assert done.stdout.rstrip().endswith("prints the form to measure it by.")
    assert json.loads(casewright("demo", "doorway", "--json", "-").stdout)  # and nothing else
    other = casewright("demo", "cellar")
    assert other.exit_code == 2
    assert "'cellar' is not one of 'alcove', 'doorway'" in other.output


def test_a_small_job_is_planned_for_real_twice_alike() -> None:
    first = casewright("plan", "job.toml", "--json", "a.json")
    second = casewright("plan", "job.toml", "--json", "b.json")

    assert (first.exit_code, second.exit_code) == (0, 0), first.output
    plans = [Plan.model_validate_json(Path(name).read_text()) for name in ("a.json", "b.json")]
    assert plans[0].options[0].status is Status.OPTIMAL
    assert first.stdout == second.stdout
    same = Timing(seconds=0)
    assert plans[0].model_copy(update={"timing": same}) == plans[1].model_copy(
        update={"timing": same}
    )
